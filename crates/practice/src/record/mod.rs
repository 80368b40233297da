//! The reader's record: what was asked and answered, what is weak, what to ask next.
//!
//! What was missed comes back on a day of a published schedule; what is weak comes back more often. Two records of one reader, of two tabs or two devices, can be joined in any order without loss.

mod attempt;
mod concern;
mod item;
mod log;
mod memory;
mod met;
mod picture;
mod plan;
mod text;
mod zone;

pub use attempt::{Attempt, Counts, Subject};
pub use item::{Item, StaffKey};
pub use log::{MOST_ATTEMPTS, MOST_SOURCES, MOST_SUMS, Record};
pub use memory::Memory;
pub use picture::{Span, Weak, day, week};
pub use plan::{Ask, Reason, plan};
pub use text::{ReadRecord, RecordError};
pub use zone::Zone;
