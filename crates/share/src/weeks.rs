//! A course that a teacher plans over weeks, as text for the device, a file and a link.
//!
//! The first line is its number and its title; a line `week` begins a week, with its day behind where it has one; every
//! line that begins with `/score?` is the link to a place of a movement; every other one is an exercise as the link to it has
//! it, checksum and all:
//!
//! ```text
//! 4711 Horns in autumn
//! week 2026-12-14
//! v=2.9fa60bd5&do=AQAKAQIBBwIWQ29ybmkgaW4gRXMeQ2xhcmluZXR0aSBpbiBB&title=First+crooks
//! week
//! /score?demo=1&bars=28-33&along=5
//! ```

use crate::Link;
use crate::day::Day;
use crate::error::LinkError;
use crate::fit::most;
use crate::practise::{PractiseLink, SentExercise};
use crookwise_practice::clean_title;

/// Weeks of the longest plan.
pub const MOST_WEEKS: usize = 60;
/// Exercises and places of the fullest week.
pub const MOST_OF_A_WEEK: usize = 20;

/// The beginning of the line of a week.
const WEEK: &str = "week";
/// What stands before an exercise in the link to it.
const PLACE: &str = "/practise?";
/// What stands before a place of a movement in the link to it.
const SCORE: &str = "/score?";

/// A course over weeks.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WeekPlan {
    /// By which it is known again when its maker has changed it.
    pub number: u32,
    /// Its title.
    pub title: String,
    /// Its weeks, one after the other.
    pub weeks: Vec<PlannedWeek>,
}

/// A week of it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PlannedWeek {
    /// The day by which it is to be done; `None` where only its place in the course counts.
    pub by: Option<Day>,
    /// What is to be done.
    pub exercises: Vec<SentExercise>,
    /// Places of movements to look at and listen to, as the pairs of the links to them.
    pub places: Vec<String>,
}

impl WeekPlan {
    /// The plan as text.
    #[must_use]
    pub fn to_text(&self) -> String {
        let mut out = format!("{} {}", self.number, clean_title(&self.title).trim());
        for week in &self.weeks {
            out.push_str(&week.by.map_or_else(|| format!("\n{WEEK}"), |day| format!("\n{WEEK} {day}")));
            for exercise in &week.exercises {
                let link = Link::from(PractiseLink::Do(Some(exercise.clone()))).encode();
                out.push('\n');
                out.push_str(link.strip_prefix(PLACE).unwrap_or(&link));
            }
            for place in &week.places {
                out.push('\n');
                out.push_str(SCORE);
                out.push_str(place);
            }
        }
        out
    }

    /// How many of its exercises, from the first on, a code for a camera holds of a course that goes into none; `front` is what stands before a link in the address, the
    /// sign `#` at its end.
    #[must_use]
    pub fn held_by_a_code(&self, front: &str) -> usize {
        let is_held = |count: usize| {
            let link = Link::from(PractiseLink::Weeks(self.first_exercises(count).to_text()));
            link.share(front).is_ok_and(|shared| shared.code.is_ok())
        };
        most(self.exercises(), is_held)
    }

    /// The same with its first exercises alone, and the weeks they are in.
    fn first_exercises(&self, count: usize) -> Self {
        let mut left = count;
        let mut weeks = Vec::new();
        for week in &self.weeks {
            if left == 0 {
                break;
            }
            let exercises: Vec<SentExercise> = week.exercises.iter().take(left).cloned().collect();
            left -= exercises.len();
            weeks.push(PlannedWeek { exercises, ..week.clone() });
        }
        Self { weeks, ..self.clone() }
    }

    /// Reads a plan.
    ///
    /// # Errors
    /// Where it is none, or an exercise of it cannot be opened.
    pub fn from_text(text: &str) -> Result<Self, LinkError> {
        let mut lines = text.lines();
        let head = lines.next().unwrap_or_default();
        let (number, title) = head.split_once(' ').unwrap_or((head, ""));
        let mut plan = Self {
            number: number.parse().map_err(|_| LinkError::Damaged)?,
            title: clean_title(title).trim().to_owned(),
            weeks: Vec::new(),
        };
        for line in lines {
            if let Some(day) = line.strip_prefix(WEEK).filter(|day| day.is_empty() || day.starts_with(' ')) {
                let by = match day.trim() {
                    "" => None,
                    day => Some(day.parse().map_err(|_| LinkError::Damaged)?),
                };
                plan.weeks.push(PlannedWeek { by, ..PlannedWeek::default() });
                continue;
            }
            let week = plan.weeks.last_mut().ok_or(LinkError::Damaged)?;
            if let Some(place) = line.strip_prefix(SCORE) {
                week.places.push(place.to_owned());
            } else {
                match Link::decode_kept(&format!("{PLACE}{line}"))? {
                    Some(Link::Practise(PractiseLink::Do(Some(exercise)))) => week.exercises.push(exercise),
                    _ => return Err(LinkError::Damaged),
                }
            }
            if week.exercises.len() + week.places.len() > MOST_OF_A_WEEK {
                return Err(LinkError::TooLong);
            }
        }
        if plan.weeks.len() > MOST_WEEKS { Err(LinkError::TooLong) } else { Ok(plan) }
    }

    /// How many exercises there are in all weeks.
    #[must_use]
    pub fn exercises(&self) -> usize {
        self.weeks.iter().map(|week| week.exercises.len()).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::{AskedStaff, Exercise, Material};

    fn exercise(title: &str, seed: u32) -> SentExercise {
        let staves = vec![AskedStaff::of("Corni in Es")];
        SentExercise::of(&Exercise { title: title.into(), staves, seed, ..Exercise::default() })
    }

    fn about_a_page() -> SentExercise {
        let Ok(Some(Link::Read(page))) = Link::decode("/read?staff=H%C3%B6rner+%26+%25&notes=C4.E4") else {
            panic!()
        };
        SentExercise::of(&Exercise {
            material: Material::Passage(Box::new(page.passage)),
            ..Exercise::default()
        })
    }

    fn plan() -> WeekPlan {
        let week = |by: &str, exercises: Vec<SentExercise>| PlannedWeek {
            by: by.parse().ok(),
            exercises,
            places: vec!["demo=1&bars=28-33&along=5".into(), "kept=1a2b&title=A+%26+B".into()],
        };
        WeekPlan {
            number: 4711,
            title: "Horns in autumn: Es & F".into(),
            weeks: vec![
                week("2026-12-14", vec![exercise("First crooks", 1), exercise("", 2)]),
                week("", vec![about_a_page()]),
                week("2027-01-11", Vec::new()),
            ],
        }
    }

    #[test]
    fn a_code_holds_the_first_exercises_of_a_long_course() {
        let front = "https://example.org/crookwise/#";
        let week = |number: u32| PlannedWeek {
            exercises: vec![exercise("", number * 7919), exercise("", number * 104_729)],
            ..PlannedWeek::default()
        };
        let plan = WeekPlan { weeks: (1..=12).map(week).collect(), ..plan() };
        let held = plan.held_by_a_code(front);
        assert!(held > 0 && held < plan.exercises(), "{held}");
        let has_code = |plan: &WeekPlan| {
            let link = Link::from(PractiseLink::Weeks(plan.to_text()));
            link.share(front).is_ok_and(|shared| shared.code.is_ok())
        };
        assert!(has_code(&plan.first_exercises(held)) && !has_code(&plan.first_exercises(held + 1)));
        assert_eq!(plan.first_exercises(3).weeks.iter().map(|week| week.exercises.len()).sum::<usize>(), 3);
        assert_eq!(WeekPlan::default().held_by_a_code(front), 0);
    }

    #[test]
    fn a_plan_goes_back_and_forth_as_text_and_in_a_link() {
        for plan in [plan(), WeekPlan::default(), WeekPlan { weeks: Vec::new(), ..plan() }] {
            let text = plan.to_text();
            assert_eq!(WeekPlan::from_text(&text), Ok(plan.clone()), "{text}");
            let link = Link::from(PractiseLink::Weeks(text.clone()));
            for sent in [link.encode(), link.pack()] {
                assert_eq!(Link::decode(&sent), Ok(Some(link.clone())), "{sent}");
            }
        }
        assert_eq!(plan().exercises(), 3);
    }

    #[test]
    fn a_term_of_weekly_exercises_fits_a_link() {
        let week = |number: u32| PlannedWeek {
            by: Some(Day::of_seconds(0).later(7 * i64::from(number))),
            exercises: (0..3).map(|at| exercise("Corni in Es und in F", number * 3 + at)).collect(),
            places: Vec::new(),
        };
        let term = WeekPlan { weeks: (0..16).map(week).collect(), ..plan() };
        let shared =
            Link::from(PractiseLink::Weeks(term.to_text())).share("https://www.example.org/crookwise/#");
        assert!(shared.is_ok_and(|shared| shared.address.len() < 4_000));
    }

    #[test]
    fn what_is_damaged_is_no_plan() {
        let text = plan().to_text();
        assert!(WeekPlan::from_text("").is_err() && WeekPlan::from_text("x Title").is_err());
        assert!(WeekPlan::from_text(&text.replace("week 2026-12-14", "week 2026-02-30")).is_err());
        assert!(WeekPlan::from_text(&text.replace("First", "Fourth")).is_err());
        assert!(WeekPlan::from_text(&text.replacen("\nweek 2026-12-14", "", 1)).is_err());
        for at in (0..text.len()).filter(|at| text.is_char_boundary(*at)) {
            let (head, tail) = text.split_at(at);
            // A line that is cut is told; a whole line or a letter of the title can go without a trace here: the link, the
            // entry and the file round it know better.
            let cut = WeekPlan::from_text(head);
            let in_a_place = head.lines().last().is_some_and(|line| line.starts_with(SCORE));
            let at_a_line = in_a_place
                || tail.starts_with('\n')
                || head.ends_with('\n')
                || head.trim_end().ends_with(WEEK);
            assert!(cut.is_err() || at_a_line || !head.contains('\n'), "{head}");
        }
        let many = format!("1 x{}", "\nweek".repeat(MOST_WEEKS + 1));
        assert_eq!(WeekPlan::from_text(&many), Err(LinkError::TooLong));
    }
}
