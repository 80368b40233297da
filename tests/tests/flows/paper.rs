//! The worksheet on paper: printed from exercises of different kinds, and read back from the printed file page by page.

use anyhow::{Context, Result, ensure};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use crookwise_practice::{AskedStaff, Exercise, Kind, Material};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_tests::browser::Browser;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use lopdf::{Document, ObjectId};
use serde_json::{Value, json};

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    single_notes_on_a4,
    several_kinds_on_letter_with_points,
    phrases_for_two_staves_of_answers,
    whole_pages_on_letter,
    labels_and_names_on_a4,
    the_worksheet_opens_at_its_top_and_all_that_leads_to_it_is_in_sight
];

fn single_notes_on_a4() {
    let exercise = exercise(&[Kind::Sounds], &["Corni in Es", "Corni in D", "Clarinetti in A"], 40);
    printed(&exercise, &[], (595.0, 842.0));
}

fn several_kinds_on_letter_with_points() {
    let kinds = [Kind::Writes, Kind::InHand, Kind::Partial, Kind::Degree, Kind::Natural];
    let wishes = [("Paper", "Letter"), ("Points", "2 points each")];
    printed(&exercise(&kinds, &["Corni in Es", "Clarinetti in A"], 25), &wishes, (612.0, 792.0));
}

fn phrases_for_two_staves_of_answers() {
    let mut exercise = exercise(&[Kind::Sounds, Kind::Players], &["2 Corni in Es", "2 Clarini in D"], 14);
    for staff in &mut exercise.staves {
        staff.pair = true;
    }
    exercise.material = Material::Phrases(Vec::new());
    printed(&exercise, &[("Clef of the answers", "treble and bass")], (595.0, 842.0));
}

fn whole_pages_on_letter() {
    let kinds = [Kind::Chord, Kind::WrongNote, Kind::WrongStaff];
    let staves = ["Clarinetti in B", "Corni in Es", "Trombe in Es", "Viola", "Violoncello"];
    printed(&exercise(&kinds, &staves, 13), &[("Paper", "Letter")], (612.0, 792.0));
}

fn labels_and_names_on_a4() {
    let kinds = [Kind::Label, Kind::Made, Kind::Clef, Kind::Sounds];
    let staves = ["Hörner in tief B", "Corni in Es", "Corni in F"];
    printed(&exercise(&kinds, &staves, 27), &[("For the answers", "a line for names")], (595.0, 842.0));
}

/// It opened as far down as the setting was scrolled; on a telephone the way to it lay out of the window.
fn the_worksheet_opens_at_its_top_and_all_that_leads_to_it_is_in_sight() {
    let set = exercise(&[Kind::Sounds], &["Corni in Es", "Corni in D", "Clarinetti in A"], 10);
    let link = Link::from(PractiseLink::Set(Some(SentExercise::of(&set)))).encode();
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(link), async |page| {
        page.find("button", "On paper").await?;
        page.settled().await?;
        let cut = "return [...document.querySelectorAll('.use-line button')].map((at) => [at.textContent, at.getBoundingClientRect()])
            .filter(([, box]) => box.left < 0 || box.right > innerWidth || box.height < 43.9).map(([name]) => name)";
        let cut = page.eval(cut, vec![]).await?;
        ensure!(cut == json!([]), "cut off or too small: {cut}");
        page.eval("scrollTo(0, document.documentElement.scrollHeight)", vec![]).await?;
        page.tap("button", "On paper").await?;
        page.find("button", "Print").await?;
        wait::until("the top of the page", async || {
            Ok((page.eval("return scrollY", vec![]).await? == json!(0)).then_some(()))
        })
        .await
    });
}

fn exercise(kinds: &[Kind], labels: &[&str], questions: u8) -> Exercise {
    let staves = labels.iter().map(|label| AskedStaff::of(label)).collect();
    let in_hand = Some("Horn in F".to_owned());
    Exercise { kinds: kinds.to_vec(), staves, in_hand, questions, seed: 3, ..Exercise::default() }
}

/// Opens the worksheet with these choices of its lists and looks at its pages; in Chromium also prints it, and reads what
/// was printed.
fn printed(exercise: &Exercise, wishes: &[(&str, &str)], size: (f32, f32)) {
    let link = Link::from(PractiseLink::Paper(Some(SentExercise::of(exercise)))).encode();
    let questions = usize::from(exercise.questions);
    flow::in_every_browser(&Setup::new(Window::DESK).hash(link), async |page| {
        page.find("button", "Print").await?;
        for (list, words) in wishes {
            page.choose(list, words).await?;
        }
        page.axe().await?;
        let (pages, key, instructions) = shown(page).await?;
        ensure!(pages > 0 && key > 0, "{pages} pages and {key} of the key");
        nothing_is_cut(page).await?;
        if page.browser() != Browser::Chromium {
            return Ok(());
        }
        let file = print(page).await?;
        let all = file.get_pages();
        ensure!(all.len() == pages + key, "{pages} pages and {key} of the key became {}", all.len());
        let (mut numbers, mut answers): (Vec<usize>, Vec<usize>) = (Vec::new(), Vec::new());
        let mut text = String::new();
        for (number, id) in &all {
            is_of_size(&file, *id, size).with_context(|| format!("page {number}"))?;
            let said = file.extract_text(&[*number])?;
            let lines: Vec<&str> = said.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
            let at = usize::try_from(*number)?;
            let foot =
                if at <= pages { format!("{at} / {pages}") } else { format!("Key {} / {key}", at - pages) };
            ensure!(lines.contains(&foot.as_str()), "page {number} has no \"{foot}\": {lines:?}");
            let mut here: Vec<usize> = lines.iter().filter_map(|line| line.parse().ok()).collect();
            // What is drawn after each other need not be read so; a bar of a system has its number at its choices again.
            here.sort_unstable();
            here.dedup();
            if at <= pages {
                ensure!(here.len() > 1, "page {number} has the questions {here:?} alone");
                numbers.extend(&here);
                text.push_str(&squeezed(&said));
            } else {
                // Notes stand before what is said.
                ensure!(here.len() > 1, "page {number} of the key has {here:?} alone");
                answers.extend(&here);
            }
        }
        let once: Vec<usize> = (1..=questions).collect();
        // Degrees are numbers too.
        answers.sort_unstable();
        answers.dedup();
        ensure!(numbers == once && answers == once, "questions are {numbers:?}, answers {answers:?}");
        for instruction in instructions {
            let count = text.matches(&squeezed(&instruction)).count();
            ensure!(count == 1, "\"{instruction}\" stands there {count} times");
        }
        Ok(())
    });
}

/// Fails where a page is larger or smaller than this, in points.
pub(crate) fn is_of_size(file: &Document, page: ObjectId, size: (f32, f32)) -> Result<()> {
    let media = file.get_dictionary(page)?.get(b"MediaBox")?.as_array()?;
    let measure = |at: usize| media.get(at).context("a size")?.as_float().context("a number");
    let here = (measure(2)?, measure(3)?);
    ensure!((here.0 - size.0).abs() < 1.5 && (here.1 - size.1).abs() < 1.5, "it is {here:?}");
    Ok(())
}

/// How many pages there are on the screen, how many of the key, and the instructions on them.
async fn shown(page: &Page) -> Result<(usize, usize, Vec<String>)> {
    wait::until("pages", async || {
        let key = page.find_all("region", Name::Has("Key ".into())).await?.len();
        let all = page.find_all("region", Name::Has(" / ".into())).await?.len();
        let texts = page
            .eval("return [...document.querySelectorAll('.paper-prompt > span:first-child')].map((at) => at.textContent)", vec![])
            .await?;
        let texts = texts.as_array().into_iter().flatten().filter_map(Value::as_str).map(String::from);
        let texts: Vec<String> = texts.collect();
        Ok((all > key && !texts.is_empty()).then_some((all - key, key, texts)))
    })
    .await
}

/// Everything on a page stands inside it, over its number.
pub(crate) async fn nothing_is_cut(page: &Page) -> Result<()> {
    let script = "const found = [];
        for (const sheet of document.querySelectorAll('.sheet-of-paper')) {
            const number = sheet.querySelector('.page-number').getBoundingClientRect();
            const own = sheet.getBoundingClientRect();
            const inner = parseFloat(getComputedStyle(sheet).paddingRight);
            for (const at of sheet.querySelectorAll('svg, .engraved, h1, h2, p:not(.page-number), li')) {
                const box = at.getBoundingClientRect();
                if (box.bottom > number.top || box.right > own.right - inner + 1.5 || box.left < own.left + inner - 1.5)
                    found.push(`${sheet.getAttribute('aria-label')}: ${at.tagName} ${at.textContent.slice(0, 30)} ${JSON.stringify(box)}`);
            }
        }
        return found;";
    let found = page.eval(script, vec![]).await?;
    let found: Vec<&str> = found.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    ensure!(found.is_empty(), "{} things stand out of their page:\n  {}", found.len(), found.join("\n  "));
    Ok(())
}

pub(crate) async fn print(page: &Page) -> Result<Document> {
    let options = json!({ "preferCSSPageSize": true, "printBackground": true });
    let printed = page.cdp("Page.printToPDF", options).await?;
    let data = printed["data"].as_str().context("a PDF")?;
    let bytes = STANDARD.decode(data).map_err(|error| anyhow::anyhow!("no base64: {error}"))?;
    if let Some(folder) = std::env::var_os("CROOKWISE_PAPERS") {
        let name =
            page.eval("return document.querySelector('.paper').textContent.length + ''", vec![]).await?;
        let name = format!("{}.pdf", name.as_str().unwrap_or_default());
        std::fs::write(std::path::Path::new(&folder).join(name), &bytes).context("no file")?;
    }
    Document::load_mem(&bytes).context("no PDF")
}

/// A text without spaces, and with its letters apart: print draws "fi" as one sign.
pub(crate) fn squeezed(text: &str) -> String {
    let joined = [("\u{fb03}", "ffi"), ("\u{fb00}", "ff"), ("\u{fb01}", "fi"), ("\u{fb02}", "fl")];
    let apart = joined.iter().fold(text.to_owned(), |text, (one, letters)| text.replace(one, letters));
    apart.split_whitespace().collect()
}
