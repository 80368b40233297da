//! A term: what each student did in one exercise after the other.

use super::class::Class;
use super::find::Found;
use super::outcome::Fingerprint;
use super::tally::Tally;

/// Codes of several exercises by student.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Term {
    /// The exercises, in the order in which they came.
    pub exercises: Vec<Fingerprint>,
    /// The students by their names, in the order in which they came. Codes without a name are nobody's.
    pub lines: Vec<TermLine>,
}

/// What one student did in the course of a term.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TermLine {
    /// The name as it was typed first; capitals make no other student.
    pub name: String,
    /// For each exercise of the term its runs, in the order in which they came.
    pub runs: Vec<Vec<Tally>>,
}

impl Term {
    /// The term whose codes were found.
    #[must_use]
    pub fn of(found: &Found) -> Self {
        let mut term = Self::default();
        for code in Class::once_each(&found.codes) {
            let exercise = code.outcome.exercise();
            if !term.exercises.contains(&exercise) {
                term.exercises.push(exercise);
            }
        }
        for code in Class::once_each(&found.codes) {
            let Some(name) = code.outcome.name() else { continue };
            let at = term.exercises.iter().position(|known| *known == code.outcome.exercise());
            let exercises = term.exercises.len();
            let line = match term.lines.iter().position(|line| line.name.eq_ignore_ascii_case(name)) {
                Some(line) => line,
                None => {
                    term.lines.push(TermLine { name: name.to_owned(), runs: vec![Vec::new(); exercises] });
                    term.lines.len() - 1
                }
            };
            let runs = term.lines.get_mut(line).zip(at).and_then(|(line, at)| line.runs.get_mut(at));
            if let Some(runs) = runs {
                runs.push(Tally::of(code.outcome.given()));
            }
        }
        term
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pace::Pace;
    use crate::results::{Given, Outcome, find_all};

    #[test]
    fn a_student_has_a_line_over_the_exercises_of_a_term() {
        let weeks = [b"first", b"other"].map(|week| Fingerprint::of(week));
        let code = |week: usize, tag, right: usize, name: &str| {
            let mut given = vec![Given::Right(Pace::Steady); right];
            given.resize(4, Given::LeftOut);
            Outcome::new(weeks[week], tag, given, name).unwrap().code()
        };
        let text = [
            code(0, 1, 2, "Ann"),
            code(0, 2, 1, "Ben"),
            code(1, 3, 4, "ann"),
            code(0, 4, 3, "Ann"),
            code(1, 5, 1, ""),
        ]
        .join("\n");
        let term = Term::of(&find_all(&text));
        assert_eq!(term.exercises, weeks);
        let right = |line: &TermLine| {
            let runs = |runs: &Vec<Tally>| runs.iter().map(|run| (run.right, run.asked())).collect();
            line.runs.iter().map(runs).collect::<Vec<Vec<_>>>()
        };
        assert_eq!(term.lines[0].name, "Ann");
        assert_eq!(right(&term.lines[0]), [vec![(2, 4), (3, 4)], vec![(4, 4)]]);
        assert_eq!((term.lines[1].name.as_str(), right(&term.lines[1])), ("Ben", vec![vec![(1, 4)], vec![]]));
        assert_eq!(term.lines.len(), 2);
        assert_eq!(Term::of(&find_all("")), Term::default());
    }
}
