//! What the theory says beside what the world outside says: a library asked anew, and real scores. What is not on this
//! machine is skipped, and that is said.

#[path = "../../../crates/musicxml/tests/kit/bare.rs"]
mod bare;
mod chords;
mod crooks;
mod demo;
mod engraved;
mod exports;
mod files;
mod harmony;
mod library;
mod lying_over;
mod maps;
mod movements;
mod places;
mod plans;
mod played;
mod python;
mod road;
mod scores;
mod shown;
mod tempo;
mod windows;
mod written;

use crookwise_tests::outside::{MODULES, PYTHON, SCORES, run_files};

fn main() -> std::process::ExitCode {
    run_files(&[
        ("chords", &[PYTHON], chords::COMPARISONS),
        ("crooks", &[SCORES], crooks::COMPARISONS),
        ("plans", &[PYTHON], plans::COMPARISONS),
        ("demo", &[PYTHON], demo::COMPARISONS),
        ("engraved", &[SCORES], engraved::COMPARISONS),
        ("exports", &[SCORES, PYTHON], exports::OF_SCORES),
        ("exports", &[PYTHON], exports::OF_LIBRARIES),
        ("exports", &[MODULES, PYTHON], exports::OF_PACKAGES),
        ("files", &[SCORES], files::OF_SCORES),
        ("places", &[SCORES], places::COMPARISONS),
        ("road", &[SCORES], road::COMPARISONS),
        ("played", &[SCORES], played::COMPARISONS),
        ("maps", &[SCORES], maps::COMPARISONS),
        ("tempo", &[SCORES], tempo::COMPARISONS),
        ("harmony", &[SCORES], harmony::COMPARISONS),
        ("files", &[PYTHON], files::OF_LIBRARIES),
        ("files", &[MODULES], files::OF_PACKAGES),
        ("python", &[PYTHON], python::COMPARISONS),
        ("scores", &[SCORES], scores::COMPARISONS),
        ("shown", &[SCORES, PYTHON], shown::BY_THE_LIBRARY),
        ("shown", &[SCORES], shown::COMPARISONS),
        ("windows", &[SCORES], windows::COMPARISONS),
        ("written", &[PYTHON], written::COMPARISONS),
    ])
}
