//! Pages with notes: single ones, phrases, pairs, drums, and pieces of a passage.

use crate::ask::{note, place};
use crate::chance::Chance;
use crate::edition::Edition;
use crate::exercise::NoteRange;
use crate::pattern::Pattern;
use crate::question::Spot;
use crate::setting::{Setting, stock};
use crate::usage::{is_in_range, written_tonic};
use core::ops::Range;
use crookwise_score::{Cell, Change, ChangeTo, Event, Passage, Place};
use crookwise_theory::label::StaffLabel;
use crookwise_theory::{Interval, Key, Mode, Pitch, Printed, Step, Tonic, Written};

/// One of so many notes is asked about before its crook changes.
const BEFORE: usize = 3;

/// Columns shown around the note that is asked about.
const WINDOW: usize = 8;

/// A single note, and before a change of crook one more and a rest.
pub(crate) fn single(
    setting: &Setting,
    key: Key,
    written: Pitch,
    player: usize,
    chance: &mut Chance,
) -> Option<(Passage, Spot)> {
    let mut page = setting.page(key);
    let place = setting.place(key, player)?;
    let notation = place.notation();
    let printed = notation.printed(Written(written));
    if setting.muta.is_none() {
        page.set(0, 0, player, Event::Note(printed)).ok()?;
        return Some((page, Spot { staff: 0, column: 0, player }));
    }
    let notes = stock(&place, NoteRange::Usual, setting.edition);
    let weights: Vec<u32> = notes.iter().map(|(_, weight)| *weight).collect();
    let before = notes.get(chance.by_weight(&weights)).map_or(written, |(note, _)| *note);
    if setting.edition.has_fourth() && chance.place(BEFORE) == 0 {
        // The crook changes behind the note that is asked about.
        page.set(0, 0, player, Event::Note(printed)).ok()?;
        page.set(0, 1, player, Event::Note(notation.printed(Written(before)))).ok()?;
        change_crook(&mut page, setting, 1)?;
        return Some((page, Spot { staff: 0, column: 0, player }));
    }
    page.set(0, 0, player, Event::Note(notation.printed(Written(before)))).ok()?;
    page.set(0, 1, player, Event::Note(printed)).ok()?;
    change_crook(&mut page, setting, 1)?;
    Some((page, Spot { staff: 0, column: 2, player }))
}

/// A phrase, asked about in one of its columns.
pub(crate) fn phrase(
    setting: &Setting,
    key: Key,
    pattern: &Pattern,
    at: Spot,
    (hand, chance): (Option<&StaffLabel>, &mut Chance),
) -> Option<(Passage, Spot)> {
    let mut page = setting.page(key);
    let lines = lines(setting, key, pattern, at.player, hand)
        .or_else(|| lines(setting, key, pattern, at.player, None))?;
    let both = lines.len() > 1;
    let alone = at.player.min(setting.players() - 1);
    for (player, line) in lines {
        let notation = setting.place(key, player)?.notation();
        for (column, written) in line.into_iter().enumerate() {
            page.set(0, column, player, Event::Note(notation.printed(Written(written)))).ok()?;
        }
    }
    join_unisons(&mut page, 0);
    let mut column = at.column;
    if setting.muta.is_some() {
        let behind = page.columns().len() - column - 1;
        let before = setting.edition.has_fourth() && behind > 0 && (column == 0 || chance.place(BEFORE) == 0);
        if before {
            change_crook(&mut page, setting, column + 1 + chance.place(behind))?;
        } else if column == 0 {
            return None;
        } else {
            change_crook(&mut page, setting, 1 + chance.place(column))?;
            column += 1;
        }
    }
    Some((page, Spot { staff: 0, column, player: if both { at.player } else { alone } }))
}

/// Each player's notes of a pattern, within what an instrument in hand has as well; of one player the given line.
pub(crate) fn lines(
    setting: &Setting,
    key: Key,
    pattern: &Pattern,
    line: usize,
    hand: Option<&StaffLabel>,
) -> Option<Vec<(usize, Vec<Pitch>)>> {
    if setting.players() > 1 && !pattern.line(1).is_empty() {
        let [upper, lower] = together(setting, key, [pattern.line(0), pattern.line(1)], hand)?;
        return Some(vec![(0, upper), (1, lower)]);
    }
    let alone = line.min(setting.players() - 1);
    Some(vec![(alone, fitted(&setting.place(key, alone)?, &pattern.line(line), hand)?)])
}

/// Two players at once.
pub(crate) fn duo(setting: &Setting, key: Key, upper: Pitch, lower: Pitch) -> Option<(Passage, Spot)> {
    let mut page = setting.page(key);
    for (player, line) in together(setting, key, [vec![upper], vec![lower]], None)?.into_iter().enumerate() {
        let notation = setting.place(key, player)?.notation();
        page.set(0, 0, player, Event::Note(notation.printed(Written(*line.first()?)))).ok()?;
    }
    join_unisons(&mut page, 0);
    Some((page, Spot::default()))
}

/// The lines of two players: each as his crook has it, or both moved by the same octaves; at first each by his own.
fn together(
    setting: &Setting,
    key: Key,
    [upper, lower]: [Vec<Pitch>; 2],
    hand: Option<&StaffLabel>,
) -> Option<[Vec<Pitch>; 2]> {
    let first = setting.place(key, 0)?;
    if first.staff.natural_family().is_some() || setting.edition.is_first() {
        return Some([fitted(&first, &upper, hand)?, fitted(&setting.place(key, 1)?, &lower, hand)?]);
    }
    let both: Vec<Pitch> = upper.iter().chain(&lower).copied().collect();
    let mut own = fitted(&first, &both, hand)?;
    let below = own.split_off(upper.len());
    Some([own, below])
}

/// A few strokes on two drums, printed as C and G or at pitch.
pub(crate) fn drums(
    setting: &Setting,
    key: Key,
    strokes: &[usize],
    in_c: bool,
    column: usize,
) -> Option<(Passage, Spot)> {
    let mut page = setting.page(key);
    let named = &setting.staff.drums;
    let written: Vec<Pitch> = if in_c {
        vec![Pitch::natural(Step::C, 3), Pitch::natural(Step::G, 2)]
    } else {
        named.iter().take(2).map(|drum| on_drum(*drum)).collect()
    };
    for (column, stroke) in strokes.iter().enumerate() {
        page.set(0, column, 0, Event::Note(Printed(*written.get(*stroke)?))).ok()?;
    }
    Some((page, Spot { staff: 0, column, player: 0 }))
}

/// The octave a drum has: from F2 up to E3, the compass of a pair. Common practice.
pub(crate) fn on_drum(drum: Tonic) -> Pitch {
    let low = Pitch::new(drum.step, drum.alter, 2);
    if low.midi() < 41 { Pitch { octave: 3, ..low } } else { low }
}

/// What all players of a staff have alike is written once, "a 2".
pub(crate) fn join_unisons(page: &mut Passage, staff: usize) {
    let players = page.staves().get(staff).map_or(0, crookwise_score::Staff::players);
    for column in 0..page.columns().len() {
        let mut notes = (0..players).map(|player| note(page, Spot { staff, column, player }));
        let first = notes.next().flatten();
        if let Some(first) = first.filter(|first| players > 1 && notes.all(|other| other == Some(*first))) {
            // The staff and the column are there.
            let _ = page.set_together(staff, column, first);
        }
    }
}

/// Opens a rest before a column and changes the crook there, as players do.
fn change_crook(page: &mut Passage, setting: &Setting, column: usize) -> Option<()> {
    let (_, label) = setting.muta.clone()?;
    page.insert_column(column).ok()?;
    page.set_change(0, Change { column, player: None, to: ChangeTo::Label(label) }).ok()
}

/// A line of a part in C on a staff: as it is for natural brass, for others in the key of the part and in a good octave.
/// `None` where the staff cannot play it, or the instrument in hand.
fn fitted(place: &Place, line: &[Pitch], hand: Option<&StaffLabel>) -> Option<Vec<Pitch>> {
    let mut playable = every(place);
    if let Some(hand) = hand {
        playable.retain(|(note, _)| is_reached(place, hand, *note));
    }
    fit(place, &playable, line)
}

/// Whether the instrument in hand has a written note of a staff.
pub(crate) fn is_reached(place: &Place, hand: &StaffLabel, note: Pitch) -> bool {
    is_in_range(hand, place.notation().sounding(Written(note)).0 + -hand.transposition.0)
}

/// Every note that a staff can play.
pub(crate) fn every(place: &Place) -> Vec<(Pitch, u32)> {
    stock(place, NoteRange::Written(0, 127), Edition::NOW)
}

/// The same, where what the staff can play is known.
pub(crate) fn fit(place: &Place, playable: &[(Pitch, u32)], line: &[Pitch]) -> Option<Vec<Pitch>> {
    if place.staff.natural_family().is_some() {
        let can = |note: &&Pitch| playable.iter().any(|(known, _)| known.midi() == note.midi());
        return (line.iter().filter(can).count() == line.len()).then(|| line.to_vec());
    }
    let mode = place.movement.map_or(Mode::Major, |key| key.mode);
    let tonic = written_tonic(place.signature, mode);
    let from_c = Interval::between(Pitch::natural(Step::C, 4), Pitch::new(tonic.step, tonic.alter, 4));
    let own: Vec<Pitch> = line.iter().map(|note| minor(*note, mode) + from_c).collect();
    let (low, high) = (playable.first()?.0.midi(), playable.last()?.0.midi());
    let stands = |octaves: i32| {
        let mut far = 0;
        for note in &own {
            let moved = *note + Interval::octaves(octaves);
            if moved.midi() < low || moved.midi() > high {
                return None;
            }
            let printed = place.notation().printed(Written(moved));
            far = far.max((place.habits.clef.position(printed.0).0 - 4).abs());
        }
        Some(far)
    };
    // The octave in which the farthest note lies nearest to the middle of the staff; the lower of two.
    let best = (-4..=3).filter_map(|octaves| stands(octaves).map(|far| (far, octaves))).min()?;
    Some(own.iter().map(|note| *note + Interval::octaves(best.1)).collect())
}

/// A note of C major as C minor has it.
fn minor(note: Pitch, mode: Mode) -> Pitch {
    let lowered = mode == Mode::Minor && note.alter == 0 && matches!(note.step, Step::E | Step::A);
    if lowered { Pitch { alter: -1, ..note } } else { note }
}

/// A piece of a passage for one player's note: his staff alone, and the columns around.
pub(crate) fn around(passage: &Passage, at: Spot) -> Option<(Passage, Spot)> {
    note(passage, at)?;
    let mut page = passage.clone();
    keep_staves(&mut page, |staff| staff == at.staff);
    let start = at.column.saturating_sub(WINDOW / 2);
    keep_columns(&mut page, start, start + WINDOW);
    let at = Spot { staff: 0, column: at.column - start, ..at };
    place(&page, at)?;
    note(&page, at)?;
    Some((page, at))
}

/// Columns of a passage with all its staves; what was held is struck.
pub(crate) fn struck(passage: &Passage, columns: Range<usize>) -> Option<Passage> {
    let mut page = passage.clone();
    for column in columns.clone() {
        for (staff, own) in passage.staves().iter().enumerate() {
            for player in 0..own.players() {
                if passage.event(staff, column, player) == Some(Event::Held) {
                    let (_, printed) = passage.sounding_note(staff, column, player)?;
                    page.set(staff, column, player, Event::Note(printed)).ok()?;
                }
            }
        }
    }
    keep_columns(&mut page, columns.start, columns.end);
    Some(page)
}

/// Puts the columns of a page with the same staves behind those of another.
pub(crate) fn append(page: &mut Passage, more: &Passage) -> Option<()> {
    let behind = page.columns().len();
    for (staff, own) in more.staves().iter().enumerate() {
        for (column, cell) in own.cells().iter().enumerate() {
            if let Cell::Together(Event::Note(printed)) = cell {
                page.set_together(staff, behind + column, *printed).ok()?;
                continue;
            }
            for player in 0..own.players() {
                page.set(staff, behind + column, player, cell.of(player)).ok()?;
            }
        }
    }
    Some(())
}

/// Takes all other staves away.
pub(crate) fn keep_staves(page: &mut Passage, keep: impl Fn(usize) -> bool) {
    for staff in (0..page.staves().len()).rev() {
        if !keep(staff) {
            // The last staff cannot be taken away; it is one of those to keep.
            let _ = page.remove_staff(staff);
        }
    }
}

fn keep_columns(page: &mut Passage, from: usize, to: usize) {
    if page.movement.is_none() || from > 0 {
        page.movement = page.movement_at(from);
    }
    for column in (0..page.columns().len()).rev() {
        if column < from || column >= to {
            let _ = page.remove_column(column);
        }
    }
}

/// The same staves with a single column of rests.
pub(crate) fn bare(page: &Passage) -> Option<Passage> {
    let mut page = page.clone();
    page.insert_column(0).ok().or_else(|| page.remove_column(0).ok())?;
    keep_columns(&mut page, 0, 1);
    for staff in 0..page.staves().len() {
        for player in 0..page.staves().get(staff)?.players() {
            page.set(staff, 0, player, Event::Rest).ok()?;
        }
        page.clear_changes(staff).ok()?;
    }
    Some(page)
}
