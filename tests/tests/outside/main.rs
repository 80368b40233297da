//! What the theory says beside what the world outside says: a library asked anew, and real scores.

mod chords;
mod python;
mod scores;
