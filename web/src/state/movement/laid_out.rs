//! The systems of a movement as they stand on the screen: which hold what, and what of them is seen. Lengths are in pixels.

use core::ops::Range;
use crookwise_opened::SystemRow;

/// Systems laid out for a width.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LaidOut {
    /// Counts the layouts: what was drawn for another is not of this one.
    pub number: u32,
    /// The systems from the top, as far as they are known.
    pub systems: Vec<SystemRow>,
    /// So many of them were known first: they stay as they stand when the rest comes.
    pub begun: usize,
    /// Pixels of a staff space.
    pub scale: f64,
    /// Pixels between two systems.
    pub between: f64,
}

impl LaidOut {
    /// What was known of it first.
    #[must_use]
    pub fn begin(&self) -> Self {
        let systems = self.systems.iter().take(self.begun).cloned().collect();
        Self { systems, ..*self }
    }

    /// All of it, once the rest is known; until then nothing.
    #[must_use]
    pub fn whole(&self) -> Self {
        if self.systems.len() > self.begun { self.clone() } else { Self::default() }
    }

    /// The height of a system in pixels.
    #[must_use]
    pub fn height(&self, system: usize) -> f64 {
        self.systems.get(system).map_or(0.0, |own| f64::from(own.height) / 100.0 * self.scale)
    }

    /// Where each system begins and ends, in pixels from the top of all.
    #[must_use]
    pub fn spans(&self) -> Vec<(f64, f64)> {
        let mut top = 0.0;
        let mut spans = Vec::with_capacity(self.systems.len());
        for system in 0..self.systems.len() {
            let bottom = top + self.height(system);
            spans.push((top, bottom));
            top = bottom + self.between;
        }
        spans
    }

    /// The bar that stays where the reader looks when the music is laid out anew, of what stands in the window of this height, of
    /// which so much is covered at its head: the one gone to where its system is seen, else the first of the first system. Nothing
    /// where the music begins in the window, or ends in its upper half: who looks at what is under it keeps that.
    #[must_use]
    pub fn looked_at(&self, above: f64, (cover, window): (f64, f64), gone_to: Option<u32>) -> Option<u32> {
        let spans = self.spans();
        let (_, end) = *spans.last()?;
        if above <= 0.0 || end - above < window / 2.0 {
            return None;
        }
        let is_seen = |(_, (top, bottom)): &(&SystemRow, &(f64, f64))| {
            *bottom > above + cover + SLIVER && *top < above + window
        };
        let mut seen = self.systems.iter().zip(&spans).filter(is_seen).map(|(system, _)| system);
        let first = seen.clone().next()?;
        let gone_to = gone_to.filter(|bar| seen.any(|system| holds(system, *bar)));
        gone_to.or(Some(first.bars.0))
    }

    /// How far down from the top of all that stands which is shown at the head of a window with so much room, so that a bar is
    /// seen and the staves that it is shown for: the top of its system, or as little further down as shows them whole. Where
    /// they are higher than the window it begins with their head.
    #[must_use]
    pub fn shown_from(&self, bar: u32, staves: &[u32], room: f64) -> Option<f64> {
        let system = self.system_of(bar)?;
        let (top, _) = *self.spans().get(system)?;
        let all = self.systems.get(system).map(|own| stand(own, staves)).unwrap_or_default();
        let ends = all.first().zip(all.last()).map(|((from, _), (_, to))| (*from, *to));
        let pixels = |length: i32| f64::from(length) / 100.0 * self.scale;
        let further = ends.map_or(0.0, |(from, to)| (pixels(to) - room).min(pixels(from)).max(0.0));
        Some(top + further)
    }

    /// Whether some staves are not seen whole in the system of a bar, where the window begins so far down and has so much room.
    #[must_use]
    pub fn is_out_of_sight(&self, bar: u32, staves: &[u32], (down, room): (f64, f64)) -> bool {
        let Some(system) = self.system_of(bar) else { return false };
        let top = self.spans().get(system).map_or(0.0, |(top, _)| *top);
        let pixels = |length: i32| top + f64::from(length) / 100.0 * self.scale;
        let stands = self.systems.get(system).map(|own| stand(own, staves)).unwrap_or_default();
        // Places are whole hundredths: less than a pixel is no difference.
        stands.iter().any(|(from, to)| pixels(*from) < down - 1.0 || pixels(*to) > down + room + 1.0)
    }

    /// How much further the page must be scrolled so that a note is seen, where it stands so far down in the system of its bar (in
    /// hundredths of a staff space), of what stands between two places of the window: its staff whole where that has room, else
    /// the note with a little about it. Nothing where it is seen, or is nowhere.
    #[must_use]
    pub fn further_to(&self, bar: u32, staff: u32, down: i32, (from, to): (f64, f64)) -> f64 {
        let Some(system) = self.system_of(bar) else { return 0.0 };
        let top = self.spans().get(system).map_or(0.0, |(top, _)| *top);
        let pixels = |length: i32| top + f64::from(length) / 100.0 * self.scale;
        let own = self.systems.get(system).map(|own| stand(own, &[staff])).unwrap_or_default();
        let whole = own.first().map(|(upper, lower)| (pixels(*upper), pixels(*lower)));
        let note = (pixels(down) - ABOUT_A_NOTE, pixels(down) + ABOUT_A_NOTE);
        let (upper, lower) = whole.filter(|(upper, lower)| lower - upper <= to - from).unwrap_or(note);
        if upper < from { upper - from } else { (lower - to).max(0.0).min(upper - from) }
    }

    /// The system that holds a bar.
    #[must_use]
    pub fn system_of(&self, bar: u32) -> Option<usize> {
        self.systems.iter().position(|system| holds(system, bar))
    }
}

/// Where some staves stand in a system: the upper and the lower end of what is drawn of each, in hundredths of a staff space from
/// the top. The two of a pair stand at one place.
#[must_use]
pub fn stand(system: &SystemRow, staves: &[u32]) -> Vec<(i32, i32)> {
    let here = system.staves.iter().filter(|(staff, ..)| staves.contains(staff));
    let mut all: Vec<(i32, i32)> = here.map(|(_, upper, lower)| (*upper, *lower)).collect();
    all.dedup();
    all
}

/// The systems of these spans that stand in a window or so near to it.
#[must_use]
pub fn near(spans: &[(f64, f64)], (from, to): (i32, i32), near: f64) -> Range<usize> {
    let first = spans.partition_point(|(_, bottom)| *bottom <= f64::from(from) - near);
    let end = spans.partition_point(|(top, _)| *top < f64::from(to) + near);
    first..end.max(first)
}

/// So many pixels over and under a note are seen with it.
const ABOUT_A_NOTE: f64 = 40.0;

/// So much of a system at the head of the window is not looked at.
const SLIVER: f64 = 24.0;

fn holds(system: &SystemRow, bar: u32) -> bool {
    (system.bars.0..=system.bars.1).contains(&bar)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_staff_that_enters_is_shown_with_as_much_of_its_system_as_has_room() {
        let staves = vec![(4, 0, 1_500), (5, 0, 1_500), (8, 1_500, 3_000), (10, 3_000, 4_000)];
        let system = |bars| SystemRow { bars, height: 4_000, staves: staves.clone() };
        let laid =
            LaidOut { systems: vec![system((0, 3)), system((4, 9))], scale: 10.0, ..LaidOut::default() };
        let from = |staves: &[u32], room| laid.shown_from(5, staves, room);
        // A system of 400 pixels, 400 down: whole where it has room, and where nobody is shown in particular.
        assert_eq!(
            (from(&[10], 500.0), from(&[], 200.0), from(&[77], 200.0)),
            (Some(400.0), Some(400.0), Some(400.0))
        );
        assert_eq!(
            (from(&[4], 200.0), from(&[8], 250.0), from(&[10], 250.0)),
            (Some(400.0), Some(450.0), Some(550.0))
        );
        // Who enters together is seen together, else from the first on.
        assert_eq!((from(&[8, 10], 300.0), from(&[8, 10], 200.0)), (Some(500.0), Some(550.0)));
        assert_eq!((from(&[4, 10], 200.0), from(&[10], -20.0)), (Some(400.0), Some(700.0)));
        assert_eq!(laid.shown_from(12, &[4], 200.0), None);
        // Whoever enters too and has no room is out of sight, above or below.
        let out = |staves: &[u32], down| laid.is_out_of_sight(5, staves, (down, 200.0));
        assert_eq!((out(&[8], 550.0), out(&[10], 550.0), out(&[4], 550.0)), (false, true, true));
        assert_eq!((out(&[10], 700.0), out(&[8], 700.0), out(&[77], 700.0)), (false, true, false));
        assert!(!laid.is_out_of_sight(12, &[4], (0.0, 10.0)));
        assert_eq!(stand(&system((0, 3)), &[4, 5, 10]), [(0, 1_500), (3_000, 4_000)]);
    }

    #[test]
    fn a_note_comes_out_from_under_what_covers_it() {
        let staves = vec![(4, 0, 1_500), (8, 1_500, 3_000)];
        let system = |bars| SystemRow { bars, height: 3_000, staves: staves.clone() };
        let laid =
            LaidOut { systems: vec![system((0, 3)), system((4, 9))], scale: 10.0, ..LaidOut::default() };
        // The second system begins 300 down, its lower staff 450, and ends at 600.
        let further = |window| laid.further_to(5, 8, 2_000, window);
        let near = |one: f64, other: f64| (one - other).abs() < 1e-9;
        assert!(near(further((400.0, 700.0)), 0.0));
        assert!(near(further((100.0, 400.0)), 200.0) && near(further((500.0, 800.0)), -50.0));
        // Where the staff has no room the note has, 460 to 540.
        assert!(near(further((300.0, 400.0)), 140.0) && near(further((440.0, 560.0)), 0.0));
        assert!(near(further((300.0, 350.0)), 160.0) && near(further((500.0, 600.0)), -40.0));
        assert!(near(laid.further_to(40, 8, 2_000, (0.0, 10.0)), 0.0));
    }

    #[test]
    fn systems_stand_under_each_other() {
        let system = |bars, height| SystemRow { bars, height, ..SystemRow::default() };
        let laid = LaidOut {
            number: 1,
            systems: vec![system((0, 3), 1_000), system((4, 9), 2_000)],
            begun: 1,
            scale: 7.0,
            between: 10.0,
        };
        assert_eq!(laid.spans(), [(0.0, 70.0), (80.0, 220.0)]);
        assert_eq!((laid.system_of(5), laid.system_of(12)), (Some(1), None));
        // What is known first stands where it stands in the whole.
        assert_eq!((laid.begin().spans(), laid.whole()), (vec![(0.0, 70.0)], laid.clone()));
        assert_eq!(laid.begin().whole(), LaidOut::default());
    }
    #[test]
    fn what_is_near_the_window_is_found() {
        let spans = [(0.0, 100.0), (110.0, 210.0), (220.0, 320.0), (330.0, 430.0)];
        assert_eq!(near(&spans, (120, 200), 0.0), 1..2);
        assert_eq!(near(&spans, (120, 200), 30.0), 0..3);
        assert_eq!(near(&spans, (100, 110), 0.0), 1..1);
        assert_eq!(near(&spans, (-900, -800), 50.0), 0..0);
        assert_eq!(near(&spans, (900, 950), 50.0), 4..4);
        assert_eq!(near(&spans, (900, 100), 0.0), 4..4);
        assert_eq!(near(&[], (0, 100), 900.0), 0..0);
    }

    #[test]
    fn the_bar_looked_at_stays() {
        let system = |bars| SystemRow { bars, height: 4_000, ..SystemRow::default() };
        let laid = LaidOut {
            systems: vec![system((0, 3)), system((4, 9)), system((10, 12))],
            scale: 10.0,
            ..LaidOut::default()
        };
        // Systems of 400 pixels in a window of 600, of which 50 are covered.
        let kept = |above, gone_to| laid.looked_at(above, (50.0, 600.0), gone_to);
        assert_eq!((kept(-20.0, None), kept(0.0, Some(2))), (None, None));
        assert_eq!((kept(100.0, None), kept(340.0, None)), (Some(0), Some(4)));
        assert_eq!((kept(100.0, Some(6)), kept(100.0, Some(11))), (Some(6), Some(0)));
        assert_eq!((kept(850.0, None), kept(901.0, None)), (Some(10), None));
        assert_eq!(LaidOut::default().looked_at(100.0, (0.0, 600.0), None), None);
    }
}
