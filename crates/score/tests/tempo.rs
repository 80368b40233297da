//! Tempi and the seconds that follow, reckoned by hand.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

use crookwise_score::Score;
use crookwise_score::road::Road;
use crookwise_score::score::{
    Direction, Look, Mark, Marks, Moment, PlayedBy, Quarters, ScoreNote, StaffId, TimeSignature,
    TimedDirection,
};
use crookwise_score::tempo::{RoadClock, Tempi, TempoSource, is_heading};

fn whole(quarters: i32) -> Quarters {
    Quarters::whole(quarters)
}

/// Bars of a time signature, and two staves.
fn score(bars: usize, (beats, value): (u16, u16)) -> (Score, [StaffId; 2]) {
    let mut score = Score::default();
    let length = Quarters::new(i64::from(beats) * 4, i64::from(value)).unwrap();
    for bar in 0..bars {
        let time = (bar == 0).then_some(TimeSignature { beats, value });
        score.add_bar(&(bar + 1).to_string(), length, time).unwrap();
    }
    let mut staff = || {
        let part = score.add_part("Horn");
        score.add_staff(part, "Horn", 1).unwrap()
    };
    let staves = [staff(), staff()];
    (score, staves)
}

fn say(score: &mut Score, staff: StaffId, at: i32, direction: Direction) {
    let at = Moment::measured(whole(at));
    score.staff_mut(staff).unwrap().directions.push(TimedDirection { at, direction });
}

fn words(text: &str) -> Direction {
    Direction::Words(text.into())
}

fn steps(score: &Score) -> Vec<(Quarters, u32, TempoSource)> {
    Tempi::of(score).steps().iter().map(|step| (step.at, step.tempo, step.source.clone())).collect()
}

fn hold(score: &mut Score, staff: StaffId, from: i32, to: i32) {
    let note = ScoreNote {
        printed: None,
        voice: 1,
        by: PlayedBy::Voice,
        start: Moment::measured(whole(from)),
        end: Moment::measured(whole(to)),
        tied: false,
        grace: false,
        tuplet: None,
        bar: u32::try_from(from / 4).unwrap(),
        look: Look { marks: Marks::default().with(Mark::Fermata), ..Look::default() },
    };
    score.add_note(staff, note).unwrap();
}

#[test]
fn what_any_staff_says_holds_and_what_is_assumed_is_told() {
    let (mut score, [upper, lower]) = score(6, (4, 4));
    assert_eq!(steps(&score), [(whole(0), 100_000, TempoSource::Usual)]);
    say(&mut score, lower, 4, Direction::Tempo(168_000));
    say(&mut score, lower, 8, Direction::Tempo(90_000));
    say(&mut score, upper, 8, Direction::Tempo(84_500));
    say(&mut score, upper, 16, words("Poco Andante [con moto]"));
    say(&mut score, upper, 20, words("Tempo I."));
    let andante = TempoSource::Words("Poco Andante [con moto]".into());
    assert_eq!(
        steps(&score),
        [
            (whole(0), 100_000, TempoSource::Usual),
            (whole(4), 168_000, TempoSource::Told),
            (whole(8), 84_500, TempoSource::Told),
            (whole(16), 72_000, andante),
            (whole(20), 168_000, TempoSource::Words("Tempo I.".into())),
        ]
    );
    let tempi = Tempi::of(&score);
    assert_eq!(tempi.at(whole(19)).unwrap().tempo, 72_000);
    assert_eq!(tempi.at(whole(7)).unwrap().tempo, 168_000);
}

#[test]
fn words_are_taken_in_the_beats_of_their_time_and_only_where_no_number_stands() {
    for (time, expected) in
        [((6, 8), 132_000 * 3 / 2), ((2, 2), 264_000), ((3, 4), 132_000), ((3, 8), 66_000)]
    {
        let (mut score, [upper, _]) = score(2, time);
        say(&mut score, upper, 0, words("Rondo. ALLEGRO"));
        assert_eq!(steps(&score)[0].1, expected, "{time:?}");
    }
    let (mut score, [upper, lower]) = score(3, (4, 4));
    // The number stands a quarter later in another part.
    say(&mut score, upper, 0, words("Presto"));
    say(&mut score, lower, 0, Direction::Tempo(120_000));
    // Words that are none of a tempo, or say it by another.
    for other in ["dolce", "Più Allegro", "Lo stesso tempo", "cresc.", "allegros"] {
        say(&mut score, upper, 4, words(other));
    }
    assert_eq!(steps(&score), [(whole(0), 120_000, TempoSource::Told)]);
}

#[test]
fn seconds_follow_the_road_and_fermatas_lengthen() {
    let (mut score, [upper, lower]) = score(4, (4, 4));
    say(&mut score, upper, 0, Direction::Tempo(60_000));
    say(&mut score, upper, 6, Direction::Tempo(120_000));
    // Of two that end together the shorter counts.
    hold(&mut score, upper, 12, 16);
    hold(&mut score, lower, 15, 16);
    score.bar_mut(1).unwrap().repeat_to = Some(2);
    let road = Road::of(&score);
    let tempi = Tempi::of(&score);
    assert_eq!(tempi.held(), [(whole(15), whole(16))]);
    let clock = RoadClock::of(&road, &tempi);
    // Six quarters of a second, two of half a second; the same again; then seven of half a second, and one under the fermata.
    let seconds: Vec<f64> =
        [0, 6, 8, 12, 14, 16, 23, 24].map(|at| clock.seconds(whole(at))).into_iter().collect();
    assert_eq!(seconds, [0.0, 6.0, 7.0, 11.0, 13.0, 14.0, 17.5, 18.5]);
    for at in 0..24 {
        let back = clock.quarters(clock.seconds(whole(at)));
        assert!((back - f64::from(at)).abs() < 1e-9, "{at}: {back}");
    }
    assert!((clock.pace(whole(23)) - 1.0).abs() < 1e-12);
    assert!((clock.seconds(whole(25)) - 19.5).abs() < 1e-12, "it goes on as it was");
    let empty = RoadClock::of(&Road::default(), &tempi);
    assert!(empty.seconds(whole(3)).abs() < 1e-12);
}

#[test]
fn headings_are_told_from_words_at_notes() {
    let headings =
        ["Allegro", "Poco sostenuto ", "Un poco Andante", "Più lento", "Meno mosso", "Tempo I", "ADAGIO"];
    for text in headings {
        assert!(is_heading(text), "{text}");
    }
    for text in
        ["cresc.", "Poco cresc.", "poco a poco", "più cresc.", "dolce", "Molto", "allegro", "Solo", ""]
    {
        assert!(!is_heading(text), "{text}");
    }
}
