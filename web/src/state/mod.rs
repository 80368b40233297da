//! What the reader has made and what is shown of it: plain typed values, no browser and no view.

pub mod changing;
pub mod chip;
pub mod crook_table;
pub mod crooks;
pub mod decoding;
pub mod desk;
pub mod document;
pub mod everywhere;
pub mod gesture;
pub mod glance;
pub mod hearing;

pub mod kept;
pub mod keys;
pub mod labelling;
pub mod ladder;
pub mod laying;
pub mod leaf;
pub mod list_item;
pub mod movement;
pub mod notices;
pub mod opening;
pub mod panels;
pub mod place;
pub mod practise;
pub mod preferences;
pub mod readout;
pub mod ready;
pub mod reduced;
pub mod reducer;
pub mod score_sheet;
pub mod session;
pub mod settings_form;

pub mod speaker;
pub mod stand;
pub mod start;
pub mod steps;
pub mod store;
pub mod strip;
pub mod together;
pub mod tonic_words;
pub mod tried;
pub mod view;
pub mod wall;
