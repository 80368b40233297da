//! The only place that knows the browser: each file one service, each saying whether it is there.

pub mod address;
pub mod audio;
pub mod before;
pub mod clipboard;
pub mod clock;
pub mod dialog;
pub mod field;
pub mod files;
pub mod focus;
pub mod given;
pub mod in_turn;
pub mod measure;
pub mod midi;
pub mod offline;
mod owned;
pub mod panic;
pub mod pointer;
pub mod popover;
pub mod score_holder;
pub mod score_worker;
pub mod screen;
pub mod shortcut;
pub mod sight;
pub mod store;
pub mod style;
pub mod theme;
pub mod toolbar;
