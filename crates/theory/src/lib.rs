//! Crookwise: theory.
