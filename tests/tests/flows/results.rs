//! What was answered: the end of an exercise, the tables of a class, and the record of two windows.

use anyhow::{Context, Result, ensure};
use crookwise_practice::results::{Explained, Fingerprint, Given, Missed, Outcome, Tally};
use crookwise_practice::{Answer, AskedStaff, Exercise, Kind, Marking, Mistake, Off, Pace, Question};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use crookwise_theory::Interval;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    a_class_is_read_with_what_was_taken_for_what,
    codes_of_a_class_last_and_are_taken_away_by_a_tap,
    a_student_sees_what_was_missed_before_the_code,
    answers_of_two_windows_are_in_the_record
];

/// The name of the box.
const PASTE: &str = "Paste a whole mail or chat: every code in it is found";

/// A code that the first version wrote, of another exercise than all here.
const FIRST_VERSION: &str = "CWX4428T5AJG87FXAPTR6AC";

fn exercise(kind: Kind, labels: &[&str], questions: u8) -> Exercise {
    let staves = labels.iter().map(|label| AskedStaff::of(label)).collect();
    Exercise { kinds: vec![kind], staves, questions, choices: true, seed: 11, ..Exercise::default() }
}

fn link(exercise: &Exercise) -> String {
    Link::from(PractiseLink::Do(Some(SentExercise::of(exercise)))).encode()
}

fn code(exercise: Fingerprint, tag: u32, given: Vec<Given>, name: &str) -> String {
    Outcome::new(exercise, tag, given, name).expect("an outcome").code()
}

/// What a student gives who takes "Es" for E on every horn and leaves out every fourth question.
fn e_for_es(questions: &[Question]) -> Vec<Given> {
    let one = |(at, question): (usize, &Question)| {
        let horn = question.passage.staves()[question.at.staff].label == "Corni in Es";
        match question.right {
            _ if at % 4 == 3 => Given::LeftOut,
            Answer::Note(right) if horn => {
                let answer = Answer::Note(right + Interval::new(0, 1));
                let mark = question.mark(&answer, Marking::default());
                Given::of(Pace::Slow, &mark, question.off(&answer))
            }
            _ => Given::Right(Pace::Fluent),
        }
    };
    questions.iter().enumerate().map(one).collect()
}

/// Nothing stands beside a window of this size.
async fn fits(page: &Page, window: Window) -> Result<()> {
    page.resize(window).await?;
    let script = "return document.documentElement.scrollWidth - innerWidth";
    let over = page.eval(script, vec![]).await?.as_i64().context("a width")?;
    ensure!(over <= 0, "{window:?} is {over} pixels too narrow");
    Ok(())
}

fn a_class_is_read_with_what_was_taken_for_what() {
    let exercise = exercise(Kind::Sounds, &["Corni in Es", "Hörner in tief B", "Clarinetti in A"], 20);
    let questions = exercise.questions().expect("questions");
    let own = Fingerprint::of_exercise(&exercise);
    let given = e_for_es(&questions);
    let horns = given.iter().filter(|given| matches!(given, Given::Wrong(..))).count();
    // Each of the two students has the same mistake so often; where a partial was missed another one is named beside it.
    let commonest = Tally::of(&given).missed.first().map_or(0, |cause| cause.count);
    let far = Missed { named: Explained::Nothing, off: Some(Off::Note(Interval::new(-3, -5))) };
    let last_week = Fingerprint::of(b"last week");
    let bens = code(own, 2, given.clone(), "Ben");
    let chat = [
        code(own, 1, given.clone(), ""),
        // The same run, after the name was typed.
        code(own, 1, given.clone(), "Żaneta Wilk-Brückner"),
        bens.clone(),
        format!("\ncut off: {}\n", &bens[..bens.len() - 4]),
        code(last_week, 3, vec![Given::Wrong(Pace::Slow, far), Given::Right(Pace::Slow)], "Ben"),
        code(last_week, 4, vec![Given::wrong(Pace::Slow, &[Mistake::Octave, Mistake::Direction])], "Cleo"),
        format!("> {FIRST_VERSION}"),
    ];
    let setup = Setup::new(Window::PHONE).hash(link(&exercise));
    flow::in_every_browser(&setup, async |page| {
        page.click("button", "Results of a class").await?;
        page.paste("textbox", PASTE, &chat.join(" ")).await?;
        page.sees("2 codes of the exercise that is set").await?;
        page.sees("Line 2: a code that is damaged").await?;
        for row in ["Ben", "Żaneta Wilk-Brückner"] {
            page.find("rowheader", row).await.with_context(|| row.to_owned())?;
        }
        // One label was taken for another, so often and by so many.
        let rows = "const table = document.querySelector('table[aria-label=\"Labels read as others\"]'); \
             return table ? [...table.querySelectorAll('tbody tr')].map((row) => \
             [...row.children].map((cell) => cell.textContent.trim()).join(' | ')) : []";
        let rows = page.eval(rows, vec![]).await?;
        let wanted = format!("Corni in Es | Corni in E | {} | 2", 2 * horns);
        ensure!(rows == serde_json::json!([wanted]), "{rows}");
        let left_out = given.iter().filter(|given| **given == Given::LeftOut).count();
        page.sees(&format!("{} not answered", 2 * left_out)).await?;
        page.click("button", "Mistakes of each").await?;
        page.sees(&format!("E for Es {commonest}")).await?;
        for head in ["By staff as printed", "By clef", "By question", "Over the term"] {
            page.find("heading", head).await.with_context(|| head.to_owned())?;
        }
        // A question opens with its staff.
        let first = page.find_all("button", Name::Has("1. ".into())).await?;
        page.click_on(first.first().context("the first question")?).await?;
        page.find("img", Name::Has(questions[0].passage.staves()[0].label.clone())).await?;
        for window in Window::ALL {
            fits(page, window).await?;
            page.axe().await?;
        }
        // The other exercise, which nobody here knows: its mistakes have names, and what has none says how far off it was.
        page.click("button", "Exercise 2: 2 codes").await?;
        page.sees("Set it, or paste its link as well").await?;
        page.sees("wrong direction or octave").await?;
        page.sees("a perfect fourth too low").await?;
        page.find("rowheader", "Cleo").await.map(|_| ())
    });
}

fn codes_of_a_class_last_and_are_taken_away_by_a_tap() {
    let exercise = exercise(Kind::Sounds, &["Corni in Es"], 3);
    let own = Fingerprint::of_exercise(&exercise);
    let one =
        |tag, name| code(own, tag, vec![Given::Right(Pace::Fluent), Given::LeftOut, Given::LeftOut], name);
    let codes = [one(1, "Ann"), one(2, "Ben")];
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(link(&exercise)), async |page| {
        page.click("button", "Results of a class").await?;
        page.paste("textbox", PASTE, &codes.join(" ")).await?;
        page.sees("2 codes of the exercise that is set").await?;
        page.find("button", "Take these codes away").await?;
        // Another exercise is set, the page is loaded anew: they are there, with their questions.
        page.come_back("/practise").await?;
        page.click("button", "Results of a class").await?;
        page.find("rowheader", "Ben").await?;
        page.find("heading", "By staff as printed").await?;
        page.key_on("Enter", "button", "Take these codes away").await?;
        page.sees("2 codes were taken away").await?;
        page.find_gone("rowheader", "Ben").await?;
        page.focus_is_on("button", "Undo").await?;
        page.press("Enter").await?;
        page.find("rowheader", "Ben").await?;
        page.axe().await
    });
}

fn a_student_sees_what_was_missed_before_the_code() {
    let exercise = exercise(Kind::Sounds, &["Corni in Es", "Viole"], 3);
    let questions = exercise.questions().expect("questions");
    let choice = |question: &Question, right: bool| {
        let at = question.choices.iter().position(|one| question.is_right(one, exercise.marking) == right);
        at.map(|at| (at + 1).to_string()).expect("such a choice")
    };
    let keys = [choice(&questions[0], false), choice(&questions[1], true)];
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(link(&exercise)), async |page| {
        page.click("button", "Begin").await?;
        for (at, key) in keys.iter().enumerate() {
            page.sees(&format!("Question {} of 3", at + 1)).await?;
            page.focus_is_on("group", "Your answer").await?;
            page.press(key).await?;
            page.press("Enter").await?;
            page.click("button", "Next question").await?;
        }
        page.sees("Question 3 of 3").await?;
        page.click("button", "Leave it out").await?;
        page.click("button", "See how it went").await?;
        page.sees("1 of 3 right, 1 left out").await?;
        // The staff of each question that was missed, and beside the note that was given the right one.
        let label = |question: &Question| question.passage.staves()[question.at.staff].label.clone();
        for question in [&questions[0], &questions[2]] {
            let staff = Name::Has(label(question));
            ensure!(!page.find_all("img", staff).await?.is_empty(), "no staff of {question:?}");
        }

        let above = "const missed = document.querySelectorAll('.missed > li'); \
             const code = document.querySelector('.code'); \
             return [missed.length, [...missed].every((one) => one.querySelector('svg') \
             && one.compareDocumentPosition(code) & Node.DOCUMENT_POSITION_FOLLOWING)]";
        let above = page.eval(above, vec![]).await?;
        ensure!(above == serde_json::json!([2, true]), "{above}");
        page.axe().await?;
        page.click("button", "To the code for a teacher").await?;
        page.focus_is_on("heading", "For a teacher").await?;
        // After a reload the end says the same.
        let code = page.eval("return document.querySelector('.code').textContent", vec![]).await?;
        page.reload().await?;
        page.sees("1 of 3 right, 1 left out").await?;
        let again = page.eval("return document.querySelector('.code').textContent", vec![]).await?;
        ensure!(code == again, "{code} became {again}");
        for window in Window::ALL {
            fits(page, window).await?;
        }
        Ok(())
    });
}

/// Answers a question about a partial rightly.
async fn answer(page: &Page, question: &Question) -> Result<()> {
    let name = match question.right {
        Answer::Partial(Some(number)) => format!("Partial {number}"),
        _ => "Not on the series".to_owned(),
    };
    page.click("button", name.as_str()).await?;
    page.click("button", "Answer").await?;
    page.sees("Right:").await
}

/// Answers it by a number that no mistake explains.
async fn answer_wrong(page: &Page, exercise: &Exercise, question: &Question) -> Result<()> {
    let unexplained = |number: &u8| {
        let mark = question.mark(&Answer::Partial(Some(*number)), exercise.marking);
        !mark.right && mark.explained.is_empty()
    };
    let number = (2..=16).find(unexplained).context("every number is right or a known mistake")?;
    page.click("button", format!("Partial {number}").as_str()).await?;
    page.click("button", "Answer").await?;
    page.sees("You said").await
}

/// What the record says of questions about partials.
async fn record_says(page: &Page, said: &str) -> Result<()> {
    page.click("button", "My record").await?;
    wait::until("the record", async || {
        let script = "return [...document.querySelectorAll('.count')].map((one) => one.textContent)";
        let lines = page.eval(script, vec![]).await?;
        let lines: Vec<&str> =
            lines.as_array().into_iter().flatten().filter_map(|line| line.as_str()).collect();
        let found = lines.iter().any(|line| line.starts_with("Which partial") && line.contains(said));
        Ok(found.then_some(()))
    })
    .await
}

fn answers_of_two_windows_are_in_the_record() {
    let exercise = exercise(Kind::Partial, &["Corni in Es"], 3);
    let exercise = Exercise { choices: false, ..exercise };
    let questions = exercise.questions().expect("questions");
    let sent = link(&exercise);
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(sent.clone()), async |page| {
        // An exercise is under way in one window and in another.
        page.click("button", "Begin").await?;
        answer(page, &questions[0]).await?;
        page.click("button", "Next question").await?;
        let first = page.driver().window().await?;
        let second = page.open_window().await?;
        page.come_back(&sent).await?;
        page.click("button", "Begin").await?;
        page.sees("Question 1 of 3").await?;
        answer(page, &questions[0]).await?;
        page.click("button", "Next question").await?;
        answer_wrong(page, &exercise, &questions[1]).await?;
        // The first is where it was, also loaded anew, and goes on.
        page.driver().switch_to_window(first.clone()).await?;
        page.sees("Question 2 of 3").await?;
        page.reload().await?;
        page.sees("Question 2 of 3").await?;
        answer(page, &questions[1]).await?;
        page.click("button", "Next question").await?;
        answer(page, &questions[2]).await?;
        page.click("button", "See how it went").await?;
        page.sees("3 of 3 right").await?;
        // All five answers are in the record, whichever window shows it, under the name the staff was met by.
        record_says(page, "4 of 5 right").await?;
        page.sees("Corni in Es").await?;
        // Nothing that was never practised has a head there.
        page.find_gone("heading", "Mistakes").await?;
        page.driver().switch_to_window(second).await?;
        page.sees("Question 2 of 3").await?;
        page.click("button", "Next question").await?;
        page.sees("Question 3 of 3").await?;
        page.click("button", "Stop here").await?;
        page.sees("1 of 3 right, 1 not answered").await?;
        record_says(page, "4 of 5 right").await?;
        page.driver().close_window().await?;
        page.driver().switch_to_window(first).await?;
        Ok(())
    });
}
