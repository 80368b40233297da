//! What five languages and the old solmisation call a key.

use crate::pitch::Tonic;

/// One key in five languages. A cell may hold several forms, parted by semicolons or in brackets.
/// Source: common practice; the old solmisation names from memory.
#[derive(Clone, Copy, Debug)]
pub struct KeyNames {
    /// The key.
    pub tonic: Tonic,
    /// English.
    pub english: &'static str,
    /// Italian.
    pub italian: &'static str,
    /// German: B is B-flat, H is B natural.
    pub german: &'static str,
    /// French.
    pub french: &'static str,
    /// Spanish.
    pub spanish: &'static str,
    /// The names of the 18th century; empty where none is known.
    pub solmisation: &'static str,
}
