//! Crooks: what is wanted and of whom, the plans as rows over the bars, what is missing and how it is mended.

pub mod asked;
pub mod crook_chips;
pub mod following;
pub mod gap_card;
pub mod key_rows;
pub mod keys_field;
pub mod may_write;
pub mod plan_card;
pub mod plan_rows;
pub mod printed_rows;
pub mod seeking;
pub mod table;
pub mod take_card;
pub mod views;
pub mod wanted_notes;
pub mod way_back;
