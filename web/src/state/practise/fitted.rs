//! A question drawn as large as the room it has.

use crate::state::practise::picture::{QuestionPicture, UnlaidPage};
use crate::state::score_sheet::{Room, SheetSystem};
use crate::words::Names;
use crookwise_practice::Question;

/// How many times the usual size a question is tried, and the staff space beyond which it gets no larger, in pixels.
const SIZES: [f64; 19] =
    [4.4, 3.6, 3.1, 2.6, 2.2, 1.9, 1.6, 1.4, 1.2, 1.0, 0.9, 0.8, 0.7, 0.57, 0.5, 0.45, 0.4, 0.36, 0.32];
const LARGEST: f64 = 26.0;
const LARGEST_ON_WALL: f64 = 96.0;

/// What stands over a staff whose label is not in a margin, and between staves and systems, in pixels.
const LABEL: f64 = 42.0;
const LABEL_ON_WALL: f64 = 88.0;
const BETWEEN: f64 = 24.0;

/// What the margin of small staves takes of a width that they leave, in pixels.
const MORE_MARGIN: f64 = 110.0;

/// A question and how many times larger than usual it is drawn, its labels with it.
#[derive(Clone, Debug, PartialEq)]
pub struct FittedQuestion {
    /// The staves, laid out for the room divided by the size.
    pub picture: QuestionPicture,
    /// How many times larger it is drawn.
    pub size: f64,
    /// Whether there is one column only, which needs no mark to be found.
    pub lone: bool,
}

impl FittedQuestion {
    /// The question on so much room: the largest that is whole in it, or the smallest that can be read.
    #[must_use]
    pub fn of(question: &Question, names: Names, room: Room) -> Self {
        let largest = if room.wall { LARGEST_ON_WALL } else { LARGEST };
        let page = UnlaidPage::of(question, names);
        let drawn = |size: f64| {
            let laid = Room { width: room.width / size, height: None, wall: room.wall };
            let mut picture = page.laid(laid);
            if size < 1.0 && picture.sheet.margin > 0.0 {
                // Where the staves are small their labels are not: what is left of the width is theirs.
                let staves = picture.sheet.systems.first().map_or(0.0, SheetSystem::width);
                picture.sheet.margin += (laid.width - picture.sheet.margin - staves).clamp(0.0, MORE_MARGIN);
            }
            Self { picture, size, lone: question.passage.columns().len() == 1 }
        };
        let Some(height) = room.height else { return drawn(1.0) };
        let fits = |one: &Self| one.space() <= largest && one.height(room.wall) <= height;
        let mut best: Option<Self> = None;
        for size in SIZES {
            let one = drawn(size);
            if fits(&one) && best.as_ref().is_none_or(|best| one.space() > best.space()) {
                best = Some(one);
            }
        }
        best.unwrap_or_else(|| drawn(SIZES[SIZES.len() - 1]))
    }

    /// Pixels of one staff space.
    #[must_use]
    pub fn space(&self) -> f64 {
        self.picture.sheet.scale * self.size
    }

    /// How high it is, in pixels.
    #[must_use]
    pub fn height(&self, wall: bool) -> f64 {
        let sheet = &self.picture.sheet;
        let label = match (sheet.margin > 0.0, wall) {
            (true, _) => BETWEEN,
            // It does not grow with its staff.
            (false, true) => LABEL_ON_WALL / self.size,
            (false, false) => LABEL,
        };
        let staff = |frame: f64| frame * sheet.scale + label;
        let heights = sheet.systems.iter().map(|system| {
            system.written.iter().map(|written| staff(written.frame.height().0)).sum::<f64>() + BETWEEN
        });
        heights.sum::<f64>() * self.size
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::{AskedStaff, Exercise, Kind};

    fn question(kind: Kind, staves: &[&str]) -> Question {
        let staves = staves.iter().map(|label| AskedStaff::of(label)).collect();
        let exercise = Exercise { kinds: vec![kind], staves, questions: 1, seed: 5, ..Exercise::default() };
        exercise.questions().unwrap().remove(0)
    }

    const SIX: [&str; 6] = ["Corni in Es", "Trombe in Es", "Clarinetti in B", "Oboi", "Viola", "Violoncello"];

    #[test]
    fn the_bass_of_a_whole_symphony_is_seen_on_a_telephone() {
        let staves = [
            "Flauti",
            "Oboi",
            "2 Clarinetti in B",
            "Fagotti",
            "2 Corni in Es",
            "2 Trombe in Es",
            "Timpani in Es, B",
            "Violino I",
            "Violino II",
            "Viola",
            "Violoncello e Basso",
        ];
        let asked = question(Kind::Chord, &staves);
        assert_eq!(asked.passage.staves().len(), staves.len());
        // Without and with what is said where nothing was chosen yet.
        for height in [434.0, 405.0] {
            let room = Room { height: Some(height), ..Room::wide(370.0) };
            let drawn = FittedQuestion::of(&asked, Names::default(), room);
            assert!(drawn.height(false) <= height, "{} of {height}", drawn.height(false));
            assert!(drawn.space() >= 3.5, "{} pixels", drawn.space());
        }
    }

    #[test]
    fn a_question_is_as_large_as_its_room_and_whole_in_it() {
        let alone = question(Kind::Sounds, &SIX[..1]);
        let many = question(Kind::Chord, &SIX);
        for (width, height) in
            [(366.0, 380.0), (366.0, 250.0), (640.0, 640.0), (780.0, 640.0), (1100.0, 880.0)]
        {
            let room = Room { height: Some(height), ..Room::wide(width) };
            for question in [&alone, &many] {
                let drawn = FittedQuestion::of(question, Names::default(), room);
                let staves = question.passage.staves().len();
                assert!(
                    drawn.height(false) <= height || staves > 4 && height < 300.0,
                    "{staves} staves on {width} x {height} take {}",
                    drawn.height(false)
                );
                assert!(drawn.space() <= LARGEST);
            }
            // A staff alone is larger than in a list.
            let drawn = FittedQuestion::of(&alone, Names::default(), room);
            assert!(drawn.space() >= 14.0, "{} on {width} x {height}", drawn.space());
        }
    }

    #[test]
    fn without_a_height_it_has_its_usual_size() {
        let alone = question(Kind::Sounds, &SIX[..1]);
        assert_eq!(FittedQuestion::of(&alone, Names::default(), Room::wide(700.0)).size, 1.0);
    }
}
