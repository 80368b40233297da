//! Notes of a lesson: a picture, and where it is touched a staff to move them on. Each example has a desk and a stand of its
//! own, so that nothing here touches what lies on the reader's desk. One is live at a time: what Read is made of stands on
//! a page once.

use crate::browser::{audio, focus, measure, sight};
use crate::components::live::{either, hear, live, press};
use crate::components::page_notes::page_notes;
use crate::components::practise::question_page::system;
use crate::components::staff_sheet::SHEET;
use crate::components::tones;
use crate::state::desk::Desk;
use crate::state::hearing::{self, HeardAs, HeardPart};
use crate::state::kept::{Derived, Watched, follow};
use crate::state::practise::Practise;
use crate::state::practise::picture::QuestionPicture;
use crate::state::score_sheet::Room;
use crate::state::session::Session;
use crate::state::stand::Stand;
use crate::state::wall::Wall;
use crate::words;
use crookwise_share::ReadPage;
use leptos::context::Provider;
use leptos::ev::{MouseEvent, PointerEvent};
use leptos::prelude::*;

/// Pixels that the page leaves beside an example, and the widest it gets.
const BESIDE: f64 = 90.0;
const WIDEST: f64 = 760.0;

/// An example by the number of its step and its own from the top; `touched` is the one that is live. What the reader has
/// moved on it stays moved while he is elsewhere.
pub fn example(which: (usize, usize), touched: Watched<usize>, page: &ReadPage, text: &str) -> AnyView {
    let practise = Practise::get();
    let number = which.1;
    let session = own(&practise.example(which).unwrap_or_else(|| page.clone()));
    let desk = session.desk;
    let first = page.clone();
    follow(move || {
        let now = desk.page.read();
        practise.keep_example(which, (now.passage != first.passage).then(|| ReadPage::clone(&now)));
    });
    let is_live = move || touched.get() == number;
    let (begin, again) = (page.clone(), page.clone());
    let restore = press(move || desk.show(begin.clone()));
    let as_it_was = live(move || desk.page.read().passage == again.passage);
    let address = live(move || format!("#{}", desk.link().encode()));
    view! {
        <figure class="example" id=id(number)>
            {either(is_live, move || staff(session), move || picture(number, touched, session))}
            <figcaption>{text.to_owned()}</figcaption>
            <div class="row">
                {listen(session)}
                <button hidden=as_it_was on:click=restore>{words::course::AS_IT_WAS}</button>
                <a class="touch" href=address on:click=hear(|event: MouseEvent| follow_link(&event))>{words::course::OPEN_IN_READ}</a>
            </div>
        </figure>
    }
    .into_any()
}

/// Read opens at its top; a link that is opened in another window changes nothing here.
fn follow_link(event: &MouseEvent) {
    if !(event.ctrl_key() || event.meta_key() || event.shift_key() || event.alt_key()) {
        sight::top_after_link();
    }
}

fn id(number: usize) -> String {
    format!("example-{number}")
}

/// A session for this example alone; what is heard, said and named is the reader's. The first note is selected, so that
/// it is said what it sounds.
fn own(page: &ReadPage) -> Session {
    let outer = Session::get();
    let room = Room::wide((measure::window_width() - BESIDE).min(WIDEST));
    let page = ReadPage { selected: Some(0), ..page.clone() };
    let desk = Desk::new(page, outer.names, outer.notices);
    let wall = Wall::new();
    Session { desk, wall, stand: Stand::new(desk, wall, room), ..outer }
}

/// The staves as in Read: to select, to move, with what sounds.
fn staff(session: Session) -> AnyView {
    let Session { desk, .. } = session;
    let label = live(move || {
        let page = desk.page.read();
        match page.passage.staves() {
            [only] => Some(only.label.clone()),
            _ => None,
        }
    });
    let names = session.names;
    let beside = live(move || words::practise::beside_labels(&desk.page.read().passage, names.get()));
    let together = Derived::new(move || !desk.whole.read().is_alone());
    let class = live(move || if together.get() { "desk together" } else { "desk" });
    view! {
        <Provider value=session>
            <div class=class>
                <p class="asked-label">{label} " " <span class="beside-label">{beside}</span></p>
                {page_notes()}
                <p class="unseen" id="key-help">{words::staves::KEY_HELP}</p>
            </div>
        </Provider>
    }
    .into_any()
}

/// The staves as a picture, until they are touched.
fn picture(number: usize, touched: Watched<usize>, session: Session) -> AnyView {
    let Session { desk, names, .. } = session;
    let room = Room::wide((measure::window_width() - BESIDE).min(WIDEST));
    let picture =
        Derived::new(move || QuestionPicture::of_passage(&desk.page.read().passage, names.get(), room));
    let systems = live(move || {
        picture.with(|picture| {
            let systems = picture.sheet.systems.iter();
            systems.map(|one| system(picture, one)).collect::<Vec<AnyView>>()
        })
    });
    let said = live(move || Some(words::spoken::passage(&desk.page.read().passage, names.get())));
    // What was live above becomes a picture and lower: this one stays under the finger.
    let touch = move || {
        measure::stay(&id(number), move || touched.set(number));
        focus::to(SHEET.to_owned());
    };
    view! {
        <div role="img" aria-label=said on:pointerup=hear(move |_: PointerEvent| touch())>
            {systems}
        </div>
        <div class="row">
            <button on:click=press(touch)>{words::course::TOUCH_IT_HERE}</button>
        </div>
    }
    .into_any()
}

/// A button that lets it be heard, as it stands now.
fn listen(session: Session) -> Option<AnyView> {
    let Session { desk, speaker, notices, .. } = session;
    let act = press(move || {
        let page = desk.page.get_untracked();
        let whole = desk.whole.read_untracked();
        tones::play(speaker, notices, hearing::tones(&whole, &page, HeardPart::All, HeardAs::Tuning));
    });
    audio::is_there().then(|| {
        view! { <button on:click=act><span class="triangle" aria-hidden="true"></span>{words::course::HEAR_IT}</button> }
            .into_any()
    })
}
