//! The first screen at every size: the label, what it means, the answer, both staves, how the notes are made and how far
//! they drift stand in the window as it opens, above what stays at its lower edge.

use anyhow::{Context, Result, ensure};
use crookwise_practice::{AskedStaff, Exercise, Kind};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_tests::browser::Browser;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use crookwise_theory::{Key, Mode, Step, Tonic};
use serde_json::json;
use thirtyfour::WebElement;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    on_a_tablet_on_its_side,
    on_a_tablet_upright,
    on_a_telephone,
    on_a_telephone_with_its_bars,
    a_page_of_twelve_on_a_tablet,
    a_question_fills_every_window
];

/// A telephone whose browser shows its bars.
const BARS: Window = Window { width: 390, height: 664, touch: true };

/// Twelve staves of nine columns.
const TWELVE: &str = "/read?staff=Flauti&notes=G5.F5.E5.D5.C5.D5.E5.F5.G5&staff=Oboi&notes=E5.D5.E5.F5.E5.D5.E5.F5.G5\
    &staff=Clarinetti+in+B&notes=E5.D5.E5.F5.E5.D5.E5.F5.G5&staff=Fagotti&notes=C3.D3.E3.C3.C3.D3.E3.C3.C3\
    &staff=Corni+in+Es&players=2&notes=E5.G5.C5.E5.G5.C5.E5.G5.C5&notes2=C5.C5.C4.C5.C5.C4.C5.C5.C4\
    &staff=Corni+in+B+basso&players=2&notes=E5.G5.C5.E5.G5.C5.E5.G5.C5&notes2=C5.C5.C4.C5.C5.C4.C5.C5.C4\
    &staff=Trombe+in+Es&notes=G4.G4.G4.G4.G4.G4.G4.G4.G4&staff=Timpani+in+Es,+B&notes=C3.G2.C3.G2.C3.G2.C3.G2.C3\
    &staff=Violino+I&notes=G5.F5.E5.D5.C5.D5.E5.F5.G5&staff=Viole&notes=C4.C4.C4.C4.C4.C4.C4.C4.C4\
    &staff=Violoncelli&notes=C3.D3.E3.C3.C3.D3.E3.C3.C3&staff=Contrabbassi&notes=C3.D3.E3.C3.C3.D3.E3.C3.C3\
    &key=Eb+major&at=2";

/// Upper and lower edge of an element in the window, how much of the window is above what stays at its lower edge, and
/// how far the page has scrolled.
const EDGES: &str = "const { top, bottom } = arguments[0].getBoundingClientRect();
    const low = [...document.querySelectorAll('body *')].filter((at) => getComputedStyle(at).position === 'fixed')
        .map((at) => at.getBoundingClientRect()).filter((box) => box.height > 30 && box.width > innerWidth / 2 && box.bottom > innerHeight - 2);
    return [top, bottom, Math.min(innerHeight, ...low.map((box) => box.top)), scrollY]";

/// An element is in the window from top to bottom, without scrolling.
async fn is_in_sight(page: &Page, what: &str, element: &WebElement) -> Result<()> {
    let edges = page.eval(EDGES, vec![element.to_json()?]).await?;
    let number = |at: usize| edges[at].as_f64().with_context(|| format!("{what} has no edges"));
    let (top, bottom, end, scrolled) = (number(0)?, number(1)?, number(2)?, number(3)?);
    ensure!(scrolled == 0.0, "the page has scrolled by {scrolled}");
    ensure!(
        top >= 0.0 && bottom <= end + 0.5,
        "{what} stands from {top} to {bottom}, in sight is what is above {end}"
    );
    Ok(())
}

/// The first thing that is seen whose text begins so.
async fn with_text(page: &Page, begins: &str) -> Result<WebElement> {
    let script = "const begins = (at) => at.textContent.trim().startsWith(arguments[0]);
        const seen = [...document.querySelectorAll('main *')].filter((at) => begins(at) && at.checkVisibility() && !at.closest('.unseen, option'));
        return seen.find((at) => ![...at.children].some(begins)) ?? null";
    page.settled().await?;
    let script = script.replace("arguments[0]", &json!(begins).to_string());
    page.driver().execute(script, vec![]).await?.element().with_context(|| format!("no \"{begins}\""))
}

async fn the_start_page_is_whole(page: &Page) -> Result<()> {
    page.sees("Horn in E-flat").await?;
    is_in_sight(page, "the label", &page.find("textbox", "What the score prints").await?).await?;
    for text in ["Horn in E-flat", "E5", "Partial 10", "Written", "Sounding"] {
        is_in_sight(page, text, &with_text(page, text).await?).await?;
    }
    for staff in ["Written staff", "Sounding staff"] {
        is_in_sight(page, staff, &page.find("img", staff).await?).await?;
    }
    // The cells: partial, gauge and cents of the first columns, each of them whole.
    for (column, note) in ["written G4", "written C5", "written E5", "written G5"].into_iter().enumerate() {
        let cell = page.find_all("button", Name::Has(note.into())).await?;
        let cell = cell.first().with_context(|| format!("no {note}"))?;
        is_in_sight(page, note, cell).await?;
        let script = "const { left, right } = arguments[0].getBoundingClientRect(); return left >= 0 && right <= innerWidth";
        let whole = page.eval(script, vec![cell.to_json()?]).await?;
        ensure!(whole == json!(true), "column {column} is not whole");
    }
    Ok(())
}

fn at(window: Window) {
    flow::in_every_browser(&Setup::new(window), the_start_page_is_whole);
}

fn on_a_tablet_on_its_side() {
    at(Window::LANDSCAPE);
}

fn on_a_tablet_upright() {
    at(Window::PORTRAIT);
}

fn on_a_telephone() {
    at(Window::PHONE);
}

fn on_a_telephone_with_its_bars() {
    at(BARS);
}

fn a_page_of_twelve_on_a_tablet() {
    flow::in_browser(Browser::Chromium, &Setup::new(Window::LANDSCAPE).hash(TWELVE), async |page| {
        page.find("img", "Written staff, Contrabbassi").await?;
        page.settled().await?;
        let staves = page.find_all("img", Name::Has("Written staff, ".into())).await?;
        ensure!(staves.len() == 12, "{} written staves: more than one system", staves.len());
        for (at, staff) in staves.iter().enumerate() {
            is_in_sight(page, &format!("staff {}", at + 1), staff).await?;
        }
        Ok(())
    });
}

/// The question and the place where it is answered, whole and without scrolling.
async fn the_question_is_whole(page: &Page, prompt: &str, buttons: &[&str]) -> Result<()> {
    is_in_sight(page, prompt, &page.find("heading", prompt).await?).await?;
    is_in_sight(page, "the staff", &page.find("img", Name::Has(", treble clef".into())).await?).await?;
    for name in buttons {
        is_in_sight(page, name, &page.find("button", *name).await?).await?;
    }
    let script = "return [document.documentElement.scrollHeight - innerHeight, \
        document.querySelector('nav.tools.places') === null, document.activeElement.tagName]";
    let [beyond, alone, focused] = [0, 1, 2].map({
        let seen = page.eval(script, vec![]).await?;
        move |at: usize| seen[at].clone()
    });
    ensure!(beyond == json!(0), "the page goes on for {beyond}");
    ensure!(alone == json!(true), "the screens of the place stand beside a question");
    ensure!(focused != json!("BUTTON"), "a choice has the keyboard before it was chosen");
    Ok(())
}

/// What became of what was left out, and the way on.
async fn the_answer_is_whole(page: &Page, on: &str) -> Result<()> {
    is_in_sight(page, "the verdict", &with_text(page, "–").await?).await?;
    is_in_sight(page, on, &page.find("button", on).await?).await?;
    page.axe().await?;
    page.click("button", on).await
}

fn a_question_fills_every_window() {
    let staves = vec![AskedStaff::of("Corni in Es")];
    let kinds = vec![Kind::Sounds, Kind::Label, Kind::Partial, Kind::Degree];
    // Of its own a horn is asked for degrees in several keys.
    let keys = vec![Key::new(Tonic::new(Step::E, -1), Mode::Major)];
    let exercise = Exercise { kinds, staves, keys, questions: 4, seed: 11, ..Exercise::default() };
    let link = Link::from(PractiseLink::Do(Some(SentExercise::of(&exercise)))).encode();
    let first = exercise.questions().expect("questions")[0].kind;
    assert_eq!(first, Kind::Sounds);
    for window in [Window::PHONE, BARS, Window::PORTRAIT, Window::LANDSCAPE, Window::DESK] {
        flow::in_every_browser(&Setup::new(window).hash(&link), async |page| {
            page.click("button", "Begin").await?;
            for (at, question) in exercise.questions().context("questions")?.iter().enumerate() {
                page.sees(&format!("Question {} of 4", at + 1)).await?;
                page.settled().await?;
                let (prompt, buttons): (_, &[&str]) = match question.kind {
                    Kind::Sounds => ("What sounds here?", &["C", "B", "Flat", "Octave down", "Answer"]),
                    Kind::Label => ("What does this label say?", &["Leave it out"]),
                    Kind::Partial => ("Which partial is it?", &["Partial 2", "Not on the series"]),
                    _ => ("Which degree of E♭ major sounds?", &["1", "7", "Raised", "Answer"]),
                };
                the_question_is_whole(page, prompt, buttons).await?;
                page.click("button", "Leave it out").await?;
                let on = if at == 3 { "See how it went" } else { "Next question" };
                the_answer_is_whole(page, on).await?;
            }
            page.sees("0 of 4 right").await?;
            wait::until("the keyboard at how it went", async || {
                Ok(page.focused().await?.filter(|(role, _)| role == "heading").map(|_| ()))
            })
            .await
        });
    }
}
