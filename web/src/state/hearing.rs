//! What is to be heard, as tones: a note, a column or all, as the instruments give it, as the tuning wants it, or both
//! in turn.

use crate::state::view::{ColumnView, PageView, View};
use crate::words;
use crookwise_score::{Event, Length};
use crookwise_share::ReadPage;
use crookwise_sound::{Act, Manner, SoundColumn, Tone, Touch, alternate, hz, note, passage};

/// Seconds of a quarter note, and of a column without a length.
const QUARTER: f64 = 0.9;
/// Seconds of a note or column that is heard alone.
const ALONE: f64 = 1.6;
/// How often two ways of a note or column are heard in turn, and the seconds between.
const TURNS: usize = 3;
const GAP: f64 = 0.12;

/// How much of the page is heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeardPart {
    /// The selected note.
    Note,
    /// Everything in the selected column.
    Column,
    /// All columns from first to last.
    All,
}

/// As whom it is heard.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum HeardAs {
    /// As the instruments give it: natural partials, not corrected.
    Instrument,
    /// As the tuning wants it.
    #[default]
    Tuning,
    /// First the one, then the other.
    InTurn,
}

impl HeardPart {
    /// The button's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Note => words::staves::HEAR_THE_NOTE,
            Self::Column => words::staves::HEAR_THE_COLUMN,
            Self::All => words::staves::HEAR_ALL,
        }
    }
}

impl HeardAs {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Instrument, Self::Tuning, Self::InTurn];

    /// Its name in what is kept.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Instrument => "instrument",
            Self::Tuning => "tuning",
            Self::InTurn => "turns",
        }
    }

    /// Its name in the list.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Instrument => words::staves::AS_THE_INSTRUMENT_GIVES_IT,
            Self::Tuning => words::staves::AS_THE_TUNING_WANTS_IT,
            Self::InTurn => words::staves::IN_TURN,
        }
    }
}

/// The tones of a part of the page; none where nothing sounds there.
#[must_use]
pub fn tones(whole: &PageView, page: &ReadPage, part: HeardPart, way: HeardAs) -> Vec<Tone> {
    let by = |manner: Manner| match part {
        HeardPart::Note => {
            let current = whole.current();
            let sounds = |at| PlayedPart { view: &current, below: false }.sounds(at, manner);
            let heard = current.selected.and_then(sounds);
            heard.map(|(hz, touch)| note(hz, ALONE, touch)).into_iter().collect()
        }
        HeardPart::Column => {
            let all = page
                .selected
                .into_iter()
                .flat_map(|at| voices(whole).filter_map(move |voice| voice.sounds(at, manner)));
            all.map(|(hz, touch)| note(hz, ALONE, touch)).collect()
        }
        HeardPart::All => {
            let columns = page.passage.columns().iter().enumerate().map(|(at, column)| SoundColumn {
                seconds: seconds(column.length),
                acts: voices(whole).map(|voice| voice.act(at, manner)).collect(),
            });
            passage(&columns.collect::<Vec<_>>())
        }
    };
    match way {
        HeardAs::Instrument => by(Manner::Tube),
        HeardAs::Tuning => by(Manner::Tuning),
        HeardAs::InTurn => {
            let turns = if part == HeardPart::All { 1 } else { TURNS };
            alternate(&by(Manner::Tube), &by(Manner::Tuning), turns, GAP)
        }
    }
}

/// Whether there is something to hear.
#[must_use]
pub fn can_hear(whole: &PageView, page: &ReadPage, part: HeardPart) -> bool {
    let sounds = |column: Option<&ColumnView>| column.is_some_and(|column| column.reading.is_some());
    let mut players = whole.staves.iter().flat_map(|staff| &staff.players);
    match part {
        HeardPart::Note => sounds(whole.voice(whole.staff, whole.player).and_then(View::selected_column)),
        HeardPart::Column => {
            players.any(|view| sounds(page.selected.and_then(|selected| view.columns.get(selected))))
        }
        HeardPart::All => players.any(|view| view.columns.iter().any(|column| sounds(Some(column)))),
    }
}

fn seconds(length: Option<Length>) -> f64 {
    length.map_or(QUARTER, |length| {
        let (numerator, denominator) = length.quarters();
        QUARTER * f64::from(numerator) / f64::from(denominator)
    })
}

/// A player's part, or its doubling an octave below.
struct PlayedPart<'a> {
    view: &'a View,
    below: bool,
}

/// Everybody who plays, staff by staff.
fn voices(whole: &PageView) -> impl Iterator<Item = PlayedPart<'_>> {
    whole.staves.iter().flat_map(|staff| &staff.players).flat_map(|view| {
        let doubled = view.columns.iter().any(|column| column.doubled_below);
        let below = doubled.then_some(PlayedPart { view, below: true });
        core::iter::once(PlayedPart { view, below: false }).chain(below)
    })
}

impl PlayedPart<'_> {
    /// What sounds in a column, in Hz, and in which character.
    fn sounds(&self, at: usize, manner: Manner) -> Option<(f64, Touch)> {
        let column = self.view.columns.get(at).filter(|column| column.doubled_below || !self.below)?;
        let hz = hz(column.reading.as_ref()?, manner);
        let touch = Touch::of(self.view.place_at(at)?.staff.instrument);
        Some((if self.below { hz / 2.0 } else { hz }, touch))
    }

    fn act(&self, at: usize, manner: Manner) -> Act {
        match (self.sounds(at, manner), self.view.columns.get(at).map(|column| column.event)) {
            (Some(_), Some(Event::Held)) => Act::Held,
            (Some((hz, touch)), _) => Act::Note(hz, touch),
            (None, _) => Act::Rest,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Names;
    use crookwise_share::Link;

    fn heard(link: &str, part: HeardPart, way: HeardAs) -> Vec<Tone> {
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        tones(&PageView::of(&page, Names::default()), &page, part, way)
    }

    const PAIR: &str = "/read?staff=2+Corni+in+C&players=2&notes=E5._&notes2=C5.G4\
        &staff=Violoncello+e+Basso&notes=C3.-&at=1";

    #[test]
    fn a_note_is_heard_as_the_tube_gives_it_or_as_the_tuning_wants_it() {
        let hz = |way| heard(PAIR, HeardPart::Note, way)[0].hz;
        // Partial 10 of C2 at 65.406 Hz; E4 of equal temperament.
        assert!((hz(HeardAs::Instrument) - 327.03).abs() < 0.01);
        assert!((hz(HeardAs::Tuning) - 329.63).abs() < 0.01);
        let turns = heard(PAIR, HeardPart::Note, HeardAs::InTurn);
        assert_eq!(turns.len(), 6);
        assert!((turns[0].hz - 327.03).abs() < 0.01 && (turns[1].hz - 329.63).abs() < 0.01);
    }

    #[test]
    fn a_column_has_everybody_and_the_octave_below() {
        let column = heard(PAIR, HeardPart::Column, HeardAs::Tuning);
        assert_eq!(column.len(), 4);
        assert!((column[2].hz / column[3].hz - 2.0).abs() < 1e-9);
    }

    #[test]
    fn everybody_is_heard_in_the_character_of_his_instrument() {
        use crookwise_sound::Colour::{Brass, Drum, Flute, String};
        let link = "/read?staff=Flauto&notes=C5.D5&staff=Corno+in+Es&notes=C5.D5&muta=2_Flauto&staff=Timpani+in+C,+G\
            &notes=C3.-&staff=Violino&notes=G4.G4&at=1";
        let colours =
            |part| heard(link, part, HeardAs::Tuning).iter().map(|tone| tone.colour).collect::<Vec<_>>();
        assert_eq!(colours(HeardPart::Note), [Flute]);
        assert_eq!(colours(HeardPart::Column), [Flute, Brass, Drum, String]);
        // A player who takes up another instrument is heard on it.
        assert_eq!(colours(HeardPart::All), [Flute, Brass, Drum, String, Flute, Flute, String]);
    }

    #[test]
    fn a_held_note_of_a_passage_is_one_tone() {
        let all = heard(PAIR, HeardPart::All, HeardAs::Tuning);
        assert_eq!(all.len(), 5);
        assert!((all[0].length - 2.0 * QUARTER).abs() < 1e-9);
    }

    #[test]
    fn nothing_selected_is_not_heard() {
        assert!(heard("/read?staff=Corni+in+Es&notes=C5", HeardPart::Note, HeardAs::Tuning).is_empty());
        assert!(heard("/read?staff=Corni+in+Es", HeardPart::All, HeardAs::InTurn).is_empty());
        assert!(heard("/read?staff=Xyzzyq&notes=C5&at=1", HeardPart::Column, HeardAs::Tuning).is_empty());
    }

    #[test]
    fn what_can_be_heard_has_tones_and_nothing_else() {
        for link in [
            PAIR,
            "/read?staff=2+Corni+in+C&players=2&notes=-.C5&notes2=C5.-&staff=Violoncello&notes=C3.-&at=2",
            "/read?staff=2+Corni+in+C&players=2&notes=-.-&notes2=-.-&at=1",
            "/read?staff=Corni+in+Es&notes=C5",
            "/read?staff=Corni+in+Es",
            "/read?staff=Corni+in+Es&notes=C5._.-&at=2",
            "/read?staff=Corni+in+Es&notes=C5._.-&at=3",
            "/read?staff=Xyzzyq&notes=C5&at=1",
        ] {
            let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
            let whole = PageView::of(&page, Names::default());
            for part in [HeardPart::Note, HeardPart::Column, HeardPart::All] {
                let tones = tones(&whole, &page, part, HeardAs::Tuning);
                assert_eq!(can_hear(&whole, &page, part), !tones.is_empty(), "{link} {part:?}");
            }
        }
    }
}
