//! The line of what holds: for the staff in view and its page, every choice in a word, and whether it was only assumed.

use crate::state::labelling::Labelling;
use crate::state::settings_form::Field;
use crate::state::view::View;
use crate::words;
use crookwise_score::Settings;
use crookwise_share::ReadPage;
use crookwise_theory::{BassNotation, Notation};

/// A choice of the line, which opens its own small list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chip {
    /// Which of the readings of the label.
    Reading,
    /// Natural or valves.
    Played,
    /// The clef and how it is meant.
    Clef,
    /// The movement: its key and its year.
    Movement,
    /// Temperament, pitch and warmth.
    Tuning,
    /// Signature of the staff.
    Signature,
    /// The instrument in the reader's hands.
    Hand,
    /// The players of the staff and its place on the page.
    Staff,
}

/// What holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Holding {
    /// In a word or two.
    pub value: String,
    /// Whether it was taken for granted and nobody has confirmed it.
    pub assumed: bool,
    /// Why it was taken so; empty where there is nothing to say.
    pub reason: String,
}

impl Chip {
    /// All of them, for a staff alone.
    pub const ALL: [Self; 8] = [
        Self::Reading,
        Self::Played,
        Self::Clef,
        Self::Movement,
        Self::Tuning,
        Self::Signature,
        Self::Hand,
        Self::Staff,
    ];
    /// Those that belong to the page.
    pub const PAGE: [Self; 2] = [Self::Movement, Self::Tuning];
    /// Those of one staff among several.
    pub const STAFF: [Self; 6] =
        [Self::Reading, Self::Played, Self::Clef, Self::Signature, Self::Hand, Self::Staff];

    /// What it is about.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Reading => words::chips::READ_AS,
            Self::Played => words::chips::PLAYED,
            Self::Clef => words::chips::CLEF,
            Self::Movement => words::chips::MOVEMENT,
            Self::Tuning => words::chips::TUNING,
            Self::Signature => words::chips::SIGNATURE,
            Self::Hand => words::chips::IN_YOUR_HANDS,
            Self::Staff => words::chips::PLAYERS,
        }
    }

    /// The id of its list.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Reading => "list-reading",
            Self::Played => "list-played",
            Self::Clef => "list-clef",
            Self::Movement => "list-movement",
            Self::Tuning => "list-tuning",
            Self::Signature => "list-signature",
            Self::Hand => "list-hand",
            Self::Staff => "list-staff",
        }
    }

    /// The settings in its list.
    #[must_use]
    pub const fn fields(self) -> &'static [Field] {
        match self {
            Self::Played => &[Field::Played],
            Self::Clef => &[Field::Clef, Field::Bass, Field::System, Field::ClefOctave, Field::Page],
            Self::Movement => &[Field::Movement],
            Self::Tuning => &[Field::Temperament, Field::Root, Field::TunedOn],
            Self::Signature => &[Field::Signature],
            Self::Reading | Self::Hand | Self::Staff => &[],
        }
    }

    /// What holds; `None` where the choice means nothing for the staff in view.
    #[must_use]
    pub fn held(self, view: &View, page: &ReadPage) -> Option<Holding> {
        let settings = page.passage.staves().get(page.staff).map(|staff| staff.settings).unwrap_or_default();
        let plain = |value: String| Some(Holding { value, ..Holding::default() });
        // Strokes have neither clef nor signature, and nobody reads their pitch from another part.
        let of_pitch = matches!(self, Self::Clef | Self::Signature | Self::Hand);
        if of_pitch && view.start().is_some_and(|place| !place.staff.is_pitched()) {
            return None;
        }
        match self {
            Self::Reading => reading(view, page),
            Self::Played => played(view, settings),
            Self::Clef => clef(view, settings),
            Self::Movement => {
                let key = page.passage.movement.map(|key| view.names.key(key));
                plain(key.unwrap_or_else(|| words::settings::UNKNOWN.into()))
            }
            Self::Tuning => {
                let tuning = page.intonation.tuning;
                plain(words::chips::tuning(tuning.temperament, tuning.a4))
            }
            Self::Signature => plain(words::signature(view.start()?.signature)),
            Self::Hand => {
                let hand = view.in_hand.as_ref().map(|hand| hand.name_by(&|key| view.names.key_word(key)));
                let said = hand.or_else(|| page.in_hand.clone());
                plain(said.map_or_else(|| words::settings::NONE.into(), |said| words::chips::short(&said)))
            }
            Self::Staff => {
                let staff = page.passage.staves().get(page.staff);
                plain(staff.map_or(1, crookwise_score::Staff::players).to_string())
            }
        }
    }
}

fn reading(view: &View, page: &ReadPage) -> Option<Holding> {
    let labelling = Labelling::of(view, page);
    if labelling.others.is_empty() {
        return None;
    }
    let name = view.start().map(|place| place.staff.name_by(&|key| view.names.key_word(key)));
    let value = name.unwrap_or_else(|| words::settings::UNKNOWN.into());
    let reason = labelling.assumed_reading.unwrap_or_default();
    Some(Holding { value, assumed: !reason.is_empty(), reason })
}

fn played(view: &View, settings: Settings) -> Option<Holding> {
    let mechanism = view.start()?.staff.mechanism?;
    let reason = view.staff.decoded.about_valves.clone().filter(|_| settings.mechanism.is_none());
    let reason = reason.unwrap_or_default();
    Some(Holding { value: words::settings::mechanism(mechanism).into(), assumed: !reason.is_empty(), reason })
}

/// The clef, and what is not seen in it: a habit of writing, a system, an octave mark, a page at sounding pitch.
fn clef(view: &View, settings: Settings) -> Option<Holding> {
    let place = view.start()?;
    let Notation { bass, scheme, .. } = place.notation();
    let mut parts = vec![place.habits.clef.name().to_owned()];
    let octave = match place.habits.clef.octave() {
        1 => Some(words::settings::EIGHT_ABOVE),
        -1 => Some(words::settings::EIGHT_BELOW),
        _ => None,
    };
    let habit = bass.map(|bass| match bass {
        BassNotation::Old => words::chips::OLD,
        BassNotation::New => words::chips::NEW,
    });
    parts.extend([octave, habit].into_iter().flatten().map(str::to_owned));
    parts.extend(scheme.map(|scheme| scheme.words().to_owned()));
    if settings.at_pitch {
        parts.push(words::settings::AT_SOUNDING_PITCH.into());
    }
    let old = bass == Some(BassNotation::Old) && settings.bass.is_none();
    let usual = scheme.is_some() && settings.scheme.is_none();
    let reason = match (old, usual) {
        (true, _) => words::chips::TAKEN_AS_OLD,
        (_, true) => words::chips::TAKEN_AS_USUAL,
        _ => "",
    };
    Some(Holding { value: parts.join(", "), assumed: !reason.is_empty(), reason: reason.into() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::document::Document;
    use crate::state::settings_form::{Form, choose};
    use crookwise_share::Link;

    fn page(link: &str) -> ReadPage {
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        *page
    }

    fn line(page: &ReadPage) -> Vec<String> {
        let view = View::of(page);
        let said = |chip: &Chip| {
            let held = chip.held(&view, page)?;
            Some(format!("{} {}{}", chip.word(), held.value, if held.assumed { "?" } else { "" }))
        };
        Chip::ALL.iter().filter_map(said).collect()
    }

    #[test]
    fn what_holds_is_said_in_one_line() {
        let page = page("/read?staff=Corni+in+Es&notes=E5&key=Eb+major&a4=430&hand=Horn+in+F");
        assert_eq!(
            line(&page),
            [
                "played natural?",
                "clef treble",
                "movement E♭ major",
                "tuning equal, A 430",
                "signature none",
                "in your hands Horn in F",
                "players 1"
            ]
        );
    }

    #[test]
    fn nothing_is_said_where_there_is_nothing_to_say() {
        let line = line(&page("/read?staff=Flauto"));
        assert!(
            !line.iter().any(|chip| chip.starts_with("played") || chip.starts_with("read as")),
            "{line:?}"
        );
        assert!(!line.iter().any(|chip| chip.ends_with('?')), "{line:?}");
    }

    #[test]
    fn strokes_have_no_clef_and_no_signature() {
        let line = line(&page("/read?staff=Gran+cassa&notes=C4"));
        assert_eq!(line, ["movement unknown", "tuning equal, A 440", "players 1"]);
    }

    #[test]
    fn what_was_assumed_is_confirmed_by_choosing_it() {
        for (link, chip, field) in [
            ("/read?staff=Corni+in+Es", Chip::Played, Field::Played),
            ("/read?staff=Corno&clef=F4", Chip::Clef, Field::Bass),
            ("/read?staff=Clarinetto+basso+in+B", Chip::Clef, Field::System),
        ] {
            let mut document = Document::new(page(link));
            let held = |document: &Document| chip.held(&View::of(document.page()), document.page()).unwrap();
            let before = held(&document);
            assert!(before.assumed && !before.reason.is_empty(), "{link}: {before:?}");
            let same = Form::of(&View::of(document.page()), document.page()).value(field);
            choose(&mut document, field, &same);
            let after = held(&document);
            assert_eq!((after.value, after.assumed), (before.value, false), "{link}");
        }
    }

    #[test]
    fn a_reading_is_confirmed_by_choosing_it() {
        let mut document = Document::new(page("/read?staff=Corni+in+B"));
        let held =
            |document: &Document| Chip::Reading.held(&View::of(document.page()), document.page()).unwrap();
        let before = held(&document);
        assert_eq!((before.value.as_str(), before.assumed), ("Horn in B-flat basso", true));
        let reading = Labelling::of(&View::of(document.page()), document.page()).here.unwrap();
        document.choose_reading(reading.choice);
        assert_eq!((held(&document).value, held(&document).assumed), (before.value, false));
    }

    #[test]
    fn a_long_name_does_not_push_the_others_away() {
        let page = page(&format!("/read?staff=Corno&hand={}", "i".repeat(200)));
        let held = Chip::Hand.held(&View::of(&page), &page).unwrap();
        assert!(held.value.chars().count() <= 30, "{}", held.value);
    }
}
