//! The staves of a question.

use crate::browser::measure;
use crate::components::live::live;
use crate::components::system_view::pixels;
use crate::state::kept::{Derived, Watched};
use crate::state::practise::fitted::FittedQuestion;
use crate::state::practise::picture::QuestionPicture;
use crate::state::score_sheet::{Room, SheetSystem};
use crate::state::session::Session;
use crate::words::{self, Names};
use crookwise_practice::Question;
use leptos::html::Div;
use leptos::prelude::*;

/// What a question has room for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Among others, in its usual size.
    InList,
    /// Alone: as large as its element, whose height is given by the window.
    Alone,
    /// Alone, for the back row.
    OnWall,
}

/// The page of a question, as large as there is room.
pub fn question_page(question: Derived<Option<Question>>, standing: Standing) -> AnyView {
    let wall = standing == Standing::OnWall;
    let Session { names, .. } = Session::get();
    let room = Watched::new(Room { wall, ..Room::wide((measure::window_width() - 24.0).min(900.0)) });
    let element = NodeRef::<Div>::new();
    measure::follow_size(element, move |width, height| {
        let height = (standing != Standing::InList).then_some(height);
        let now = Room { width, height, wall };
        if room.get_untracked() != now && width > 0.0 {
            room.set(now);
        }
    });
    let drawn =
        Derived::new(move || question.map(|question| FittedQuestion::of(question, names.get(), room.get())));
    let name = live(move || {
        let names = names.get();
        question.map(|question| words::spoken::page(question, names))
    });
    let size = move || live(move || drawn.map(|drawn| drawn.size.to_string()));
    let class =
        live(move || if drawn.map(|drawn| drawn.lone) == Some(true) { "drawn lone" } else { "drawn" });
    let systems = live(move || {
        drawn
            .map(|FittedQuestion { picture, .. }| {
                picture.sheet.systems.iter().map(|one| system(picture, one)).collect::<Vec<_>>()
            })
            .unwrap_or_default()
    });
    view! {
        <div class="question-page" role="img" aria-label=name node_ref=element>
            <div class=class style:zoom=size() style=("--size", size())>{systems}</div>
        </div>
    }
    .into_any()
}

/// The page of a question that was asked, on so much room.
pub fn asked_page(question: &Question, names: Names, room: Room) -> AnyView {
    let picture = QuestionPicture::of(question, names, room);
    let systems: Vec<AnyView> = picture.sheet.systems.iter().map(|one| system(&picture, one)).collect();
    view! { <div role="img" aria-label=words::spoken::page(question, names)>{systems}</div> }.into_any()
}

/// One system of a picture that only shows.
pub fn system(picture: &QuestionPicture, system: &SheetSystem) -> AnyView {
    let margin = picture.sheet.margin;
    let band = picture.heads.asked.1.and_then(|column| system.left(column)).map(|left| {
        let (left, width) = (pixels(margin + left), pixels(system.column));
        view! { <div class="band" style:left=left style:width=width></div> }.into_any()
    });
    let player = |at: usize, over: bool| {
        let (number, _) = picture
            .heads
            .player
            .as_ref()
            .filter(|(_, up)| *up == over && picture.heads.asked.0 == Some(at))?;
        let left = picture.heads.asked.1.and_then(|column| system.left(column))?;
        let (left, width) = (pixels(left), pixels(system.column));
        Some(
            view! { <p class="player-mark" style:margin-left=left style:width=width>{number.clone()}</p> }
                .into_any(),
        )
    };
    let staff = |(at, written): (usize, &crate::state::score_sheet::StaffPicture)| {
        view! {
            <div class="staff-block">
                {label(picture, at, system)}
                <div>
                    {player(at, true)}
                    <div class="picture" inner_html=written.svg.to_string()></div>
                    {player(at, false)}
                </div>
            </div>
        }
        .into_any()
    };
    let staves: Vec<AnyView> = system.written.iter().enumerate().map(staff).collect();
    let class = if margin > 0.0 { "system several margined" } else { "system several" };
    view! { <div class=class style=("--margin", pixels(margin))>{band}{staves}</div> }.into_any()
}

/// What heads a staff of a system, and what is said beside it.
fn label(picture: &QuestionPicture, at: usize, system: &SheetSystem) -> AnyView {
    let asked = picture.heads.asked.0 == Some(at) && picture.heads.labels.len() > 1;
    let class = if asked { "asked-label asked" } else { "asked-label" };
    let (label, beside) = picture.heads.head(at, system.columns.start);
    let beside = (!beside.is_empty())
        .then(|| view! { <span class="beside-label">{beside.to_owned()}</span> }.into_any());
    view! { <p class=class>{label.to_owned()} " " {beside}</p> }.into_any()
}
