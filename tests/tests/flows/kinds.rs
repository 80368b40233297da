//! Every kind of question, answered right and wrong, by a thumb on a telephone and by keys on a tablet on its side: nothing
//! has to be scrolled, every key is large enough, and the keyboard is where the next thing is to be done.

use anyhow::{Context, Result, bail, ensure};
use crookwise_practice::course::CourseStep;
use crookwise_practice::{Answer, AskedStaff, Exercise, Kind, Material, NoteRange, Question, Which};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use crookwise_theory::{Degree, Pitch};
use serde_json::{Value, json};

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    what_sounds,
    what_sounds_by_choices,
    what_must_be_written,
    on_another_instrument,
    what_a_label_says,
    which_partial,
    how_it_is_made,
    which_degree,
    which_clef,
    which_chord,
    the_wrong_note,
    the_wrong_staff,
    the_natural_one,
    what_two_players_sound,
    the_way_on_is_in_reach_of_a_thumb_on_a_short_telephone,
    a_page_of_eight_staves_is_whole_on_a_short_telephone,
    every_staff_to_choose_from_is_in_reach,
    half_an_answer_is_not_marked_and_nothing_is_silent
];

/// A telephone whose browser shows its bars.
const SHORT_PHONE: Window = Window { width: 390, height: 664, touch: true };

fn what_sounds() {
    answered(&exercise(Kind::Sounds, &["Corni in Es"]));
}

fn what_sounds_by_choices() {
    answered(&Exercise { choices: true, ..exercise(Kind::Sounds, &["Corni in Es", "Clarinetti in A"]) });
}

fn what_must_be_written() {
    answered(&exercise(Kind::Writes, &["Corni in Es"]));
}

fn on_another_instrument() {
    answered(&exercise(Kind::InHand, &["Clarinetti in A"]));
}

fn what_a_label_says() {
    answered(&exercise(Kind::Label, &["Hörner in tief B", "Corni in Es", "Clarini in D"]));
}

fn which_partial() {
    answered(&exercise(Kind::Partial, &["Corni in Es"]));
}

fn how_it_is_made() {
    answered(&exercise(Kind::Made, &["Corni in Es"]));
}

fn which_degree() {
    answered(&exercise(Kind::Degree, &["Corni in Es"]));
}

fn which_clef() {
    answered(&exercise(Kind::Clef, &["Corni in Es", "Clarinetti in A"]));
}

fn which_chord() {
    let staves = ["Clarinetti in B", "Corni in Es", "Trombe in Es", "Viola", "Violoncello", "Contrabbasso"];
    answered(&exercise(Kind::Chord, &staves));
}

fn the_wrong_note() {
    answered(&Exercise {
        material: Material::Phrases(Vec::new()),
        ..exercise(Kind::WrongNote, &["Corni in Es"])
    });
}

fn the_wrong_staff() {
    answered(&exercise(Kind::WrongStaff, &["Clarinetti in B", "Corni in Es", "Viola", "Violoncello"]));
}

fn the_natural_one() {
    answered(&exercise(Kind::Natural, &["Corni in Es"]));
}

fn what_two_players_sound() {
    let mut exercise = exercise(Kind::Players, &["2 Corni in Es"]);
    exercise.staves[0].pair = true;
    answered(&exercise);
}

/// Two questions of a kind on these staves.
fn exercise(kind: Kind, labels: &[&str]) -> Exercise {
    let staves = labels.iter().map(|label| AskedStaff::of(label)).collect();
    let in_hand = Some("Horn in F".to_owned());
    let range = NoteRange::Usual;
    Exercise { kinds: vec![kind], staves, in_hand, range, questions: 2, seed: 7, ..Exercise::default() }
}

fn link(exercise: &Exercise) -> String {
    Link::from(PractiseLink::Do(Some(SentExercise::of(exercise)))).encode()
}

/// What answers a question: a finger or the keyboard.
#[derive(Clone, Copy, PartialEq, Eq)]
enum By {
    Thumb,
    Keys,
}

/// The exercise done by a thumb, first right and then wrong, and once more by keys, first wrong and then right.
fn answered(exercise: &Exercise) {
    let questions = exercise.questions().expect("questions");
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(link(exercise)), async |page| {
        page.tap("button", "Begin").await?;
        for (at, question) in questions.iter().enumerate() {
            asked(page, question, at, questions.len()).await?;
            if at == 0 {
                page.resize(Window::PORTRAIT).await?;
                whole(page).await?;
                page.resize(Window::PHONE).await?;
                page.axe().await?;
            }
            one_question(page, exercise, question, at == 0, By::Thumb).await?;
            let last = at + 1 == questions.len();
            if last {
                page.axe().await?;
            }
            page.tap("button", way_on(last)).await?;
        }
        ended(page, questions.len()).await?;
        page.axe().await?;

        page.resize(Window::LANDSCAPE).await?;
        page.key_on("Enter", "button", "The same once more").await?;
        for (at, question) in questions.iter().enumerate() {
            asked(page, question, at, questions.len()).await?;
            one_question(page, exercise, question, at > 0, By::Keys).await?;
            if at == 0 {
                page.axe().await?;
            }
            page.press("Enter").await?;
        }
        ended(page, questions.len()).await
    });
}

const fn way_on(last: bool) -> &'static str {
    if last { "See how it went" } else { "Next question" }
}

/// A question has come: nothing is out of reach, and the keyboard is at the answer but gives none.
async fn asked(page: &Page, question: &Question, at: usize, of: usize) -> Result<()> {
    page.sees(&format!("Question {} of {of}", at + 1)).await?;
    let what = format!("the keyboard at the answer of {:?}", question.kind);
    wait::until(&what, async || {
        let focused = page.focused().await?;
        Ok(focused.filter(|(role, _)| role == "application" || role == "group").map(|_| ()))
    })
    .await?;
    whole(page).await?;
    ensure!(page.find_all("button", "Set an exercise").await?.is_empty(), "tabs of the place stand there");
    if page.eval("return innerWidth", vec![]).await? == json!(Window::PHONE.width) {
        ensure!(page.find_all("link", "Read").await?.is_empty(), "the head of the places stands there");
        let stop = page.find("button", "Stop here").await?;
        let line = page.extent(&stop).await?;
        ensure!(line.corner.y < 10.0 && line.height < 50.0, "the head is more than a line: {line:?}");
    }
    Ok(())
}

/// What is not whole in the window, is to be scrolled, or is too small for a finger.
const WHOLE: &str = "
    const found = [];
    const say = (what, at) => found.push(`${what}: ${at.tagName.toLowerCase()}.${at.getAttribute('class') ?? ''} ` +
        `\"${(at.getAttribute('aria-label') ?? at.textContent).trim().slice(0, 40)}\" ${JSON.stringify(at.getBoundingClientRect())}`);
    const root = document.scrollingElement;
    if (root.scrollHeight > innerHeight + 1) found.push(`the page is ${root.scrollHeight} px high of ${innerHeight}`);
    if (root.scrollWidth > innerWidth + 1) found.push(`the page is ${root.scrollWidth} px wide of ${innerWidth}`);
    const pane = document.querySelector('section.under-way');
    if (!pane) return ['no exercise is under way'];
    const seen = (at) => !at.closest('.unseen') && at.getClientRects().length > 0 && getComputedStyle(at).visibility !== 'hidden';
    for (const at of [...pane.querySelectorAll('*')].filter(seen)) {
        const style = getComputedStyle(at);
        if (style.overflowY !== 'visible' && at.clientHeight > 0 && at.scrollHeight > at.clientHeight + 1)
            say(`${at.scrollHeight} px to scroll in ${at.clientHeight}`, at);
        if (style.overflowX !== 'visible' && style.textOverflow !== 'ellipsis' && at.scrollWidth > at.clientWidth + 1)
            say(`${at.scrollWidth} px to scroll sideways in ${at.clientWidth}`, at);
        // What is drawn smaller has its own measures: the page of the question, which holds it, is looked at.
        // What hangs over the upper edge of its box is out of reach for good: nothing scrolls there.
        const list = at.closest('.choices');
        if (at.matches('button') && list && at.getBoundingClientRect().top < list.getBoundingClientRect().top - 0.5) say('cut off above', at);
        if (!at.matches('button, [role=img], .prompt, .helps li, .time')) continue;
        const box = at.getBoundingClientRect();
        if (box.top < -0.5 || box.left < -0.5 || box.bottom > innerHeight + 0.5 || box.right > innerWidth + 0.5) say('out of the window', at);
        if (at.matches('button') && (box.height < 43.9 || box.width < 43.9)) say('too small for a finger', at);
    }
    const pen = document.createElement('canvas').getContext('2d');
    for (const at of pane.querySelectorAll('.asked-label')) {
        const style = getComputedStyle(at);
        pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
        const longest = Math.max(...at.textContent.split(/\\s+/).map((word) => pen.measureText(word).width));
        if (longest > at.clientWidth + 1) say(`a word of ${longest} px is broken in ${at.clientWidth}`, at);
    }
    return found;";

async fn whole(page: &Page) -> Result<()> {
    page.settled().await?;
    let found = page.eval(WHOLE, vec![]).await?;
    let found: Vec<&str> = found.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    let size = page.eval("return `${innerWidth}x${innerHeight}`", vec![]).await?;
    ensure!(found.is_empty(), "at {size}:\n  {}", found.join("\n  "));
    Ok(())
}

/// One question answered: the verdict is said, and the keyboard and the thumb are at the way on.
async fn one_question(
    page: &Page,
    exercise: &Exercise,
    question: &Question,
    rightly: bool,
    by: By,
) -> Result<()> {
    let answer = if rightly { question.right.clone() } else { wrong(exercise, question)? };
    give(page, question, &answer, by).await.with_context(|| format!("{answer} to {:?}", question.kind))?;
    page.sees(if rightly { "Right:" } else { "You said" }).await?;
    let next = wait::until("the keyboard at the way on", async || {
        Ok(page
            .focused()
            .await?
            .filter(|(role, name)| role == "button" && (name == way_on(false) || name == way_on(true))))
    })
    .await?;
    in_window(page, "button", &next.1).await?;
    in_window(page, "group", "What became of your answer").await
}

/// Fails where something does not stand whole in the window as it is.
async fn in_window(page: &Page, role: &str, name: &str) -> Result<()> {
    page.settled().await?;
    let element = page.find(role, name).await?;
    let script = "const box = arguments[0].getBoundingClientRect();
        return box.top >= -0.5 && box.bottom <= innerHeight + 0.5 || `${box.top} to ${box.bottom} of ${innerHeight}`";
    let inside = page.eval(script, vec![element.to_json()?]).await?;
    ensure!(inside == json!(true), "{role} {name} stands at {inside}");
    Ok(())
}

async fn ended(page: &Page, of: usize) -> Result<()> {
    page.sees(&format!("1 of {of} right")).await?;
    wait::until("the keyboard at how it went", async || {
        Ok(page.focused().await?.filter(|(role, _)| role == "heading").map(|_| ()))
    })
    .await
}

/// An answer that is not right, as a reader may give it.
fn wrong(exercise: &Exercise, question: &Question) -> Result<Answer> {
    let up = |note: &Pitch| Pitch::from_diatonic(note.diatonic() + 1, 0);
    let number = |count: usize| (0..count).filter_map(|at| u8::try_from(at).ok());
    let tried: Vec<Answer> = match &question.right {
        _ if !question.choices.is_empty() => question.choices.clone(),
        Answer::Note(note) => vec![Answer::Note(up(note))],
        Answer::Notes(notes) => vec![Answer::Notes(notes.iter().map(up).collect())],
        Answer::Partial(_) => (2..=16).map(|partial| Answer::Partial(Some(partial))).collect(),
        Answer::Degree(degree) => {
            vec![Answer::Degree(Degree { number: degree.number % 7 + 1, alter: 0 })]
        }
        Answer::Column(_) => number(question.passage.columns().len()).map(Answer::Column).collect(),
        Answer::Staff(_) => number(question.passage.staves().len()).map(Answer::Staff).collect(),
        Answer::Which(_) => [Which::First, Which::Second].map(Answer::Which).into(),
        other => bail!("{other} without choices"),
    };
    let wrong = tried.into_iter().rfind(|answer| !question.is_right(answer, exercise.marking));
    wrong.context("every answer is right")
}

/// Gives an answer as a reader does.
async fn give(page: &Page, question: &Question, answer: &Answer, by: By) -> Result<()> {
    match answer {
        Answer::Note(note) if question.choices.is_empty() => give_notes(page, &[*note], by).await,
        // Each player gives his, also where both sound one.
        Answer::Notes(notes) if question.choices.is_empty() => match notes.as_slice() {
            [one] => give_notes(page, &[*one; 2], by).await,
            notes => give_notes(page, notes, by).await,
        },
        Answer::Degree(degree) if question.choices.is_empty() => give_degree(page, *degree, by).await,
        _ => {
            let (at, number) = offered_at(question, answer)?;
            match by {
                By::Thumb => tap_choice(page, at).await,
                By::Keys => key_choice(page, at, number).await,
            }
        }
    }
}

/// Which button gives an answer, from 0, and the number that its keys have.
fn offered_at(question: &Question, answer: &Answer) -> Result<(usize, usize)> {
    if let Some(at) = question.choices.iter().position(|choice| choice == answer) {
        return Ok((at, at + 1));
    }
    Ok(match answer {
        Answer::Partial(Some(partial)) => (usize::from(*partial) - 2, usize::from(*partial)),
        Answer::Partial(None) => (15, 17),
        Answer::Column(column) => (usize::from(*column), usize::from(*column) + 1),
        Answer::Staff(staff) => (usize::from(*staff), usize::from(*staff) + 1),
        Answer::Which(which) => {
            (usize::from(*which == Which::Second), 1 + usize::from(*which == Which::Second))
        }
        other => bail!("{other} is not offered"),
    })
}

const CHOICES: &str = "return [...document.querySelectorAll('[role=group][aria-label=\"Your answer\"] button')]
    .map((at) => { const box = at.getBoundingClientRect(); return [box.x + box.width / 2, box.y + box.height / 2]; })";

async fn tap_choice(page: &Page, at: usize) -> Result<()> {
    page.settled().await?;
    let places = page.eval(CHOICES, vec![]).await?;
    let place = |axis: usize| places[at][axis].as_f64().context("no such choice");
    page.tap_at(crookwise_tests::input::Place { x: place(0)?, y: place(1)? }).await?;
    // A finger that slipped has answered nothing.
    let chosen = format!("return document.querySelector('#choice-{at}[aria-pressed=true]') !== null");
    wait::until("the choice marked", async || {
        Ok((page.eval(&chosen, vec![]).await? == json!(true)).then_some(()))
    })
    .await?;
    page.find_gone("button", way_on(false)).await?;
    page.tap("button", "Answer").await
}

/// By its number, and by arrows from the first one where it has none of one digit.
async fn key_choice(page: &Page, at: usize, number: usize) -> Result<()> {
    if number > 9 {
        page.press("Home").await?;
        for _ in 0..at {
            page.press("ArrowRight").await?;
        }
    } else {
        page.press(&number.to_string()).await?;
    }
    wait::until("the focus on the choice", async || {
        let id = page.eval("return document.activeElement.id", vec![]).await?;
        Ok((id == json!(format!("choice-{at}"))).then_some(()))
    })
    .await?;
    page.press("Enter").await
}

/// What has been entered so far, as it is said to a screen reader.
async fn entered(page: &Page) -> Result<String> {
    let script = "return document.querySelector('.note-pad [role=status]').textContent";
    Ok(page.eval(script, vec![]).await?.as_str().unwrap_or_default().to_owned())
}

async fn give_notes(page: &Page, notes: &[Pitch], by: By) -> Result<()> {
    for (at, note) in notes.iter().enumerate() {
        if at > 0 {
            match by {
                By::Thumb => page.tap("button", Name::Has("Second player".into())).await?,
                By::Keys => page.press("ArrowRight").await?,
            }
        }
        let letter = note.step.letter();
        let sign = if note.alter < 0 { ("Flat", "-") } else { ("Sharp", "+") };
        match by {
            By::Thumb => page.tap("button", letter.to_string()).await?,
            By::Keys => page.press(&letter.to_ascii_lowercase().to_string()).await?,
        }
        for _ in 0..note.alter.unsigned_abs() {
            match by {
                By::Thumb => page.tap("button", sign.0).await?,
                By::Keys => page.press(sign.1).await?,
            }
        }
        // The octave it has come to is the pad's own matter: the reader sees it, and moves it.
        let octave = wait::until("the note that was entered", async || {
            let said = entered(page).await?;
            let all: Vec<&str> = said.split(" and ").collect();
            let digits = all.get(at).and_then(|said| said.chars().last()).and_then(|last| last.to_digit(10));
            Ok(digits.and_then(|octave| i32::try_from(octave).ok()))
        })
        .await?;
        let up = note.octave > octave;
        for _ in 0..(note.octave - octave).unsigned_abs() {
            match by {
                By::Thumb => page.tap("button", if up { "Octave up" } else { "Octave down" }).await?,
                By::Keys => page.press(if up { "Shift+ArrowUp" } else { "Shift+ArrowDown" }).await?,
            }
        }
    }
    match by {
        By::Thumb => page.tap("button", "Answer").await,
        By::Keys => page.press("Enter").await,
    }
}

async fn give_degree(page: &Page, degree: Degree, by: By) -> Result<()> {
    let sign = if degree.alter < 0 { ("Lowered", "-") } else { ("Raised", "+") };
    let number = degree.number.to_string();
    match by {
        By::Thumb => {
            page.tap("button", number).await?;
            if degree.alter != 0 {
                page.tap("button", sign.0).await?;
            }
            page.tap("button", "Answer").await
        }
        By::Keys => {
            page.press(&number).await?;
            if degree.alter != 0 {
                page.press(sign.1).await?;
            }
            page.press("Enter").await
        }
    }
}

/// The longest explanation on the shortest telephone: the verdict and the way on are seen at once.
fn the_way_on_is_in_reach_of_a_thumb_on_a_short_telephone() {
    let staves = ["Hörner in tief B", "Corni in Es"].map(AskedStaff::of).to_vec();
    let exercise = Exercise { staves, questions: 3, ..exercise(Kind::Sounds, &[]) };
    let questions = exercise.questions().expect("questions");
    flow::in_every_browser(&Setup::new(SHORT_PHONE).hash(link(&exercise)), async |page| {
        page.tap("button", "Begin").await?;
        for (at, question) in questions.iter().enumerate() {
            asked_on_short_phone(page, at, questions.len()).await?;
            one_question(page, &exercise, question, false, By::Thumb).await?;
            let script = "const panel = document.querySelector('.explained');
                const last = [...panel.querySelectorAll('p, li, .compared')].pop().getBoundingClientRect();
                return [panel.scrollTop, panel.querySelector('.verdict').getBoundingClientRect().top,
                    last.bottom - panel.getBoundingClientRect().bottom]";
            let seen = page.eval(script, vec![]).await?;
            let hidden = seen[2].as_f64().context("a height")?;
            ensure!(seen[0] == json!(0) && hidden < 1.0, "{hidden} px of the explanation are hidden");
            page.tap("button", way_on(at + 1 == questions.len())).await?;
        }
        Ok(())
    });
}

/// Of six staves to choose from the first was cut off above, where nothing scrolls.
fn every_staff_to_choose_from_is_in_reach() {
    let mut exercises = CourseStep::ALL[12].exercises().into_iter();
    let mut exercise = exercises.rfind(|one| one.kinds.contains(&Kind::WrongStaff)).expect("an exercise");
    exercise.kinds = vec![Kind::WrongStaff];
    for window in [Window::PHONE, SHORT_PHONE] {
        flow::in_every_browser(&Setup::new(window).hash(link(&exercise)), async |page| {
            page.tap("button", "Begin").await?;
            asked_on_short_phone(page, 0, exercise.questions.into()).await?;
            let first = "const box = document.querySelector('#choice-0').getBoundingClientRect();
                return document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2)?.closest('button')?.id";
            ensure!(
                page.eval(first, vec![]).await? == json!("choice-0"),
                "another thing lies over the first choice"
            );
            Ok(())
        });
    }
}

/// What is no answer yet is not marked, and what it lacks is said.
fn half_an_answer_is_not_marked_and_nothing_is_silent() {
    let mut both = exercise(Kind::Players, &["2 Corni in Es"]);
    both.staves[0].pair = true;
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(link(&both)), async |page| {
        page.tap("button", "Begin").await?;
        page.tap("button", "Answer").await?;
        page.sees("No note is entered yet.").await?;
        page.tap("button", "C").await?;
        page.tap("button", "Answer").await?;
        page.sees("The note of II. is missing.").await?;
        page.find_gone("button", way_on(false)).await?;
        whole(page).await?;
        page.axe().await?;
        // The next letter is the second player's.
        page.tap("button", "G").await?;
        wait::until("both notes", async || Ok(entered(page).await?.contains(" and ").then_some(()))).await?;
        page.tap("button", "Answer").await?;
        page.find("button", way_on(false)).await.map(|_| ())
    });
    flow::in_every_browser(
        &Setup::new(Window::PHONE).hash(link(&exercise(Kind::Degree, &["Corni in Es"]))),
        async |page| {
            page.tap("button", "Begin").await?;
            page.tap("button", "Raised").await?;
            page.sees("First a number from 1 to 7").await?;
            // A sign that was tapped before goes to no number that comes later.
            page.tap("button", "7").await?;
            let raised = "return document.querySelector('.sign-button[aria-pressed=true]')";
            ensure!(page.eval(raised, vec![]).await?.is_null(), "a sign is still on");
            Ok(())
        },
    );
}

/// The last exercise of the course, and its line at the head.
fn a_page_of_eight_staves_is_whole_on_a_short_telephone() {
    let exercise = CourseStep::ALL[12].exercises().pop().expect("an exercise");
    assert_eq!(exercise.staves.len(), 8);
    flow::in_every_browser(&Setup::new(SHORT_PHONE).hash(link(&exercise)), async |page| {
        page.tap("button", "Begin").await?;
        asked_on_short_phone(page, 0, exercise.questions.into()).await?;
        let cut = "const line = document.querySelector('.where-it-is .quiet'); return Math.max(line.scrollWidth - line.clientWidth, line.scrollHeight - line.clientHeight - 1, 0)";
        ensure!(page.eval(cut, vec![]).await? == json!(0), "the line at the head is cut");
        Ok(())
    });
}

async fn asked_on_short_phone(page: &Page, at: usize, of: usize) -> Result<()> {
    page.sees(&format!("Question {} of {of}", at + 1)).await?;
    whole(page).await
}
