//! An exercise is set: what is asked, on which staves, how; its first questions are shown meanwhile.

use crate::browser::{clock, field, focus};
use crate::components::choice::choice;
use crate::components::link_card::link_card;
use crate::components::live::{each, either, hear, live, press, when};
use crate::components::practise::course_view::go_to;
use crate::components::practise::list_deeds::{UNDO, done_last};
use crate::components::practise::question_page::{Standing, question_page};
use crate::components::teach::open_points::{changes_decoded, decoded, open_points};
use crate::components::teach::your_exercises::{keep_it, your_exercises};
use crate::state::kept::{Derived, Watched};
use crate::state::practise::setting::{self, Help, List, Switch};
use crate::state::practise::way_back::staff_id;
use crate::state::practise::{Practise, Screen};
use crate::state::session::Session;
use crate::words;
use crookwise_practice::exercise::{MOST_ASKED, MOST_QUESTIONS};
use crookwise_practice::{AskedStaff, Exercise, Kind, LONGEST_TITLE, Material, Question, Style, clean_title};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use leptos::ev::Event;
use leptos::prelude::*;
use std::sync::Arc;

/// Questions shown while the exercise is set.
const SHOWN: usize = 3;

/// The first questions, or why there are none.
type Made = Derived<Result<Vec<Question>, String>>;

/// The screen.
pub fn editor() -> AnyView {
    let practise = Practise::get();
    let staves = Derived::new(move || 0..practise.exercise.read().staves.len());
    let made = Derived::new(move || setting::preview(&practise.exercise.read(), SHOWN));
    let from_passage = move || matches!(practise.exercise.read().material, Material::Passage(_));
    let phrases = move || matches!(practise.exercise.read().material, Material::Phrases(_));
    let staff_list = move || {
        let add = press(move || {
            change(practise, |set| {
                if set.staves.len() < MOST_ASKED {
                    set.staves.push(AskedStaff::of("Trombe in D"));
                }
            });
        });
        let rows = each(staves, staff_row);
        view! {
            <div class="asked-staves">{rows}</div>
            <div class="row"><button on:click=add>{words::exercise::ADD_A_STAFF}</button></div>
        }
        .into_any()
    };
    view! {
        {put_aside(practise)}
        {your_exercises()}
        <div class="desk with-side">
            <section class="card exercise" aria-label=words::exercise::SET_AN_EXERCISE>
                {title(practise)}
                <h2>{words::exercise::WHAT_IS_ASKED}</h2>
                {switches(words::exercise::KINDS_OF_QUESTIONS, Kind::ALL.map(Switch::Kind).to_vec())}
                <h2>{words::exercise::ON_WHICH_STAVES}</h2>
                <div class="settings">
                    {list(words::exercise::NOTES, List::Material)}
                    {list(words::exercise::RANGE, List::Range)}
                    {when(move || !from_passage(), || list(words::exercise::MOVEMENT, List::Key))}
                </div>
                {when(phrases, || switches(words::exercise::STYLES_NONE_FOR_ALL, Style::ALL.map(Switch::Style).to_vec()))}
                {when(move || !from_passage(), staff_list)}
                {hand(practise)}
                <h2>{words::exercise::HOW}</h2>
                <div class="settings">
                    {list(words::exercise::TIME, List::Time)}
                    {number(practise)}
                    <button on:click=press(move || change(practise, |set| set.seed = clock::chance()))>
                        {words::exercise::OTHER_QUESTIONS}
                    </button>
                </div>
                {switches(words::exercise::ANSWERS, vec![Switch::Choices, Switch::Enharmonics, Switch::Octave])}
                {switches(words::exercise::SHOWN_BESIDE_THE_QUESTION, Help::ALL.map(Switch::Help).to_vec())}
            </section>
            <div class="side">
                {use_it(practise, made)}
                {preview(made)}
            </div>
        </div>
    }
    .into_any()
}

/// What the reader was setting before another exercise came in its place, with the way back to it.
fn put_aside(practise: Practise) -> AnyView {
    let part = move || {
        let called = |aside: &Exercise| words::exercise::put_aside(&words::titles::heading(aside));
        let said = live(move || practise.aside.map(called));
        view! {
            <div class="card row" role="status">
                <p>{said}</p>
                <button on:click=press(move || practise.take_up())>{words::exercise::TAKE_IT_UP}</button>
            </div>
        }
        .into_any()
    };
    view! { {when(move || practise.aside.is_some(), part)} }.into_any()
}

pub(super) fn change(practise: Practise, change: impl FnOnce(&mut Exercise)) {
    let mut set = practise.exercise.get_untracked();
    change(&mut set);
    practise.change_set(set);
}

/// What the exercise is called; as long as it is called nothing, what it would be called stands there.
fn title(practise: Practise) -> AnyView {
    let typed = hear(move |event: Event| {
        // What it asks stays what it was.
        let title = clean_title(&field::text(&event));
        practise.set_by_hand(Exercise { title, ..practise.exercise.get_untracked() });
    });
    let usual = live(move || {
        let untitled = Exercise { title: String::new(), ..practise.exercise.get() };
        Some(words::titles::heading(&untitled))
    });
    view! {
        <label class="field wide">
            <span>{words::exercise::TITLE}</span>
            <input
                aria-label=words::exercise::TITLE
                type="text"
                maxlength=LONGEST_TITLE.to_string()
                autocomplete="off"
                placeholder=usual
                prop:value=live(move || practise.exercise.read().title.clone())
                on:input=typed
            />
        </label>
    }
    .into_any()
}

/// Buttons that are on or off.
fn switches(name: &'static str, all: Vec<Switch>) -> AnyView {
    let practise = Practise::get();
    let button = |switch: Switch| {
        let on = live(move || Some(switch.is_on(&practise.exercise.read()).to_string()));
        let turn = press(move || change(practise, |set| switch.turn(set)));
        view! { <button aria-pressed=on on:click=turn>{setting::name(switch)}</button> }.into_any()
    };
    let buttons: Vec<AnyView> = all.into_iter().map(button).collect();
    view! {
        <p class="quiet">{name}</p>
        <div class="tools" role="group" aria-label=name>{buttons}</div>
    }
    .into_any()
}

fn list(name: &'static str, list: List) -> AnyView {
    let practise = Practise::get();
    let Session { desk, names, .. } = Session::get();
    choice(
        name,
        Arc::new(move || list.items(&practise.exercise.read(), names.get())),
        Arc::new(move || list.value(&practise.exercise.read())),
        Box::new(move |value: String| {
            let page = desk.page.read_untracked();
            change(practise, |set| list.choose(set, &value, &page.passage));
        }),
    )
}

/// A staff that is asked about.
fn staff_row(at: usize) -> AnyView {
    let practise = Practise::get();
    let staff = Derived::new(move || practise.exercise.read().staves.get(at).cloned().unwrap_or_default());
    let with = move |act: Box<dyn FnOnce(&mut AskedStaff)>| {
        change(practise, |set| {
            if let Some(staff) = set.staves.get_mut(at) {
                act(staff);
            }
        });
    };
    let label = hear(move |event: Event| {
        let label = field::text(&event);
        // What was chosen against the usual reading was chosen for the label before.
        with(Box::new(move |staff| (staff.label, staff.choice) = (label, None)));
    });
    let muta = hear(move |event: Event| {
        let label = field::text(&event);
        with(Box::new(move |staff| staff.muta = Some(label).filter(|label| !label.trim().is_empty())));
    });
    let pair = live(move || Some(staff.read().pair.to_string()));
    let set_clef = move |value: String| with(Box::new(move |staff| staff.settings.clef = value.parse().ok()));
    let away = press(move || {
        focus::to(UNDO.to_owned());
        practise.take_staff(at, words::weeks::taken_out);
    });
    view! {
        <div class="settings asked-staff" role="group" aria-label=words::exercise::staff(at + 1)>
            <label class="field">
                <span>{words::exercise::WHAT_THE_SCORE_PRINTS}</span>
                <input
                    id=staff_id(at)
                    aria-label=words::exercise::WHAT_THE_SCORE_PRINTS
                    type="text"
                    class="printed"
                    maxlength="200"
                    autocomplete="off"
                    spellcheck="false"
                    prop:value=live(move || staff.read().label.clone())
                    on:input=label
                />
            </label>
            {decoded(staff)}
            {choice(
                words::exercise::CLEF,
                Arc::new(setting::clefs),
                Arc::new(move || staff.read().settings.clef.map(|clef| clef.to_string()).unwrap_or_default()),
                Box::new(set_clef),
            )}
            {open_points(at, staff)}
            <label class="field">
                <span>{words::exercise::CHANGES_TO}</span>
                <input
                    aria-label=words::exercise::CHANGES_TO
                    type="text"
                    maxlength="200"
                    placeholder=words::exercise::SUCH_AS_MUTA_IN_C
                    autocomplete="off"
                    prop:value=live(move || staff.read().muta.clone().unwrap_or_default())
                    on:input=muta
                />
            </label>
            {changes_decoded(staff)}
            <button aria-pressed=pair on:click=press(move || with(Box::new(|staff| staff.pair = !staff.pair)))>
                {words::exercise::TWO_PLAYERS}
            </button>
            <button on:click=away>{words::exercise::take_staff_away(at + 1)}</button>
        </div>
    }
    .into_any()
}

/// The instrument in the reader's hands, where a question needs one.
fn hand(practise: Practise) -> AnyView {
    let needed = move || {
        practise.exercise.read().kinds.iter().any(|kind| matches!(kind, Kind::InHand | Kind::WrongNote))
    };
    let typed = hear(move |event: Event| {
        let label = field::text(&event);
        change(practise, |set| set.in_hand = Some(label).filter(|label| !label.trim().is_empty()));
    });
    let value = live(move || practise.exercise.read().in_hand.clone().unwrap_or_default());
    let hidden = live(move || !needed());
    view! {
        <label class="field in-hand" hidden=hidden>
            <span>{words::exercise::THE_INSTRUMENT_IN_THE_READERS_HANDS}</span>
            <input
                aria-label=words::exercise::THE_INSTRUMENT_IN_THE_READERS_HANDS
                type="text"
                maxlength="200"
                placeholder=words::exercise::SUCH_AS_HORN_IN_F
                autocomplete="off"
                prop:value=value
                on:input=typed
            />
        </label>
    }
    .into_any()
}

fn number(practise: Practise) -> AnyView {
    let typed = hear(move |event: Event| {
        if let Some(number) = field::number(&event) {
            let number = number.clamp(1.0, f64::from(MOST_QUESTIONS)) as u8;
            change(practise, |set| set.questions = number);
            field::set(&event, &number.to_string());
        }
    });
    view! {
        <label class="field narrow">
            <span>{words::exercise::QUESTIONS}</span>
            <input
                aria-label=words::exercise::QUESTIONS
                type="number"
                inputmode="numeric"
                min="1"
                max=MOST_QUESTIONS.to_string()
                prop:value=live(move || practise.exercise.read().questions.to_string())
                on:input=typed
            />
        </label>
    }
    .into_any()
}

/// The first questions, or why there are none. The answers are shown when they are asked for: a student may look, too.
fn preview(made: Made) -> AnyView {
    let problem = live(move || made.get().err().unwrap_or_default());
    let count = Derived::new(move || 0..made.with(|made| made.as_ref().map_or(0, Vec::len)));
    let answers = Watched::new(false);
    let one = move |at: usize| {
        shown(Derived::new(move || made.with(|made| made.as_ref().ok()?.get(at).cloned())), answers)
    };
    let pressed = live(move || Some(answers.get().to_string()));
    view! {
        <section class="card previews" aria-label=words::exercise::THE_FIRST_QUESTIONS>
            <div class="row">
                <h2>{words::exercise::THE_FIRST_QUESTIONS}</h2>
                <div class="switches">
                    <button aria-pressed=pressed on:click=press(move || answers.set(!answers.get_untracked()))>
                        {words::exercise::WITH_ANSWERS}
                    </button>
                </div>
            </div>
            <p class="problem" role="status">{problem}</p>
            {each(count, one)}
        </section>
    }
    .into_any()
}

fn shown(question: Derived<Option<Question>>, answers: Watched<bool>) -> AnyView {
    let Session { names, .. } = Session::get();
    let prompt = live(move || question.map(|one| words::practise::prompt(one, names.get())));
    let right = live(move || {
        let right = question.map(|one| words::practise::answer(&one.right, one, names.get()));
        right.filter(|_| answers.get())
    });
    view! {
        <div class="previewed">
            <p><b>{prompt}</b> " " <span class="sea">{right}</span></p>
            {question_page(question, Standing::InList)}
        </div>
    }
    .into_any()
}

/// What can be done with it; nothing while it cannot be asked.
fn use_it(practise: Practise, made: Made) -> AnyView {
    let go = move |name: &'static str, screen: Screen, class: &'static str| {
        let act = press(move || go_to(practise, screen));
        view! { <button class=class on:click=act>{name}</button> }.into_any()
    };
    let open = Watched::new(false);
    let ways = move || {
        let link =
            move || Link::Practise(PractiseLink::Do(Some(SentExercise::of(&practise.exercise.read()))));
        let expanded = live(move || Some(open.get().to_string()));
        let class = live(move || if open.get() { "link-and-code" } else { "link-and-code folded" });
        view! {
            <div class="tools use-line">
                {go(words::exercise::DO_IT, Screen::Do, "strong")}
                <button class="only-narrow" aria-expanded=expanded on:click=press(move || open.set(!open.get_untracked()))>
                    {words::exercise::LINK_AND_CODE}
                </button>
                {keep_it()}
                {go(words::exercise::ON_THE_WALL, Screen::Wall, "")}
                {go(words::exercise::ON_PAPER, Screen::Paper, "")}
            </div>
            <div class=class>
                {link_card(words::exercise::A_LINK_FOR_THE_STUDENTS, Arc::new(link), Arc::new(|| ().into_any()))}
            </div>
        }
        .into_any()
    };
    let none = move || {
        let why = live(move || made.get().err().unwrap_or_default());
        view! { <p class="quiet">{words::exercise::NO_LINK_YET} " " <b>{why}</b></p> }.into_any()
    };
    view! {
        <section class="card share-it" aria-label=words::exercise::USE_IT>
            {done_last()}
            {either(move || made.with(Result::is_ok), ways, none)}
        </section>
    }
    .into_any()
}
