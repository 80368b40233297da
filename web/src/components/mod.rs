//! They draw and report; they compute nothing.

pub mod choice;
pub mod column_cell;
pub mod copy_button;
pub mod header;
pub mod label_field;
pub mod ladder_panel;
pub mod later;
pub mod link_card;
pub mod live;
pub mod margin_tools;
pub mod new_version;
pub mod notice;
pub mod pages_panel;
pub mod practise;
pub mod readout;
pub mod settings_panel;
pub mod share_panel;
pub mod sound_bar;
pub mod staff_settings;
pub mod staff_sheet;
pub mod system_view;
pub mod together_panel;
pub mod tones;
pub mod toolbar;
pub mod touched_staff;
pub mod wall_bar;
