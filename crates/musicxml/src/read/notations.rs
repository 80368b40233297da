//! What stands at a note: ties and slurs, articulations, ornaments, the hand of the horn.

use super::cursor::{Cursor, Tag};
use super::measure::PartReader;
use super::note::Said;
use super::numbers::whole;
use super::raw::RawItem;
use crate::error::FileError;
use crookwise_score::score::{Direction, Mark, Tremolo, TremoloKind};

pub(super) fn read(
    reader: &mut PartReader<'_>,
    cursor: &mut Cursor<'_>,
    said: &mut Said,
) -> Result<(), FileError> {
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "tied" => {
                said.tied |= tag.is("type", "stop");
                said.look.tied_on |= tag.is("type", "start");
                cursor.skip()?;
            }
            "slur" => {
                if tag.is("type", "start") {
                    said.look.slurs_begin = said.look.slurs_begin.saturating_add(1);
                } else if tag.is("type", "stop") {
                    said.look.slurs_end = said.look.slurs_end.saturating_add(1);
                }
                cursor.skip()?;
            }
            // The bracket over a tuplet; what it means stands in the note.
            "tuplet" => cursor.skip()?,
            "fermata" => mark(cursor, said, Mark::Fermata)?,
            "arpeggiate" => mark(cursor, said, Mark::Arpeggio)?,
            "articulations" | "ornaments" | "technical" => group(reader, cursor, said)?,
            "dynamics" => {
                // The time has not gone on yet, but for notes on the stem of one before.
                let at = if said.look.on_stem { reader.clock.last() } else { reader.clock.now() };
                for dynamic in super::direction::dynamics(cursor)? {
                    let staff = said.staff;
                    reader.part.items.push(RawItem::Direction {
                        at,
                        staff,
                        direction: Direction::Dynamic(dynamic),
                    });
                }
            }
            name => {
                reader.not_understood(name);
                cursor.skip()?;
            }
        }
    }
    Ok(())
}

fn mark(cursor: &mut Cursor<'_>, said: &mut Said, mark: Mark) -> Result<(), FileError> {
    said.look.marks = said.look.marks.with(mark);
    cursor.skip()
}

fn group(reader: &mut PartReader<'_>, cursor: &mut Cursor<'_>, said: &mut Said) -> Result<(), FileError> {
    while let Some(tag) = cursor.child()? {
        match (known(tag.name()), tag.name()) {
            (Some(known), _) => mark(cursor, said, known)?,
            (None, "tremolo") => said.look.tremolo = tremolo(cursor, &tag)?,
            // Signs that belong to one beside them.
            (None, "accidental-mark" | "wavy-line") => cursor.skip()?,
            (None, name) => {
                reader.not_understood(name);
                cursor.skip()?;
            }
        }
    }
    Ok(())
}

fn tremolo(cursor: &mut Cursor<'_>, tag: &Tag<'_>) -> Result<Option<Tremolo>, FileError> {
    let kind = match tag.get("type").as_deref() {
        Some("start") => TremoloKind::Begins,
        Some("stop") => TremoloKind::Ends,
        Some("unmeasured") => TremoloKind::Unmeasured,
        _ => TremoloKind::Repeated,
    };
    let strokes = whole::<u8>(&cursor.text()?).unwrap_or(3).min(8);
    let counts = strokes > 0 || kind == TremoloKind::Unmeasured;
    Ok(counts.then_some(Tremolo { strokes: strokes.max(1), kind }))
}

/// The sign of an element of MusicXML.
fn known(name: &str) -> Option<Mark> {
    Some(match name {
        "staccato" => Mark::Staccato,
        "staccatissimo" | "spiccato" => Mark::Staccatissimo,
        "tenuto" => Mark::Tenuto,
        "detached-legato" => Mark::DetachedLegato,
        "accent" => Mark::Accent,
        "strong-accent" => Mark::StrongAccent,
        "stopped" => Mark::Stopped,
        "open" | "open-string" => Mark::Open,
        "half-muted" => Mark::HalfStopped,
        "trill-mark" => Mark::Trill,
        "turn" | "delayed-turn" => Mark::Turn,
        "inverted-turn" | "delayed-inverted-turn" => Mark::InvertedTurn,
        "mordent" => Mark::Mordent,
        "inverted-mordent" => Mark::ShortTrill,
        "up-bow" => Mark::UpBow,
        "down-bow" => Mark::DownBow,
        "harmonic" => Mark::Harmonic,
        "double-tongue" => Mark::DoubleTongue,
        "triple-tongue" => Mark::TripleTongue,
        "breath-mark" => Mark::Breath,
        "caesura" => Mark::Caesura,
        "brass-bend" => Mark::Brassy,
        "stress" => Mark::Stress,
        "unstress" => Mark::Unstress,
        "snap-pizzicato" => Mark::Pizzicato,
        _ => return None,
    })
}
