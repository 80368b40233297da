//! The harness for what crosses crates: it starts browsers, serves the built site to them, and lets a test do what a
//! reader does, by role and name, by mouse, touch and keyboard.
//!
//! A flow reads like this:
//!
//! ```no_run
//! use crookwise_tests::flow::{self, Flow, Setup};
//! use crookwise_tests::window::Window;
//!
//! /// The flows of this file.
//! pub const FLOWS: &[Flow] = &crookwise_tests::flows![the_heading_is_there];
//!
//! fn the_heading_is_there() {
//!     flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
//!         page.find("heading", "Crookwise").await?;
//!         page.axe().await
//!     });
//! }
//! ```
//!
//! Whatever the steps are, a flow also fails when anything was written to the console as a warning or an error, when a
//! file was missing, or when a request left for another host.
//!
//! To add a flow, write it in the file of its subject in `tests/tests/flows` and name it in that file's `FLOWS`; a new
//! file is named in `tests/tests/flows/main.rs`. One browser serves several flows, one after the other. Each flow has a server
//! at an address of its own, so that nothing that one left on the device is there for the next. `cargo xtask flows links`
//! runs those whose file or name holds the word.

pub mod axe;
pub mod boxes;
pub mod browser;
pub mod chips;
pub mod console;
pub mod find;
pub mod flow;
pub mod focus;
pub mod hearing;
pub mod history;
pub mod input;
pub mod keys;
pub mod music;
pub mod outside;
pub mod page;
pub mod passage;
pub mod process;
pub mod script;
pub mod site;
pub mod staff;
pub mod versions;
pub mod wait;
pub mod window;
