//! What a wrong answer took for what: found from the question, the mistakes, and how far off the answer was.

use super::confusions::{Sight, Taken};
use super::given::{Explained, Missed};
use super::groups::AskedOn;
use crate::answer::Answer;
use crate::ask::{note, place};
use crate::kind::Kind;
use crate::labels;
use crate::mistake::Mistake;
use crate::off::{HAND, Off};
use crate::question::Question;
use crate::slips::transpositions;
use crookwise_score::{Choice, Place};
use crookwise_theory::label::{DecodeOptions, StaffLabel, decode};
use crookwise_theory::{Clef, Degree, Interval, Pitch, Step, Transposition};

/// Mistakes by which one label is taken for another.
const OF_LABELS: [Mistake; 8] = [
    Mistake::EForEs,
    Mistake::BForH,
    Mistake::OtherClarinet,
    Mistake::AltoForBasso,
    Mistake::OtherPlayersCrook,
    Mistake::CrookChange,
    Mistake::TakenForHorn,
    Mistake::OtherInstrument,
];

/// What stood there and what it was taken for.
pub(super) fn taken_for(question: &Question, missed: &Missed) -> (Sight, Taken) {
    // A mistake with a name is the same mistake however far it leads.
    let off = missed.off.as_ref().filter(|_| missed.named == Explained::Nothing);
    let plain = || Taken::Missed(Missed { off: off.cloned(), ..missed.clone() }, None);
    let staff = || {
        let on = AskedOn::of(question);
        on.map_or(Sight::Page(question.kind), |(staff, _)| Sight::Staff(staff))
    };
    match question.kind {
        Kind::Partial | Kind::Made | Kind::Degree | Kind::Clef => {
            let taken = said(question, missed.off.as_ref()).map_or_else(plain, Taken::Answer);
            (Sight::Answer(question.kind, question.right.clone()), taken)
        }
        Kind::Label => (staff(), label_said(question, missed).map_or_else(plain, Taken::Label)),
        Kind::Sounds | Kind::Writes | Kind::InHand | Kind::Players => match misread_clef(question, missed) {
            Some((own, other)) => (Sight::Clef(own), Taken::Clef(other)),
            None => (staff(), read_as(question, missed).unwrap_or_else(plain)),
        },
        Kind::Chord | Kind::WrongNote | Kind::WrongStaff | Kind::Natural => {
            (Sight::Page(question.kind), plain())
        }
    }
}

/// The answer that was given, found again from the right one and how far it was off.
fn said(question: &Question, off: Option<&Off>) -> Option<Answer> {
    Some(match (&question.right, off?) {
        (Answer::Partial(Some(right)), Off::Partials(by)) => {
            Answer::Partial(Some(u8::try_from(i32::from(*right) + by).ok()?))
        }
        (Answer::Partial(Some(_)), Off::Series { on: true }) => Answer::Partial(None),
        (Answer::Made(right), Off::Hand(by)) => {
            let order = HAND;
            let at = order.iter().position(|one| one == right)?;
            let there = i32::try_from(at).ok()? + by;
            Answer::Made(*order.get(usize::try_from(there).ok()?)?)
        }
        (Answer::Made(_), Off::Made { given, .. }) => Answer::Made(*given),
        (Answer::Degree(right), Off::DegreeSign(by)) => {
            Answer::Degree(Degree { alter: right.alter + by, ..*right })
        }
        (Answer::Degree(right), Off::Degrees(by, alter)) => {
            let number = (i32::from(right.number) - 1 + by).rem_euclid(7) + 1;
            Answer::Degree(Degree { number: u8::try_from(number).ok()?, alter: *alter })
        }
        // Clefs with an octave and clefs on other lines may come to the same: what was offered tells them apart.
        (Answer::Clef { clef, octaves, fifths }, Off::Clef(letters, signs)) => {
            let line = clef.bottom_line().diatonic() + 7 * octaves + letters;
            let offered = question.choices.iter().filter(|choice| match choice {
                Answer::Clef { clef, octaves, fifths: offered } => {
                    clef.bottom_line().diatonic() + 7 * octaves == line && *offered == fifths + signs
                }
                _ => false,
            });
            only(offered)?.clone()
        }
        _ => return None,
    })
}

/// The one there is.
fn only<T>(mut found: impl Iterator<Item = T>) -> Option<T> {
    let one = found.next()?;
    found.next().is_none().then_some(one)
}

/// Which label a label was taken for.
fn label_said(question: &Question, missed: &Missed) -> Option<String> {
    let Answer::Label(right) = question.right else { return None };
    let Some(Off::Label(same, by)) = missed.off else { return None };
    let transposition = Transposition(right.transposition.0 + by);
    let meant = |choice: &Choice| {
        choice.transposition == transposition && (choice.instrument == right.instrument) == same
    };
    let offered = question.choices.iter().filter_map(|choice| match choice {
        Answer::Label(choice) => Some(*choice).filter(meant),
        _ => None,
    });
    let own = Choice { transposition, ..right };
    let choice = only(offered).or_else(|| same.then_some(own))?;
    let label = question.passage.staves().first()?.label.as_str();
    let decoded = decode(label, DecodeOptions::default());
    let (staff, other) = (right.among(&decoded)?, choice.among(&decoded)?);
    let other = StaffLabel { octave: other.crook().and_then(|crook| crook.octave), ..other };
    // A key that no crook of the kind stands in is no label.
    let named = other.crook().is_some() || other.crook_family().is_none();
    let text = labels::like(label, &staff, &other);
    (named && text != label).then_some(text)
}

/// The clef of the staff and the one it was taken for.
fn misread_clef(question: &Question, missed: &Missed) -> Option<(Clef, Clef)> {
    if missed.named != Explained::One(Mistake::ClefMisread) || question.kind != Kind::Sounds {
        return None;
    }
    let at = question.spot_of_staff()?;
    let place = place(&question.passage, at)?;
    let printed = note(&question.passage, at)?.0;
    let own = place.habits.clef;
    let Some(Off::Note(by)) = missed.off else { return None };
    // Who overlooks the bass clef does not think of its old notation either.
    let read = printed + by + place.notation().printed_to_written;
    let same = |clef: &&Clef| clef.pitch_at(own.position(printed)).diatonic() == read.diatonic();
    let others = [Clef::TREBLE, Clef::BASS, Clef::ALTO, Clef::TENOR];
    let other = only(others.iter().filter(|clef| **clef != own.without_octave()).filter(same))?;
    Some((own, *other))
}

/// The label with which a note was read, where one was taken for another; or the label on which an answer that has no name
/// would have been right.
fn read_as(question: &Question, missed: &Missed) -> Option<Taken> {
    let at = question.spot_of_staff()?;
    let staff = question.passage.staves().get(at.staff)?;
    let place = place(&question.passage, at)?;
    let label = |to: Interval| label_of(&staff.label, &place, to);
    if missed.named == Explained::Nothing {
        let like = wrong_interval(question, &place, missed.off.as_ref()).and_then(label);
        return like.map(|like| Taken::Missed(missed.clone(), Some(like)));
    }
    // An octave may have slipped alone: the label was perhaps read rightly.
    let slipped = missed.named.mistakes().any(|one| one == Mistake::Octave);
    if (slipped && question.kind == Kind::Writes)
        || matches!(missed.named, Explained::Both(..))
        || !missed.named.mistakes().any(|one| OF_LABELS.contains(&one))
    {
        return None;
    }
    // By the answer; where a code does not tell it, by the mistake.
    let by_answer = wrong_interval(question, &place, missed.off.as_ref());
    let by_mistake = || {
        let all = transpositions(&place.staff, place.notation().transposition.0);
        let of = |(mistake, _): &&(Mistake, Interval)| {
            OF_LABELS.contains(mistake) && missed.named.mistakes().any(|one| one == *mistake)
        };
        only(all.iter().filter(of)).map(|(_, to)| *to)
    };
    by_answer.and_then(label).or_else(|| by_mistake().and_then(label)).map(Taken::Label)
}

/// From written to sounding as the answer was found.
fn wrong_interval(question: &Question, place: &Place, off: Option<&Off>) -> Option<Interval> {
    let own = place.notation().transposition.0;
    let by = match off? {
        Off::Note(by) => *by,
        Off::Notes(each) => {
            let by = *each.first()?;
            each.iter().all(|other| *other == by).then_some(by)?
        }
        _ => return None,
    };
    match question.kind {
        Kind::Writes => Some(own - by),
        // In hand it may as well be the other transposition that was wrong.
        Kind::InHand => None,
        _ => Some(own + by),
    }
}

/// The label of a staff like this one that sounds so far from what is written.
fn label_of(label: &str, place: &Place, to: Interval) -> Option<String> {
    let staff = &place.staff;
    let other = match staff.crook_family() {
        Some(family) => {
            let crook = family.by_transposition(Transposition(to))?;
            StaffLabel {
                key: Some(crook.tonic),
                octave: crook.octave,
                transposition: crook.transposition,
                ..staff.clone()
            }
        }
        None => {
            let pair = staff.instrument.other_of_pair()?;
            let transposition = pair.transposition.filter(|own| own.0 == to)?;
            let key = Some((Pitch::natural(Step::C, 4) + to).tonic());
            StaffLabel { instrument: pair, key, transposition, ..staff.clone() }
        }
    };
    let text = labels::like(label, staff, &other);
    (text != label).then_some(text)
}
