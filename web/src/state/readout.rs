//! The selected note in sentences.

use crate::state::view::View;
use crate::words;
use crookwise_share::ReadPage;
use crookwise_theory::{Interval, Production};

/// All that is said about a note beyond the glance.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Readout {
    /// How it is made, how far it drifts, where it stands in the key.
    pub sentences: Vec<String>,
    /// The way by interval.
    pub by_interval: String,
    /// The way by clef.
    pub by_clef: String,
    /// The way on the instrument in hand.
    pub in_hand: String,
}

impl Readout {
    /// What is printed for an instrument without pitch.
    fn of_stroke() -> Self {
        let nothing = || words::NOTHING_TO_TRANSPOSE.to_owned();
        Self {
            sentences: vec![words::STANDS_FOR_A_STROKE.to_owned()],
            by_interval: nothing(),
            by_clef: nothing(),
            in_hand: nothing(),
        }
    }

    /// The readout of the selected column; `None` where no note is selected or its staff is not understood.
    #[must_use]
    pub fn of(view: &View, page: &ReadPage) -> Option<Self> {
        let selected = view.selected_column()?;
        if selected.stroke {
            return Some(Self::of_stroke());
        }
        let reading = selected.reading.as_ref()?;
        let mut sentences = Vec::new();
        if let Some(made) = reading.making.as_ref().filter(|made| made.production != Production::Open) {
            sentences.push(words::production_sentence(made));
        }
        if let Some(drums) = view.other_drums() {
            sentences.push(words::drums::tuned_otherwise(drums, reading.sounding.0, view.names));
        }
        sentences.push(words::tuning_sentence(reading, &page.intonation));
        if reading.written.0 != reading.printed.0 {
            sentences.push(words::written_otherwise(reading.printed, reading.written, view.names));
        }
        if let Some((degree, movement)) = reading.movement_degree.zip(page.passage.movement) {
            let above = reading.making.as_ref().map(|_| reading.crook_degree);
            sentences.push(words::degrees(degree, movement, above, view.names));
        }
        if reading.making.as_ref().is_some_and(|made| made.production != Production::Open) {
            sentences.push(words::GUIDE.into());
        }
        sentences.retain(|sentence| !sentence.is_empty());
        let in_hand = match (reading.in_hand, &view.in_hand, &page.in_hand) {
            (Some(there), Some(instrument), _) => {
                let name = instrument.name_by(&|key| view.names.key_word(key));
                words::in_hand(there, &name, view.names)
            }
            (_, _, Some(label)) => words::hand_not_understood(label),
            _ => words::HAND_UNKNOWN.into(),
        };
        Some(Self {
            sentences,
            by_interval: words::by_interval(reading),
            // What sounds as it is printed needs no other clef.
            by_clef: match reading.interval {
                Interval::UNISON => String::new(),
                _ => words::by_clef(reading),
            },
            in_hand,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_share::Link;

    fn readout(link: &str) -> Option<Readout> {
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        Readout::of(&View::of(&page), &page)
    }

    #[test]
    fn an_open_partial_in_its_movement() {
        let shown =
            readout("/read?staff=Corni+in+Es&notes=E5&key=Eb+major&a4=430&hand=Horn+in+F&at=1").unwrap();
        assert!(shown.sentences[0].starts_with("Uncorrected 14 cents flat: 380.1 Hz against 383.1 Hz"));
        assert!(shown.sentences[1].contains("Third degree of E♭ major"));
        assert!(shown.in_hand.contains("read D5"));
    }

    #[test]
    fn old_bass_notation_is_explained() {
        let shown = readout("/read?staff=Horn+in+F&clef=F4&notes=C3&at=1").unwrap();
        assert!(shown.sentences.iter().any(|sentence| sentence.contains("C4")));
    }

    #[test]
    fn a_note_that_no_drum_has_is_told() {
        let shown = readout("/read?staff=Timpani+in+D%2C+A&clef=F4&notes=D3.G2&at=2").unwrap();
        assert!(shown.sentences[0].contains("tuned to D and A, and none has G"), "{:?}", shown.sentences);
        let own = readout("/read?staff=Timpani+in+D%2C+A&clef=F4&notes=A2&at=1").unwrap();
        assert!(own.sentences.iter().all(|sentence| !sentence.contains("tuned to")), "{:?}", own.sentences);
    }

    #[test]
    fn a_stopped_note_defers_to_the_player() {
        let shown = readout("/read?staff=Corni+in+Es&notes=A4&at=1").unwrap();
        assert!(shown.sentences.iter().any(|sentence| sentence.contains("teacher")));
    }

    #[test]
    fn a_stroke_is_said_to_be_one() {
        let shown = readout("/read?staff=Gran+cassa&notes=E4&at=1").unwrap();
        assert!(shown.sentences[0].contains("stands for a stroke"), "{:?}", shown.sentences);
        assert_eq!(readout("/read?staff=Xyzzyq&notes=E4&at=1"), None);
    }

    #[test]
    fn nothing_is_imagined_for_what_sounds_as_printed() {
        let flute = readout("/read?staff=Flauto&notes=E5&at=1").unwrap();
        assert_eq!(flute.by_clef, "");
        assert!(!readout("/read?staff=Corni+in+Es&notes=E5&at=1").unwrap().by_clef.is_empty());
    }

    #[test]
    fn a_rest_has_nothing_to_say() {
        assert_eq!(readout("/read?staff=Corni+in+Es&notes=-&at=1"), None);
        assert_eq!(readout("/read?staff=Corni+in+Es&notes=C4"), None);
    }
}
