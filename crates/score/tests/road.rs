//! Roads through repeats, endings and jumps: cases by hand, and a law over signs of every kind.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

use crookwise_score::Score;
use crookwise_score::road::{MOST_PASSES, Road, RoadFaultKind};
use crookwise_score::score::{Direction, Jump, Moment, Quarters, TimedDirection};
use proptest::prelude::*;

/// A score of bars as a line shows them, a word a bar: "|:" begins a repeat, ":|" ends one, a number after it says how often;
/// "[1," begins an ending, "]" ends one; capitals name jumps; "." is a bar.
fn score(line: &str) -> Score {
    let mut score = Score::default();
    for (at, word) in line.split_whitespace().enumerate() {
        score.add_bar(&(at + 1).to_string(), Quarters::whole(4), None).unwrap();
        let signs = score.bar_mut(at).unwrap();
        let mut rest = word;
        if let Some(after) = rest.strip_prefix("|:") {
            signs.repeat_from = true;
            rest = after;
        }
        if let Some(after) = rest.strip_prefix('[') {
            let (number, after) = after.split_once('.').unwrap();
            signs.ending = Some(number.into());
            rest = after;
        }
        if let Some((before, times)) = rest.split_once(":|") {
            signs.repeat_to = Some(times.parse().unwrap_or(2));
            rest = before;
        }
        if let Some(before) = rest.strip_suffix(']') {
            signs.ending_ends = true;
            rest = before;
        }
        for jump in rest.split(['.', '+']) {
            signs.jumps.extend(match jump {
                "DC" => Some(Jump::DaCapo),
                "DS" => Some(Jump::DalSegno),
                "SEGNO" => Some(Jump::Segno),
                "TO" => Some(Jump::ToCoda),
                "CODA" => Some(Jump::Coda),
                "FINE" => Some(Jump::Fine),
                _ => None,
            });
        }
    }
    score
}

/// The legs as bars counted from 1, then what is odd.
fn shown(road: &Road) -> (String, Vec<(usize, RoadFaultKind)>) {
    let legs: Vec<String> =
        road.legs().iter().map(|leg| format!("{}-{}", leg.bars.0 + 1, leg.bars.1 + 1)).collect();
    (legs.join(" "), road.faults().iter().map(|fault| (fault.bar + 1, fault.kind)).collect())
}

fn legs(line: &str) -> String {
    let (legs, faults) = shown(&Road::of(&score(line)));
    assert_eq!(faults, [], "{line}");
    legs
}

fn odd(line: &str) -> (String, Vec<(usize, RoadFaultKind)>) {
    shown(&Road::of(&score(line)))
}

#[test]
fn repeats_go_back_to_where_they_begin() {
    assert_eq!(legs(". . . ."), "1-4");
    assert_eq!(legs(". . .:| ."), "1-3 1-4");
    assert_eq!(legs(". |:. .:| ."), "1-3 2-4");
    assert_eq!(legs(".:| .:| ."), "1-1 1-2 2-3");
    assert_eq!(legs(". |:.:|3 ."), "1-2 2-2 2-3");
    assert_eq!(legs(". |:.:|1 ."), "1-3");
    assert_eq!(legs(". .:|0 ."), "1-3");
    assert_eq!(legs(""), "");
}

#[test]
fn endings_are_played_by_their_numbers() {
    assert_eq!(legs("|:. . [1.]:| [2.] ."), "1-3 1-2 4-5");
    // The second ending is often left open.
    assert_eq!(legs("|:. . [1..:| [2.. . ."), "1-3 1-2 4-6");
    assert_eq!(legs("|:. [1.. .]:| [2.. .] |:. .:| ."), "1-3 1-1 4-7 6-8");
    assert_eq!(legs("|:. [1,2.]:| [3.] ."), "1-2 1-2 1-1 3-4");
    assert_eq!(legs("|:. [1-3.]:| [4.]"), "1-2 1-2 1-2 1-1 3-3");
    assert_eq!(legs("|:. [1.]:| [2.]:| [3.] ."), "1-2 1-1 3-3 1-1 4-5");
    // A last ending with a sign of its own is played once.
    assert_eq!(legs("|:. [1.]:| [2.]:| ."), "1-2 1-1 3-4");
    // A first ending alone is passed over the second time.
    assert_eq!(legs("|:. [1.]:| ."), "1-2 1-1 3-3");
    // What is repeated behind the endings begins behind them.
    assert_eq!(legs("|:. [1.]:| [2.] . .:| ."), "1-2 1-1 3-5 4-6");
}

#[test]
fn da_capo_and_dal_segno_are_taken_once_and_without_repeats() {
    assert_eq!(legs(". .FINE . .DC"), "1-4 1-2");
    assert_eq!(legs(". . .DC"), "1-3 1-3");
    // Minuet and trio.
    assert_eq!(legs("|:. .:| |:. .FINE:| |:. .:| |:. .DC:|"), "1-2 1-4 3-6 5-8 7-8 1-4");
    assert_eq!(legs(". .SEGNO . .FINE . .DS"), "1-6 2-4");
    assert_eq!(legs(". .SEGNO .TO . .DS .CODA ."), "1-5 2-3 6-7");
    assert_eq!(legs(". .TO . .DC .CODA ."), "1-4 1-2 5-6");
    // Of endings the last is played.
    assert_eq!(legs("|:. [1.]:| [2.] .FINE . .DC"), "1-2 1-1 3-6 1-1 3-4");
    assert_eq!(legs("|:. [1.]:| .FINE . .DC"), "1-2 1-1 3-5 1-1 3-3");
    // The coda's sign also where players leave for it.
    assert_eq!(legs(". .CODA . .DC .CODA ."), "1-4 1-2 5-6");
    assert_eq!(legs(". .TO+CODA . .DC .CODA ."), "1-4 1-2 5-6");
    // A coda nobody leaves for, and a fine nobody comes back to.
    assert_eq!(legs(". .CODA .FINE ."), "1-4");
}

#[test]
fn words_count_where_no_sign_says_it() {
    let mut score = score(". . . .");
    let part = score.add_part("Horn");
    let staff = score.add_staff(part, "Horn", 1).unwrap();
    let mut say = |bar: i32, words: &str| {
        let at = Moment::measured(Quarters::whole(bar * 4));
        let direction = Direction::Words(words.into());
        score.staff_mut(staff).unwrap().directions.push(TimedDirection { at, direction });
    };
    say(1, "Fine.");
    say(2, "Finement");
    say(3, "D.C. al Fine");
    assert_eq!(shown(&Road::of(&score)).0, "1-4 1-2");
    score.bar_mut(2).unwrap().jumps = vec![Jump::DaCapo];
    assert_eq!(shown(&Road::of(&score)).0, "1-3 1-2");
}

#[test]
fn signs_that_contradict_each_other_are_told() {
    use RoadFaultKind::{NeverEnds, NoCoda, NoEnding, NoRepeat, NoSegno, SecondJump, TooOften, Unreadable};
    assert_eq!(odd("|:. . |:. .:|"), ("1-4 3-4".into(), vec![(1, NeverEnds)]));
    assert_eq!(
        odd("|:. [prima.]:| [seconda.]"),
        ("1-2 1-1 3-3".into(), vec![(2, Unreadable), (3, Unreadable)])
    );
    assert_eq!(odd("|:. [1.] [2.] ."), ("1-2 1-1 3-4".into(), vec![(2, NoRepeat)]));
    assert_eq!(odd("|:. [1.]:| [3.] ."), ("1-2 1-1 4-4".into(), vec![(2, NoEnding)]));
    assert_eq!(odd(". . .DS ."), ("1-4".into(), vec![(3, NoSegno)]));
    assert_eq!(odd(". .TO .DC ."), ("1-3 1-4".into(), vec![(2, NoCoda)]));
    assert_eq!(odd(". .DC . .DC"), ("1-2 1-4".into(), vec![(4, SecondJump)]));
    let (legs, faults) = odd(".:|999 .");
    assert_eq!(faults, [(1, TooOften)]);
    assert_eq!(legs.split(' ').count(), usize::from(MOST_PASSES));
    assert!(NoCoda.to_string().contains("coda"));
}

#[test]
fn times_go_from_the_score_to_the_road_and_back() {
    let score = score("|:. . [1.]:| [2.] .");
    let road = Road::of(&score);
    assert_eq!((road.count(), road.end()), (7, Quarters::whole(28)));
    let numbers: Vec<usize> = (0..road.count()).map(|place| road.played(place).unwrap().0 + 1).collect();
    assert_eq!(numbers, [1, 2, 3, 1, 2, 4, 5]);
    assert_eq!(road.played(7), None);
    assert_eq!(road.legs().iter().map(|leg| leg.pass).collect::<Vec<_>>(), [1, 2, 1]);
    assert_eq!(road.places_of(1).collect::<Vec<_>>(), [1, 4]);
    let (place, leg) = road.leg_at(Quarters::whole(13)).unwrap();
    assert_eq!((place, leg.in_score(Quarters::whole(13))), (1, Some(Quarters::whole(1))));
    assert_eq!(leg.on_road(Quarters::whole(5)), Some(Quarters::whole(17)));
    assert_eq!(leg.on_road(Quarters::whole(12)), None);
    assert_eq!(road.begins(&score, 5), Some(Quarters::whole(20)));
    assert_eq!(road.begins(&score, 7), Some(road.end()));
    assert_eq!((road.begins(&score, 8), Road::of(&Score::default()).count()), (None, 0));
}

prop_compose! {
    fn any_line()(words in prop::collection::vec(
        ("(\\|:)?", "(\\[(1|2|1-3|2,4|x|64)\\.)?", "(DC|DS|SEGNO|TO|CODA|FINE|TO\\+CODA|DC\\+DS)?", "\\]?", "(:\\|(2|1|5|99)?)?"),
        0..40,
    )) -> String {
        let word = |(from, ending, jump, ends, to): &(String, String, String, String, String)|
            format!("{from}{ending}.{jump}{ends}{to}");
        words.iter().map(word).collect::<Vec<_>>().join(" ")
    }
}

proptest! {
    /// Whatever the signs: the road ends, its legs are bars of the score and follow one another in time, the first bar is
    /// played first, and it is the same each time.
    #[test]
    fn every_road_ends(line in any_line()) {
        let score = score(&line);
        let road = Road::of(&score);
        prop_assert_eq!(&road, &Road::of(&score));
        let (mut count, mut at) = (0, Quarters::ZERO);
        let mut heard = vec![0_usize; score.bars().len()];
        for leg in road.legs() {
            prop_assert!(leg.bars.0 <= leg.bars.1 && leg.bars.1 < score.bars().len());
            prop_assert_eq!((leg.before, leg.at), (count, at));
            prop_assert_eq!(leg.from, score.bars()[leg.bars.0].start);
            prop_assert_eq!(leg.length(), Quarters::whole(i32::try_from(leg.count() * 4).unwrap()));
            count += leg.count();
            at = leg.ends();
            heard[leg.bars.0..=leg.bars.1].iter_mut().for_each(|times| *times += 1);
            prop_assert_eq!(usize::from(leg.pass), heard[leg.bars.0]);
        }
        prop_assert_eq!(road.count(), count);
        // Each pass of each repeat, and once more after a jump.
        prop_assert!(heard.iter().all(|times| *times <= usize::from(MOST_PASSES) + 1));
        if let Some(first) = road.legs().first() {
            prop_assert!(first.bars.0 == 0 || line.starts_with('[') || line.starts_with("|:["));
        }
        for (bar, times) in heard.into_iter().enumerate() {
            prop_assert_eq!(road.places_of(bar).count(), times);
        }
    }
}
