//! Crookwise: js.
