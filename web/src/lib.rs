//! The app in the browser: `state` says what is true, `components` show it, `places` are made of them, `browser` talks to the browser.

pub mod app;
pub mod browser;
pub mod components;
pub mod places;
pub mod route;
pub mod state;
pub mod store;
pub mod words;
