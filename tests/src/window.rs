//! The sizes at which the page is looked at, and how it is lit.

/// A window of a browser: the page's own area in CSS pixels, without the browser's bars.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Window {
    /// Width in CSS pixels.
    pub width: u32,
    /// Height in CSS pixels.
    pub height: u32,
    /// Whether it is touched: Chromium then says that it is a mobile device with touch points.
    pub touch: bool,
}

impl Window {
    /// A tablet on its side, on a music stand.
    pub const LANDSCAPE: Self = Self { width: 1180, height: 820, touch: true };
    /// A tablet upright.
    pub const PORTRAIT: Self = Self { width: 820, height: 1180, touch: true };
    /// A telephone.
    pub const PHONE: Self = Self { width: 390, height: 844, touch: true };
    /// A desk or a projector.
    pub const DESK: Self = Self { width: 1920, height: 1080, touch: false };
    /// All four.
    pub const ALL: [Self; 4] = [Self::LANDSCAPE, Self::PORTRAIT, Self::PHONE, Self::DESK];
}

impl std::fmt::Display for Window {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}x{}", self.width, self.height)
    }
}

/// What the system says of its colours (`prefers-color-scheme`). Chromium only; elsewhere it is as the system has it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Light {
    /// Dark on light.
    Light,
    /// Light on dark.
    Dark,
}

impl Light {
    /// As CSS calls it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }
}
