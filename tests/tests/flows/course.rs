//! The course: a step leads to its exercises and back by keyboard alone, and what opens stands at its top.

use anyhow::{Context, Result, ensure};
use crookwise_practice::course::CourseStep;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    a_step_leads_to_its_exercises_and_back_by_keyboard,
    a_step_and_what_it_shows_open_at_their_top
];

/// How far the page has scrolled down.
async fn down(page: &Page) -> Result<f64> {
    page.eval("return scrollY", vec![])
        .await?
        .as_f64()
        .context("the page does not say how far it has scrolled")
}

async fn is_at_its_top(page: &Page) -> Result<()> {
    wait::until("the top of the page", async || Ok((down(page).await? == 0.0).then_some(()))).await
}

/// Waits until an exercise under way has the keyboard, then stops it by Escape.
async fn stop_by_escape(page: &Page, questions: u8) -> Result<()> {
    page.sees(&format!("Question 1 of {questions}")).await?;
    page.press("Escape").await?;
    page.sees(&format!("1 of {questions} asked, 0 right, 1 not answered, {} not reached", questions - 1))
        .await?;
    page.focus_is_on("heading", &format!("1 of {questions} asked")).await
}

fn a_step_leads_to_its_exercises_and_back_by_keyboard() {
    let step = CourseStep::ALL[1];
    let exercises = step.exercises();
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/practise"), async |page| {
        page.key_on("Enter", "button", Name::Has(step.title.into())).await?;
        page.focus_is_on("heading", step.title).await?;
        let script = "document.querySelector('.lesson ol.steps button').focus()";
        page.eval(script, vec![]).await?;
        page.press("Enter").await?;
        // Nothing was answered: there is nothing to send, and the same question is asked when the reader goes on.
        stop_by_escape(page, exercises[0].questions).await?;
        page.find_gone("textbox", "Your name, if you wish").await?;
        page.axe().await?;
        page.key_on("Enter", "button", "Go on with it").await?;
        stop_by_escape(page, exercises[0].questions).await?;
        page.key_on("Enter", "button", "Next exercise of this step").await?;
        stop_by_escape(page, exercises[1].questions).await?;
        page.key_on("Enter", "button", "Back to step 2").await?;
        page.focus_is_on("heading", step.title).await?;
        page.key_on("Enter", "button", "All steps").await?;
        page.focus_is_on("heading", "From the first crook to the whole page").await
    });
}

fn a_step_and_what_it_shows_open_at_their_top() {
    let step = CourseStep::ALL[12];
    flow::in_every_browser(&Setup::new(Window::PHONE).hash("/practise"), async |page| {
        page.click("button", Name::Has(step.title.into())).await?;
        page.focus_is_on("heading", step.title).await?;
        is_at_its_top(page).await?;
        let last = page.find_all("link", "Open in Read").await?.pop().context("an example")?;
        page.extent(&last).await?;
        ensure!(down(page).await? > 0.0, "the example stands at the top already");
        page.click_on(&last).await?;
        page.hash_has("/read").await?;
        is_at_its_top(page).await
    });
}
