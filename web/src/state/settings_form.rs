//! The settings of the staff as lists to choose from.

use crate::state::document::Document;
use crate::state::list_item::ListItem;
use crate::state::view::View;
use crate::words::{self, Names};
use crookwise_score::{ResolvedStaff, SignatureSource};
use crookwise_share::ReadPage;
use crookwise_theory::label::Mechanism;
use crookwise_theory::{
    BassNotation, Clef, Key, Mode, Scheme, Signature, Temperament, Tonic, TunedOn, Warmth,
    tables::TEMPERAMENTS,
};

/// A setting chosen from a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// Natural or valves.
    Played,
    /// The clef.
    Clef,
    /// The octave mark at the clef.
    ClefOctave,
    /// Old or new bass-clef notation.
    Bass,
    /// System of bass clarinet or Wagner tuba.
    System,
    /// Signature of the staff.
    Signature,
    /// Key of the movement.
    Movement,
    /// The temperament.
    Temperament,
    /// The key it is laid from.
    Root,
    /// On which note the brass tunes.
    TunedOn,
    /// Whether the page is printed at sounding pitch.
    Page,
}

impl Field {
    /// Its name.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Played => words::settings::PLAYED,
            Self::Clef => words::settings::CLEF,
            Self::ClefOctave => words::settings::OCTAVE_MARK_AT_THE_CLEF,
            Self::Bass => words::settings::BASS_CLEF_NOTATION,
            Self::System => words::settings::WRITTEN_IN_THE_SYSTEM,
            Self::Signature => words::settings::SIGNATURE_OF_THE_STAFF,
            Self::Movement => words::settings::MOVEMENT,
            Self::Temperament => words::settings::TEMPERAMENT,
            Self::Root => words::settings::TEMPERAMENT_FROM,
            Self::TunedOn => words::settings::BRASS_TUNED_ON_ITS,
            Self::Page => words::settings::THE_PAGE_IS_PRINTED,
        }
    }
}

/// Reference pitches in use, with what they are known as. Sources: ISO 16 for 440; the *diapason normal* of 1859
/// for 435; the others common practice.
pub const USUAL_PITCHES: [(&str, &str); 7] = [
    ("392", words::settings::FRENCH_LOW_PITCH),
    ("415", words::settings::BAROQUE),
    ("430", words::settings::CLASSICAL),
    ("435", "1859"),
    ("440", words::settings::TODAY),
    ("443", words::settings::MANY_ORCHESTRAS),
    ("466", words::settings::CHOIR_PITCH),
];

/// The settings as they stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
    fields: Vec<(Field, String, Vec<ListItem>)>,
}

impl Form {
    /// The settings of the staff in view.
    #[must_use]
    pub fn of(view: &View, page: &ReadPage) -> Self {
        let mut fields = Vec::new();
        let settings = page.passage.staves().get(page.staff).map(|staff| staff.settings).unwrap_or_default();
        if let Some(place) = view.start() {
            let notation = place.notation();
            if let Some(mechanism) = place.staff.mechanism {
                let items = [Mechanism::Natural, Mechanism::Valves]
                    .map(|one| ListItem::new(one.id(), words::settings::mechanism(one)));
                fields.push((Field::Played, mechanism.id().into(), items.into()));
            }
            let clef = place.habits.clef;
            let clefs = Clef::ALL.map(|clef| {
                ListItem::new(clef.to_string(), words::capital(&format!("{} {clef}", clef.name())))
            });
            fields.push((Field::Clef, clef.to_string(), clefs.into()));
            let marks = [1, 0, -1].map(|octave| ListItem::new(octave.to_string(), octave_mark(octave)));
            fields.push((Field::ClefOctave, clef.octave().to_string(), marks.into()));
            if let Some(bass) = notation.bass {
                let items =
                    [BassNotation::Old, BassNotation::New].map(|one| ListItem::new(one.id(), bass_name(one)));
                fields.push((Field::Bass, bass.id().into(), items.into()));
            }
            if let Some(scheme) = notation.scheme {
                let items =
                    Scheme::of(place.staff.instrument).iter().map(|one| ListItem::new(one.id(), one.words()));
                fields.push((Field::System, scheme.id().into(), items.collect()));
            }
            let source = settings.signature.unwrap_or_else(|| ResolvedStaff::usual_signature(&place.staff));
            fields.push((Field::Signature, signature_id(source), signatures()));
        }
        let movement = page.passage.movement.map(|key| key.to_string()).unwrap_or_default();
        fields.push((Field::Movement, movement, movements(view.names)));
        let tuning = page.intonation.tuning;
        let temperaments = TEMPERAMENTS.iter().map(|one| ListItem::new(one.id, one.name())).collect();
        fields.push((Field::Temperament, tuning.temperament.id.into(), temperaments));
        if tuning.temperament != Temperament::equal() {
            let roots = (-3..=8)
                .map(Tonic::from_fifths)
                .map(|root| ListItem::new(root.to_string(), view.names.tonic(root)));
            fields.push((Field::Root, tuning.root.to_string(), roots.collect()));
        }
        if view.natural_family().is_some() {
            let tuned = match page.intonation.tuned_on {
                TunedOn::C => "C",
                TunedOn::G => "G",
            };
            let items = vec![
                ListItem::new("C", words::settings::WRITTEN_C),
                ListItem::new("G", words::settings::WRITTEN_G),
            ];
            fields.push((Field::TunedOn, tuned.into(), items));
        }
        let printed = if settings.at_pitch { "sounding" } else { "written" };
        let items = vec![
            ListItem::new("written", words::settings::AS_THE_PLAYERS_READ_IT),
            ListItem::new("sounding", words::settings::AT_SOUNDING_PITCH),
        ];
        fields.push((Field::Page, printed.into(), items));
        Self { fields }
    }

    fn find(&self, field: Field) -> Option<&(Field, String, Vec<ListItem>)> {
        self.fields.iter().find(|(known, ..)| *known == field)
    }

    /// Whether the setting means something here.
    #[must_use]
    pub fn has(&self, field: Field) -> bool {
        self.find(field).is_some()
    }

    /// What can be chosen.
    #[must_use]
    pub fn items(&self, field: Field) -> Vec<ListItem> {
        self.find(field).map(|(_, _, items)| items.clone()).unwrap_or_default()
    }

    /// What is chosen.
    #[must_use]
    pub fn value(&self, field: Field) -> String {
        self.find(field).map(|(_, value, _)| value.clone()).unwrap_or_default()
    }
}

/// Sets a field to a value of its list; any other value changes nothing.
pub fn choose(document: &mut Document, field: Field, value: &str) {
    match field {
        Field::Played => {
            let all = [Mechanism::Natural, Mechanism::Valves];
            if let Some(one) = all.into_iter().find(|one| one.id() == value) {
                document.set_mechanism(one);
            }
        }
        Field::Clef => {
            if let Ok(clef) = value.parse() {
                document.set_clef(clef);
            }
        }
        Field::ClefOctave => {
            if let Ok(octave) = value.parse() {
                document.set_clef_octave(octave);
            }
        }
        Field::Bass => {
            let all = [BassNotation::Old, BassNotation::New];
            if let Some(one) = all.into_iter().find(|one| one.id() == value) {
                document.set_bass(one);
            }
        }
        Field::System => {
            if let Ok(scheme) = value.parse() {
                document.set_scheme(scheme);
            }
        }
        Field::Signature => {
            if let Some(source) = signature_of(value) {
                document.set_signature(source);
            }
        }
        Field::Movement => document.set_movement(value.parse().ok()),
        Field::Temperament => {
            if let Some(temperament) = Temperament::by_id(value) {
                document.set_temperament(temperament);
            }
        }
        Field::Root => {
            if let Ok(root) = value.parse() {
                document.set_root(root);
            }
        }
        Field::TunedOn => document.set_tuned_on(if value == "G" { TunedOn::G } else { TunedOn::C }),
        Field::Page => document.set_at_pitch(value == "sounding"),
    }
}

/// A year as typed; `None` where it is no year of music.
#[must_use]
pub fn year(text: &str) -> Option<i32> {
    text.trim().parse().ok().filter(|year| (1500..=2100).contains(year))
}

/// Air temperatures that can be entered, in °C.
const AIR: (f64, f64) = (0.0, 40.0);
/// What the air has where only one of the two temperatures is given, in °C.
const ROOM: f64 = 20.0;

/// Which of the two temperatures of the air.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Air {
    /// When the brass tuned.
    Tuned,
    /// Now.
    Playing,
}

/// The warmth with one temperature changed; an empty field leaves it out of account.
#[must_use]
pub fn warmer(before: Option<Warmth>, air: Air, celsius: Option<f64>) -> Option<Warmth> {
    let degrees = (celsius?.max(AIR.0).min(AIR.1) * 10.0).round() / 10.0;
    let before = before.unwrap_or(Warmth { tuned_at: ROOM, playing_at: ROOM });
    Some(match air {
        Air::Tuned => Warmth { tuned_at: degrees, ..before },
        Air::Playing => Warmth { playing_at: degrees, ..before },
    })
}

/// A temperature as it stands in its field.
#[must_use]
pub fn air_text(warmth: Option<Warmth>, air: Air) -> String {
    let degrees = warmth.map(|warmth| match air {
        Air::Tuned => warmth.tuned_at,
        Air::Playing => warmth.playing_at,
    });
    degrees.map(words::decimal).unwrap_or_default()
}

/// A reference pitch as it stands in its field.
#[must_use]
pub fn pitch_text(a4: f64) -> String {
    words::decimal(a4)
}

const fn bass_name(bass: BassNotation) -> &'static str {
    match bass {
        BassNotation::Old => words::settings::OLD_AN_OCTAVE_LOW,
        BassNotation::New => words::settings::NEW_AS_IN_TREBLE,
    }
}

fn octave_mark(octave: i8) -> &'static str {
    match octave {
        1 => words::settings::EIGHT_ABOVE,
        -1 => words::settings::EIGHT_BELOW,
        _ => words::settings::NONE,
    }
}

pub(super) fn signature_id(source: SignatureSource) -> String {
    match source {
        SignatureSource::None => "none".into(),
        SignatureSource::Movement => "movement".into(),
        SignatureSource::Typed(signature) => signature.0.to_string(),
    }
}

pub(super) fn signature_of(value: &str) -> Option<SignatureSource> {
    match value {
        "none" => Some(SignatureSource::None),
        "movement" => Some(SignatureSource::Movement),
        fifths => fifths.parse().ok().map(|fifths| SignatureSource::Typed(Signature(fifths))),
    }
}

pub(super) fn signatures() -> Vec<ListItem> {
    let usual = [
        ListItem::new("none", words::settings::NONE_PRINTED),
        ListItem::new("movement", words::settings::AS_THE_MOVEMENT_NEEDS),
    ];
    let typed = (-7..=7)
        .filter(|&fifths| fifths != 0)
        .map(|fifths: i32| ListItem::new(fifths.to_string(), words::signature(Signature(fifths))));
    usual.into_iter().chain(typed).collect()
}

pub(super) fn movements(names: Names) -> Vec<ListItem> {
    let keys = [Mode::Major, Mode::Minor].into_iter().flat_map(Key::common);
    let named = keys.map(|key| ListItem::new(key.to_string(), names.key(key)));
    core::iter::once(ListItem::new("", words::settings::KEY_UNKNOWN)).chain(named).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn warmth_needs_one_temperature_and_goes_with_it() {
        let warm = warmer(None, Air::Playing, Some(25.0)).unwrap();
        assert_eq!((warm.tuned_at, warm.playing_at), (20.0, 25.0));
        assert_eq!(warmer(Some(warm), Air::Tuned, Some(-90.0)).unwrap().tuned_at, 0.0);
        assert_eq!(warmer(Some(warm), Air::Tuned, None), None);
        assert_eq!(air_text(Some(warm), Air::Playing), "25");
    }

    #[test]
    fn every_value_of_every_list_can_be_chosen_and_comes_back() {
        for label in ["Corni in Es", "Clarinetto basso in Si♭", "Tenortuben in B", "Fagotti"] {
            let mut document = Document::new(ReadPage::of_label(label));
            document.set_clef(Clef::BASS);
            document.set_temperament(Temperament::by_id("young").unwrap());
            let form = |document: &Document| Form::of(&View::of(document.page()), document.page());
            for (field, _, items) in form(&document).fields {
                for item in items {
                    let mut changed = document.clone();
                    choose(&mut changed, field, &item.value);
                    assert_eq!(form(&changed).value(field), item.value, "{label}: {field:?}");
                }
            }
        }
    }
}
