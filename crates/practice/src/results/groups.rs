//! A class by what stood on the page, where the questions are known: by staff as it was printed, and by clef.

use super::class::Class;
use super::given::Given;
use super::tally::Tally;
use crate::ask::place;
use crate::question::Question;
use crate::shown::Shown;
use crookwise_score::Choice;
use crookwise_theory::Clef;
use crookwise_theory::label::StaffLabel;

/// What a class gave, by what stood on the page. What was asked about all staves together is in neither list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ByPage {
    /// By the staff asked about, in the order in which they were asked.
    pub staves: Vec<(AskedOn, Tally)>,
    /// By crook or instrument, whatever its label: the one that was read, after a change the new one.
    pub crooks: Vec<(StaffLabel, Tally)>,
    /// By its clef.
    pub clefs: Vec<(Clef, Tally)>,
}

/// A staff as it was printed where a question asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AskedOn {
    /// The label at its head.
    pub label: String,
    /// What stood beside the label, where that leaves something open.
    pub beside: Vec<Shown>,
    /// The change of crook that held at the place.
    pub changed: Option<String>,
}

impl AskedOn {
    /// The staff a question is about and its clef; `None` where it is about all of them.
    pub(super) fn of(question: &Question) -> Option<(Self, Clef)> {
        let at = question.spot_of_staff()?;
        let staff = question.passage.staves().get(at.staff)?;
        let clef = place(&question.passage, at)?.habits.clef;
        let changed = question.change_that_holds().map(str::to_owned);
        // The key of the movement differs from question to question and names no staff.
        let beside = question.shown(at.staff).into_iter().filter(|one| !matches!(one, Shown::Key(_)));
        Some((Self { label: staff.label.clone(), beside: beside.collect(), changed }, clef))
    }
}

impl Class {
    /// By staff and by clef. `questions` are those of the exercise; what was given to others is not counted.
    #[must_use]
    pub fn by_page(&self, questions: &[Question]) -> ByPage {
        let mut staves: Vec<(AskedOn, Vec<&Given>)> = Vec::new();
        let mut crooks: Vec<(Crook, Vec<&Given>)> = Vec::new();
        let mut clefs: Vec<(Clef, Vec<&Given>)> = Vec::new();
        for (number, question) in questions.iter().enumerate() {
            let Some((staff, clef)) = AskedOn::of(question) else { continue };
            let given = self.students.iter().filter_map(|student| student.given.get(number));
            let given: Vec<&Given> = given.collect();
            put(&mut staves, staff, &given);
            if let Some(crook) = Crook::of(question) {
                put(&mut crooks, crook, &given);
            }
            put(&mut clefs, clef, &given);
        }
        let crooks = counted(crooks).into_iter().map(|(Crook(staff), tally)| (staff, tally)).collect();
        ByPage { staves: counted(staves), crooks, clefs: counted(clefs) }
    }
}

/// What is read, the same under any label.
struct Crook(StaffLabel);

impl PartialEq for Crook {
    fn eq(&self, other: &Self) -> bool {
        Choice::of(&self.0) == Choice::of(&other.0)
    }
}

impl Crook {
    fn of(question: &Question) -> Option<Self> {
        let place = place(&question.passage, question.spot_of_staff()?)?;
        // Neither players nor numbers, which the name would tell.
        Some(Self(StaffLabel { count: None, players: Vec::new(), ..place.staff }))
    }
}

/// Puts what was given under a head.
fn put<'a, T: PartialEq>(list: &mut Vec<(T, Vec<&'a Given>)>, head: T, given: &[&'a Given]) {
    match list.iter_mut().find(|(known, _)| *known == head) {
        Some((_, known)) => known.extend_from_slice(given),
        None => list.push((head, given.to_vec())),
    }
}

fn counted<T>(list: Vec<(T, Vec<&Given>)>) -> Vec<(T, Tally)> {
    let counted = list.into_iter().map(|(head, given)| (head, Tally::of(given)));
    counted.filter(|(_, tally)| tally.asked() > 0).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::{AskedStaff, Exercise};
    use crate::kind::Kind;
    use crate::mistake::Mistake;
    use crate::pace::Pace;
    use crate::results::{Fingerprint, Outcome, find_all};
    use crookwise_score::{Change, ChangeTo, Settings};

    fn exercise() -> Exercise {
        let bass = Settings { clef: Some(Clef::BASS), ..Settings::default() };
        let low = AskedStaff { settings: bass, ..AskedStaff::of("Corni in F") };
        let staves = vec![AskedStaff::of("Corni in Es"), low, AskedStaff::of("Clarinetti in A")];
        Exercise { kinds: vec![Kind::Sounds, Kind::Label], staves, questions: 18, ..Exercise::default() }
    }

    #[test]
    fn a_class_is_counted_by_staff_as_printed_and_by_clef() {
        let exercise = exercise();
        let questions = exercise.questions().unwrap();
        let third = Given::wrong(Pace::Fluent, &[Mistake::ThirdForSixth]);
        let on = |question: &Question| question.passage.staves()[question.at.staff].label.clone();
        // On every horn in E-flat a third for a sixth, all else right.
        let given: Vec<Given> = questions
            .iter()
            .map(
                |question| {
                    if on(question) == "Corni in Es" { third.clone() } else { Given::Right(Pace::Fluent) }
                },
            )
            .collect();
        let exercise_of_three = exercise;
        let exercise = Fingerprint::of_exercise(&exercise_of_three);
        let code = |tag| Outcome::new(exercise, tag, given.clone(), "").unwrap().code();
        let class = Class::of(exercise, &find_all(&format!("{} {}", code(1), code(2))));
        let page = class.by_page(&questions);
        assert_eq!(page.staves.iter().map(|(_, tally)| tally.asked()).sum::<u32>(), 36);
        assert_eq!(page.clefs.iter().map(|(_, tally)| tally.asked()).sum::<u32>(), 36);
        for (staff, tally) in &page.staves {
            assert_eq!(tally.wrong > 0, staff.label == "Corni in Es", "{staff:?}");
            let asked = questions.iter().filter(|question| on(question) == staff.label).count();
            // In which notation low notes stand is said where there are any: then one label has two lines.
            let lines = page.staves.iter().filter(|(other, _)| other.label == staff.label);
            assert_eq!(lines.map(|(_, tally)| tally.asked() as usize).sum::<usize>(), 2 * asked);
        }
        let bass = page.clefs.iter().find(|(clef, _)| *clef == Clef::BASS).unwrap();
        // The low horn in all languages of its label.
        let low = |question: &&Question| question.passage.staves()[0].settings.clef == Some(Clef::BASS);
        assert_eq!(bass.1.asked() as usize, 2 * questions.iter().filter(low).count());
        // Under two labels it is one crook.
        let two = Exercise {
            staves: vec![AskedStaff::of("Corni in Es"), AskedStaff::of("Cors en Mi bémol")],
            kinds: vec![Kind::Sounds],
            ..exercise_of_three
        };
        let page = class.by_page(&two.questions().unwrap());
        assert_eq!(page.crooks.iter().map(|(staff, _)| staff.name()).collect::<Vec<_>>(), ["Horn in E-flat"]);
        assert_eq!((page.staves.len(), page.crooks[0].1.asked()), (2, 36));
        // Of an exercise that is not known there is nothing to tell.
        assert_eq!(class.by_page(&[]), ByPage::default());
    }

    #[test]
    fn a_change_that_holds_is_another_staff() {
        let mut question = exercise().questions().unwrap().remove(0);
        let own = AskedOn::of(&question).unwrap().0;
        assert_eq!(own.changed, None);
        assert_eq!(question.staff_as_met().as_ref(), Some(&own.label));
        let to = ChangeTo::Label("in D".into());
        let before = Change { column: question.at.column, player: None, to };
        question.passage.set_change(question.at.staff, before).unwrap();
        let changed = AskedOn::of(&question).unwrap().0;
        assert_eq!((changed.label, changed.changed.as_deref()), (own.label, Some("in D")));
        assert_ne!(question.staff_as_met().unwrap(), "Corni in Es");
    }
}
