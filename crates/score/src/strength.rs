//! How strongly a staff plays at any moment, from 0 to 127, by the signs of loudness and the hairpins it has.
//!
//! Signs that last have the strengths of [`MARKS`]; before the first it is [`USUAL`]. A hairpin goes in a straight line to the sign at
//! its end, or by [`HAIRPIN`] where none stands there, or one that goes the other way; so do the words "cresc.", "dim." and the like,
//! to the next sign or for [`WORDS_LAST`] quarter notes. A sign that falls back at once ("fp") does so within [`FALL`]. Common practice;
//! the numbers are ours.

use crate::score::{Direction, PartStaff, Quarters};
use crookwise_theory::order::put_in_order;

/// The strongest.
pub const STRONGEST: f64 = 127.0;
/// The strength of a staff before its first sign: that of mezzoforte.
pub const USUAL: f64 = 74.0;
/// How far a hairpin leads where no sign says it: one sign further.
pub const HAIRPIN: f64 = 14.0;
/// Quarter notes after the end of a hairpin within which a sign belongs to it.
pub const SIGN_AFTER: i32 = 1;
/// Quarter notes that words like "cresc." last, at most.
pub const WORDS_LAST: i32 = 32;
/// In how many quarter notes a sign falls back that does so at once, as (above, below).
pub const FALL: (i64, i64) = (1, 2);
/// Signs that last, with their strengths.
pub const MARKS: [(&str, f64); 12] = [
    ("pppp", 14.0),
    ("ppp", 24.0),
    ("pp", 36.0),
    ("p", 48.0),
    ("mp", 61.0),
    ("mf", 74.0),
    ("f", 90.0),
    ("ff", 106.0),
    ("fff", 118.0),
    ("ffff", 126.0),
    ("pf", 74.0),
    ("n", 6.0),
];
/// Signs that fall back at once: how strong they begin and where they fall to.
const FALLING: [(&str, f64, f64); 6] = [
    ("fp", 90.0, 48.0),
    ("ffp", 106.0, 48.0),
    ("fpp", 90.0, 36.0),
    ("sfp", 100.0, 48.0),
    ("sfpp", 100.0, 36.0),
    ("mfp", 74.0, 48.0),
];
/// Signs for the notes at which they stand alone.
const ACCENTS: [&str; 8] = ["sf", "sfz", "sff", "sffz", "sfffz", "fz", "rf", "rfz"];

/// How strongly a staff plays, moment by moment.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Strengths {
    points: Vec<Point>,
    /// When accents stand that are signs of loudness.
    accents: Vec<Quarters>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Point {
    at: Quarters,
    strength: f64,
    /// Whether it goes in a straight line to the next.
    leads: bool,
}

/// What changes the strength.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Turn {
    /// To this, and to that afterwards.
    Sign(f64, f64),
    /// A hairpin or words that lead up or down; words end of themselves.
    Leads { up: bool, words: bool },
    /// A hairpin ends.
    Ends,
}

impl Strengths {
    /// The strengths of a staff.
    #[must_use]
    pub fn of(staff: &PartStaff) -> Self {
        let mut turns: Vec<(Quarters, Turn)> = Vec::new();
        let mut all = Self::default();
        for told in &staff.directions {
            let at = told.at.time;
            match &told.direction {
                Direction::Dynamic(name) if ACCENTS.contains(&name.as_ref()) => all.accents.push(at),
                Direction::Dynamic(name) => turns.extend(sign(name).map(|turn| (at, turn))),
                Direction::Crescendo => turns.push((at, Turn::Leads { up: true, words: false })),
                Direction::Diminuendo => turns.push((at, Turn::Leads { up: false, words: false })),
                Direction::HairpinEnds => turns.push((at, Turn::Ends)),
                Direction::Words(words) => turns.extend(leads(words).map(|turn| (at, turn))),
                _ => {}
            }
        }
        put_in_order(&mut turns, |(at, _)| *at);
        put_in_order(&mut all.accents, |at| *at);
        let mut strength = USUAL;
        for (place, (at, turn)) in turns.iter().enumerate() {
            match *turn {
                Turn::Sign(first, after) => {
                    let falls = first > after;
                    all.push(*at, first, falls);
                    let fall = Quarters::new(FALL.0, FALL.1).and_then(|fall| at.plus(fall));
                    if let Some(fallen) = fall.filter(|_| falls) {
                        all.push(fallen, after, false);
                    }
                    strength = after;
                }
                Turn::Leads { up, words } => {
                    let later = turns.get(place + 1..).unwrap_or_default();
                    if let Some((ends, to)) = goal((*at, strength), (up, words), later) {
                        all.push(*at, strength, true);
                        all.push(ends, to, false);
                        strength = to;
                    }
                }
                Turn::Ends => {}
            }
        }
        all
    }

    /// A point; what was to come later than it comes no more.
    fn push(&mut self, at: Quarters, strength: f64, leads: bool) {
        while self.points.last().is_some_and(|last| last.at > at) {
            self.points.pop();
        }
        self.points.push(Point { at, strength, leads });
    }

    /// The strength at a time, 0 to [`STRONGEST`].
    #[must_use]
    pub fn at(&self, time: Quarters) -> f64 {
        self.behind(self.points.partition_point(|point| point.at <= time), time)
    }

    /// The strength right before a time: a sign that stands there holds not yet.
    #[must_use]
    pub fn before(&self, time: Quarters) -> f64 {
        self.behind(self.points.partition_point(|point| point.at < time), time)
    }

    /// The strength at a time behind so many points.
    fn behind(&self, after: usize, time: Quarters) -> f64 {
        let Some(point) = after.checked_sub(1).and_then(|last| self.points.get(last)) else { return USUAL };
        let next = self.points.get(after).filter(|_| point.leads);
        let way = next.and_then(|next| {
            let (gone, all) = (time.minus(point.at)?.decimal(), next.at.minus(point.at)?.decimal());
            (all > 0.0).then(|| (next.strength - point.strength) * (gone / all))
        });
        point.strength + way.unwrap_or(0.0)
    }

    /// Whether a sign of loudness accents what begins at a time.
    #[must_use]
    pub fn is_accented(&self, time: Quarters) -> bool {
        self.accents.binary_search(&time).is_ok()
    }
}

fn sign(name: &str) -> Option<Turn> {
    let falling = FALLING.iter().find(|(sign, ..)| *sign == name).map(|(_, first, after)| (*first, *after));
    let lasting = || MARKS.iter().find(|(sign, _)| *sign == name).map(|(_, own)| (*own, *own));
    falling.or_else(lasting).map(|(first, after)| Turn::Sign(first, after))
}

/// Words that lead up or down.
fn leads(words: &str) -> Option<Turn> {
    let begins = |with: &str| words.get(..with.len()).is_some_and(|head| head.eq_ignore_ascii_case(with));
    let up = begins("cresc");
    let down = ["dim", "decresc", "morendo", "calando", "perdendo"].iter().any(|with| begins(with));
    (up || down).then_some(Turn::Leads { up, words: true })
}

/// Where a hairpin or words lead, and when they are there.
fn goal(
    (at, strength): (Quarters, f64),
    (up, words): (bool, bool),
    later: &[(Quarters, Turn)],
) -> Option<(Quarters, f64)> {
    let longest = at.plus(Quarters::whole(WORDS_LAST))?;
    let stops = later.iter().find(|(_, turn)| !(words && *turn == Turn::Ends)).map(|(at, _)| *at);
    let ends = match stops {
        Some(stops) if !words => stops,
        Some(stops) => stops.min(longest),
        None => longest,
    };
    let until = ends.plus(Quarters::whole(SIGN_AFTER))?;
    let sign = later.iter().take_while(|(at, _)| *at <= until).find_map(|(at, turn)| match turn {
        Turn::Sign(first, _) if *at >= ends => Some(*first),
        _ => None,
    });
    let by_itself = if up { strength + HAIRPIN } else { strength - HAIRPIN }.clamp(6.0, STRONGEST);
    let to = sign.filter(|sign| (*sign > strength) == up).unwrap_or(by_itself);
    (at < ends).then_some((ends, to))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Score;
    use crate::score::{Moment, TimedDirection};

    /// The strengths of a staff with these signs at these quarters.
    fn strengths(signs: &[(i32, Direction)]) -> Strengths {
        let mut score = Score::default();
        let part = score.add_part("Horn");
        let Ok(id) = score.add_staff(part, "Horn", 1) else { return Strengths::default() };
        let Some(staff) = score.staff_mut(id) else { return Strengths::default() };
        staff.directions = signs
            .iter()
            .map(|(at, direction)| TimedDirection {
                at: Moment::measured(Quarters::whole(*at)),
                direction: direction.clone(),
            })
            .collect();
        Strengths::of(staff)
    }

    fn mark(name: &str) -> Direction {
        Direction::Dynamic(name.into())
    }

    fn at(all: &Strengths, quarter: i32) -> f64 {
        (all.at(Quarters::whole(quarter)) * 100.0).round() / 100.0
    }

    #[test]
    fn signs_last_and_hairpins_lead_to_them_in_a_straight_line() {
        let all = strengths(&[
            (4, mark("p")),
            (8, Direction::Crescendo),
            (12, Direction::HairpinEnds),
            (13, mark("f")),
            (16, Direction::Diminuendo),
            (20, Direction::HairpinEnds),
            (24, mark("pp")),
        ]);
        assert_eq!(
            [4, 12, 13, 24].map(|quarter| all.before(Quarters::whole(quarter))),
            [74.0, 90.0, 90.0, 76.0]
        );
        let heard = [0, 4, 8, 9, 10, 12, 13, 16, 18, 20, 23, 24].map(|quarter| at(&all, quarter));
        assert_eq!(heard, [74.0, 48.0, 48.0, 58.5, 69.0, 90.0, 90.0, 90.0, 83.0, 76.0, 76.0, 36.0]);
    }

    #[test]
    fn words_lead_to_the_next_sign_and_a_sign_that_falls_falls_at_once() {
        let all = strengths(&[
            (0, mark("p")),
            (4, Direction::Words("cresc. poco a poco".into())),
            (12, mark("ff")),
        ]);
        assert_eq!([0, 4, 8, 11, 12].map(|quarter| at(&all, quarter)), [48.0, 48.0, 77.0, 98.75, 106.0]);
        let alone = strengths(&[(0, mark("f")), (4, Direction::Words("dimin.".into()))]);
        assert_eq!([4, 20, 36, 90].map(|quarter| at(&alone, quarter)), [90.0, 83.0, 76.0, 76.0]);
        let falls = strengths(&[(2, mark("fp")), (4, mark("sf")), (6, Direction::Words("dolce".into()))]);
        assert_eq!([1, 2, 3, 4, 5].map(|quarter| at(&falls, quarter)), [74.0, 90.0, 48.0, 48.0, 48.0]);
        let quarter = Quarters::new(9, 4).map(|time| falls.at(time));
        assert_eq!(quarter, Some(69.0));
        assert!(falls.is_accented(Quarters::whole(4)) && !falls.is_accented(Quarters::whole(2)));
    }

    #[test]
    fn a_hairpin_against_its_sign_leads_its_own_way() {
        let all = strengths(&[
            (0, mark("f")),
            (4, Direction::Crescendo),
            (8, Direction::HairpinEnds),
            (8, mark("p")),
            (12, Direction::Diminuendo),
        ]);
        assert_eq!([4, 6, 8, 12].map(|quarter| at(&all, quarter)), [90.0, 97.0, 48.0, 48.0]);
        assert_eq!(at(&all, 100), 34.0);
    }
}
