//! Sizes that follow from the room there is.

use core::ops::Range;

/// The narrowest column a finger can hit, in pixels, and the narrowest that has room for names on the wall.
const FINGER_COLUMN: f64 = 46.0;
const WALL_COLUMN: f64 = 112.0;

/// The narrowest columns that save a system which would hold nothing but a few of them.
const SQUEEZED_COLUMN: f64 = 36.0;
const SQUEEZED_WALL_COLUMN: f64 = 66.0;

/// Width of the page's margin with the labels of several staves, in pixels, and from which width there is one.
const MARGIN: f64 = 168.0;
const WALL_MARGIN: f64 = 320.0;
const ROOM_FOR_MARGIN: f64 = 640.0;
/// The same where there is so much room that what a label means need not be broken into lines.
const WIDE_MARGIN: f64 = 224.0;
const ROOM_FOR_WIDE_MARGIN: f64 = 1200.0;

/// Pixels at the lower edge of the window that the tools take, with what stands under the staves.
const TOOLS: f64 = 92.0;
/// The same on the wall, where there are none, but notes on ledger lines must be inside the window.
const ROOM_BELOW: f64 = 110.0;
/// The smallest staff space that can be read, in pixels: of a staff alone, and of one among others.
const SMALLEST: f64 = 7.0;
const SMALLEST_OF_MANY: f64 = 5.0;

/// On the wall so many of more staves than have room are readable from the back row; how large the others stand beside them.
const READABLE: usize = 8;
pub(super) const FAR: f64 = 0.5;

/// The room there is for the staves of a page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Width of the sheet in pixels.
    pub width: f64,
    /// Height from the upper edge of the sheet to the lower edge of the window; `None` where nothing need fit a window.
    pub height: Option<f64>,
    /// Whether it is read from the back row.
    pub wall: bool,
}

/// What stands on a page from top to bottom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Tall {
    /// Written staves.
    pub(super) written: usize,
    /// Staves of what sounds.
    pub(super) sounding: usize,
    /// Height of a written staff, with and without room for a note that is not there yet, in staff spaces.
    pub(super) staff: (f64, f64),
    /// Height of a staff of what sounds.
    pub(super) sounding_staff: f64,
    /// What stands between the staves, in pixels.
    pub(super) pixels: f64,
}

impl Room {
    /// So much width, and no window to fit.
    #[must_use]
    pub const fn wide(width: f64) -> Self {
        Self { width, height: None, wall: false }
    }

    /// Whether the columns run sideways under the finger, in one strip.
    #[must_use]
    pub fn runs(self) -> bool {
        self.height.is_some() && !self.wall && !self.has_margin()
    }

    /// Pixels of one staff space: first the size for few notes, then the one for many.
    #[must_use]
    pub fn scales(self) -> [f64; 2] {
        match self.width {
            width if width < 480.0 => [12.0, 10.0],
            width if width < 1000.0 => [15.0, 11.0],
            width if width < 1300.0 => [18.0, 14.0],
            width if width < 1600.0 => [22.0, 16.0],
            _ => [30.0, 22.0],
        }
    }

    /// The largest staff space with which all staves fit in the height there is; whether a written staff has room for
    /// a note that is not there yet.
    pub(super) fn fitting(self, tall: Tall) -> (f64, bool) {
        let alone = tall.written < 2;
        let near = self.near(tall, 0).len();
        let rows = near as f64 + (tall.written - near) as f64 * FAR;
        let [large, small] = self.scales();
        let most = match (alone, self.runs()) {
            (true, false) => large * 1.5,
            (true, true) => large,
            (false, _) => small,
        };
        let Some(height) = self.height else { return (if alone { large } else { small }, true) };
        let free = height - if self.wall { ROOM_BELOW } else { TOOLS } - tall.pixels;
        let with =
            |staff: f64, sounding: usize| free / (staff * rows + tall.sounding_staff * sounding as f64);
        let roomy = with(tall.staff.0, tall.sounding);
        let close = with(tall.staff.1, tall.sounding);
        let whole = |scale: f64, least: f64| scale.min(most).max(least).floor();
        if alone {
            return if roomy >= small {
                (whole(roomy, SMALLEST), true)
            } else {
                (whole(close, SMALLEST), false)
            };
        }
        // Where the page is high, what sounds stands under what is seen at once.
        let readable = if self.wall { SMALLEST_OF_MANY } else { SMALLEST };
        let scale = if close >= readable { close } else { with(tall.staff.1, 0) };
        ((scale.min(most).max(SMALLEST_OF_MANY) * 2.0).floor() / 2.0, false)
    }

    /// Which staves stand large: all, but on the wall some round the selected one where all cannot be read there.
    pub(super) fn near(self, tall: Tall, selected: usize) -> Range<usize> {
        let staves = tall.written;
        let free = self.height.unwrap_or(f64::INFINITY) - ROOM_BELOW - tall.pixels;
        let all = tall.staff.1 * staves as f64 + tall.sounding_staff * tall.sounding as f64;
        let are_all = !(self.wall && self.has_margin()) || free >= all * SMALLEST;
        let most = if are_all { staves } else { staves.min(READABLE) };
        let first = selected.saturating_sub(most / 2).min(staves - most);
        first..first + most
    }

    /// The smaller staff space with which staves that take so many pixels may have room on the wall; none where they have it, and
    /// below the smallest.
    pub(super) fn smaller(self, scale: f64, pixels: f64) -> Option<f64> {
        let free = self.height.filter(|_| self.wall)? - ROOM_BELOW;
        let fitting = (scale * free / pixels * 2.0).floor() / 2.0;
        let is_high = pixels > free && scale > SMALLEST_OF_MANY;
        // Not by `clamp`, which can say in floating-point text that its bounds are crossed: 7 kB of a first visit.
        is_high.then(|| fitting.min(scale - 0.5).max(SMALLEST_OF_MANY))
    }

    /// Whether the labels of several staves stand beside them.
    #[must_use]
    pub fn has_margin(self) -> bool {
        self.width >= ROOM_FOR_MARGIN
    }

    pub(super) fn margin(self, several: bool) -> f64 {
        match (several && self.has_margin(), self.wall) {
            (false, _) => 0.0,
            (true, false) if self.width >= ROOM_FOR_WIDE_MARGIN => WIDE_MARGIN,
            (true, false) => MARGIN,
            (true, true) => WALL_MARGIN,
        }
    }

    pub(super) const fn squeezed_column(self) -> f64 {
        if self.wall { SQUEEZED_WALL_COLUMN } else { SQUEEZED_COLUMN }
    }

    pub(super) const fn narrowest_column(self) -> f64 {
        if self.wall { WALL_COLUMN } else { FINGER_COLUMN }
    }
}
