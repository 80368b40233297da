//! Practise: an exercise is set, shared, done by touch and by keyboard alone, taken up after a reload, and read back from
//! codes; it works where nothing can be kept.

use anyhow::{Context, Result, ensure};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use crookwise_practice::results::{Fingerprint, Given, Outcome};
use crookwise_practice::{Answer, AskedStaff, Edition, Exercise, Kind, Mistake, Pace, Question};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_tests::browser::Browser;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    a_lesson_is_touched_where_it_stands,
    an_exercise_is_done_by_keyboard_alone,
    an_exercise_is_done_by_touch_and_a_reload_loses_nothing,
    a_finger_that_scrolls_answers_nothing,
    a_second_tap_skips_nothing,
    a_link_asks_the_same_in_a_fresh_browser_and_a_class_is_read_out_of_a_mail,
    the_page_in_read_becomes_an_exercise,
    an_old_link_says_what_was_mended_and_a_new_one_nothing,
    what_a_teacher_was_setting_waits_behind_another_exercise,
    a_teacher_sets_an_exercise_and_a_device_that_keeps_nothing_still_lets_one_practise
];

/// In the place of a device that refuses to keep anything.
const NOTHING_KEPT: &str =
    "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('refused'); } });";

fn exercise(kinds: Vec<Kind>, questions: u8, choices: bool) -> Exercise {
    let staves = vec![AskedStaff::of("Corni in Es"), AskedStaff::of("Clarinetti in A")];
    Exercise { kinds, staves, questions, choices, seed: 11, ..Exercise::default() }
}

fn link(exercise: &Exercise) -> String {
    Link::from(PractiseLink::Do(Some(SentExercise::of(exercise)))).encode()
}

/// The note of an answer, as the pad takes it: letter and sign, octaves above the one the pad begins with are not needed
/// where the octave is not judged.
fn letter_and_sign(question: &Question) -> Result<(String, i32)> {
    match &question.right {
        Answer::Note(note) => Ok((note.step.letter().to_ascii_lowercase().to_string(), note.alter)),
        other => anyhow::bail!("{other} is no note"),
    }
}

async fn asked(page: &Page, number: usize, of: usize) -> Result<()> {
    page.sees(&format!("Question {number} of {of}")).await
}

/// The code that stands at the end.
async fn code(page: &Page) -> Result<String> {
    wait::until("the code", async || {
        let text = page.eval("return document.querySelector('.code')?.textContent ?? ''", vec![]).await?;
        Ok(text.as_str().filter(|code| code.starts_with("CWX")).map(String::from))
    })
    .await
}

fn a_lesson_is_touched_where_it_stands() {
    let mine = "/read?staff=Corni+in+D&notes=C4";
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(mine), async |page| {
        page.notes_are(&["written C4, sounds D3"]).await?;
        page.set_hash("/practise?step=2").await?;
        page.sees("Step 2 of 13").await?;
        // The first example is live: its notes are there, with what they sound.
        let five = ["written C5, sounds B-flat 4", "written D5, sounds C5", "written E5, sounds D5"];
        let rest = ["written F5, sounds E-flat 5", "written G5, sounds F5"];
        page.notes_are(&[&five[..], &rest[..]].concat()).await?;
        page.find("img", "Sounding staff").await?;
        page.axe().await?;
        // A note is moved by a key, heard, and put back.
        page.focus("button", Name::Has("written C5".into())).await?;
        page.press("ArrowDown").await?;
        page.find("button", Name::Has("written B4, sounds A4".into())).await?;
        // It stays moved while the reader is elsewhere.
        page.click("link", "Read").await?;
        page.notes_are(&["written C4, sounds D3"]).await?;
        page.back().await?;
        page.find("button", Name::Has("written B4, sounds A4".into())).await?;
        // Who cannot see another example hears its notes.
        page.find("img", Name::Has("Clarinetti in B, treble clef".into())).await?;
        page.click_on(&page.find_all("button", "As it was").await?.remove(0)).await?;
        page.notes_are(&[&five[..], &rest[..]].concat()).await?;
        // Another example is touched: it is live then, and the keyboard is there.
        page.click_on(&page.find_all("button", "Touch it here").await?.remove(0)).await?;
        page.find("button", Name::Has("written F-sharp 4, sounds E4".into())).await?;
        page.focus_is_on("application", "Notes on the staff").await?;
        page.axe().await?;
        // Nothing of it came onto the reader's desk.
        page.click("link", "Read").await?;
        page.notes_are(&["written C4, sounds D3"]).await
    });
}

fn an_exercise_is_done_by_keyboard_alone() {
    let mut exercise = exercise(vec![Kind::Sounds], 3, false);
    exercise.marking.octave = false;
    let questions = exercise.questions().expect("questions");
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(link(&exercise)), async |page| {
        page.sees("3 questions").await?;
        page.focus("button", "Begin").await?;
        page.press("Enter").await?;
        for (at, question) in questions.iter().enumerate() {
            asked(page, at + 1, 3).await?;
            wait::until("the keyboard at the answer", async || {
                Ok(page.focused().await?.filter(|(role, _)| role == "application").map(|_| ()))
            })
            .await?;
            let (letter, alter) = letter_and_sign(question)?;
            page.press(&letter).await?;
            for _ in 0..alter.unsigned_abs() {
                page.press(if alter < 0 { "-" } else { "+" }).await?;
            }
            page.press("Enter").await?;
            page.sees("Right:").await?;
            wait::until("the keyboard at what comes next", async || {
                Ok(page.focused().await?.filter(|(role, _)| role == "button").map(|_| ()))
            })
            .await?;
            page.press("Enter").await?;
        }
        page.sees("3 of 3 right").await?;
        code(page).await.map(|_| ())
    });
}

fn an_exercise_is_done_by_touch_and_a_reload_loses_nothing() {
    let exercise = exercise(vec![Kind::Partial], 4, false);
    let exercise = Exercise { staves: vec![AskedStaff::of("Corni in Es")], ..exercise };
    let questions = exercise.questions().expect("questions");
    let partial = |at: usize| match &questions[at].right {
        Answer::Partial(Some(number)) => format!("Partial {number}"),
        _ => "Not on the series".to_owned(),
    };
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(link(&exercise)), async |page| {
        page.tap("button", "Begin").await?;
        asked(page, 1, 4).await?;
        page.tap("button", partial(0)).await?;
        page.tap("button", "Answer").await?;
        page.sees("Right:").await?;
        page.axe().await?;
        page.tap("button", "Next question").await?;
        asked(page, 2, 4).await?;
        let wrong = if partial(1) == "Partial 16" { "Partial 15" } else { "Partial 16" };
        // Another choice takes the place of the first, which has answered nothing.
        page.tap("button", partial(1)).await?;
        page.tap("button", wrong).await?;
        page.tap("button", "Answer").await?;
        page.sees("You said").await?;
        page.tap("button", "Next question").await?;
        asked(page, 3, 4).await?;

        // A reload in the middle takes up where it was.
        page.reload().await?;
        asked(page, 3, 4).await?;
        page.tap("button", partial(2)).await?;
        page.tap("button", "Answer").await?;
        page.tap("button", "Next question").await?;
        page.tap("button", "Leave it out").await?;
        page.tap("button", "See how it went").await?;
        page.sees("2 of 4 right").await?;
        ensure!(code(page).await?.len() <= 60, "a code of four questions is short");
        page.axe().await
    });
}

fn a_finger_that_scrolls_answers_nothing() {
    let sent = link(&exercise(vec![Kind::Sounds], 3, false));
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(sent), async |page| {
        page.tap("button", "Begin").await?;
        asked(page, 1, 3).await?;
        let drawn = async || {
            let script = "return document.querySelector('.note-pad [role=status]').textContent";
            Ok::<_, anyhow::Error>(page.eval(script, vec![]).await?.as_str().unwrap_or_default().to_owned())
        };
        for (right, down) in [(0.0, -90.0), (0.0, 90.0), (-60.0, 0.0)] {
            let staff = page.find("img", "Staff for the answer").await?;
            page.swipe(page.extent(&staff).await?.middle(), right, down).await?;
            let drawn = drawn().await?;
            ensure!(drawn.is_empty(), "a swipe by {right}, {down} answers {drawn}");
        }
        let staff = page.find("img", "Staff for the answer").await?;
        let middle = page.extent(&staff).await?.middle();
        page.touch_down(middle).await?;
        ensure!(drawn().await?.is_empty(), "an answer is taken before the finger is lifted");
        page.touch_up(middle.moved(3.0, -2.0)).await?;
        wait::until("the note that was tapped", async || Ok((!drawn().await?.is_empty()).then_some(()))).await
    });
}

/// Presses a place once, and once more as soon as the page is free again, without a driver's way between. The next picture takes
/// half a second, as on a slow telephone, so nobody has seen yet what became of the first. Says what the second fell on.
const TWICE: &str = "const [x, y, done] = arguments;
    const press = (detail) => {
        const at = document.elementFromPoint(x, y);
        at.dispatchEvent(new MouseEvent('click', { bubbles: true, cancelable: true, detail }));
        return at.textContent;
    };
    press(1);
    // What the page does at once is done before any picture.
    const once = async () => {
        for (let turn = 0; turn < 1000 && !document.getElementById('next-question'); turn += 1) await null;
        const free = performance.now() + 500;
        while (performance.now() < free);
        setTimeout(() => done(press(2)));
    };
    once();";

fn a_second_tap_skips_nothing() {
    let exercise = exercise(vec![Kind::Partial], 3, false);
    let exercise = Exercise { staves: vec![AskedStaff::of("Corni in Es")], ..exercise };
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(link(&exercise)), async |page| {
        page.tap("button", "Begin").await?;
        asked(page, 1, 3).await?;
        page.tap("button", "Partial 16").await?;
        let answer = page.find("button", "Answer").await?;
        let place = page.extent(&answer).await?.middle();
        let second = page.driver().execute_async(TWICE, vec![json!(place.x), json!(place.y)]).await?;
        ensure!(second.json() == &json!("Next question"), "the second press falls on {}", second.json());
        let next = page.find("button", "Next question").await?;
        let there = page.extent(&next).await?;
        ensure!((there.middle().y - place.y).abs() < there.height / 2.0, "it stands elsewhere: {there:?}");
        asked(page, 1, 3).await?;
        // A moment later it takes a finger.
        page.tap("button", "Next question").await?;
        asked(page, 2, 3).await
    });
}

fn a_link_asks_the_same_in_a_fresh_browser_and_a_class_is_read_out_of_a_mail() {
    let exercise = exercise(vec![Kind::Sounds, Kind::Label], 3, true);
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(link(&exercise)), async |page| {
        let mut seen = Vec::new();
        let mut codes = Vec::new();
        for student in ["Ann", "Ben"] {
            page.visit(&link(&exercise)).await?;
            page.click("button", "Begin").await?;
            let mut prompts = Vec::new();
            for number in 1..=3 {
                asked(page, number, 3).await?;
                let script = "return document.querySelector('.exercise').innerText";
                let text = page.eval(script, vec![]).await?;
                prompts.push(text.as_str().context("text")?.to_owned());
                page.click("button", "Leave it out").await?;
                let last = if number == 3 { "See how it went" } else { "Next question" };
                page.click("button", last).await?;
            }
            page.fill("textbox", "Your name, if you wish", student).await?;
            seen.push(prompts);
            codes.push(code(page).await?);
        }
        ensure!(seen[0] == seen[1], "two students were asked otherwise: {seen:?}");

        // The teacher pastes what came, wrapped and quoted as mail does it, one of it twice.
        let mail = format!("> Hello, here is mine: {}\n\nBen wrote: {}.\n{}", codes[0], codes[1], codes[1]);
        page.click("button", "Results of a class").await?;
        page.paste("textbox", "Paste a whole mail or chat: every code in it is found", &mail).await?;
        page.sees("2 codes").await?;
        page.find("rowheader", "Ann").await?;
        page.find("rowheader", "Ben").await?;
        page.axe().await?;

        // A whole class in one chat.
        let fingerprint = Fingerprint::of(&exercise.pack());
        let chat: Vec<String> = (0..30_u32)
            .map(|student| {
                let pace = Pace::ALL[student as usize % 4];
                let third = Given::wrong(pace, &[Mistake::ThirdForSixth]);
                let given = vec![Given::Right(pace), third, Given::LeftOut];
                let outcome = Outcome::new(fingerprint, student, given, &format!("Student {student}"));
                format!("Student {student}: here it is {}!", outcome.expect("an outcome").code())
            })
            .collect();
        page.paste("textbox", "Paste a whole mail or chat: every code in it is found", &chat.join(" "))
            .await?;
        // The two of before are kept.
        page.sees("32 codes").await?;
        page.find("rowheader", "Student 29").await?;
        page.sees("third for sixth").await
    });
}

fn the_page_in_read_becomes_an_exercise() {
    let page = "/read?staff=Corni+in+Es&notes=C5.E5.G5&staff=Viola&notes=Eb4.G4.Bb4&key=Eb+major";
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).hash(page), async |page| {
        page.click("button", "Share").await?;
        page.click("link", "An exercise or a worksheet from this page").await?;
        page.value_is("combobox", "Notes", "the page that stands in Read").await?;
        page.sees("What sounds here?").await?;
        page.click("button", "On paper").await?;
        page.find("button", "Print").await?;
        // Ten questions come to every one of the six notes; the first three may come to one staff only.
        page.sees("Corni in Es").await?;
        page.sees("Viola").await?;
        page.axe().await?;
        page.click("link", "Read").await?;
        page.find("button", Name::Has("written E5, sounds G4".into())).await.map(|_| ())
    });
}

fn an_old_link_says_what_was_mended_and_a_new_one_nothing() {
    let labels = ["Corni in Es", "Violini", "Viole", "Violoncelli"];
    let staves = labels.map(AskedStaff::of).into();
    let new = Exercise { staves, seed: 3, ..exercise(vec![Kind::Chord], 4, false) };
    let old = Exercise { edition: Edition::First, ..new.clone() };
    let said = "Some questions of this exercise were mended";
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(link(&old)), async |page| {
        page.find("button", "Begin").await?;
        page.sees(said).await?;
        page.axe().await?;
        page.click("button", "Begin").await?;
        asked(page, 1, 4).await
    });
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(link(&new)), async |page| {
        page.find("button", "Begin").await?;
        let text = page.eval("return document.body.textContent", vec![]).await?;
        ensure!(!text.as_str().unwrap_or_default().contains(said), "a new link was not mended");
        Ok(())
    });
}

fn what_a_teacher_was_setting_waits_behind_another_exercise() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash("/practise"), async |page| {
        page.tap("button", "Set an exercise").await?;
        page.fill("textbox", "Title", "Draft Thursday").await?;
        page.tap("button", "Which partial").await?;
        page.set_hash(&link(&exercise(vec![Kind::Label], 1, true))).await?;
        page.find("button", "Begin").await?;
        page.tap("button", "Set an exercise").await?;
        page.sees("You were setting “Draft Thursday”").await?;
        page.axe().await?;
        page.tap("button", "Go on with it").await?;
        page.value_is("textbox", "Title", "Draft Thursday").await?;
        page.find_gone("button", "Go on with it").await
    });
}

fn a_teacher_sets_an_exercise_and_a_device_that_keeps_nothing_still_lets_one_practise() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/practise"), async |page| {
        page.find("region", "Course").await?;
        page.axe().await?;
        page.click("button", "Set an exercise").await?;
        page.click("button", "Which partial").await?;
        page.click("button", "Answers to choose from").await?;
        page.sees("The first questions").await?;
        page.axe().await?;
        page.find("img", "The link as a code for a camera").await?;
        page.click("button", "On the wall").await?;
        page.find("button", "Reveal").await?;
        page.press("ArrowRight").await?;
        page.find("button", "Next question").await?;
        page.axe().await?;
        page.press("Escape").await?;
        page.click("button", "On paper").await?;
        page.find("button", "Print").await?;
        page.axe().await?;
        if page.browser() == Browser::Chromium {
            let options = json!({ "preferCSSPageSize": true, "printBackground": true });
            let printed = page.cdp("Page.printToPDF", options).await?;
            let data = printed["data"].as_str().context("a PDF")?;
            let bytes = STANDARD.decode(data).map_err(|error| anyhow::anyhow!("no base64: {error}"))?;
            let text = String::from_utf8_lossy(&bytes);
            let pages = text.matches("/Type /Page\n").count() + text.matches("/Type /Page ").count();
            // The questions and, on a page of its own, the key.
            ensure!(bytes.starts_with(b"%PDF") && pages >= 2, "{pages} pages");
            // A4 in points.
            ensure!(text.contains("595.") || text.contains("594.9"), "the paper is not A4");
        }
        page.click("button", "My record").await?;
        page.sees("Nothing has been answered on this device yet").await?;

        page.stand_in(NOTHING_KEPT).await?;
        page.come_back(&link(&exercise(vec![Kind::Label], 1, true))).await?;
        page.click("button", "Begin").await?;
        page.click("button", "Leave it out").await?;
        page.click("button", "See how it went").await?;
        page.sees("0 of 1 right").await?;
        page.stand_in("").await
    });
}
