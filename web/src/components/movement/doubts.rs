//! What is doubtful in the chosen bars, with the way to settle it, beside the ways on: an exercise would ask for it, and a page
//! of Read print it, without a word.

use crate::components::live::{live, press};
use crate::state::movement::Movement;
use crate::state::movement::doubts::DoubtfulBass;
use crate::words;
use leptos::prelude::*;

/// Each doubt in a sentence with its button; nothing where there is none.
pub fn doubts() -> AnyView {
    let movement = Movement::get();
    let row = move |DoubtfulBass { staff, label, bars }: DoubtfulBass| {
        let said = words::movement::doubtful_bass(
            &label,
            &words::movement::bar_list(&bars, &|bar| movement.printed(bar)),
        );
        let name = words::kept::of(words::movement::READ_AS_OLD, &label);
        let settle = press(move || movement.correct(staff, |one| one.old_bass = true));
        view! {
            <div class="doubt">
                <p class="problem">{said}</p>
                <button aria-label=name on:click=settle>{words::movement::READ_AS_OLD}</button>
            </div>
        }
        .into_any()
    };
    let rows = live(move || movement.doubtful_bass().into_iter().map(row).collect::<Vec<_>>());
    view! { <div role="status">{rows}</div> }.into_any()
}
