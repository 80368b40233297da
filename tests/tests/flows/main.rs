//! The app driven in real browsers, as its readers use it. A module for each subject; how a flow is added stands in the
//! head of the harness (`crookwise_tests`).
//!
//! Words on the command line pick flows by a part of their name ("links::", "by_touch").

mod access;
mod address;
mod along;
mod beside;
mod changes;
mod class_wall;
mod course;
mod crook_table;
mod crook_views;
mod crooks;
mod desks;
mod first_screen;
mod harness;
mod kinds;
mod labels;
mod layout;
mod links;
mod margin;
mod names;
mod offline;
mod package;
mod pages;
mod paper;
mod part_paper;
mod parts;
mod playback;
mod practise;
mod read;
mod results;
mod score;
mod scrolled;
mod smoke;
mod sound;
mod turns;
mod wall;
mod weeks;
mod without;

use crookwise_tests::flow::{Flow, run_files};

/// Every file of flows by its name.
const FILES: &[(&str, &[Flow])] = &[
    ("harness", harness::FLOWS),
    ("smoke", smoke::FLOWS),
    ("first_screen", first_screen::FLOWS),
    ("read", read::FLOWS),
    ("labels", labels::FLOWS),
    ("links", links::FLOWS),
    ("address", address::FLOWS),
    ("margin", margin::FLOWS),
    ("changes", changes::FLOWS),
    ("pages", pages::FLOWS),
    ("names", names::FLOWS),
    ("wall", wall::FLOWS),
    ("sound", sound::FLOWS),
    ("practise", practise::FLOWS),
    ("course", course::FLOWS),
    ("crook_table", crook_table::FLOWS),
    ("crook_views", crook_views::FLOWS),
    ("results", results::FLOWS),
    ("kinds", kinds::FLOWS),
    ("paper", paper::FLOWS),
    ("part_paper", part_paper::FLOWS),
    ("class_wall", class_wall::FLOWS),
    ("weeks", weeks::FLOWS),
    ("beside", beside::FLOWS),
    ("desks", desks::FLOWS),
    ("without", without::FLOWS),
    ("parts", parts::FLOWS),
    ("score", score::FLOWS),
    ("turns", turns::FLOWS),
    ("scrolled", scrolled::FLOWS),
    ("playback", playback::FLOWS),
    ("along", along::FLOWS),
    ("crooks", crooks::FLOWS),
    ("offline", offline::FLOWS),
    ("package", package::FLOWS),
    ("layout", layout::FLOWS),
    ("access", access::FLOWS),
];

fn main() -> std::process::ExitCode {
    run_files(FILES)
}
