//! What stands beside the label of a staff in a question: the words without which the same picture could mean two
//! things, and none besides.

use crate::answer::Answer;
use crate::ask::{ask, place, resolved, written_answers};
use crate::chords;
use crate::kind::Kind;
use crate::labels::{is_b_natural, is_english};
use crate::question::Question;
use crate::setting::named;
use core::fmt;
use crookwise_score::{Choice, Passage, Place, ResolvedStaff, SignatureSource};
use crookwise_theory::label::{Decoded, StaffLabel};
use crookwise_theory::{BassNotation, Key, Notation, OctaveWord, Pitch, Scheme, Step, Tonic};

/// One thing that is said beside a label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shown {
    /// Alto or basso, where the label leaves it open.
    Octave(OctaveWord),
    /// The staff by its name, where the label may name another.
    Staff(Box<StaffLabel>),
    /// What written C4 sounds, where no name says it.
    SoundingC(Pitch),
    /// The system of notation of a bass clarinet or a Wagner tuba.
    Scheme(Scheme),
    /// Old or new bass-clef notation.
    Bass(BassNotation),
    /// The page prints what sounds.
    AtPitch,
    /// The key of the movement, where it decides the spelling and no signature tells it.
    Key(Key),
    /// What holds for one player alone, by his number.
    Player(u32, Box<Self>),
}

/// How keys and notes are called.
#[derive(Clone, Copy)]
#[allow(missing_debug_implementations, reason = "functions have nothing to show")]
pub struct Naming<'a> {
    /// The key of an instrument.
    pub tonic: &'a dyn Fn(Tonic) -> String,
    /// The key of a movement.
    pub key: &'a dyn Fn(Key) -> String,
    /// A note with its octave.
    pub note: &'a dyn Fn(Pitch) -> String,
}

impl Shown {
    /// Whether it says how the label itself is read: of a crook put in later it says nothing.
    #[must_use]
    pub const fn is_of_label(&self) -> bool {
        matches!(self, Self::Octave(_) | Self::Staff(_) | Self::SoundingC(_) | Self::Player(..))
    }

    /// In a few words, as they stand beside the label.
    #[must_use]
    pub fn words_by(&self, naming: Naming<'_>) -> String {
        match self {
            Self::Octave(word) => word.word().to_owned(),
            Self::Staff(staff) => staff.name_by(naming.tonic),
            Self::SoundingC(sounds) => {
                let written = (naming.note)(Pitch::natural(Step::C, 4));
                format!("written {written} sounds {}", (naming.note)(*sounds))
            }
            Self::Scheme(scheme) => system(*scheme).to_owned(),
            Self::Bass(BassNotation::Old) => "old notation".to_owned(),
            Self::Bass(BassNotation::New) => "new notation".to_owned(),
            Self::AtPitch => "printed as it sounds".to_owned(),
            Self::Key(key) => format!("the movement is in {}", (naming.key)(*key)),
            Self::Player(number, own) => format!("player {number}: {}", own.words_by(naming)),
        }
    }
}

/// The system by what it is known as; what it does to the notes is what a reader must know.
const fn system(scheme: Scheme) -> &'static str {
    match scheme {
        Scheme::French => "French notation",
        Scheme::German => "German notation",
        Scheme::Russian => "Russian notation",
        Scheme::Italian => "Italian notation",
        Scheme::Rheingold => "as in Das Rheingold",
        Scheme::Goetterdaemmerung => "as in Götterdämmerung",
        Scheme::Alpensinfonie => "as in Eine Alpensinfonie",
    }
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let tonic = |tonic: Tonic| match tonic.alter {
            -1 => format!("{}-flat", tonic.step.letter()),
            0 => tonic.step.letter().to_string(),
            1 => format!("{}-sharp", tonic.step.letter()),
            _ => tonic.to_string(),
        };
        let (key, note) = (|key: Key| key.to_string(), |note: Pitch| note.to_string());
        f.write_str(&self.words_by(Naming { tonic: &tonic, key: &key, note: &note }))
    }
}

/// What is said beside the label of a staff where nothing is asked.
#[must_use]
pub fn shown_of(passage: &Passage, staff: usize) -> Vec<Shown> {
    let mut shown = Vec::new();
    let Some(resolved) = resolved(passage, staff) else { return shown };
    let players = passage.staves().get(staff).map_or(1, crookwise_score::Staff::players);
    let label = passage.staves().get(staff).map_or("", |staff| staff.label.as_str());
    shown.extend(readings(label, &resolved, players));
    let mut put = |one: Option<Shown>| {
        if let Some(one) = one.filter(|one| !shown.contains(one)) {
            shown.push(one);
        }
    };
    for (_, place) in (0..players).flat_map(|player| resolved.spans(player)) {
        let notation = place.notation();
        put(notation.scheme.map(Shown::Scheme));
        put(notation.bass.map(Shown::Bass));
        put(place.habits.at_pitch.then_some(Shown::AtPitch));
    }
    shown
}

impl Question {
    /// What is said beside the label of a staff. Nothing where a label is what is asked.
    #[must_use]
    pub fn shown(&self, staff: usize) -> Vec<Shown> {
        if self.kind == Kind::Label {
            return Vec::new();
        }
        let mut shown = shown_of(&self.passage, staff);
        shown.extend(self.deciding_key().filter(|_| staff == self.at.staff).map(Shown::Key));
        shown
    }

    /// The number of the player asked about, where his staff has several and one of them is meant.
    #[must_use]
    pub fn player(&self) -> Option<u32> {
        let one = !matches!(
            self.kind,
            Kind::Label | Kind::Chord | Kind::WrongNote | Kind::WrongStaff | Kind::Players
        );
        let several = self.passage.staves().get(self.at.staff).is_some_and(|staff| staff.players() > 1);
        (one && several).then(|| Some(resolved(&self.passage, self.at.staff)?.number(self.at.player)))?
    }

    /// The key of the movement where other answers would be right without it, and nothing else shows it.
    fn deciding_key(&self) -> Option<Key> {
        let key = self.passage.movement_at(self.at.column)?;
        let (page, at) = (without_key(&self.passage), self.at);
        let (right, also) = match self.kind {
            Kind::Sounds | Kind::InHand => {
                let hand = self.in_hand.as_deref().and_then(named);
                let keyless = ask(self.kind, page, at, hand.as_ref())?;
                (keyless.right, keyless.also)
            }
            Kind::Writes => written_answers(&place(&page, at)?, self.given?),
            Kind::Chord => {
                let chord = chords::chord(&page).map(Answer::Chord);
                return Some(key).filter(|_| chord.as_ref() != Some(&self.right));
            }
            _ => return None,
        };
        Some(key).filter(|_| right != self.right || also != self.also)
    }
}

/// The readings of a label: of all players alike, else of each.
fn readings(label: &str, resolved: &ResolvedStaff, players: usize) -> Vec<Shown> {
    let seats = resolved.decoded.seats(players);
    // A staff that the label names and nobody reads here: then which of them is read must be said.
    let unread = |place: &Place| {
        let mut staves = resolved.decoded.staves.iter().enumerate();
        staves.any(|(at, other)| {
            let read = seats.iter().any(|seat| seat.staff == at);
            !read && Choice::of(other) != Choice::of(&place.staff)
        })
    };
    let own = |player: usize| match (seats.get(player), resolved.place_at(0, player)) {
        (seat, Some(place)) => {
            let own = reading(label, resolved, seat.map_or(0, |seat| seat.staff), place);
            let name = || vec![Shown::Staff(Box::new(place.staff.clone()))];
            if own.is_empty() && unread(place) { name() } else { own }
        }
        _ => Vec::new(),
    };
    let each: Vec<Vec<Shown>> = (0..players).map(own).collect();
    let alike = each.windows(2).all(|pair| pair.first() == pair.last());
    let of_player = |(player, own): (usize, Vec<Shown>)| {
        let number = resolved.number(player);
        own.into_iter().map(move |one| if alike { one } else { Shown::Player(number, Box::new(one)) })
    };
    each.into_iter().enumerate().take(if alike { 1 } else { players }).flat_map(of_player).collect()
}

/// What a player reads, where the label leaves it open or says something else; `seat` is the staff of the label that
/// is his.
fn reading(label: &str, resolved: &ResolvedStaff, seat: usize, place: &Place) -> Vec<Shown> {
    let decoded = &resolved.decoded;
    let staff = &place.staff;
    let own = decoded.staves.get(seat);
    let as_usual = own.is_some_and(|own| Choice::of(own) == Choice::of(staff));
    if as_usual && !(is_open(label, decoded, seat, place) && is_worth_saying(staff)) {
        return Vec::new();
    }
    let built = staff.crook().is_some();
    let same = own.filter(|own| own.instrument == staff.instrument);
    if let (Some(word), true) = (staff.octave, built && same.is_some_and(|own| own.key == staff.key)) {
        return vec![Shown::Octave(word)];
    }
    let known = decoded.alternatives.iter().any(|other| Choice::of(&other.staff) == Choice::of(staff));
    // A name that the usual reading has as well tells nothing.
    let told = as_usual || built || (known && own.is_none_or(|own| own.name() != staff.name()));
    let name = (told || same.is_none()).then(|| Shown::Staff(Box::new(staff.clone())));
    let sounds = (!told).then(|| Shown::SoundingC(Pitch::natural(Step::C, 4) + staff.transposition.0));
    name.into_iter().chain(sounds).collect()
}

/// Whether a label may mean something else where it stands. That English print would mean B natural by B is no doubt
/// where the label is not English; what instruments without crooks may be besides is none where the label takes
/// nothing for granted.
fn is_open(label: &str, decoded: &Decoded, seat: usize, place: &Place) -> bool {
    let staff = &place.staff;
    let effect = |staff: &StaffLabel| Notation::of(staff, place.habits).printed_to_sounding();
    let others = decoded.alternatives.iter().filter(|other| other.of == seat).map(|other| &other.staff);
    let open = others
        .filter(|other| effect(other) != effect(staff))
        .any(|other| is_english(label) || !is_b_natural(staff, other));
    let taken = staff.crook_family().is_some() || decoded.assumed.is_some();
    open && taken && staff.instrument.systems.is_none()
}

/// The low trumpet in B-flat is the usual one and goes without its word.
fn is_worth_saying(staff: &StaffLabel) -> bool {
    staff.octave.is_none_or(|word| staff.name().ends_with(word.word()))
}

/// The same page with its signatures as they stand and no key of the movement.
fn without_key(page: &Passage) -> Passage {
    let mut bare = page.clone();
    for at in 0..page.staves().len() {
        let first = resolved(page, at).and_then(|staff| Some(staff.place_at(0, 0)?.signature));
        if let (Some(staff), Some(signature)) = (bare.staff_mut(at), first) {
            staff.settings.signature = Some(SignatureSource::Typed(signature));
        }
    }
    bare.movement = None;
    for column in 0..page.columns().len() {
        // The column is one of the page.
        let _ = bare.set_movement_at(column, None);
    }
    bare
}
