//! The address says where the reader is: steps back and forth, what makes a step and what does not, the same link once
//! more, and a page that no address can hold.

use anyhow::{Result, bail, ensure};
use crookwise_practice::{Answer, AskedStaff, Exercise, Kind};
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_share::{LONGEST, Link};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    places_and_screens_are_gone_through_back_and_forth,
    an_edit_is_no_step_and_a_page_opened_over_another_is_one,
    the_same_link_opens_again,
    an_exercise_under_way_stays_where_it_is,
    a_page_that_no_address_holds_survives_a_reload_and_is_sent_packed
];

const LABEL: &str = "What the score prints";
const TRUMPETS: &str = "/read?staff=Trombe+in+D&notes=C5.G5&at=1";

async fn hash_is(page: &Page, whole: &str) -> Result<()> {
    let seen = wait::until(whole, async || Ok((page.hash().await? == whole).then_some(()))).await;
    ensure!(seen.is_ok(), "the address should be {whole:?}, but is {:?}", page.hash().await?);
    Ok(())
}

fn places_and_screens_are_gone_through_back_and_forth() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(TRUMPETS), async |page| {
        page.value_is("textbox", LABEL, "Trombe in D").await?;
        page.click("link", "Practise").await?;
        page.find("region", "Course").await?;
        page.click("button", "My record").await?;
        page.find("region", "My record").await?;
        page.hash_has("record").await?;
        // From the record to the head of Practise: address and screen change.
        page.click("link", "Practise").await?;
        page.find("region", "Course").await?;
        page.find_gone("region", "My record").await?;
        hash_is(page, "#/practise").await?;
        page.click("button", "Results of a class").await?;
        page.find("region", "Results of a class").await?;

        page.back().await?;
        page.find("region", "Course").await?;
        hash_is(page, "#/practise").await?;
        page.back().await?;
        page.find("region", "My record").await?;
        page.hash_has("record").await?;
        page.back().await?;
        page.find("region", "Course").await?;
        page.back().await?;
        page.value_is("textbox", LABEL, "Trombe in D").await?;
        page.hash_has("Trombe+in+D").await?;
        page.forward().await?;
        page.find("region", "Course").await?;
        page.forward().await?;
        page.find("region", "My record").await?;
        // A screen is there again after a reload.
        page.reload().await?;
        page.find("region", "My record").await.map(|_| ())
    });
}

fn an_edit_is_no_step_and_a_page_opened_over_another_is_one() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(TRUMPETS), async |page| {
        page.notes_are(&["written C5, sounds D5", "written G5, sounds A5"]).await?;
        let before = page.steps().await?;
        for _ in 0..6 {
            page.click("button", "Octave down").await?;
            page.click("button", "Octave up").await?;
        }
        page.click("button", "Octave down").await?;
        page.notes_are(&["written C4, sounds D4", "written G5, sounds A5"]).await?;
        // At once, so that nothing is still waiting to be written.
        page.click("link", "Practise").await?;
        page.click("button", "Set an exercise").await?;
        let set = page.steps().await?;
        ensure!(set == before + 2, "{before} steps became {set}");
        page.click("button", "Which partial").await?;
        page.click("button", "Answers to choose from").await?;
        page.click("button", "Do it").await?;
        page.find("button", "Begin").await?;
        ensure!(page.steps().await? == set + 1, "what is set is no step");
        page.back().await?;
        page.find("button", "Which partial").await?;
        let pressed =
            "return [...document.querySelectorAll('[aria-pressed=true]')].map((at) => at.textContent)";
        let on = page.eval(pressed, vec![]).await?.to_string();
        ensure!(on.contains("Which partial") && on.contains("Answers to choose from"), "{on}");
        page.back().await?;
        page.find("region", "Course").await?;
        page.back().await?;
        page.notes_are(&["written C4, sounds D4", "written G5, sounds A5"]).await?;

        // A lesson's page in Read, and back to the lesson.
        page.click("link", "Practise").await?;
        page.click("button", Name::Has("B-flat: a tone down".into())).await?;
        page.sees("Step 2 of 13").await?;
        page.hash_has("step=2").await?;
        page.click_on(&page.find_all("link", "Open in Read").await?.remove(0)).await?;
        page.value_is("textbox", LABEL, "Clarinetti in B").await?;
        page.back().await?;
        page.sees("Step 2 of 13").await?;
        page.back().await?;
        page.back().await?;
        page.notes_are(&["written C4, sounds D4", "written G5, sounds A5"]).await
    });
}

fn the_same_link_opens_again() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(TRUMPETS), async |page| {
        let whole = ["written C5, sounds D5", "written G5, sounds A5"];
        page.notes_are(&whole).await?;
        page.click("button", "Octave down").await?;
        page.notes_are(&["written C4, sounds D4", "written G5, sounds A5"]).await?;
        page.set_hash(TRUMPETS).await?;
        page.notes_are(&whole).await?;
        page.click("button", "Undo").await?;
        page.notes_are(&["written C4, sounds D4", "written G5, sounds A5"]).await?;
        page.set_hash(TRUMPETS).await?;
        page.notes_are(&whole).await?;
        // A damaged one says so each time, also where the address did not change in between.
        let damaged = "/read?v=2.00000000&staff=Corni";
        for _ in 0..2 {
            page.eval("location.href = `#${arguments[0]}`", vec![damaged.into()]).await?;
            page.sees("This link is damaged").await?;
            page.notes_are(&whole).await?;
            page.click("button", "All right").await?;
            page.find_gone("button", "All right").await?;
        }
        Ok(())
    });
}

fn an_exercise_under_way_stays_where_it_is() {
    let staves = vec![AskedStaff::of("Corni in Es")];
    let exercise =
        Exercise { kinds: vec![Kind::Partial], staves, questions: 4, seed: 11, ..Exercise::default() };
    let questions = exercise.questions().expect("questions");
    let partial = match &questions[0].right {
        Answer::Partial(Some(number)) => format!("Partial {number}"),
        _ => "Not on the series".to_owned(),
    };
    let link = Link::from(PractiseLink::Do(Some(SentExercise::of(&exercise)))).encode();
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(link), async |page| {
        page.click("button", "Begin").await?;
        page.click("button", partial.as_str()).await?;
        page.click("button", "Answer").await?;
        page.sees("Right:").await?;
        page.click("button", "Next question").await?;
        page.sees("Question 2 of 4").await?;
        page.click("link", "Read").await?;
        page.find("textbox", LABEL).await?;
        page.back().await?;
        page.sees("Question 2 of 4").await?;
        // The screens of the place are not beside a question; its course is a link away, and they beside that.
        page.click("link", "Practise").await?;
        page.find("region", "Course").await?;
        page.click("button", "My record").await?;
        page.find("region", "My record").await?;
        page.back().await?;
        page.back().await?;
        page.sees("Question 2 of 4").await?;
        // An answer that is shown is still shown.
        page.click("button", "Leave it out").await?;
        page.find("button", "Next question").await?;
        page.click("link", "Read").await?;
        page.find("textbox", LABEL).await?;
        page.back().await?;
        page.find("button", "Next question").await.map(|_| ())
    });
}

fn a_page_that_no_address_holds_survives_a_reload_and_is_sent_packed() {
    // Labels with many letters that an address writes as six, so that the page is long and yet quickly drawn.
    let label = format!("Corni+({})", "%C3%A4".repeat(160));
    let notes = ["Cs4"; 12].join(".");
    let staff = format!("staff={label}&players=2&notes={notes}&notes2={notes}");
    let page = format!("/read?{}", [staff.as_str(); 7].join("&"));
    assert!(page.len() < LONGEST && page.len() + staff.len() > LONGEST, "{}", page.len());
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(page), async |page| {
        players_are(page, 14).await?;
        page.click("button", "Change this staff").await?;
        page.click("button", "players 2").await?;
        page.click("button", "Duplicate it").await?;
        players_are(page, 16).await?;
        hash_is(page, "#/read").await?;
        page.click("button", "Share").await?;
        // A link holds it, packed.
        let link = page.value("textbox", "A link to exactly this page").await?;
        let opened = Link::decode(link.split_once('#').map_or("", |(_, hash)| hash));
        let Ok(Some(Link::Read(sent))) = opened else { bail!("{link} opens as {opened:?}") };
        ensure!(sent.passage.staves().len() == 8 && sent.passage.columns().len() == 12, "{link}");
        page.reload().await?;
        players_are(page, 16).await?;
        // Another place, and back: the page is on the desk still.
        page.click("link", "Practise").await?;
        page.find("region", "Course").await?;
        page.back().await?;
        players_are(page, 16).await?;

        // Under a name of its own it has an address.
        page.click("button", "Pages").await?;
        page.fill("textbox", "A name for this page", "Quarry, whole").await?;
        page.click("button", "Keep this page").await?;
        page.hash_has("&kept=Quarry%2C+whole").await?;
        page.click("button", "One staff, empty").await?;
        players_are(page, 1).await?;
        page.hash_has("staff=Corni+in+F").await?;
        page.set_hash("/read?kept=Quarry,%20whole").await?;
        players_are(page, 16).await?;
        page.set_hash("/read?kept=Nobody").await?;
        page.sees("No page is kept on this device under the name “Nobody”").await?;
        players_are(page, 16).await
    });
}

async fn players_are(page: &Page, count: usize) -> Result<()> {
    let seen = wait::until("the players", async || Ok((page.players().await?.len() == count).then_some(())));
    ensure!(seen.await.is_ok(), "{} players instead of {count}", page.players().await?.len());
    Ok(())
}
