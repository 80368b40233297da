//! Crookwise: engraving.
