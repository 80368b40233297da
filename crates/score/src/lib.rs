//! Crookwise: score.
