//! Another crook from a bar on: what the reader corrected, words that the file does not heed, and where it is said: in the list
//! of parts, and beside a note that was tapped.

use crate::browser::{field, focus};
use crate::components::choice::choice;
use crate::components::live::{Live, hear, live, press, when};
use crate::state::kept::{Derived, Watched};
use crate::state::movement::correcting::{crooks, unheeded_before};
use crate::state::movement::music::Music;
use crate::state::movement::{Movement, bars};
use crate::state::session::Session;
use crate::words::{self, changes, turns};
use crookwise_opened::{StaffChangeRow, StaffRow, UnheededRow};
use leptos::ev::{Event, KeyboardEvent};
use leptos::prelude::*;
use std::sync::Arc;

/// What the reader let a staff change to, with the way back; and words for another crook with the way to heed them. The focus
/// goes to `after` where its button is gone.
pub(super) fn turns_of(staff: Derived<StaffRow>, after: fn(u32) -> String) -> AnyView {
    let movement = Movement::get();
    let corrected = move |of: u32, change: &StaffChangeRow| {
        let (bar, printed) = (change.bar, movement.printed(change.bar));
        let said = turns::corrected(&printed, &change.label, change.is_understood);
        let name = words::kept::of(turns::TAKE_IT_BACK, &turns::from_bar_on(&printed, &change.label));
        let back = press(move || {
            movement.change_crook(of, bar, "");
            focus::to(after(of));
        });
        view! {
            <li class="row">
                <span>{said}</span>
                <button aria-label=name on:click=back>{turns::TAKE_IT_BACK}</button>
            </li>
        }
        .into_any()
    };
    let words = move |of: u32, words: &UnheededRow| {
        let said = turns::unheeded(&words.words, &movement.printed(words.bar));
        view! { <li><p>{said}</p> {heeded(of, words.clone(), after)}</li> }.into_any()
    };
    let both = live(move || {
        let staff = staff.read();
        let own = staff.changes.iter().filter(|change| change.is_corrected);
        let own: Vec<AnyView> = own.map(|change| corrected(staff.staff, change)).collect();
        let unheeded: Vec<AnyView> = staff.unheeded.iter().map(|row| words(staff.staff, row)).collect();
        view! {
            <ul class="plain turned">{own}</ul>
            <ul class="remarks">{unheeded}</ul>
        }
        .into_any()
    });
    view! { {both} }.into_any()
}

/// The button that lets words of a file hold.
fn heeded(staff: u32, UnheededRow { from, words, .. }: UnheededRow, after: fn(u32) -> String) -> AnyView {
    let movement = Movement::get();
    let name = turns::from_bar_on(&movement.printed(from), &words);
    let heed = press(move || {
        movement.change_crook(staff, from, &words);
        focus::to(after(staff));
    });
    view! { <button class="heed" on:click=heed>{name}</button> }.into_any()
}

/// Where another crook is put to a staff in the list of parts: with which bar, and which. `shut` is done at Escape.
pub(super) fn turning(staff: Derived<StaffRow>, shut: Arc<dyn Fn() + Send + Sync>) -> AnyView {
    let movement = Movement::get();
    let typed = Watched::new(movement.from.get_untracked());
    let found =
        Derived::new(move || movement.open.and_then(|open| bars::find(&open.summary, &typed.read(), 0)));
    let type_bar = hear(move |event: Event| typed.set(field::text(&event)));
    let here = move || found.map(|bar| movement.changed_crook(staff.read().staff, *bar)).unwrap_or_default();
    let change = move |text: &str| {
        if let Some(bar) = found.get_untracked() {
            movement.change_crook(staff.read_untracked().staff, bar, text);
        }
    };
    let type_crook = hear(move |event: Event| change(&field::text(&event)));
    let problem =
        live(move || found.with(Option::is_none).then(|| words::movement::no_such_bar(&typed.read())));
    // Escape leaves all as it was.
    let key = hear(move |event: KeyboardEvent| {
        if event.key() == "Escape" {
            if field::is_text(&event) {
                let is_bar = field::id_of_key(&event).starts_with(BAR);
                let text = if is_bar { typed.get_untracked() } else { untrack(here) };
                field::set(event.as_ref(), &text);
            }
            shut();
        }
    });
    let id = live(move || format!("{BAR}{}", staff.read().staff));
    view! {
        <div class="row turning" on:keydown=key>
            <label class="field">
                <span>{turns::FROM_WHICH_BAR}</span>
                <input
                    id=id
                    class="bar-number"
                    aria-label=turns::FROM_WHICH_BAR
                    autocomplete="off"
                    maxlength="20"
                    prop:value=live(move || typed.get())
                    on:change=type_bar
                />
            </label>
            <label class="field">
                <span>{changes::CHANGE_AS_PRINTED}</span>
                <input
                    class="printed"
                    aria-label=changes::CHANGE_AS_PRINTED
                    autocomplete="off"
                    spellcheck="false"
                    maxlength="200"
                    placeholder=changes::MUTA_IN
                    prop:value=live(here)
                    on:change=type_crook
                />
            </label>
            {crook_list(changes::NEW_CROOK, staff, Arc::new(here), Box::new(move |text: String| change(&text)))}
            <p class="problem" role="status">{problem}</p>
        </div>
    }
    .into_any()
}

/// The bar with which a crook changes, in the list of parts.
const BAR: &str = "turns-with-";

/// The crooks of horn or trumpet to choose from; nothing for a staff that changes none.
fn crook_list(
    name: &'static str,
    staff: Derived<StaffRow>,
    value: Arc<dyn Fn() -> String + Send + Sync>,
    choose: Box<dyn Fn(String) + Send + Sync>,
) -> Live<AnyView> {
    let names = Session::get().names;
    let items = Derived::new(move || crooks(&staff.read(), names.get()));
    let choose: Arc<dyn Fn(String) + Send + Sync> = choose.into();
    let list = move || {
        let choose = Arc::clone(&choose);
        choice(name, Arc::new(move || items.get()), Arc::clone(&value), Box::new(move |text| choose(text)))
    };
    when(move || !items.read().is_empty(), list)
}

/// Another crook from the bar of the note that was tapped on: what the words of the file say, any of the list, or one for the
/// whole part in the list of parts.
pub(super) fn other_crook() -> AnyView {
    let (music, movement) = (Music::get(), Movement::get());
    let staff = Derived::new(move || {
        let row = music.tapped.map(|tapped| tapped.staff).and_then(|staff| movement.staff_row(staff));
        row.unwrap_or_default()
    });
    let bar = Derived::new(move || music.tapped.map(|tapped| tapped.bar));
    let words = Derived::new(move || unheeded_before(&staff.read(), bar.get()?).cloned());
    let heed = live(move || {
        words.get().map(|words| heeded(staff.read_untracked().staff, words, |_| SUMMARY.to_owned()))
    });
    let here = move || bar.map(|bar| movement.changed_crook(staff.read().staff, *bar)).unwrap_or_default();
    let change = move |text: String| {
        if let Some(bar) = bar.get_untracked() {
            movement.change_crook(staff.read_untracked().staff, bar, &text);
        }
    };
    let whole = press(move || movement.corrects.set(Some(staff.read_untracked().staff)));
    view! {
        {heed}
        <details class="other-crook">
            <summary id=SUMMARY>{turns::OTHER_CROOK}</summary>
            <div class="row">
                {crook_list(turns::FROM_THIS_BAR_ON, staff, Arc::new(here), Box::new(change))}
                <button on:click=whole>{turns::THE_WHOLE_PART}</button>
            </div>
        </details>
    }
    .into_any()
}

/// Where the ways to another crook open, beside a note.
const SUMMARY: &str = "other-crook";
