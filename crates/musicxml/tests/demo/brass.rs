//! The natural brass: partials, the hand, the crooks and the time to change them, the old bass clef, and its places.

use crate::{decoder, opened, repaired, staff};
use crookwise_score::audit::{AuditOptions, StaffAudit, audit};
use crookwise_score::harmony::harmonies;
use crookwise_score::places::{PlaceKind, places};
use crookwise_score::score::{Direction, Mark, Quarters, Score};
use crookwise_theory::Production;

fn audits(score: &Score) -> Vec<(String, StaffAudit)> {
    let name = |audit: &StaffAudit| {
        let part = score.parts().iter().find(|part| part.id == audit.part).unwrap();
        part.name.to_string()
    };
    audit(score, AuditOptions::default(), &mut decoder).into_iter().map(|own| (name(&own), own)).collect()
}

#[test]
fn all_but_seven_notes_lie_on_the_series() {
    let counts: Vec<(String, usize, usize)> = audits(&repaired())
        .iter()
        .map(|(name, own)| (name.clone(), own.on_series(), own.attacks()))
        .collect();
    let expected = [
        ("Corno I in D", 118, 123),
        ("Corno II in D", 107, 107),
        ("Corno III in F", 64, 66),
        ("Corno IV in F", 45, 45),
        ("Tromba I in D", 84, 84),
        ("Tromba II in D", 82, 82),
    ];
    let expected: Vec<(String, usize, usize)> =
        expected.iter().map(|(name, on, all)| ((*name).to_owned(), *on, *all)).collect();
    assert_eq!(counts, expected);
}

#[test]
fn what_the_hand_makes_is_half_stopped_and_marked() {
    let score = repaired();
    for (name, own) in audits(&score) {
        let made: Vec<_> = own.lines.iter().flat_map(|line| &line.made).collect();
        assert!(own.lines.iter().all(|line| line.out_of_reach.is_empty()), "{name}");
        let mut by_hand = Vec::new();
        for (letter, production, notes) in made {
            assert_eq!(*production, Production::Half, "{name} {letter}");
            by_hand.extend(notes.iter().copied());
        }
        let staff = score.staff(own.staff).unwrap();
        let mut marked: Vec<_> = staff
            .notes()
            .iter()
            .filter(|(_, note)| note.look.marks.has(Mark::Stopped))
            .map(|(id, note)| (note.bar, *id))
            .collect();
        marked.sort_unstable();
        by_hand.sort_unstable();
        let mut ids: Vec<_> = marked.iter().map(|(_, id)| *id).collect();
        ids.sort_unstable();
        assert_eq!(ids, by_hand, "{name}");
        let bars: Vec<u32> = marked.iter().map(|(bar, _)| *bar).collect();
        let expected: &[u32] = match name.as_str() {
            "Corno I in D" => &[5, 6, 7, 8, 77],
            "Corno III in F" => &[44, 45],
            _ => &[],
        };
        assert_eq!(bars, expected, "{name}");
    }
}

/// How long it takes from one time to another by the tempi of the score, in seconds.
fn seconds(score: &Score, from: Quarters, to: Quarters) -> f64 {
    let mut tempi: Vec<(Quarters, f64)> = score
        .staves()
        .flat_map(|staff| &staff.directions)
        .filter_map(|told| match told.direction {
            Direction::Tempo(tempo) => Some((told.at.time, f64::from(tempo) / 1000.0)),
            _ => None,
        })
        .collect();
    tempi.push((score.end(), 60.0));
    let piece = |pair: &[(Quarters, f64)]| {
        let (begin, end) = (pair[0].0.max(from), pair[1].0.min(to));
        end.minus(begin).map_or(0.0, |length| length.decimal().max(0.0) * 60.0 / pair[0].1)
    };
    tempi.windows(2).map(piece).sum()
}

#[test]
fn two_horns_change_from_f_to_g_and_have_the_time() {
    let score = repaired();
    let mut changed = Vec::new();
    for (name, own) in audits(&score) {
        for change in &own.changes {
            let begins = |id| staff(&score, &name).notes().iter().find(|(other, _)| *other == id).unwrap().1;
            let (last, first) = (begins(change.last), begins(change.first));
            // More than half a minute, without the repeat (an estimate of the trade: thirty seconds are safe).
            let time = seconds(&score, last.end.time, first.start.time);
            assert!(time > 30.0, "{name}: {time}");
            changed.push((name.clone(), change.from.clone(), change.to.clone(), change.bar));
        }
    }
    let to_g = |name: &str, bar| (name.to_owned(), "Horn in F".to_owned(), "Horn in G".to_owned(), bar);
    assert_eq!(changed, [to_g("Corno III in F", 40), to_g("Corno IV in F", 48)]);
    // The words stand in the rest before; that the file follows them is why there is no remark.
    for name in ["Corno III in F", "Corno IV in F"] {
        let own = staff(&score, name);
        let told: Vec<usize> = own.told.iter().map(|told| score.bar_at(told.at.time)).collect();
        assert_eq!(told, [0, 13], "{name}");
    }
}

#[test]
fn the_second_horn_is_found_in_old_bass_notation() {
    let score = opened().score;
    let [old] = &score.old_bass(&mut decoder)[..] else { panic!("one staff") };
    assert_eq!(old.staff, staff(&score, "Corno II in D").id);
    assert_eq!(old.bars, [5, 6, 8, 9, 11, 12]);
    assert!(old.is_all);
    let sounds = |score: &Score| -> Vec<String> {
        let sounded = score.sounded(&mut decoder);
        let own = sounded.iter().filter(|note| old.notes.contains(&note.id));
        own.map(|note| note.pitch.to_string()).collect()
    };
    assert_eq!(sounds(&score), ["D1", "A1", "A1", "D1", "A1", "A1", "A1"]);
    assert_eq!(sounds(&repaired()), ["D2", "A2", "A2", "D2", "A2", "A2", "A2"]);
}

#[test]
fn the_places_that_were_composed_are_found() {
    let score = repaired();
    let sounded = score.sounded(&mut decoder);
    let found = places(&score, &sounded, &harmonies(&score, &sounded));
    let horns = ["Corno I in D", "Corno II in D"];
    let trumpets = ["Tromba I in D", "Tromba II in D"];
    let all = ["Corno I in D", "Corno II in D", "Tromba I in D", "Tromba II in D"];
    let meant: [(PlaceKind, (usize, usize), &[&str]); 16] = [
        (PlaceKind::Solo, (5, 8), &horns[..1]),
        (PlaceKind::Leads, (5, 8), &horns[..1]),
        (PlaceKind::HornFifths, (16, 17), &horns),
        (PlaceKind::HornFifths, (21, 21), &horns),
        (PlaceKind::Entry, (30, 30), &trumpets),
        (PlaceKind::OctaveDoubling, (30, 37), &all),
        (PlaceKind::HornFifths, (33, 37), &all),
        (PlaceKind::Entry, (40, 40), &["Corno III in F"]),
        (PlaceKind::Solo, (40, 47), &["Corno III in F"]),
        (PlaceKind::Entry, (48, 48), &["Corno IV in F"]),
        (PlaceKind::HornFifths, (48, 49), &["Corno III in F", "Corno IV in F"]),
        (PlaceKind::Entry, (54, 54), &horns),
        (PlaceKind::Pedal, (54, 57), &horns),
        (PlaceKind::Fanfare, (73, 74), &horns),
        (PlaceKind::Fanfare, (75, 76), &trumpets),
        (PlaceKind::OctaveDoubling, (79, 81), &all),
    ];
    for (kind, bars, names) in meant {
        let mut staves: Vec<_> = names.iter().map(|name| staff(&score, name).id).collect();
        staves.sort_unstable();
        let there = found.iter().any(|place| {
            let mut own = place.staves.clone();
            own.sort_unstable();
            // Where a place ends is told by thresholds: within a bar of where it was composed to end.
            let ends = place.bars.1.abs_diff(bars.1) <= 1;
            place.kind == kind && place.bars.0 == bars.0 && ends && own == staves
        });
        assert!(there, "{kind:?} in {bars:?} of {names:?}: {found:?}");
    }
    // Of these kinds nothing is found beside.
    let count = |kind: PlaceKind| found.iter().filter(|place| place.kind == kind).count();
    assert_eq!((count(PlaceKind::Fanfare), count(PlaceKind::Pedal)), (2, 1));
    assert!(count(PlaceKind::HornFifths) >= 6);
}
