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
//! | 3 | version, 1 |
//! | 1 | whether a name follows the answers |
//! | 6 | how many questions, 1 to 60 |
//! | 20 | fingerprint of the exercise |
//! | 11 | tag: drawn by chance for each run, so that two students with equal results stay two |
//! | 4, 7 or 11 a question | right and its pace; left out; wrong with its pace and up to two mistakes |
//! | 6 + 8 a byte | the name, if any, in UTF-8 |
//! | 24 | checksum of all before (CRC-24 of OpenPGP, RFC 4880) |
//!
//! So twenty questions take at most 60 characters, all wrong with two mistakes each; 39 when three quarters are
//! right. Sixty questions take at most 148, and 85 when three quarters are right. The checksum finds slips. It is no
//! proof: whoever knows this page can write any code.

mod class;
mod code;
mod csv;
mod find;
mod groups;
mod outcome;
mod symbols;
mod tally;
mod term;

pub use class::{Class, Student};
pub use code::{MARK, Trouble, VERSION};
pub use csv::CsvWords;
pub use find::{Damaged, Found, FoundCode, TextPlace, find_all};
pub use groups::{AskedOn, ByPage};
pub use outcome::{Fingerprint, Given, LONGEST_NAME, Outcome, OutcomeError};
pub use tally::{Missed, Tally};
pub use term::{Term, TermLine};
