//! A page each: what stands where, out of the components.

pub mod crooks;
pub mod practise;
pub mod read;
pub mod score;
