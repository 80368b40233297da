//! Crookwise: share.
