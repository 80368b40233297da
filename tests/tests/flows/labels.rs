//! What the score prints at the head of the staff, and how the staff is printed: instruments, readings, clefs, and labels
//! that nobody understands.

use anyhow::{Result, ensure};
use crookwise_tests::browser::Browser;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    any_transposing_instrument,
    what_the_trade_leaves_open_is_one_tap_away,
    clefs_systems_and_mechanisms,
    from_the_list_by_family,
    labels_that_nobody_understands
];

const LABEL: &str = "What the score prints";

/// Types a label over the one that stands there.
async fn label(page: &Page, label: &str, meaning: &str) -> Result<()> {
    page.fill("textbox", LABEL, label).await?;
    page.sees(meaning).await
}

fn any_transposing_instrument() {
    let setup = Setup::new(Window::LANDSCAPE).hash("/read?staff=Corni+in+Es&notes=C5&at=1");
    flow::in_browser(Browser::Chromium, &setup, async |page| {
        let cases = [
            ("Clarinetto in A", "Clarinet in A — sounds a minor third lower", "written C5, sounds A4"),
            (
                "Klarinette in B",
                "Clarinet in B-flat — sounds a major second lower",
                "written C5, sounds B-flat 4",
            ),
            (
                "Trombe in D",
                "Trumpet in D — sounds a major second higher",
                "written C5, sounds D5, partial 8",
            ),
            ("Cors en Ut", "sounds an octave lower", "written C5, sounds C4, partial 8"),
            (
                "Hörner in tief B",
                "Horn in B-flat basso — sounds a major ninth lower",
                "written C5, sounds B-flat 3",
            ),
            ("Contrabbasso", "Double bass — sounds an octave lower", "written C5, sounds C4"),
            ("Corno inglese", "sounds a perfect fifth lower", "written C5, sounds F4"),
            ("Sassofono contralto in Mi♭", "sounds a major sixth lower", "written C5, sounds E-flat 4"),
            ("Flauto piccolo", "sounds an octave higher", "written C5, sounds C6"),
        ];
        for (typed, meaning, note) in cases {
            label(page, typed, meaning).await?;
            page.notes_are(&[note]).await?;
        }
        // Strings and woodwind have no series, brass with crooks has.
        page.find_gone("region", "Natural series").await?;
        label(page, "Trombe in D", "Trumpet in D").await?;
        page.find("region", "Natural series").await?;

        // Drums: written C and G stand for the two that are named.
        page.visit("/read?staff=Timpani+in+Es.+B.&notes=C3.G2").await?;
        page.notes_are(&["written C3, sounds E-flat 3", "written G2, sounds B-flat 2"]).await?;
        page.visit("/read?staff=Timpani+in+Es.+B.&notes=Eb3.Bb2").await?;
        page.notes_are(&["written E-flat 3, sounds E-flat 3", "written B-flat 2, sounds B-flat 2"]).await
    });
}

fn what_the_trade_leaves_open_is_one_tap_away() {
    let setup = Setup::new(Window::PORTRAIT).hash("/read?staff=Corni+in+B&notes=C5&at=1");
    flow::in_browser(Browser::Chromium, &setup, async |page| {
        page.sees("Horn in B-flat basso — sounds a major ninth lower").await?;
        page.sees("No octave word is printed: taken as basso, the habit of the 19th century.").await?;
        page.notes_are(&["written C5, sounds B-flat 3"]).await?;
        page.open_list("read as").await?;
        let others = page.find("group", "Other readings").await?.text().await?;
        ensure!(others.contains("Horn in B-flat alto") && others.contains("Horn in B"), "{others}");
        page.tap("button", Name::Has("Horn in B-flat alto".into())).await?;
        page.sees("Horn in B-flat alto — sounds a major second lower").await?;
        page.notes_are(&["written C5, sounds B-flat 4"]).await?;
        page.value_is("textbox", LABEL, "Corni in B").await?;
        page.open_list("read as").await?;
        page.tap("button", Name::Has("the usual reading of this label".into())).await?;
        page.notes_are(&["written C5, sounds B-flat 3"]).await?;

        // Two horns on one label, each with its crook.
        label(page, "Corno I in B alto, Corno II in G", "Horn in B-flat alto").await?;
        page.sees("Horn in G").await?;
        // The label is finished: its two players sit down.
        page.press("Enter").await?;
        page.notes_are(&["written C5, sounds B-flat 4", "written C5, sounds G4"]).await?;
        if !page.find_all("button", Name::Has("read as ".into())).await?.is_empty() {
            page.open_list("read as").await?;
        }
        let seated = page.find_all("button", Name::Has("named by the same label".into())).await?;
        ensure!(seated.is_empty(), "a crook is offered on which a player sits");
        // A new label forgets the choice and the players that the old one named, not the note that they had.
        label(page, "Corni in Es", "Horn in E-flat — sounds a major sixth lower").await?;
        page.notes_are(&["written C5, sounds E-flat 4"]).await?;
        page.find_gone("button", Name::Has("read as ".into())).await
    });
}

fn clefs_systems_and_mechanisms() {
    flow::in_browser(Browser::Chromium, &Setup::new(Window::LANDSCAPE), async |page| {
        // Old and new notation of the bass clef.
        page.visit("/read?staff=Horn+in+F&notes=C3&at=1").await?;
        page.open_list("clef").await?;
        page.find_gone("radiogroup", "Bass-clef notation").await?;
        page.choose_in("clef", "Clef", "Bass F4").await?;
        page.find("button", "clef bass, old (assumed)").await?;
        ensure!(page.value_in("clef", "radiogroup", "Bass-clef notation").await? == "old: an octave low");
        page.notes_are(&["written C3, sounds F3, partial 4"]).await?;
        page.click("tab", "This note").await?;
        page.sees("Printed C3, but to be read as a written C4.").await?;
        page.open_list("clef").await?;
        page.sees("the rule before about 1900").await?;
        // What was assumed is confirmed by choosing it.
        page.choose_in("clef", "Bass-clef notation", "old: an octave low").await?;
        page.find("button", "clef bass, old").await?;
        page.choose_in("clef", "Bass-clef notation", "new: as in treble").await?;
        page.notes_are(&["written C3, sounds F2, partial 2"]).await?;
        // A tap means what the clef says.
        page.tap_at(page.staff_column(1).await?.bass("E3")?).await?;
        page.notes_are(&["written C3", "written E3, sounds A2"]).await?;
        page.choose_in("clef", "Clef", "Tenor C4").await?;
        page.tap_at(page.staff_column(2).await?.at(4)).await?;
        page.notes_are(&["written C3", "written E3", "written A3"]).await?;

        // Natural or valves: the ladder is the natural horn's.
        page.click("tab", "Series").await?;
        page.find("region", "Natural series").await?;
        page.choose_in("played", "Played", "with valves").await?;
        page.find_gone("region", "Natural series").await?;
        ensure!(
            page.notes().await?.iter().all(|note| !note.contains("partial")),
            "valves have no partials here"
        );
        page.click("button", "Undo").await?;
        page.find("region", "Natural series").await?;
        page.find("button", "played natural (assumed)").await?;
        ensure!(page.value_in("played", "radiogroup", "Played").await? == "natural");

        // The systems of the bass clarinet.
        page.visit("/read?staff=Clarinetto+basso+in+Si%E2%99%AD&notes=C4&at=1").await?;
        page.notes_are(&["written C4, sounds B-flat 2"]).await?;
        page.open_list("clef").await?;
        let list = page.find("radiogroup", "Written in the system").await?;
        let script = "return [...arguments[0].querySelectorAll('label')].map((one) => one.textContent)";
        let systems = page.eval(script, vec![list.to_json()?]).await?;
        let systems: Vec<&str> =
            systems.as_array().into_iter().flatten().filter_map(|name| name.as_str()).collect();
        ensure!(systems.len() == 4, "{systems:?}");
        let mut heard = Vec::new();
        for system in &systems {
            page.choose_in("clef", "Written in the system", system).await?;
            let held = page.value_in("clef", "radiogroup", "Written in the system").await?;
            ensure!(held == *system, "{held} instead of {system}");
            heard.push((page.value_in("clef", "radiogroup", "Clef").await?, page.notes().await?));
        }
        // French and German notation stand an octave apart, so not all four sound alike.
        heard.dedup();
        ensure!(heard.len() > 1, "{heard:?}");

        // Key, pitch and temperament reach the readout.
        page.visit("/read?staff=Corni+in+Es&notes=E5&at=1").await?;
        page.choose_in("movement", "Movement", "E♭ major").await?;
        page.click("tab", "This note").await?;
        page.sees("Third degree of E♭ major (3)").await?;
        page.open_list("tuning").await?;
        page.fill("spinbutton", "A in Hz", "415").await?;
        page.press("Tab").await?;
        page.shut_list("tuning").await?;
        page.find("button", "tuning equal, A 415").await?;
        page.sees("at A = 415 in equal temperament").await?;
        page.choose_in("tuning", "Temperament", "Vallotti").await?;
        page.sees("in Vallotti").await?;
        page.notes_are(&["written E5, sounds G4, partial 10"]).await?;
        page.open_list("tuning").await?;
        page.fill("spinbutton", "A in Hz", "9999").await?;
        page.press("Tab").await?;
        page.value_is("spinbutton", "A in Hz", "570").await?;
        page.shut_list("tuning").await?;

        // Every setting has its place in one of the lists.
        page.find_gone("radiogroup", "Signature of the staff").await?;
        page.choose_in("signature", "Signature of the staff", "as the movement needs").await?;
        page.choose_in("clef", "Octave mark at the clef", "8 below").await?;
        page.choose_in("tuning", "Brass tuned on its", "written G").await?;
        page.sees("the crook tuned on its G").await?;
        page.choose_in("clef", "The page is printed", "at sounding pitch").await?;
        page.choose_in("clef", "The page is printed", "as the players read it").await?;
        page.open_list("tuning").await?;
        page.fill("spinbutton", "Playing at (°C)", "25").await?;
        page.press("Tab").await?;
        page.value_is("spinbutton", "Brass tuned at (°C)", "20").await?;
        page.shut_list("tuning").await?;
        page.open_list("movement").await?;
        page.fill("spinbutton", "Year of the music", "1806").await?;
        page.press("Tab").await?;
        page.value_is("spinbutton", "Year of the music", "1806").await
    });
}

fn from_the_list_by_family() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        let list = page.find("combobox", "or choose from").await?;
        let families = page.eval(
            "return [...arguments[0].querySelectorAll('optgroup')].map((at) => at.label)",
            vec![list.to_json()?],
        );
        let families = families.await?;
        ensure!(families.as_array().is_some_and(|families| families.len() >= 4), "{families}");
        for name in ["Horn in F", "Trumpet in D", "Clarinet in A", "Double bass"] {
            page.choose("or choose from", name).await?;
            page.sees(&format!("{name} — sounds")).await?;
            // What was chosen stands in the field, and the list is ready for another choice.
            ensure!(!page.value("textbox", LABEL).await?.is_empty(), "{name} stands in the field");
            page.value_is("combobox", "or choose from", "a list").await?;
        }
        Ok(())
    });
}

/// Puts a text into the label field as if pasted there, and waits until the page stands.
async fn paste(page: &Page, text: &str) -> Result<()> {
    page.paste("textbox", LABEL, text).await?;
    page.settled().await
}

/// What stands under the label, all of it.
async fn said(page: &Page) -> Result<String> {
    let script = "return document.getElementById('meaning').innerText.trim()";
    wait::until("a sentence about the label", async || {
        let words = page.eval(script, vec![]).await?.as_str().unwrap_or_default().to_owned();
        Ok(Some(words).filter(|words| !words.is_empty()))
    })
    .await
}

fn labels_that_nobody_understands() {
    let setup = Setup::new(Window::PORTRAIT).hash("/read?staff=Corni+in+Es&notes=C5.E5._.-.Fs5&at=2");
    flow::in_every_browser(&setup, async |page| {
        let kept = ["written C5", "written E5", "held: written E5", "rest", "written F-sharp 5"];
        let long = "Corni ".repeat(1_667);
        let unbroken = "W".repeat(10_000);
        let cases: [(&str, &str); 11] = [
            ("", "Type what the score prints at the head of the staff"),
            ("   ", "Type what the score prints at the head of the staff"),
            (&long, ""),
            (&unbroken, ""),
            ("קרן במי במול", "names no instrument known here"),
            ("بوق", "names no instrument known here"),
            ("\u{202e}sE ni inroC\u{202c}", "names no instrument known here"),
            ("📯📯📯", "“📯📯📯” names no instrument known here"),
            ("Corni 📯 in Es", "“📯” is not understood"),
            ("<img src=x onerror=alert(1)>", "names no instrument known here"),
            ("Corni in Xyz", "“Xyz” names no key known here: choose in which one the horn stands"),
        ];
        for (label, sentence) in cases {
            paste(page, label).await?;
            let said = said(page).await?;
            let start: String = label.chars().take(40).collect();
            ensure!(said.contains(sentence), "{start:?}: {said:?}");
            // Nothing of a stranger's marks turns the sentence around, and none of it runs on and on.
            let marks = |letter: char| {
                letter.is_control() && letter != '\n'
                    || matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
            };
            ensure!(!said.contains(marks) && said.chars().count() < 2_500, "{start:?}: {said:?}");
            page.notes_are(&kept).await?;
            // What stands in the address can always be opened again: nothing is lost by a label.
            let typed = page.value("textbox", LABEL).await?;
            page.reload().await?;
            ensure!(
                page.find_all("button", "All right").await?.is_empty(),
                "{start:?} made a link that cannot be opened"
            );
            page.notes_are(&kept).await?;
            page.value_is("textbox", LABEL, &typed).await?;
        }
        // Characters that no keyboard types, put there by a script in place of one.
        for label in ["Corni\u{0}\u{7}\u{1b}[31m in\u{202e} Es", "\u{feff}\u{200b}Corni\u{a0}in\u{2009}Es"] {
            let field = page.find("textbox", LABEL).await?;
            let script = "const [field, text] = arguments; field.value = text; field.dispatchEvent(new Event('input', { bubbles: true }));";
            page.eval(script, vec![field.to_json()?, json!(label)]).await?;
            page.settled().await?;
            ensure!(!said(page).await?.is_empty(), "{label:?}");
            page.notes_are(&kept).await?;
        }
        paste(page, "Corni in Es").await?;
        page.sees("Horn in E-flat — sounds a major sixth lower").await?;
        page.notes_are(&["written C5, sounds E-flat 4", "written E5", "held", "rest", "written F-sharp 5"])
            .await
    });
}
