//! Results: what a student did, as a short code for mail and chat; what a class did, as tables.
//!
//! Nothing is sent anywhere: the student sends the code, the teacher pastes what came. [`Outcome::code`] writes it,
//! [`find_all`] finds every code in a whole mail or chat, [`Class`] counts one exercise and [`Term`] several, each answer
//! once, and [`Class::csv`] hands the table on.
//!
//! A code is [`MARK`], then symbols of five bits from the alphabet of ten digits and twenty-two letters that are hard to
//! confuse (no I, L, O, U; read from a hand or a voice, O is 0, I and L are 1; small letters are as good as capitals):
//!
//! | bits | what |
//! |---|---|
//! | 3 | version, 2; codes of the first version are read too |
//! | 1 | whether a name follows the answers |
//! | 6 | how many questions, 1 to 60 |
//! | 20 | fingerprint of the exercise |
//! | 11 | tag: drawn by chance for each run, so that two students with equal results stay two |
//! | 3 a question | right and its pace |
//! | 2 a question | left out |
//! | 7 and more a question | wrong, its pace, the mistakes that explain it, none, one or two, and how far it was off |
//! | 6 + 8 a byte | the name, if any, in UTF-8 |
//! | 24 | checksum of all before (CRC-24 of OpenPGP, RFC 4880) |
//!
//! So twenty questions take 28 characters where all are right, 42 where every fourth is a third too low for a reason that
//! has a name, and 116 where all are wrong for one of two reasons each. The checksum finds slips. It is no proof: whoever
//! knows this page can write any code.

mod class;
mod code;
mod confusions;
mod csv;
mod far;
mod find;
mod first;
mod given;
mod groups;
mod outcome;
mod symbols;
mod taken;
mod tally;
mod term;

pub use class::{Class, Student};
pub use code::{MARK, Trouble, VERSION};
pub use confusions::{Confusion, Sight, Taken};
pub use csv::CsvWords;
pub use find::{Damaged, Found, FoundCode, TextPlace, find_all};
pub use given::{Explained, Given, Missed};
pub use groups::{AskedOn, ByPage};
pub use outcome::{Fingerprint, LONGEST_NAME, Outcome, OutcomeError};
pub use tally::{Cause, Tally};
pub use term::{Term, TermLine};
