//! The series of a crook as a ladder: rungs where the tube sounds, lines where the temperament wants them.

use crate::state::view::View;
use crate::words::{self, Names};
use crookwise_theory::reading::usual_note;
use crookwise_theory::{
    CrookFamily, Interval, Intonation, Partial, Pitch, Production, Reach, Step, Written,
    spelling::as_brass_prints,
};

/// Cents of room above the highest and below the lowest rung.
const MARGIN: f64 = 90.0;

/// The ladder of one crook.
#[derive(Clone, Debug, PartialEq)]
pub struct Ladder {
    /// The twelve keys, from low to high.
    pub lines: Vec<Line>,
    /// The partials, from low to high.
    pub rungs: Vec<Rung>,
    /// Notes made by hand or lip between the rungs, from low to high.
    pub between: Vec<Between>,
}

/// A semitone of the temperament.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// From the foot (0) to the top (1).
    pub height: f64,
    /// The written note, where it is worth a name.
    pub name: Option<String>,
}

/// A partial.
#[derive(Clone, Debug, PartialEq)]
pub struct Rung {
    /// Its number.
    pub partial: Partial,
    /// The note it is usually written as.
    pub written: Written,
    /// From the foot (0) to the top (1).
    pub height: f64,
    /// Where the temperament wants it, from the foot (0) to the top (1).
    pub wanted: f64,
    /// Cents between the two, negative is flat.
    pub drift: f64,
    /// The note in short.
    pub note: String,
    /// What it is called aloud.
    pub name: String,
}

impl Rung {
    /// The id of its button.
    #[must_use]
    pub fn id(&self) -> String {
        format!("rung-{}", self.partial.number())
    }
}

/// A note made by hand or lip.
#[derive(Clone, Debug, PartialEq)]
pub struct Between {
    /// The note.
    pub written: Written,
    /// From the foot (0) to the top (1).
    pub height: f64,
    /// The written note in short.
    pub note: String,
    /// The sign over it.
    pub sign: &'static str,
    /// What it is called aloud.
    pub name: String,
}

impl Between {
    /// The id of its button.
    #[must_use]
    pub fn id(&self) -> String {
        format!("hand-{}", self.written)
    }
}

/// Where the notes by hand or lip begin, as a share of the width.
const BY_HAND: f64 = 0.68;

impl Ladder {
    /// The note nearest to a place, in shares of the width to the right and of the height upwards: a partial, and on
    /// the right a note by hand or lip.
    #[must_use]
    pub fn nearest(&self, right: f64, up: f64) -> Option<Written> {
        let rungs = self.rungs.iter().map(|rung| (rung.height, rung.written));
        let between = self.between.iter().map(|note| (note.height, note.written));
        let mut best: Option<(f64, Written)> = None;
        let notes: &mut dyn Iterator<Item = (f64, Written)> =
            if right < BY_HAND { &mut { rungs } } else { &mut { between } };
        for (height, written) in notes {
            let away = (height - up).abs();
            if best.is_none_or(|(least, _)| away < least) {
                best = Some((away, written));
            }
        }
        best.map(|(_, written)| written)
    }

    /// The ids of the buttons at which the tabulator key stops, one a kind: the selected note, else the lowest.
    #[must_use]
    pub fn stops(&self, selected: Selected) -> [String; 2] {
        let rung = self.rungs.iter().find(|rung| selected.is_rung(rung)).or(self.rungs.first());
        let note = self.between.iter().find(|note| selected.is_between(note)).or(self.between.first());
        [rung.map(Rung::id).unwrap_or_default(), note.map(Between::id).unwrap_or_default()]
    }

    /// The id of the button that an arrow key leads to from another: up and down among its kind, sideways to the
    /// nearest of the other kind.
    #[must_use]
    pub fn beside(&self, id: &str, key: &str) -> Option<String> {
        let rungs: Vec<(String, f64)> = self.rungs.iter().map(|rung| (rung.id(), rung.height)).collect();
        let between: Vec<(String, f64)> = self.between.iter().map(|note| (note.id(), note.height)).collect();
        let place = |list: &[(String, f64)]| list.iter().position(|(known, _)| known == id);
        let (own, other) = if place(&rungs).is_some() { (&rungs, &between) } else { (&between, &rungs) };
        let here = place(own)?;
        let there = match key {
            "ArrowUp" => own.get(here + 1),
            "ArrowDown" => own.get(here.checked_sub(1)?),
            "ArrowLeft" | "ArrowRight" => {
                let height = own.get(here)?.1;
                other.iter().min_by(|one, two| (one.1 - height).abs().total_cmp(&(two.1 - height).abs()))
            }
            _ => None,
        };
        there.map(|(id, _)| id.clone())
    }

    /// The ladder of the staff in view; `None` where it has no natural series.
    #[must_use]
    pub fn of(view: &View, intonation: &Intonation) -> Option<Self> {
        let place = view.here()?;
        let family = place.staff.natural_family()?;
        let transposition = place.notation().transposition;
        let names = view.names;
        let (low, high) = Partial::range(family);
        let partials: Vec<Partial> = (low..=high).filter_map(Partial::new).collect();
        let foot = partials.first()?.cents() - MARGIN;
        let span = partials.last()?.cents() + MARGIN - foot;
        let height = |cents: f64| (cents - foot) / span;
        // Where the temperament wants a written note, in the cents of the series: drift is the distance.
        let wanted = |partial: Partial, written: Written| {
            partial.cents() - intonation.drift(partial, written, transposition)
        };
        let fundamental = partials.first().copied()?;
        let wanted_key = |written: Written| wanted(fundamental, written);

        let rungs = partials
            .iter()
            .map(|&partial| {
                let written = usual_note(partial);
                let drift = intonation.drift(partial, written, transposition);
                let sounding = transposition.to_sounding(written);
                Rung {
                    partial,
                    written,
                    height: height(partial.cents()),
                    wanted: height(wanted(partial, written)),
                    drift,
                    note: names.note(written.0),
                    name: words::staves::rung(
                        partial.number(),
                        &names.note_spoken(written.0),
                        &names.note_spoken(sounding.0),
                    ),
                }
            })
            .collect();
        let lines = keys(family)
            .map(|written| Line { height: height(wanted_key(written)), name: line_name(written, names) })
            .collect();
        let between = keys(family)
            .filter(|written| Partial::of(family, written.0).is_none())
            .filter_map(|written| {
                let row = Reach::of(family, written.0)?;
                (row.production != Production::Unavailable).then(|| Between {
                    written,
                    height: height(wanted_key(written)),
                    note: names.note(written.0),
                    sign: row.production.sign(),
                    name: words::staves::between(
                        row.production.words(),
                        &names.note_spoken(written.0),
                        &names.note_spoken(transposition.to_sounding(written).0),
                    ),
                })
            })
            .collect();
        Some(Self { lines, rungs, between })
    }
}

/// The selected note as the ladder shows it; told apart from the ladder, so that it is not drawn anew.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Selected {
    /// The partial that is selected.
    pub partial: Option<Partial>,
    /// The written note that is selected.
    pub written: Option<Written>,
}

impl Selected {
    /// What is selected in view.
    #[must_use]
    pub fn of(view: &View) -> Self {
        let reading = view.selected_column().and_then(|column| column.reading.as_ref());
        Self {
            partial: reading.and_then(|reading| reading.making.as_ref()?.partial),
            written: reading.map(|reading| reading.written),
        }
    }

    /// Whether a rung is the selected note.
    #[must_use]
    pub fn is_rung(self, rung: &Rung) -> bool {
        self.partial == Some(rung.partial)
    }

    /// Whether a note by hand or lip is the selected one.
    #[must_use]
    pub fn is_between(self, note: &Between) -> bool {
        self.written.is_some_and(|written| written.0.same_key(note.written.0))
    }
}

/// What stands over the ladder: the crook and the temperament.
#[must_use]
pub fn title(view: &View, intonation: &Intonation) -> String {
    let Some(place) = view.here() else { return String::new() };
    let name = place.staff.name_by(&|key| view.names.key_word(key));
    format!("{name} against {}", words::temperament(intonation.tuning.temperament))
}

/// How far the crook in view goes, one sentence a source.
#[must_use]
pub fn ranges(view: &View) -> Vec<String> {
    let Some(crook) = view.here().and_then(|place| place.staff.crook()) else { return Vec::new() };
    crook.ranges().into_iter().map(words::range).collect()
}

/// The written notes of the ladder by semitones, as brass prints them.
fn keys(family: CrookFamily) -> impl Iterator<Item = Written> {
    let (low, high) = Partial::range(family);
    let midi = |number: u8| {
        Partial::new(number).and_then(|partial| partial.written_midi().first().copied()).unwrap_or(60)
    };
    (midi(low)..=midi(high)).map(|midi| {
        let c4 = Pitch::natural(Step::C, 4);
        as_brass_prints(Written(c4 + Interval::usual(midi - c4.midi())))
    })
}

/// Only the notes of the common chord are named: more would crowd.
fn line_name(written: Written, names: Names) -> Option<String> {
    let named = written.0.alter == 0 && matches!(written.0.step, Step::C | Step::E | Step::G);
    named.then(|| names.note(written.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_share::Link;

    fn ladder(link: &str) -> Option<Ladder> {
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        Ladder::of(&View::of(&page), &page.intonation)
    }

    #[test]
    fn rungs_stand_where_the_tube_sounds() {
        let ladder = ladder("/read?staff=Corni+in+Es&notes=E5&at=1").unwrap();
        assert_eq!(ladder.rungs.len(), 15);
        for rung in &ladder.rungs {
            let span = 3600.0 + 2.0 * MARGIN;
            assert!(((rung.height - rung.wanted) * span - rung.drift).abs() < 1e-6);
            // Each rung's wanted place is a line of the temperament.
            assert!(ladder.lines.iter().any(|line| (line.height - rung.wanted).abs() < 1e-9));
        }
        let Some(Link::Read(page)) = Link::decode("/read?staff=Corni+in+Es&notes=E5&at=1").unwrap() else {
            panic!()
        };
        let shown = Selected::of(&View::of(&page));
        let selected: Vec<u8> = ladder
            .rungs
            .iter()
            .filter(|rung| shown.is_rung(rung))
            .map(|rung| rung.partial.number())
            .collect();
        assert_eq!(selected, [10]);
        assert!(ladder.between.iter().any(|hand| hand.written.to_string() == "A4" && hand.sign == "½"));
        assert!(ladder.lines.iter().all(|line| (0.0..=1.0).contains(&line.height)));
    }

    #[test]
    fn the_nearest_rung_is_taken() {
        let ladder = ladder("/read?staff=Corni+in+Es&notes=E5&at=1").unwrap();
        let partial = |right, up| {
            let written = ladder.nearest(right, up);
            ladder.rungs.iter().find(|rung| Some(rung.written) == written).map(|rung| rung.partial.number())
        };
        let tenth = ladder.rungs.iter().find(|rung| rung.partial.number() == 10).unwrap();
        assert_eq!(partial(0.3, tenth.height + 0.004), Some(10));
        assert_eq!(partial(0.3, -5.0), Some(2));
        assert_eq!(partial(0.3, 5.0), Some(16));
        let by_hand = ladder.nearest(0.9, tenth.height).unwrap();
        assert!(ladder.between.iter().any(|note| note.written == by_hand));
    }

    #[test]
    fn arrows_go_along_the_rungs() {
        let ladder = ladder("/read?staff=Corni+in+Es&notes=E5&at=1").unwrap();
        assert_eq!(ladder.beside("rung-10", "ArrowUp").as_deref(), Some("rung-11"));
        assert_eq!(ladder.beside("rung-10", "ArrowDown").as_deref(), Some("rung-9"));
        assert_eq!(ladder.beside("rung-2", "ArrowDown"), None);
        assert_eq!(ladder.beside("rung-16", "ArrowUp"), None);
        let hand = ladder.beside("rung-7", "ArrowRight").unwrap();
        assert!(hand.starts_with("hand-"), "{hand}");
        assert!(ladder.beside(&hand, "ArrowLeft").unwrap().starts_with("rung-"));
        assert_eq!(ladder.beside("elsewhere", "ArrowUp"), None);
        assert_eq!(ladder.stops(Selected::default()).map(|id| id[..5].to_owned()), ["rung-", "hand-"]);
        let selected = Selected { partial: Partial::new(8), written: None };
        assert_eq!(ladder.stops(selected)[0], "rung-8");
    }

    #[test]
    fn only_natural_brass_has_a_ladder() {
        assert!(ladder("/read?staff=Clarinetti+in+B").is_none());
        assert!(ladder("/read?staff=Corni+in+F&played=valves").is_none());
        assert_eq!(ladder("/read?staff=Trombe+in+D").unwrap().rungs.len(), 16);
    }
}
