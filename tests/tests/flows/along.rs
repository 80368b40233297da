//! A movement is read along in Score: the written part alone, what it sounds behind the reader, what will sound asked before each
//! entry.

use anyhow::{Context, Result, ensure};
use crookwise_tests::browser::Browser;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::{Value, json};

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    a_part_is_read_along_by_the_keyboard_and_its_entries_are_asked,
    what_is_heard_stops_before_an_entry_and_goes_on_behind_it,
    each_note_of_the_first_bar_is_asked_where_that_is_wanted,
    a_part_is_read_along_by_touch,
    neither_finger_nor_keyboard_moves_the_music_behind_the_question,
    a_class_is_asked_before_it_is_told,
    a_class_is_asked_the_whole_first_bar_where_that_is_wanted,
    a_lesson_leads_to_a_place_of_the_movement,
    a_course_over_weeks_leads_to_places
];

const DEMO: &str = "/score?demo=1";
/// How many systems are covered from their left end on, and how many in part.
const COVERS: &str = "const covers = [...document.querySelectorAll('.covered')].map((one) => one.offsetLeft);
    return [covers.filter((left) => left < 2).length, covers.filter((left) => left >= 2).length]";

/// Waits until so many systems are covered in part and some are whole.
async fn covered(page: &Page, in_part: u64) -> Result<()> {
    wait::until(&format!("{in_part} systems covered in part"), async || {
        let now = page.eval(COVERS, vec![]).await?;
        let counts = (now.get(0).and_then(Value::as_u64), now.get(1).and_then(Value::as_u64));
        Ok((counts.0 > Some(0) && counts.1 == Some(in_part)).then_some(()))
    })
    .await
}

/// Waits until what is played is known, which entries are known by as well.
async fn is_ready(page: &Page) -> Result<()> {
    page.find("region", "Playback").await?;
    wait::until("what is played to be known", async || {
        let ready = "return document.querySelector('#tool-play')?.getAttribute('aria-disabled') === null";
        Ok((page.eval(ready, vec![]).await? == json!(true)).then_some(()))
    })
    .await
}

fn a_part_is_read_along_by_the_keyboard_and_its_entries_are_asked() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(DEMO), async |page| {
        is_ready(page).await?;
        // The places come last of what stands on the way of the tabulator key.
        page.find("button", Name::Has("Solo, ".to_owned())).await?;
        page.key_on("Enter", "button", "Read along").await?;
        page.key_on("Enter", "button", "Corno I in D").await?;
        page.find("region", "Reading along").await?;
        page.sees("Corno I in D · bar 0 · next entry in bar 28").await?;
        covered(page, 0).await?;
        page.well_laid_out().await?;
        page.axe().await?;
        // What was read is shown behind the reader.
        page.key_on("Enter", "button", "Next bar").await?;
        page.sees("Corno I in D · bar 1 ·").await?;
        covered(page, 1).await?;
        page.key_on("Enter", "button", "Next question").await?;
        page.sees("Corno I in D · entry in bar 28 after").await?;
        // Written G4 sounds A3: the octave is mistaken.
        page.find("application", Name::Has("Your answer".to_owned())).await?;
        wait::until("the keyboard on the pad", async || {
            let there = "return document.activeElement?.id === 'answer'";
            Ok((page.eval(there, vec![]).await? == json!(true)).then_some(()))
        })
        .await?;
        page.axe().await?;
        page.press("a").await?;
        page.press("Enter").await?;
        page.sees("It is A3").await?;
        page.sees("octave").await?;
        page.axe().await?;
        page.focus_is_on("button", "Read on").await?;
        page.press("Enter").await?;
        page.sees("Corno I in D · bar 28 · next entry in bar 54").await?;
        // Escape ends it, and nothing is covered any more.
        page.press("Escape").await?;
        page.find_gone("region", "Reading along").await?;
        page.focus_is_on("button", "Read along").await?;
        ensure!(page.eval(COVERS, vec![]).await? == json!([0, 0]), "something is covered still");
        // The answer stands in the record, with its staff.
        page.come_back("/practise?record=").await?;
        page.sees("Corno I in D").await?;
        page.is_quiet().await
    });
}

fn what_is_heard_stops_before_an_entry_and_goes_on_behind_it() {
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).hash(DEMO), async |page| {
        if page.browser() == Browser::Firefox {
            return Ok(());
        }
        is_ready(page).await?;
        page.click("button", "Read along").await?;
        page.click("button", "Corno I in D").await?;
        covered(page, 0).await?;
        page.fill("textbox", "Go to bar or letter", "27").await?;
        page.press("Enter").await?;
        page.sees("Corno I in D · bar 27 ·").await?;
        page.click("button", "Play").await?;
        page.sees("entry in bar 28 after").await?;
        page.find("button", "Play").await?;
        page.click("button", "Leave it out").await?;
        page.sees("Left out. It is A3").await?;
        // That is no mistake.
        let wrong = page.eval("return document.querySelector('.verdict.wrong') !== null", vec![]).await?;
        ensure!(
            wrong == json!(false) && !page.text().await?.contains('✗'),
            "what is left out is marked wrong"
        );
        page.click("button", "Read on").await?;
        page.find("button", "Pause").await?;
        // It goes on while it is looked for, to the next entry.
        wait::until("bars behind the entry", async || {
            let said = page.text().await?;
            let is_in = |bar: u32| said.contains(&format!("Corno I in D · bar {bar} ·"));
            Ok((29..54).any(is_in).then_some(()))
        })
        .await?;
        page.click("button", "Pause").await?;
        page.click("button", "Stop reading along").await?;
        page.find_gone("region", "Reading along").await?;
        page.is_quiet().await
    });
}

fn each_note_of_the_first_bar_is_asked_where_that_is_wanted() {
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).hash(DEMO), async |page| {
        is_ready(page).await?;
        page.click("button", "Read along").await?;
        page.click("button", "Its whole first bar").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.click("button", "Tromba I in D").await?;
        page.click("button", "Next question").await?;
        page.sees("Tromba I in D · entry in bar 11 after").await?;
        page.sees("Note 1 of 2").await?;
        page.click("button", "Leave it out").await?;
        page.sees("It is D5").await?;
        page.well_laid_out().await?;
        page.focus_is_on("button", "Next note").await?;
        page.press("Enter").await?;
        page.sees("Note 2 of 2").await?;
        page.press("e").await?;
        page.press("Enter").await?;
        page.sees("E5").await?;
        page.focus_is_on("button", "Read on").await?;
        page.press("Enter").await?;
        page.sees("Tromba I in D · bar 11 · next entry in bar 30").await?;
        page.is_quiet().await
    });
}

/// The crook and the note that is asked stand in the question, and all of it in its room.
async fn what_decides_is_seen(page: &Page) -> Result<()> {
    wait::until("the question with its crook", async || {
        let script = "const panel = document.querySelector('#reading-along');
            const high = (kind) => panel.querySelector(kind)?.getBoundingClientRect().height > 0;
            return high('.band') && high('.asked-label') && panel.scrollHeight <= panel.clientHeight + 1";
        Ok((page.eval(script, vec![]).await? == json!(true)).then_some(()))
    })
    .await
}

fn a_part_is_read_along_by_touch() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(DEMO), async |page| {
        is_ready(page).await?;
        page.tap("button", "Read along").await?;
        page.well_laid_out().await?;
        page.tap("button", "Corno I in D").await?;
        page.sees("Corno I in D · bar 0 ·").await?;
        // The page stands where the part was laid out.
        covered(page, 0).await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.tap("button", "Next question").await?;
        page.find("button", "A").await?;
        what_decides_is_seen(page).await?;
        page.tap("button", "A").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.tap("button", "Octave down").await?;
        page.tap("button", "Answer").await?;
        page.sees("Right").await?;
        page.well_laid_out().await?;
        // Who goes elsewhere behind his answer is not asked again.
        page.tap("link", "Read").await?;
        page.hash_has("/read").await?;
        page.tap("link", "Score").await?;
        page.sees("Corno I in D · bar 28 · next entry in bar 54").await?;
        page.tap("button", "Next bar").await?;
        page.sees("Corno I in D · bar 29 ·").await?;
        page.is_quiet().await
    });
}

/// How far the page is scrolled, whether the entry that is asked stands clear of the map, whether what has the focus belongs to the
/// question or the dock, and whether it is seen whole.
const BEHIND: &str = "const box = (kind) => document.querySelector(kind).getBoundingClientRect();
    const here = document.activeElement;
    const { left, right, top, bottom } = here.getBoundingClientRect();
    const at = (x, y) => document.elementFromPoint(x, y);
    const own = (one) => one !== null && (here.contains(one) || one.contains(here) && one !== document.documentElement);
    return [scrollY, box('.gone-to').top >= box('#map').bottom - 1, here.closest('#reading-along, #playback') !== null,
        own(at((left + right) / 2, top + 2)) && own(at((left + right) / 2, bottom - 2))];";

fn neither_finger_nor_keyboard_moves_the_music_behind_the_question() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(DEMO), async |page| {
        is_ready(page).await?;
        page.tap("button", "Read along").await?;
        page.tap("button", "Corno I in D").await?;
        page.sees("Corno I in D · bar 0 ·").await?;
        covered(page, 0).await?;
        page.tap("button", "Next question").await?;
        what_decides_is_seen(page).await?;
        page.settled().await?;
        let before = page.eval(BEHIND, vec![]).await?;
        ensure!(before[1] == json!(true), "the map lies over the entry: {before}");
        for pad in ["A", "Octave down", "G"] {
            page.tap("button", pad).await?;
            page.settled().await?;
            let now = page.eval(BEHIND, vec![]).await?;
            ensure!(now[0] == before[0] && now[1] == json!(true), "{pad}: {now}, before {before}");
        }
        // Over all of the question, and all of the dock.
        let mut count = 0;
        loop {
            page.press("Tab").await?;
            page.settled().await?;
            let now = page.eval(BEHIND, vec![]).await?;
            if now[2] == json!(false) {
                break;
            }
            count += 1;
            ensure!(
                now[0] == before[0] && now[3] == json!(true),
                "after {count} steps: {now}, before {before}"
            );
        }
        ensure!(count > 8, "{count} things of question and dock");
        page.is_quiet().await
    });
}

fn a_class_is_asked_before_it_is_told() {
    flow::in_every_browser(&Setup::new(Window::DESK).hash(DEMO), async |page| {
        is_ready(page).await?;
        page.click("button", "Read along").await?;
        page.click("button", "Corno I in D").await?;
        page.find("region", "Reading along").await?;
        covered(page, 0).await?;
        page.click("button", "On the wall").await?;
        page.press("PageDown").await?;
        page.sees("What will sound?").await?;
        page.axe().await?;
        ensure!(!page.text().await?.contains("A3"), "the class is told before it is asked");
        page.press("PageDown").await?;
        page.sees("A3").await?;
        page.axe().await?;
        page.press("PageDown").await?;
        page.sees("entry in bar 54 after").await?;
        page.press("PageUp").await?;
        page.sees("entry in bar 28 after").await?;
        page.press("Escape").await?;
        page.find("button", "On the wall").await.context("the way back to the wall")?;
        page.is_quiet().await
    });
}

fn a_class_is_asked_the_whole_first_bar_where_that_is_wanted() {
    flow::in_every_browser(&Setup::new(Window::DESK).hash(DEMO), async |page| {
        is_ready(page).await?;
        page.click("button", "Read along").await?;
        page.click("button", "Its whole first bar").await?;
        page.click("button", "Tromba I in D").await?;
        page.find("region", "Reading along").await?;
        covered(page, 0).await?;
        page.click("button", "On the wall").await?;
        page.press("PageDown").await?;
        page.sees("entry in bar 11 after").await?;
        page.sees("2 notes").await?;
        ensure!(!page.text().await?.contains("D5"), "the class is told before it is asked");
        page.press("PageDown").await?;
        page.sees("D5 · E5").await?;
        page.axe().await?;
        page.press("PageDown").await?;
        page.sees("entry in bar 30 after").await?;
        page.is_quiet().await
    });
}

fn a_lesson_leads_to_a_place_of_the_movement() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/practise?step=9"), async |page| {
        page.find("link", "Open this place in Score").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.click("link", "Open this place in Score").await?;
        page.sees("Corno III in F · bar 8 · next entry in bar 9").await?;
        // The address names the movement, what is chosen is kept as it was left.
        page.hash_has("/score?demo=1").await?;
        covered(page, 1).await?;
        page.value_is("textbox", "From bar or letter", "8").await?;
        page.value_is("textbox", "To bar or letter", "13").await?;
        page.well_laid_out().await?;
        page.click("button", "Next bar").await?;
        page.sees("entry in bar 9 after").await?;
        page.back().await?;
        page.find("link", "Open this place in Score").await?;
        page.is_quiet().await
    });
}

fn a_course_over_weeks_leads_to_places() {
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).hash("/practise"), async |page| {
        page.click("button", "Weeks").await?;
        page.click("button", "Plan a course of weeks").await?;
        let field = "Add a place of a score to week 1";
        page.fill("textbox", field, "https://www.example.org/#/read?staff=Corni").await?;
        page.press("Enter").await?;
        page.sees("This is no link to a place in Score").await?;
        page.fill(
            "textbox",
            field,
            "https://www.example.org/crookwise/#/score?kept=1a2b3c&bars=24-31&title=Sinfonia",
        )
        .await?;
        page.press("Enter").await?;
        page.sees("Look and listen in Sinfonia, bars 24 to 31").await?;
        page.fill("textbox", field, "#/score?demo=1&staves=5&bars=26-31&along=5").await?;
        page.press("Enter").await?;
        page.sees("Read along in the demo movement, bars 26 to 31").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        // What goes and comes back moves nothing that is pressed next.
        let stands = async || {
            let done = page.find("button", "Done changing").await?;
            let corner = page.extent(&done).await?.corner;
            let down = page.eval("return scrollY", vec![]).await?.as_f64().unwrap_or_default();
            Ok::<_, anyhow::Error>((corner.x, corner.y + down))
        };
        let before = stands().await?;
        page.click("button", "Take out: Look and listen in Sinfonia, bars 24 to 31").await?;
        page.find_gone("button", "Take out: Look and listen in Sinfonia, bars 24 to 31").await?;
        ensure!(stands().await? == before, "the button went away when something was taken out");
        page.click("button", "Undo").await?;
        page.find("button", "Take out: Look and listen in Sinfonia, bars 24 to 31").await?;
        ensure!(stands().await? == before, "the button went away when something came back");
        page.click("button", "Done changing").await?;
        // Where the score is not, it is said which one to open.
        page.click("link", "Look and listen in Sinfonia, bars 24 to 31").await?;
        page.sees("This link leads into “Sinfonia”, which is not on this device").await?;
        page.back().await?;
        page.click("link", "Read along in the demo movement, bars 26 to 31").await?;
        page.sees("Corno I in D · bar 26 · next entry in bar 28").await?;
        page.is_quiet().await
    });
}
