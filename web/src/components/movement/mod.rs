//! Score: a movement is opened, its parts listed and corrected, bars taken into Read, its brass audited.

pub mod along;
pub mod along_deeds;
pub mod audit_table;
pub mod crook_deeds;
pub mod deeds;
mod doubts;
pub mod heard_parts;
pub mod map;
pub mod map_deeds;
pub mod moment;
pub mod music;
pub mod music_deeds;
pub mod on_wall;
pub mod opener;
mod opening_deeds;
pub mod part_paper;
pub mod part_paper_deeds;
pub mod parts;
mod pictures;
pub mod place_deeds;
pub mod playback_dock;
pub mod player;
pub mod saving;
pub mod shelf;
pub mod taking;
mod turns;
mod ways;
