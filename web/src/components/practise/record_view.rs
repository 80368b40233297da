//! What the reader has answered so far, as pictures; what comes back next.

use crate::browser::clock;
use crate::components::live::{live, press, when};
use crate::components::practise::bars::{bar, percent};
use crate::state::kept::{Derived, Watched};
use crate::state::practise::remembered;
use crate::state::practise::{Practise, Screen};
use crate::state::session::Session;
use crate::store::Store;
use crate::store::drawers::{self, zone};
use crate::words;
use crookwise_practice::Kind;
use crookwise_practice::record::{Counts, Record, StaffKey};
use leptos::prelude::*;
use leptos::task::spawn_local;

/// Lines of each picture.
const MOST: usize = 8;

/// The screen; nothing until the record is here.
pub fn record_view() -> AnyView {
    let record = Practise::get().record;
    let empty = move || record.map(Record::is_empty);
    view! {
        {when(move || empty() == Some(true), || view! { <section class="card" aria-label=words::course::MY_RECORD><p>{words::results::NO_RECORD}</p></section> }.into_any())}
        {when(move || empty() == Some(false), pictures)}
    }
    .into_any()
}

/// Begins to repeat what is due, or else what is weakest.
pub fn repeat_now(practise: Practise) {
    let record = practise.record.get_untracked().unwrap_or_default();
    let fresh = remembered::fresh(&record);
    let today = zone().shown(clock::seconds());
    if let Some(run) = remembered::repetition(&record, &fresh, today, clock::chance()) {
        practise.repeat(run, clock::now());
    }
}

fn pictures() -> AnyView {
    let practise = Practise::get();
    let store = Store::get();
    let record = Derived::new(move || practise.record.get().unwrap_or_default());
    let Session { names, .. } = Session::get();
    let now = zone().shown(clock::seconds());
    let weak = Derived::new(move || record.read().weak(now));
    let asking = Watched::new(false);
    let repeat = press(move || repeat_now(practise));
    let go_on = live(move || {
        let (at, all) = practise.left_repetition()?;
        let act = press(move || practise.go(Screen::Repeat));
        let face = words::results::go_on_repeating(at + 1, all);
        Some(view! { <button class="strong" on:click=act>{face}</button> }.into_any())
    });
    let class = live(move || if practise.left_repetition().is_some() { "" } else { "strong" });
    let due = live(move || {
        let record = record.read();
        let due = remembered::due(&record, now);
        let next = remembered::next_in_days(&record, now);
        words::results::due(due.len(), &remembered::due_staves(&record, &due), next)
    });
    let staves = live(move || {
        let name = |staff: &StaffKey| words::results::staff_met(&record.read(), *staff);
        list(words::course::WEAKEST_STAVES_LAST_THIRTY_DAYS, shares(&weak.read().staves, name))
    });
    let notes = live(move || {
        let names = names.get();
        list(words::course::WEAKEST_NOTES, shares(&weak.read().notes, move |note| names.tonic(*note)))
    });
    let kinds = live(move || {
        let name = |kind: &Kind| words::practise::kind(*kind).to_owned();
        list(words::course::WEAKEST_KINDS_OF_QUESTIONS, shares(&weak.read().kinds, name))
    });
    let mistakes = live(move || {
        let weak = weak.read();
        let most = weak.mistakes.first().map_or(1, |(_, count)| *count);
        let one = |(mistake, count): &(crookwise_practice::Mistake, u32)| {
            bar(words::mistakes::short(*mistake).to_owned(), *count, most)
        };
        list(words::course::MISTAKES, weak.mistakes.iter().take(MOST).map(one).collect())
    });
    let weeks = live(move || {
        let weeks = remembered::weeks(&record.read(), now);
        let most = weeks.iter().map(|week| week.asked).max().unwrap_or(1).max(1);
        let last = weeks.len();
        weeks.iter().enumerate().map(|(at, week)| column(*week, most, last - at - 1)).collect::<Vec<_>>()
    });
    let highest = live(move || {
        let most = remembered::weeks(&record.read(), now).iter().map(|week| week.asked).max();
        words::results::highest(most.unwrap_or_default())
    });
    let wipe = press(move || {
        if asking.get_untracked() {
            spawn_local(async move {
                let _ = drawers::wipe_record(store).await;
            });
        } else {
            asking.set(true);
        }
    });
    view! {
        <section class="card exercise" aria-label=words::course::MY_RECORD>
            <h2>{words::course::WHAT_COMES_BACK}</h2>
            <p>{due}</p>
            <div class="row">{go_on} <button class=class on:click=repeat>{words::course::REPEAT_NOW}</button></div>
            <h2>{words::course::WEEK_BY_WEEK}</h2>
            <p class="legend">
                <span class="fluent">{words::course::FLUENT_RIGHT_AND_QUICK}</span>
                <span class="slow">{words::course::RIGHT_BUT_SLOW}</span>
                <span class="wrong">{words::course::WRONG}</span>
            </p>
            <ol class="weeks">{weeks}</ol>
            <p class="week-ends quiet"><span>{words::course::weeks_ago(remembered::WEEKS - 1)}</span><span>{highest}</span><span>{words::course::THIS_WEEK}</span></p>
            {staves}
            {notes}
            {kinds}
            {mistakes}
            <div class="row">
                <button on:click=wipe>
                    {live(move || if asking.get() { words::course::YES_WIPE_MY_RECORD_FOR_GOOD } else { words::course::WIPE_MY_RECORD })}
                </button>
            </div>
            <p class="quiet">{words::results::RECORD_IS_HERE}</p>
        </section>
    }
    .into_any()
}

/// A list under its head; nothing where nothing is in it.
fn list(head: &'static str, bars: Vec<AnyView>) -> Option<AnyView> {
    (!bars.is_empty()).then(|| view! { <h2>{head}</h2> <dl class="bars">{bars}</dl> }.into_any())
}

/// Shares of right answers, the weakest first.
fn shares<T>(list: &[(T, Counts)], name: impl Fn(&T) -> String) -> Vec<AnyView> {
    let one = |(what, counts): &(T, Counts)| {
        let said = words::results::share(*counts);
        view! {
            <div class="count">
                <dt>{name(what)}</dt>
                <dd><span class="so-much"><span style:width=percent(counts.right, counts.asked)></span></span> {said}</dd>
            </div>
        }
        .into_any()
    };
    list.iter().take(MOST).map(one).collect()
}

/// A week as a column.
fn column(week: Counts, most: u32, back: usize) -> AnyView {
    let part = |count: u32| percent(count, most);
    let slow = week.right.saturating_sub(week.fluent);
    let wrong = week.asked.saturating_sub(week.right);
    let said = words::results::week(back, week);
    let title = said.clone();
    // Who hears the list hears what there is.
    let hidden = (week.asked == 0).then_some("true");
    view! {
        <li title=title aria-hidden=hidden>
            <span class="unseen">{said}</span>
            <span class="wrong" style:height=part(wrong)></span>
            <span class="slow" style:height=part(slow)></span>
            <span class="fluent" style:height=part(week.fluent)></span>
        </li>
    }
    .into_any()
}
