//! Counts and shares as bars.

use leptos::prelude::*;

/// A share for the style sheet, in whole percent.
pub fn percent(count: u32, of: u32) -> String {
    format!("{}%", u64::from(count) * 100 / u64::from(of.max(1)))
}

/// A count as a bar with its number.
pub fn bar(name: String, count: u32, most: u32) -> AnyView {
    view! {
        <div class="count">
            <dt>{name}</dt>
            <dd><span class="count-bar" style:width=percent(count, most) aria-hidden="true"></span> {count.to_string()}</dd>
        </div>
    }
    .into_any()
}
