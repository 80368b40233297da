//! The app in the browser: `state` says what is true, `components` show it, `browser` talks to the browser.

pub mod app;
pub mod browser;
pub mod components;
pub mod state;
pub mod words;
