//! Every sentence the page says, gathered where a translator would look for them. Nothing here computes music.

/// Texts by their names; each is its own description.
macro_rules! texts {
    ($($name:ident = $text:literal;)*) => {
        $(#[doc = $text] pub const $name: &str = $text;)*
    };
}

pub mod along;
mod app;
pub mod audit_table;
pub mod changes;
pub mod chips;
pub mod class;
pub mod confusions;
pub mod course;
pub mod crook_gaps;
pub mod crook_printed;
pub mod crook_reach;
pub mod crook_table;
pub mod crooks;
pub mod dock;
pub mod doing;
pub mod drums;
pub mod exercise;
pub mod frame;
#[cfg(test)]
mod judged;
pub mod kept;
pub mod map;
pub mod mended;
pub mod mistakes;
pub mod movement;
mod names;
pub mod pages;
pub mod paper;
pub mod part_paper;
pub mod playback;
pub mod practise;
mod reading;
pub mod results;
pub mod right_way;
pub mod settings;
pub mod spoken;
pub mod staves;
pub mod titles;
pub mod together;
pub mod turns;
mod ways;
pub mod weeks;

pub use app::{
    BROKEN, FILE_UNREADABLE, NEW_VERSION, NO_FILES, NO_ROOM_FOR_PAGES, NO_SOUND, NOT_KEPT, PAGE_BEFORE,
    PAGE_ON_SCREEN, PART_MISSING, SOUND_IS_SOFT, USE_NEW_VERSION, copied,
};
pub use names::{Letters, Names, Octaves, alteration_sign, decimal, signature, signed_cents};
pub use reading::{
    GUIDE, NO_PITCH, NOTHING_TO_TRANSPOSE, STANDS_FOR_A_STROKE, STROKE, capital, column_name, column_unread,
    degrees, headline, making, production_sentence, range, temperament, tuning_sentence, uncapital,
    written_otherwise,
};
pub use ways::{
    HAND_UNKNOWN, NO_DRUM, by_clef, by_interval, hand_not_understood, in_hand, interval_with_direction,
    octaves_further, on_staff, sounds, sounds_shortly,
};
