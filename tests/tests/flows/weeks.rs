//! A teacher names exercises, keeps them, plans a course over weeks and hands it on as one link; a student keeps it, does
//! what is due, and sees what is done and late.

use anyhow::{Context, Result, ensure};
use crookwise_practice::{AskedStaff, Exercise, Kind};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_share::weeks::{PlannedWeek, WeekPlan};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    an_exercise_gets_a_title_and_is_kept_renamed_and_taken_out,
    a_course_over_weeks_is_planned_sent_and_done,
    a_staff_taken_away_comes_back,
    the_list_comes_into_a_database_of_before,
    link_and_code_are_at_hand_however_many_staves_there_are,
    a_course_too_long_for_a_code_goes_as_its_link_or_its_file
];

fn exercise(title: &str, labels: &[&str]) -> Exercise {
    Exercise {
        title: title.into(),
        kinds: vec![Kind::Partial],
        staves: labels.iter().map(|label| AskedStaff::of(label)).collect(),
        questions: 1,
        ..Exercise::default()
    }
}

fn to_set(exercise: &Exercise) -> String {
    Link::from(PractiseLink::Set(Some(SentExercise::of(exercise)))).encode()
}

/// Unfolds the list of named exercises, which says how many there are.
async fn unfold(page: &Page, count: usize) -> Result<()> {
    page.sees(&format!("Your exercises ({count})")).await?;
    page.eval("document.querySelector('.your-exercises').open = true", vec![]).await.map(|_| ())
}

/// Gives a week its day, as the browser's calendar does.
async fn set_day(page: &Page, week: usize, day: &str) -> Result<()> {
    let script = "const field = document.querySelector(`[aria-label=\"${arguments[0]}\"]`);
        field.value = arguments[1];
        field.dispatchEvent(new Event('change', { bubbles: true }));";
    let name = format!("Week {week} is to be done by");
    page.eval(script, vec![json!(name), json!(day)]).await.map(|_| ())
}

async fn day_is(page: &Page, week: usize, day: &str) -> Result<()> {
    let script = "return document.querySelector(`[aria-label=\"Week ${arguments[0]} is to be done by\"]`)?.value === arguments[1]";
    wait::until("the day of the week", async || {
        let is = page.eval(script, vec![json!(week), json!(day)]).await?;
        Ok((is == json!(true)).then_some(()))
    })
    .await
}

/// The link in a field, behind the sign.
async fn link_in(page: &Page, field: &str) -> Result<String> {
    let script = "return document.querySelector(`[aria-label=\"${arguments[0]}\"]`)?.value ?? ''";
    wait::until("the link", async || {
        let link = page.eval(script, vec![json!(field)]).await?;
        Ok(link.as_str().and_then(|link| link.split_once('#')).map(|(_, hash)| hash.to_owned()))
    })
    .await
}

/// What stands out of the card of a course that is changed.
const BEYOND_THE_CARD: &str =
    "const { left, right } = document.querySelector('.plan-editor').getBoundingClientRect();
    return [...document.querySelectorAll('.plan-editor *')].filter((one) => {
        const box = one.getBoundingClientRect();
        return box.width > 0 && (box.right > right + 1 || box.left < left - 1);
    }).map((one) => one.textContent);";

fn an_exercise_gets_a_title_and_is_kept_renamed_and_taken_out() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/practise"), async |page| {
        page.click("button", "Set an exercise").await?;
        // Letter by letter: the link follows each and none is lost.
        page.fill("textbox", "Title", "Horns for Monday: Es & D").await?;
        page.value_is("textbox", "Title", "Horns for Monday: Es & D").await?;
        page.hash_has("title=Horns+for+Monday%3A+Es+%26+D").await?;
        let name = page.eval("return document.title", vec![]).await?;
        ensure!(
            name == json!("Horns for Monday: Es & D · Practise · Crookwise"),
            "the window is called {name}"
        );
        page.click("button", "Keep this exercise").await?;
        page.sees("is among your exercises").await?;
        unfold(page, 1).await?;
        page.axe().await?;
        page.click("button", "Rename: Horns for Monday: Es & D").await?;
        // All of the title is selected: what is typed takes its place.
        page.focus_is_on("textbox", "New title").await?;
        page.write("Horns for Tuesday").await?;
        page.press("Enter").await?;
        page.focus_is_on("button", "Horns for Tuesday").await?;
        page.sees("is called “Horns for Tuesday” now").await?;
        page.press("Control+z").await?;
        page.focus_is_on("button", "Horns for Monday: Es & D").await?;
        page.click("button", "Rename: Horns for Monday: Es & D").await?;
        page.focus_is_on("textbox", "New title").await?;
        page.write("x").await?;
        page.press("Escape").await?;
        page.focus_is_on("button", "Horns for Monday: Es & D").await?;
        page.click("button", "Rename: Horns for Monday: Es & D").await?;
        page.fill("textbox", "New title", "Horns for Tuesday").await?;
        page.press("Tab").await?;
        page.find("button", "Horns for Tuesday").await?;
        // What one window keeps, the other shows; and both are kept.
        let first = page.driver().window().await?;
        let second = page.open_window().await?;
        page.come_back(&to_set(&exercise("Trumpets", &["Trombe in D"]))).await?;
        page.click("button", "Keep this exercise").await?;
        unfold(page, 2).await?;
        page.driver().switch_to_window(first).await?;
        page.find("button", "Trumpets").await?;
        page.click("button", "Take out: Trumpets").await?;
        page.find_gone("button", "Trumpets").await?;
        page.click("button", "Undo").await?;
        page.find("button", "Trumpets").await?;
        page.driver().switch_to_window(second).await?;
        page.find("button", "Horns for Tuesday").await?;
        page.reload().await?;
        unfold(page, 2).await?;
        page.click("button", "Horns for Tuesday").await?;
        page.value_is("textbox", "Title", "Horns for Tuesday").await?;
        // Its title stands at its head and on its paper.
        page.click("button", "On paper").await?;
        page.find("heading", "Horns for Tuesday").await?;
        page.click("button", "Set an exercise").await?;
        page.click("button", "Do it").await?;
        page.find("heading", "Horns for Tuesday").await.map(|_| ())
    });
}

fn a_course_over_weeks_is_planned_sent_and_done() {
    let first = to_set(&exercise("First crooks", &["Corni in Es"]));
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).hash(first), async |page| {
        page.click("button", "Keep this exercise").await?;
        page.sees("is among your exercises").await?;
        page.click("button", "Weeks").await?;
        page.click("button", "Plan a course of weeks").await?;
        page.fill("textbox", "Title of the course", "Horns in autumn").await?;
        page.choose("Add to week 1", "First crooks").await?;
        page.find("button", "Take out: First crooks").await?;
        // By the platform's key as well; the keyboard is where the thing is that is back.
        page.key_on("Enter", "button", "Take out: First crooks").await?;
        page.focus_is_on("button", "Undo").await?;
        page.press("Control+z").await?;
        page.focus_is_on("button", "Take out: First crooks").await?;
        page.find("region", "Horns in autumn").await?;
        set_day(page, 1, "2020-01-06").await?;
        page.click("button", "Add a week").await?;
        // The next week is seven days later; this one has time.
        day_is(page, 2, "2020-01-13").await?;
        set_day(page, 2, "2099-12-31").await?;
        page.choose("Add to week 2", "The exercise that is set: First crooks").await?;
        page.find("button", "Take week 2 out").await?;
        page.axe().await?;
        page.click("button", "Take week 2 out").await?;
        page.find_gone("button", "Take week 2 out").await?;
        page.click("button", "Undo").await?;
        page.focus_is_on("button", "Take week 2 out").await?;
        page.click("button", "Done changing").await?;
        page.click("button", "Hand this course on").await?;
        let link = link_in(page, "A link to this course").await?;

        // The student: a browser that knows nothing.
        page.forget().await?;
        page.visit(&link).await?;
        page.find("region", "From a link").await?;
        page.sees("Week 1, by Monday 6 January 2020").await?;
        page.axe().await?;
        page.click("button", "Keep it on this device").await?;
        page.find_gone("region", "From a link").await?;
        page.sees("0 of 2 exercises done, 1 late").await?;
        page.click_on(&page.find_all("button", Name::Has("First crooks".into())).await?.remove(0)).await?;
        page.click("button", "Partial 16").await?;
        page.click("button", "Answer").await?;
        page.click("button", "See how it went").await?;
        page.click("button", "Weeks").await?;
        page.sees("done late").await?;
        page.reload().await?;
        page.sees("done late").await?;
        page.find_gone("region", "From a link").await
    });
}

/// It was said only that it is too long.
fn a_course_too_long_for_a_code_goes_as_its_link_or_its_file() {
    // Weeks that are alike would be packed into a few letters.
    let week = |number: u32| {
        let own = Exercise { seed: number * 7919, ..exercise("", &["Corni in Es", "Trombe in D"]) };
        PlannedWeek { exercises: vec![SentExercise::of(&own)], ..PlannedWeek::default() }
    };
    let plan = WeekPlan { number: 7, title: "A term".into(), weeks: (1..=12).map(week).collect() };
    let link = Link::from(PractiseLink::Weeks(plan.to_text())).encode();
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(link), async |page| {
        page.tap("button", "Keep it on this device").await?;
        page.tap("button", "Hand this course on").await?;
        page.sees("This is too long for a code that a camera reads from afar").await?;
        page.sees("of its 12 exercises. Send the course as its link, in a mail or a chat, or as its file.")
            .await?;
        page.find("button", "Copy the link").await?;
        page.find("button", "Save this course as a file").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.tap("button", "Change this course").await?;
        page.find("button", "Take week 1 out").await?;
        let beyond = page.eval(BEYOND_THE_CARD, vec![]).await?;
        ensure!(beyond == json!([]), "it stands out of its card: {beyond}");
        page.well_laid_out().await
    });
}

fn a_staff_taken_away_comes_back() {
    let set = to_set(&exercise("Two", &["Corni in Es", "Trombe in D"]));
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(set), async |page| {
        for by_key in [true, false] {
            page.key_on("Enter", "button", "Take staff 1 away").await?;
            page.sees("“Corni in Es” was taken out").await?;
            page.find_count("textbox", "What the score prints", 1).await?;
            page.focus_is_on("button", "Undo").await?;
            if by_key {
                page.press("Control+z").await?;
            } else {
                page.press("Enter").await?;
            }
            page.find_count("textbox", "What the score prints", 2).await?;
            page.focus_is_on("textbox", "What the score prints").await?;
            let first = "return document.activeElement.value";
            ensure!(
                page.eval(first, vec![]).await? == json!("Corni in Es"),
                "another staff has the keyboard"
            );
        }
        // What was said stays where it was done.
        page.key_on("Enter", "button", "Take staff 1 away").await?;
        page.sees("was taken out").await?;
        page.click("button", "Weeks").await?;
        page.find("button", "Plan a course of weeks").await?;
        page.find_gone("button", "Undo").await
    });
}

fn the_list_comes_into_a_database_of_before() {
    // As the first version of the database stood, with a page in it.
    let before = "const request = indexedDB.open('crookwise', 1);
        return new Promise((done, failed) => {
            request.onupgradeneeded = () => ['pages', 'record', 'aside'].forEach((name) => request.result.createObjectStore(name));
            request.onerror = failed;
            request.onsuccess = () => {
                const put = request.result.transaction(['pages'], 'readwrite');
                put.objectStore('pages').put('crookwise page 1\\n5\\nTwo oboes\\n/read?staff=Oboi&notes=C5', 'Two oboes');
                put.oncomplete = () => { request.result.close(); done(true); };
            };
        })";
    flow::in_every_browser(
        &Setup::new(Window::LANDSCAPE).hash("/read?staff=Fagotti&notes=C3"),
        async |page| {
            page.notes_are(&["written C3"]).await?;
            ensure!(page.promised(before).await? == json!(true), "no database of before");
            page.come_back(&to_set(&exercise("First crooks", &["Corni in Es"]))).await?;
            page.click("button", "Keep this exercise").await?;
            unfold(page, 1).await?;
            page.click("link", "Read").await?;
            page.click("button", "Pages").await?;
            page.find("button", "Two oboes").await.map(|_| ())
        },
    );
}

fn link_and_code_are_at_hand_however_many_staves_there_are() {
    let labels =
        ["Corni in Es", "Corni in B", "Trombe in D", "Clarinetti in A", "Tenortuben in B", "Fagotti"];
    let many = to_set(&exercise("", &labels));
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(many), async |page| {
        for window in [Window::PHONE, Window::PORTRAIT] {
            page.resize(window).await?;
            let unfolds = page.find("button", "Link and code").await?;
            let extent = page.extent(&unfolds).await?;
            let height = page.eval("return innerHeight", vec![]).await?.as_f64().context("a height")?;
            ensure!(extent.middle().y < height, "{window:?}: the link lies below the window");
            page.tap("button", "Link and code").await?;
            page.find("textbox", "A link for the students").await?;
            page.axe().await?;
            page.tap("button", "Link and code").await?;
            page.find_gone("textbox", "A link for the students").await?;
        }
        // Under each label what it was decoded to, and what it leaves open.
        page.sees("Horn in E-flat").await?;
        // What cannot be asked has no link and says why.
        page.fill("textbox", "Title", "x").await?;
        let first = page.find_all("textbox", "What the score prints").await?.remove(0);
        page.click_on(&first).await?;
        page.eval(
            "const field = document.activeElement; field.value = 'xyzzyq';
             field.dispatchEvent(new Event('input', { bubbles: true }))",
            vec![],
        )
        .await?;
        page.sees("It cannot be asked yet, so it has no link:").await?;
        page.find_gone("button", "Do it").await?;
        page.resize(Window::LANDSCAPE).await.map(|_| ())
    });
}
