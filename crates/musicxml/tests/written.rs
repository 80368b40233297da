//! A plan written as parts, as MusicXML and read again: the same notes sound, under labels and changes that say so.

#![allow(clippy::unwrap_used, missing_docs, reason = "a test may fail loudly")]

use crookwise_musicxml::write::{WriteError, write};
use crookwise_musicxml::{Import, import_text};
use crookwise_planner::key_plan::{KeyStretch, wanted};
use crookwise_planner::written::{Layout, Seats, score};
use crookwise_planner::{CrookPlayer, NamedCrook, Plan, Request, Ticks, WantedNote, Weights, plan};
use crookwise_score::printed::{Players, Row, RowPitch, pairs, printed};
use crookwise_score::score::{Beams, Mark, Quarters, Score, StaffId, TimeSignature};
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use crookwise_theory::{CrookFamily, Intonation, Production, Signature};
use proptest::prelude::*;
use std::sync::Arc;

fn player(family: CrookFamily, crooks: &[&str], pair: Option<u32>) -> CrookPlayer {
    let crooks = crooks.iter().map(|name| NamedCrook::named(family, name).unwrap()).collect();
    CrookPlayer { family, crooks, pair }
}

fn quarters(above: i64, below: i64) -> Ticks {
    Ticks::of_fraction(above, below).unwrap()
}

fn decoded(text: &str) -> Arc<Decoded> {
    Arc::new(decode(text, DecodeOptions::default()))
}

/// Begin, end and MIDI number of all that sounds, ties joined; by staff, from the top.
fn sounds(score: &Score) -> Vec<Vec<(Quarters, Quarters, i32)>> {
    let all = score.sounded(&mut decoded);
    let of = |staff: &crookwise_score::score::PartStaff| {
        // By voice: two players may hold the same note.
        let mut own: Vec<(u8, (Quarters, Quarters, i32))> = Vec::new();
        for one in all.iter().filter(|one| one.staff == staff.id) {
            let ((from, to), midi, voice) = (one.span(), one.pitch.midi(), one.note.voice);
            let before = own.iter_mut().rfind(|(by, last)| *by == voice && last.1 == from && last.2 == midi);
            match before {
                Some((_, last)) if one.note.tied => last.1 = to,
                _ => own.push((voice, (from, to, midi))),
            }
        }
        let mut own: Vec<_> = own.into_iter().map(|(_, sound)| sound).collect();
        own.sort_unstable();
        own
    };
    score.staves().map(of).collect()
}

/// The same as the plan has it.
fn planned(request: &Request, plan: &Plan, players: &[usize]) -> Vec<(Quarters, Quarters, i32)> {
    let time = |ticks: Ticks| Quarters::new(ticks.fraction().0, ticks.fraction().1).unwrap();
    let all = request.notes.iter().zip(&plan.notes).filter_map(|(note, played)| {
        let played = played.filter(|played| players.contains(&played.player))?;
        Some((time(note.from), time(note.to), played.sounding.0.midi()))
    });
    let mut all: Vec<_> = all.collect();
    all.sort_unstable();
    all
}

/// When the sign of the stopped horn stands where, and over what; by staff, from the top.
fn stopped(score: &Score) -> Vec<Vec<(Quarters, u8, String)>> {
    let of = |staff: &crookwise_score::score::PartStaff| {
        let notes = staff.notes().iter().map(|(_, note)| note);
        let signed = notes.filter(|note| note.look.marks.has(Mark::Stopped));
        let mut told: Vec<_> =
            signed.map(|note| (note.start.time, note.voice, note.printed.unwrap().0.to_string())).collect();
        told.sort();
        told
    };
    score.staves().map(of).collect()
}

/// The signatures of the first sounding staff, bar by bar, where they change.
fn sounding_signatures(score: &Score) -> Vec<Signature> {
    let staves = vec![score.staves().next().unwrap().id];
    let row = Row { staves, pitch: RowPitch::Sounding };
    let bars = printed(score, &row, Intonation::default(), &mut decoded).bars;
    let mut all: Vec<_> = bars.iter().map(|bar| bar.signature).collect();
    all.dedup();
    all
}

/// When each note of a staff is joined to which others, bar by bar.
fn beams(score: &Score, staff: StaffId) -> Vec<(usize, Quarters, Beams)> {
    let row = Row { staves: vec![staff], pitch: RowPitch::Written };
    let printed = printed(score, &row, Intonation::default(), &mut decoded);
    let bars = printed.bars.into_iter().enumerate();
    let notes = bars.flat_map(|(at, bar)| bar.voices.into_iter().flatten().map(move |event| (at, event)));
    notes.map(|(at, event)| (at, event.at, event.beams)).collect()
}

/// Writes a plan, reads it again, and holds both against the plan: with pairs on one staff, as it gives them, and apart.
fn there_and_back(request: &Request, layout: &Layout, staves: &[&[usize]]) -> (Plan, Score, Import) {
    let alone: Vec<&[usize]> = staves.iter().flat_map(|players| players.chunks(1)).collect();
    seated(request, layout, &alone, Seats::Alone);
    seated(request, layout, staves, Seats::Together)
}

fn seated(request: &Request, layout: &Layout, staves: &[&[usize]], seats: Seats) -> (Plan, Score, Import) {
    let plan = plan(request).unwrap().plans.remove(0);
    let written = score(request, &plan, layout, seats).unwrap();
    let text = write(&written, &mut decoded).unwrap();
    let read = import_text(&text).unwrap();
    let expected: Vec<_> = staves.iter().map(|players| planned(request, &plan, players)).collect();
    assert_eq!(sounds(&written), expected, "written");
    assert_eq!(sounds(&read.score), expected, "read again\n{text}");
    assert_eq!(read.remarks, [], "{text}");
    let bars = |score: &Score| {
        score.bars().iter().map(|bar| (bar.number.clone(), bar.length, bar.time)).collect::<Vec<_>>()
    };
    assert_eq!(bars(&read.score), bars(&written));
    let keys = |score: &Score| score.keys().collect::<Vec<_>>();
    assert_eq!(keys(&read.score), keys(&written));
    assert_eq!(stopped(&read.score), stopped(&written), "{text}");
    // What the file joins is what the engraver joins where a file says nothing.
    let unjoined: String =
        text.split_inclusive("</beam>").map(|piece| piece.split("<beam ").next().unwrap()).collect();
    let unjoined = import_text(&unjoined).unwrap().score;
    for (own, bare) in read.score.staves().zip(unjoined.staves()) {
        assert_eq!(beams(&read.score, own.id), beams(&unjoined, bare.id), "{text}");
    }
    (plan, written, read)
}

fn changing() -> Request {
    let in_g = ["G4", "B4", "D5"];
    let in_b_flat = ["Bb3", "D4", "F4"];
    let mut notes = Vec::new();
    for (at, pitch) in in_g.iter().chain(&in_b_flat).enumerate() {
        let at = at as i64;
        // Fourteen quarters of rest between the two.
        let from = quarters(at * 3 + if at > 2 { 14 } else { 1 }, 2);
        for player in 0..2 {
            let note = WantedNote::free(from, from + quarters(3, 2), pitch.parse().unwrap());
            notes.push(WantedNote { player: Some(player), ..note });
        }
    }
    let horn = || player(CrookFamily::Horn, &["G", "Bb basso"], Some(1));
    Request {
        notes,
        players: vec![horn(), horn(), player(CrookFamily::Trumpet, &["D"], None)],
        change_time: quarters(6, 1),
        together: true,
        weights: Weights { change_cost: 0.1, ..Weights::default() },
    }
}

#[test]
fn changes_stand_in_the_rests() {
    let layout = Layout::alike(TimeSignature { beats: 3, value: 4 }, quarters(12, 1));
    let (plan, written, read) = there_and_back(&changing(), &layout, &[&[0, 1], &[2]]);
    assert_eq!(plan.changes(), 2);
    let labels: Vec<&str> = written.staves().map(|staff| staff.label.as_ref()).collect();
    assert_eq!(labels, ["Corni I, II in G", "Tromba I in D"]);
    let horns = read.score.staves().next().unwrap();
    assert_eq!((horns.players, horns.changes().len(), horns.directions.len()), (2, 1, 1));
    // The words stand where the last note ends, the change where the bar of the first one begins.
    assert_eq!(horns.directions[0].at.time, Quarters::whole(5));
    assert_eq!(horns.changes()[0].at.time, Quarters::whole(9));
    assert_eq!(written.bars().len(), 6);
    // A page of Read: the bars about the change.
    let ids: Vec<_> = written.staves().map(|staff| staff.id).collect();
    let page = written.window(&ids, 1..5).unwrap();
    assert_eq!((page.passage.staves().len(), page.left_out), (2, 0));
    let change = &page.passage.staves()[0].changes()[0];
    assert!(change.column > 0, "{change:?}");
}

#[test]
fn a_pair_that_plays_one_line_is_one_staff_as_print_has_it() {
    let layout = Layout::alike(TimeSignature { beats: 3, value: 4 }, quarters(12, 1));
    let (_, written, read) = seated(&changing(), &layout, &[&[0], &[1], &[2]], Seats::Alone);
    let labels: Vec<&str> = written.staves().map(|staff| staff.label.as_ref()).collect();
    assert_eq!(labels, ["Corno I in G", "Corno II in G", "Tromba I in D"]);
    let rows = pairs(&read.score, &mut decoded);
    assert_eq!(rows.iter().map(Vec::len).collect::<Vec<_>>(), [2, 1]);
    let row = Row { staves: rows[0].clone(), pitch: RowPitch::Written };
    let bars = printed(&read.score, &row, Intonation::default(), &mut decoded).bars;
    assert_eq!((bars[0].players, bars[0].voices.len()), (Some(Players::Both), 1));
}

#[test]
fn notes_are_joined_by_the_beat() {
    let eighths =
        (0..8).map(|at| WantedNote::free(quarters(at, 2), quarters(at + 1, 2), "G4".parse().unwrap()));
    let sixteenths =
        (16..20).map(|at| WantedNote::free(quarters(at, 4), quarters(at + 1, 4), "G4".parse().unwrap()));
    let request = Request {
        notes: eighths.chain(sixteenths).collect(),
        players: vec![player(CrookFamily::Horn, &["G"], None)],
        change_time: quarters(8, 1),
        together: true,
        weights: Weights::default(),
    };
    let layout = Layout::alike(TimeSignature { beats: 4, value: 4 }, quarters(8, 1));
    let plan = plan(&request).unwrap().plans.remove(0);
    let text = write(&score(&request, &plan, &layout, Seats::Alone).unwrap(), &mut decoded).unwrap();
    let of = |way: &str| text.matches(&format!("<beam number=\"1\">{way}</beam>")).count();
    // Four eighths and four eighths, then a beat of sixteenths with two beams.
    assert_eq!((of("begin"), of("continue"), of("end")), (3, 6, 3));
    assert_eq!(text.matches("<beam number=\"2\">").count(), 4);
    there_and_back(&request, &layout, &[&[0]]);
}

#[test]
fn a_plan_of_keys_is_written_and_read_again() {
    let stretches =
        ["G minor", "Bb major", "G minor"].map(|key| KeyStretch { key: key.parse().unwrap(), bars: 12 });
    let horn = |pair| player(CrookFamily::Horn, &["G", "Bb alto", "Eb", "D"], Some(pair));
    let request = Request {
        notes: wanted(&stretches, 0),
        players: vec![horn(1), horn(1), horn(2), horn(2)],
        change_time: quarters(40, 1),
        together: true,
        weights: Weights::default(),
    };
    let (_, written, _) = there_and_back(&request, &Layout::of_keys(&stretches), &[&[0, 1], &[2, 3]]);
    assert_eq!(written.bars().len(), 36);
    assert_eq!(written.movement, Some(stretches[0].key));
    let later = crookwise_score::score::Moment::measured(Quarters::whole(13 * 4));
    assert_eq!(written.movement_at(later), Some(stretches[1].key));
}

#[test]
fn the_sounding_staves_of_a_plan_have_the_signature_of_its_movement() {
    let stretches = ["G minor", "D minor"].map(|key| KeyStretch { key: key.parse().unwrap(), bars: 6 });
    let request = Request {
        notes: wanted(&stretches, 0),
        players: vec![player(CrookFamily::Horn, &["G"], None), player(CrookFamily::Trumpet, &["C"], None)],
        change_time: quarters(40, 1),
        together: true,
        weights: Weights::default(),
    };
    let (_, written, read) = there_and_back(&request, &Layout::of_keys(&stretches), &[&[0], &[1]]);
    let movement = [Signature(-2), Signature(-1)];
    assert_eq!(
        (sounding_signatures(&written), sounding_signatures(&read.score)),
        (movement.into(), movement.into())
    );
    // The parts themselves have none, as print has it.
    let text = write(&written, &mut decoded).unwrap();
    assert!(!text.contains("<key"), "{text}");
    // A part beside them that sounds as it is written tells the movement's key as in any other score.
    let signed = text.replace("<clef>", "<key><fifths>2</fifths></key><clef>");
    assert_eq!(sounding_signatures(&import_text(&signed).unwrap().score), [Signature(2)]);
    // What stands there in other words tells nothing: the signature of the crook stands, that of G.
    let other = text.replace("0 G minor", "perhaps G minor");
    assert_eq!(sounding_signatures(&import_text(&other).unwrap().score), [Signature(1)]);
}

#[test]
fn the_sign_of_the_stopped_horn_stands_over_what_the_hand_shuts() {
    // On a horn in C basso: open, half stopped, a quarter tone out of the hand, fully stopped over the bar line, open.
    let pitches = [("C3", 0, 1), ("B2", 1, 2), ("Bb3", 2, 3), ("Ab2", 3, 6), ("G3", 6, 7)];
    let notes = pitches.map(|(pitch, from, to)| {
        WantedNote::free(quarters(from, 1), quarters(to, 1), pitch.parse().unwrap())
    });
    let request = Request {
        notes: notes.into(),
        players: vec![player(CrookFamily::Horn, &["C basso"], None)],
        change_time: quarters(8, 1),
        together: true,
        weights: Weights::default(),
    };
    let layout = Layout::alike(TimeSignature { beats: 4, value: 4 }, quarters(8, 1));
    let (plan, _, read) = there_and_back(&request, &layout, &[&[0]]);
    let made: Vec<_> = plan.notes.iter().map(|note| note.unwrap().making.production).collect();
    let is = [Production::Open, Production::Half, Production::HandOut, Production::Full, Production::Open];
    assert_eq!(made, is);
    // Once, where it is struck.
    assert_eq!(stopped(&read.score), [[(Quarters::whole(3), 1, "Ab3".to_owned())]]);
}

#[test]
fn low_notes_stand_in_the_bass_clef() {
    let notes = (0..4).map(|at| {
        let pitch = ["C2", "C2", "G2"][at as usize % 3].parse().unwrap();
        WantedNote::free(quarters(at, 1), quarters(at + 1, 1), pitch)
    });
    let request = Request {
        notes: notes.collect(),
        players: vec![player(CrookFamily::Horn, &["C basso"], None)],
        change_time: quarters(8, 1),
        together: true,
        weights: Weights::default(),
    };
    let (_, written, read) = there_and_back(&request, &Layout::default(), &[&[0]]);
    let clef = |score: &Score| score.staves().next().unwrap().settings.clef;
    assert_eq!(
        (clef(&written), clef(&read.score)),
        (Some(crookwise_theory::Clef::BASS), Some(crookwise_theory::Clef::BASS))
    );
}

#[test]
fn nothing_is_not_written() {
    assert_eq!(write(&Score::default(), &mut decoded), Err(WriteError::NoMusic));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn any_plan_reads_as_it_was_written(
        notes in prop::collection::vec((0..40_i64, 1..9_i64, 0..5_usize, 0..8_usize, 0..3_usize), 1..30),
        beats in 2..7_u16,
        below in prop::sample::select(vec![1_i64, 2, 3, 4, 6]),
    ) {
        const PITCHES: [&str; 8] = ["G3", "Bb3", "D4", "Eb4", "F4", "G4", "Bb4", "D5"];
        let notes = notes.into_iter().map(|(from, length, player, pitch, weight)| WantedNote {
            player: Some(player).filter(|player| *player < 4),
            weight: 1.0 + weight as f64,
            ..WantedNote::free(quarters(from, below), quarters(from + length, below), PITCHES[pitch].parse().unwrap())
        });
        let horn = |pair| player(CrookFamily::Horn, &["G", "Bb alto", "Eb", "F"], pair);
        let request = Request {
            notes: notes.collect(),
            players: vec![horn(Some(1)), horn(Some(1)), horn(None), player(CrookFamily::Trumpet, &["D", "Eb"], Some(9))],
            change_time: quarters(2, 1),
            together: true,
            weights: Weights { change_cost: 0.0, ..Weights::default() },
        };
        let layout = Layout::alike(TimeSignature { beats, value: 4 }, Ticks::default());
        there_and_back(&request, &layout, &[&[0, 1], &[2], &[3]]);
    }
}
