//! The JavaScript and TypeScript package: `decodeLabel`, `readNote`, `writeNote`, the calls for exercises, for scores and for crooks.
//!
//! What a call means stands in [`contract`], in plain Rust; [`request`] checks what the caller hands in, [`reply`] is
//! what the caller gets back, and only `edge` knows JavaScript. The types a caller sees are in `types.d.ts`.

pub mod contract;
mod edge;
pub mod exercise;
pub mod planner;
pub mod problem;
pub mod reply;
pub mod request;
pub mod score;
pub mod score_reply;
pub mod value;
