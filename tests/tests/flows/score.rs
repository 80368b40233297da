//! Score: a movement is opened by a tap, a field, a drop or a paste, its parts corrected, its brass audited, bars of it
//! taken into Read and into an exercise; it stays on the device until it is taken off.
#![allow(clippy::print_stdout, reason = "what is skipped is said")]

use anyhow::{Context, Result, ensure};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::input::Place;
use crookwise_tests::outside;
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;
use std::path::{Path, PathBuf};

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    the_demo_movement_opens_with_one_tap_and_its_brass_stands_in_read,
    rows_of_the_audit_lead_to_their_notes_by_keyboard,
    a_file_is_kept_corrected_opened_again_and_taken_off,
    what_is_dropped_or_pasted_is_opened_and_what_is_no_score_is_refused,
    bars_make_an_exercise_and_files,
    bars_taken_into_read_keep_their_lines_and_numbers,
    a_row_stays_in_its_place_while_it_is_corrected,
    parts_are_ticked_all_or_none_and_what_is_folded_says_so,
    a_long_label_stays_in_its_row,
    what_is_chosen_lasts_behind_the_tab_and_a_reload,
    the_way_to_read_and_back_keeps_place_and_focus,
    focus_goes_to_what_is_new,
    bars_are_chosen_by_enter_and_by_letters,
    what_hinders_a_file_is_said_beside_its_field,
    scores_taken_off_are_put_back_each,
    labels_of_ten_staves_stand_on_their_lines,
    a_movement_is_read_as_music_and_a_note_told_at_a_tap,
    chords_stand_under_the_rows_and_a_moment_says_who_holds_what,
    bars_tapped_in_the_music_go_on_from_the_foot_of_the_window,
    a_movement_goes_on_the_wall_and_is_revealed,
    a_file_opened_by_the_system_is_shown,
    the_map_leads_to_entries_bars_and_letters_and_stays_at_the_head,
    notes_and_entries_are_reached_by_keys,
    real_movements_are_opened
];

fn demo_file() -> PathBuf {
    crookwise_tests::site::root().join("web/demo/movement.musicxml")
}

/// Puts a file into the field.
pub(crate) async fn choose(page: &Page, file: &Path) -> Result<()> {
    page.find("button", "Open the demo movement").await?;
    page.give_file(file).await
}

/// Waits until the audit has rows and the music stands: nothing moves any more under a finger.
pub(crate) async fn is_audited(page: &Page) -> Result<()> {
    music_stands(page).await?;
    wait::until("rows of the audit", async || {
        let rows =
            page.eval("return document.querySelectorAll('table[aria-label=Audit] tbody').length", vec![]);
        Ok((rows.await?.as_u64() > Some(0)).then_some(()))
    })
    .await?;
    page.at_rest().await
}

/// Waits until systems have their room and those in the window are drawn.
async fn music_stands(page: &Page) -> Result<()> {
    let stands = "const systems = [...document.querySelectorAll('.music-system')];
        const here = systems.filter((one) => {
            const box = one.getBoundingClientRect();
            return box.top < innerHeight && box.bottom > 0;
        });
        return systems.length > 0 && here.every((one) => one.querySelector('svg') !== null);";
    let stood =
        wait::until(
            "the music",
            async || Ok((page.eval(stands, vec![]).await? == json!(true)).then_some(())),
        )
        .await;
    if stood.is_err() {
        let drawn = "return [...document.querySelectorAll('.music-system')].map((one) => {
            const box = one.getBoundingClientRect();
            return [Math.round(box.top), Math.round(box.bottom), one.querySelector('svg') !== null];
        })";
        return stood.context(format!("systems, top, bottom, drawn: {}", page.eval(drawn, vec![]).await?));
    }
    stood
}

/// Presses what a selector finds, as a reader does: brought into the middle of the window first. Gives how far the page was
/// scrolled then.
async fn pressed(page: &Page, selector: &str) -> Result<f64> {
    let middle = format!(
        "const here = document.querySelector('{selector}');
        if (here === null) return null;
        here.scrollIntoView({{ block: 'center', behavior: 'instant' }});
        const box = here.getBoundingClientRect();
        return [box.left + box.width / 2, box.top + box.height / 2, scrollY];"
    );
    let place = wait::until("what is to be pressed", async || {
        let found = page.eval(&middle, vec![]).await?;
        let of = |at: usize| found.get(at).and_then(serde_json::Value::as_f64);
        Ok(of(0).zip(of(1)).zip(of(2)))
    })
    .await?;
    let ((x, y), scrolled) = place;
    page.click_at(Place { x, y }).await?;
    Ok(scrolled)
}

/// Opens the demo movement from the start of Score.
async fn open_demo(page: &Page) -> Result<()> {
    page.tap("button", "Open the demo movement").await?;
    page.find("heading", "Parts").await?;
    is_audited(page).await
}

async fn is_ticked(page: &Page, name: &str, wanted: bool) -> Result<()> {
    wait::until("the box", async || {
        let is = page.find("checkbox", Name::Has(name.to_owned())).await?.is_selected().await?;
        Ok((is == wanted).then_some(()))
    })
    .await
}

fn the_demo_movement_opens_with_one_tap_and_its_brass_stands_in_read() {
    flow::in_every_browser(&Setup::new(Window::PHONE), async |page| {
        page.tap("link", "Score").await?;
        open_demo(page).await?;
        page.hash_has("demo=1").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        is_ticked(page, "Corno I in D", true).await?;
        page.fill("textbox", "From bar or letter", "9").await?;
        page.fill("textbox", "To bar or letter", "12").await?;
        page.sees("7 staves, bars 9–12").await?;
        page.fill("textbox", "To bar or letter", "999").await?;
        page.sees("There is no bar or letter “999” in this movement").await?;
        page.fill("textbox", "To bar or letter", "12").await?;
        page.tap("button", "Open in Read").await?;
        page.hash_has("/read").await?;
        let staves = page.eval("return location.hash.split('staff=').length - 1", vec![]).await?;
        ensure!(staves == json!(7), "{staves} staves");
        page.sees("Corno III in F").await?;
        // One step back is the movement, as it was left.
        page.back().await?;
        page.find("heading", "Parts").await?;
        page.value_is("textbox", "From bar or letter", "9").await?;
        page.reload().await?;
        is_audited(page).await?;
        page.tap("button", "Another score").await?;
        page.find("button", "Open the demo movement").await?;
        page.is_quiet().await
    });
}

fn a_movement_is_read_as_music_and_a_note_told_at_a_tap() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        page.find("region", "Score").await?;
        page.find("img", Name::Has("Bars 0 to".to_owned())).await?;
        let rows = async || {
            let script = "const text = document.querySelector('.music-system').textContent;
                return [text.includes('as written'), text.includes('as it sounds'), text.includes('Corno III, IV')]";
            page.eval(script, vec![]).await
        };
        let show = async |way: &str, wanted: serde_json::Value| {
            page.tap("button", way).await?;
            wait::until("the rows", async || Ok((rows().await? == wanted).then_some(()))).await
        };
        wait::until("both", async || Ok((rows().await? == json!([true, true, true])).then_some(()))).await?;
        show("As they sound", json!([false, true, true])).await?;
        show("As written", json!([true, false, true])).await?;
        // The first horn's first note: written C5, a horn in D sounds D4.
        let first = page.first_head().await?;
        page.tap_at(first).await?;
        page.sees("Corno I in D, bar 1").await?;
        page.sees("D4").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.is_quiet().await
    });
}

fn chords_stand_under_the_rows_and_a_moment_says_who_holds_what() {
    for window in [Window::LANDSCAPE, Window::PHONE] {
        flow::in_every_browser(&Setup::new(window).hash("/score?demo=1"), async |page| {
            is_audited(page).await?;
            pressed(page, ".together").await?;
            let label =
                "return document.querySelector('.music-system')?.textContent.includes('the whole page')";
            wait::until("the grand staff", async || {
                Ok((page.eval(label, vec![]).await? == json!(true)).then_some(()))
            })
            .await?;
            // The movement begins in D minor; the name stands under its first chord.
            let name = "return document.querySelector('.chord-names span')?.textContent ?? ''";
            wait::until("the first chord", async || {
                Ok((page.eval(name, vec![]).await? == json!("D minor")).then_some(()))
            })
            .await?;
            // A note tells its chord, and who holds what of it.
            music_stands(page).await?;
            let head = page.first_head().await?;
            page.click_at(head).await?;
            page.find("region", "This moment").await?;
            page.sees("in D minor").await?;
            let root = "return document.querySelector('.moment .member').textContent.replace(/\\s+/g, ' ')";
            let told = page.eval(root, vec![]).await?;
            ensure!(
                told.as_str().is_some_and(|told| told.starts_with("root") && told.contains("Corno I in D")),
                "{told}"
            );
            page.well_laid_out().await?;
            page.axe().await?;
            // From chord to chord.
            pressed(page, ".moment-steps .step:nth-child(2)").await?;
            page.sees("E diminished").await?;
            pressed(page, ".moment-steps .step:nth-child(1)").await?;
            page.sees("Bars 0–2, in D minor").await?;
            pressed(page, ".moment-steps .step:nth-child(3)").await?;
            page.find_gone("region", "This moment").await?;
            page.is_quiet().await
        });
    }
}

/// A place of a bar where no note is near: of the bar itself.
const FOOT_OF_A_BAR: &str = "const system = document.querySelector('.music-system');
    system.scrollIntoView({ block: 'end', behavior: 'instant' });
    const box = system.getBoundingClientRect();
    return [box.left + box.width * 0.9, box.bottom - 4]";

fn bars_tapped_in_the_music_go_on_from_the_foot_of_the_window() {
    for window in [Window::LANDSCAPE, Window::PHONE] {
        flow::in_every_browser(&Setup::new(window).hash("/score?demo=1"), async |page| {
            is_audited(page).await?;
            let place = page.eval(FOOT_OF_A_BAR, vec![]).await?;
            let at = |number: usize| place.get(number).and_then(serde_json::Value::as_f64).context("a bar");
            page.tap_at(Place { x: at(0)?, y: at(1)? }).await?;
            page.find("region", "Chosen bars").await?;
            page.sees("7 staves, bar ").await?;
            // All that can be done with them lies under the thumb.
            for name in ["Open in Read", "Make an exercise", "Handout", "Share"] {
                let script = format!(
                    "const button = [...document.querySelectorAll('.picked button')]
                        .find((one) => one.textContent === '{name}');
                    const box = button.getBoundingClientRect();
                    return box.top >= 0 && box.bottom <= innerHeight && box.height >= 44"
                );
                ensure!(page.eval(&script, vec![]).await? == json!(true), "{name} is out of reach");
            }
            page.well_laid_out().await?;
            page.axe().await?;
            // Who leaves them sees them marked no longer; a tap chooses anew.
            let marked = async || {
                page.eval("return document.querySelectorAll('.chosen-bars').length > 0", vec![]).await
            };
            ensure!(marked().await? == json!(true), "the bars are not marked");
            pressed(page, ".picked .moment-steps button").await?;
            page.find_gone("region", "Chosen bars").await?;
            wait::until("no bars that are marked", async || {
                Ok((marked().await? == json!(false)).then_some(()))
            })
            .await?;
            page.settled().await?;
            let place = page.eval(FOOT_OF_A_BAR, vec![]).await?;
            let at = |number: usize| place.get(number).and_then(serde_json::Value::as_f64).context("a bar");
            page.tap_at(Place { x: at(0)?, y: at(1)? }).await?;
            page.find("region", "Chosen bars").await?;
            wait::until("bars that are marked", async || Ok((marked().await? == json!(true)).then_some(())))
                .await?;
            page.sees("Read has room for 64").await?;
            pressed(page, ".picked .row button:nth-child(3)").await?;
            page.hash_has("/practise").await?;
            page.hash_has("paper=").await?;
            page.back().await?;
            is_audited(page).await?;
            // The bars are still chosen, and their link is one tap away.
            pressed(page, ".picked .row button:nth-child(4)").await?;
            page.hash_has("/read").await?;
            page.find("dialog", "Share").await?;
            page.is_quiet().await
        });
    }
}

fn a_movement_goes_on_the_wall_and_is_revealed() {
    for window in [Window::DESK, Window::LANDSCAPE] {
        flow::in_every_browser(&Setup::new(window).hash("/score?demo=1"), async |page| {
            is_audited(page).await?;
            page.click("button", "On the wall").await?;
            page.find("group", "On the wall").await?;
            page.find_gone("button", "Another score").await?;
            // What is written alone, until it is revealed.
            let seen = "const text = document.querySelector('.music-system').textContent;
                return [text.includes('as it sounds'), document.querySelector('.chord-names span') !== null]";
            let shown = async |wanted: serde_json::Value| {
                wait::until("what is revealed", async || {
                    let drawn =
                        page.eval("return document.querySelector('.music-system svg') !== null", vec![]);
                    let is_drawn = drawn.await? == json!(true);
                    Ok((is_drawn && page.eval(seen, vec![]).await? == wanted).then_some(()))
                })
                .await
            };
            shown(json!([false, false])).await?;
            page.axe().await?;
            // A clicker goes from entry to entry.
            page.press("PageDown").await?;
            went_to(page, "Bar 9: ").await?;
            // What is revealed stands where what was written stood.
            let place = "const mark = document.querySelector('.gone-to');
                return [mark.offsetLeft, mark.offsetWidth, mark.parentElement.getAttribute('aria-label')]";
            page.settled().await?;
            let before = page.eval(place, vec![]).await?;
            page.click("button", "What sounds").await?;
            shown(json!([true, false])).await?;
            wait::until("the mark", async || {
                let is = page.eval("return document.querySelector('.gone-to') !== null", vec![]).await?;
                Ok((is == json!(true)).then_some(()))
            })
            .await?;
            let now = page.eval(place, vec![]).await?;
            ensure!(now == before, "what is revealed moves its neighbours: {now}, before {before}");
            // Chords divide long rests: that they are hidden moves nothing either.
            let stands = "const mark = document.querySelector('.gone-to');
                const all = [...document.querySelectorAll('.music-system')];
                return [mark?.offsetLeft, mark?.offsetWidth, all.map((one) => [one.getAttribute('aria-label'),
                    one.offsetTop, one.offsetHeight]), Math.round(scrollY)]";
            page.settled().await?;
            let before = page.eval(stands, vec![]).await?;
            page.click("button", "Together").await?;
            shown(json!([true, true])).await?;
            page.settled().await?;
            let same = async || Ok((page.eval(stands, vec![]).await? == before).then_some(()));
            wait::until("all that stood, where it stood", same).await?;
            page.axe().await?;
            page.press("Escape").await?;
            page.find("button", "Another score").await?;
            page.focus_is_on("button", "On the wall").await?;
            page.is_quiet().await
        });
    }
}

fn rows_of_the_audit_lead_to_their_notes_by_keyboard() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.find_all("button", Name::Has("half stopped".to_owned()))
            .await?
            .first()
            .context("a stopped note")?;
        page.eval("document.querySelector('.kind.off').focus()", vec![]).await?;
        page.press("Enter").await?;
        // The bars of those notes stand below, and one leads to Read with its note selected.
        let bar = "return [...document.querySelectorAll('.kinds.bars button')].map((one) => one.textContent)[0] ?? ''";
        let first = wait::until("bars", async || {
            let bar = page.eval(bar, vec![]).await?;
            Ok(bar.as_str().filter(|bar| bar.starts_with("bar ")).map(str::to_owned))
        })
        .await?;
        page.focus("button", first.as_str()).await?;
        page.press("Enter").await?;
        page.hash_has("/read").await?;
        page.sees("half stopped").await?;
        page.back().await?;
        is_audited(page).await?;
        page.is_quiet().await
    });
}

fn a_file_is_kept_corrected_opened_again_and_taken_off() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score"), async |page| {
        choose(page, &demo_file()).await?;
        is_audited(page).await?;
        page.hash_has("kept=").await?;
        // A label is corrected, and old notation read as such.
        page.click("button", "Correct: Corno I in D").await?;
        page.fill("textbox", "Label as the score prints it", "Corno I in Es").await?;
        page.press("Enter").await?;
        page.sees("Horn in E-flat").await?;
        page.click("checkbox", Name::Has("Read them as old notation".to_owned())).await?;
        is_ticked(page, "Read them as old notation", true).await?;
        page.settled().await?;
        page.reload().await?;
        is_audited(page).await?;
        page.sees("Corno I in Es").await?;
        is_ticked(page, "Read them as old notation", true).await?;
        // What was corrected governs what goes to Read.
        page.click("button", "Open in Read").await?;
        page.hash_has("Corno+I+in+Es").await?;
        // The tab leads back to what is open; another score is chosen by its button.
        page.set_hash("/score").await?;
        page.sees("Corno I in Es").await?;
        page.hash_has("kept=").await?;
        page.click("button", "Another score").await?;
        page.find("region", "Scores on this device").await?;
        page.sees("Introduction and Rondo").await?;
        page.axe().await?;
        page.click("button", Name::Has("Take off this device".to_owned())).await?;
        page.find_gone("region", "Scores on this device").await?;
        // By a slip: it is put back, with what was corrected.
        page.click("button", Name::Has("Put it back".to_owned())).await?;
        page.click("button", Name::Has("Open Introduction and Rondo".to_owned())).await?;
        is_audited(page).await?;
        page.sees("Corno I in Es").await?;
        page.click("button", "Another score").await?;
        page.click("button", Name::Has("Take off this device".to_owned())).await?;
        page.find_gone("region", "Scores on this device").await?;
        page.reload().await?;
        page.find("button", "Open the demo movement").await?;
        page.find_gone("region", "Scores on this device").await?;
        page.is_quiet().await
    });
}

/// Gives the page a file in an event of this kind: what is pasted comes to what has the focus.
pub(crate) async fn give(page: &Page, kind: &str, name: &str, text: &str) -> Result<()> {
    let script = "const [kind, name, text] = arguments;
        const data = new DataTransfer();
        if (name) data.items.add(new File([text], name)); else data.setData('text', text);
        const told = kind === 'drop'
            ? new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: data })
            : new ClipboardEvent('paste', { bubbles: true, cancelable: true, clipboardData: data });
        (kind === 'drop' ? document.body : document.activeElement).dispatchEvent(told);";
    page.eval(script, vec![json!(kind), json!(name), json!(text)]).await.map(|_| ())
}

/// Presses the button for what was copied, in the place of which the browser has this.
async fn copied(page: &Page, what: &str) -> Result<()> {
    let script = format!(
        "Object.defineProperty(navigator.clipboard, 'readText', {{ configurable: true, value: () => {what} }})"
    );
    page.eval(&script, vec![]).await?;
    page.tap("button", "Paste what was copied").await
}

fn what_is_dropped_or_pasted_is_opened_and_what_is_no_score_is_refused() {
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).hash("/score"), async |page| {
        page.find("button", "Open the demo movement").await?;
        give(page, "drop", "tune.mid", "MThd\0\0\0\u{6}").await?;
        page.sees("This is a MIDI file").await?;
        give(page, "drop", "notes.mxl", "PK\u{3}\u{4} and no more").await?;
        page.sees("This compressed file is damaged").await?;
        give(page, "drop", "scan.png", "a picture").await?;
        page.sees("This is not a score in MusicXML").await?;
        give(page, "paste", "", "Corni in Es").await?;
        page.sees("What was pasted is no score in MusicXML").await?;
        // Where there are no keys, a button asks the browser for what was copied, which may refuse.
        copied(page, "Promise.reject(new DOMException('no', 'NotAllowedError'))").await?;
        page.sees("The browser does not let the page have what was copied").await?;
        copied(page, "Promise.resolve('Corni in Es')").await?;
        page.sees("What was pasted is no score in MusicXML").await?;
        let text = std::fs::read_to_string(demo_file()).context("the demo movement")?;
        give(page, "paste", "", &text).await?;
        is_audited(page).await?;
        // Another is dropped on the one that is open.
        give(page, "drop", "again.musicxml", &text).await?;
        is_audited(page).await?;
        // What is no score takes nothing away.
        page.fill("textbox", "From bar or letter", "7").await?;
        give(page, "drop", "scan.png", "a picture").await?;
        page.sees("This is not a score in MusicXML").await?;
        is_audited(page).await?;
        page.value_is("textbox", "From bar or letter", "7").await?;
        page.hash_has("kept=").await?;
        // A link to what is not here, and one that is none, say so.
        page.set_hash("/score?kept=0123abcd").await?;
        page.sees("The score of this link is not on this device").await?;
        page.set_hash("/score?what=1").await?;
        page.sees("This link to Score is damaged").await?;
        page.is_quiet().await
    });
}

/// The labels of the fields in which labels are corrected, and the row that each stands in.
const FIELD_AND_ROW: &str = "return [...document.querySelectorAll('.correcting input')]
    .map((one) => [one.value, one.closest('li').querySelector('b').textContent, document.activeElement === one,
        one.closest('details') === null])";

fn a_row_stays_in_its_place_while_it_is_corrected() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        page.click("button", "Correct: Corno I in D").await?;
        // The field is there, with the focus.
        page.focus_is_on("textbox", "Label as the score prints it").await?;
        for label in ["Corno in Xx", "Klarinette in A"] {
            page.fill("textbox", "Label as the score prints it", label).await?;
            page.press("Enter").await?;
            wait::until("the label in its row", async || {
                let now = page.eval(FIELD_AND_ROW, vec![]).await?;
                let wanted = json!([[label, "Corno I in D", true, true]]);
                let said = page
                    .eval("return document.querySelector('.printed-label:not(:empty)')?.textContent", vec![]);
                Ok((now == wanted && said.await? == json!(label)).then_some(()))
            })
            .await?;
            if label == "Corno in Xx" {
                page.sees("“Corno in Xx” names no instrument that is known").await?;
            }
        }
        // The tabulator leads on to the list of readings, whatever the label has become meanwhile.
        page.fill("textbox", "Label as the score prints it", "Corno in Yy").await?;
        page.press("Tab").await?;
        page.sees("“Corno in Yy” names no instrument that is known").await?;
        let list = "return document.activeElement === document.querySelector('.correcting select')";
        wait::until("the list", async || Ok(page.eval(list, vec![]).await?.as_bool().filter(|is| *is)))
            .await?;
        // Escape leaves the field as it was, and the focus at its button.
        page.fill("textbox", "Label as the score prints it", "Corno in Zz").await?;
        page.press("Escape").await?;
        page.find_gone("textbox", "Label as the score prints it").await?;
        page.focus_is_on("button", "Correct: Corno I in D").await?;
        page.sees("Corno in Yy").await?;
        ensure!(!page.text().await?.contains("Zz"), "Escape changed the label");
        // And there is a way back that is seen.
        page.click("button", "Back to “Corno I in D”, as the file has it").await?;
        page.find_gone("button", "Back to “Corno I in D”, as the file has it").await?;
        page.focus_is_on("button", "Correct: Corno I in D").await?;
        ensure!(!page.text().await?.contains("Yy"), "the label of the file is not back");
        // The platform's keys take a step back and make it again; so do the buttons.
        page.press("Control+z").await?;
        page.sees("Corno in Yy").await?;
        page.press("Control+y").await?;
        page.find_gone("button", "Back to “Corno I in D”, as the file has it").await?;
        for label in ["Corno in Yy", "Klarinette in A", "Corno in Xx"] {
            page.click("button", "Undo").await?;
            page.sees(label).await?;
        }
        page.click("button", "Redo").await?;
        page.sees("Klarinette in A").await?;
        page.is_quiet().await
    });
}

fn parts_are_ticked_all_or_none_and_what_is_folded_says_so() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        let ticked = async |wanted: u64| {
            wait::until("so many ticks", async || {
                let script = "return document.querySelectorAll('.parts input[type=checkbox]:checked').length";
                Ok((page.eval(script, vec![]).await?.as_u64() == Some(wanted)).then_some(()))
            })
            .await
        };
        ticked(7).await?;
        page.tap("button", "None: Parts").await?;
        ticked(0).await?;
        // What cannot be done looks so.
        let colours = "const of = (text) => getComputedStyle([...document.querySelectorAll('.taking button')]
            .find((one) => one.textContent === text)).backgroundColor;
            return of('Open in Read') === of('Make an exercise')";
        wait::until("both buttons alike", async || {
            Ok((page.eval(colours, vec![]).await? == json!(true)).then_some(()))
        })
        .await?;
        page.tap("checkbox", Name::Has("Corno III in F".to_owned())).await?;
        page.tap("checkbox", Name::Has("Corno IV in F".to_owned())).await?;
        page.sees("2 staves, bars 0–3").await?;
        page.eval("document.querySelector('.parts details').open = true", vec![]).await?;
        // The music above grows by many rows, and the parts stay where the reader has them.
        page.at_rest().await?;
        let (all, heights) = (
            page.find("button", "All: Other parts").await?,
            "return [scrollY > 0,
            document.querySelector('#systems').offsetHeight]",
        );
        let (before, low) = (page.extent(&all).await?, page.eval(heights, vec![]).await?);
        page.tap("button", "All: Other parts").await?;
        page.sees(" ticked)").await?;
        wait::until("music of more rows", async || {
            let high = page.eval(heights, vec![]).await?;
            Ok((high[0] == json!(true) && high[1].as_u64() > low[1].as_u64()).then_some(()))
        })
        .await?;
        page.at_rest().await?;
        let moved = page.extent(&all).await?.corner.y - before.corner.y;
        ensure!(moved.abs() < 3.0, "the list of parts went {moved} pixels away from under the finger");
        page.eval("document.querySelector('.parts details').open = false", vec![]).await?;
        page.sees(" ticked)").await?;
        page.tap("button", "All: Parts").await?;
        is_ticked(page, "Corno I in D", true).await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.is_quiet().await
    });
}

fn a_long_label_stays_in_its_row() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        page.tap("button", "Correct: Corno I in D").await?;
        for label in ["Corno primo in La alto (in A), poi in Mi basso", &"Corno".repeat(40)] {
            page.fill("textbox", "Label as the score prints it", label).await?;
            page.press("Enter").await?;
            page.sees(label).await?;
            // While the list is made anew there is none.
            let lines = "const name = document.querySelector('.part-name b');
                return name && [name.getClientRects().length, document.documentElement.scrollWidth - innerWidth,
                    name.closest('label').getBoundingClientRect().right
                        <= name.closest('li').querySelector('.correct').getBoundingClientRect().left]";
            wait::until("a name on one line", async || {
                let now = page.eval(lines, vec![]).await?;
                Ok((now == json!([1, 0, true])).then_some(()))
            })
            .await?;
        }
        page.well_laid_out().await?;
        page.is_quiet().await
    });
}

fn what_is_chosen_lasts_behind_the_tab_and_a_reload() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        let as_left = async || {
            is_audited(page).await?;
            page.hash_has("demo=1").await?;
            is_ticked(page, "Corno I in D", false).await?;
            is_ticked(page, "Corno III in", true).await?;
            page.value_is("textbox", "From bar or letter", "9").await?;
            page.value_is("textbox", "To bar or letter", "11").await?;
            // What was corrected in the demo movement, too.
            page.sees("Corno III in Es").await
        };
        is_audited(page).await?;
        page.click("checkbox", Name::Has("Corno I in D".to_owned())).await?;
        page.click("button", "Correct: Corno III in F").await?;
        page.fill("textbox", "Label as the score prints it", "Corno III in Es").await?;
        page.press("Enter").await?;
        page.sees("Horn in E-flat").await?;
        page.fill("textbox", "From bar or letter", "9").await?;
        page.fill("textbox", "To bar or letter", "11").await?;
        page.sees("6 staves, bars 9–11").await?;
        page.click("button", "Open in Read").await?;
        page.hash_has("/read").await?;
        page.click("link", "Score").await?;
        as_left().await?;
        page.reload().await?;
        as_left().await?;
        // Also where the window is loaded anew elsewhere.
        page.click("link", "Read").await?;
        page.reload().await?;
        page.click("link", "Score").await?;
        as_left().await?;
        // What was left by its button stays left, and is found again as it was.
        page.click("button", "Another score").await?;
        page.find("button", "Open the demo movement").await?;
        page.reload().await?;
        page.click("button", "Open the demo movement").await?;
        as_left().await?;
        page.is_quiet().await
    });
}

fn the_way_to_read_and_back_keeps_place_and_focus() {
    for window in [Window::PHONE, Window::PORTRAIT, Window::LANDSCAPE] {
        flow::in_every_browser(&Setup::new(window).hash("/score?demo=1"), async |page| {
            is_audited(page).await?;
            // With a press of its own: WebKit goes back over steps that a script alone has made.
            pressed(page, ".kind.off").await?;
            let before = pressed(page, ".kinds.bars .leads").await?;
            page.hash_has("/read").await?;
            // The note stands in the window, with the focus on it.
            wait::until("the note in sight", async || {
                let script = "const here = document.activeElement;
                    const box = here.getBoundingClientRect();
                    return here.tagName !== 'BODY' && document.querySelector('#sheet').contains(here)
                        && box.top >= 0 && box.bottom <= innerHeight";
                Ok(page.eval(script, vec![]).await?.as_bool().filter(|is| *is))
            })
            .await?;
            page.back().await?;
            is_audited(page).await?;
            page.focus_is_on("heading", "Introduction and Rondo").await?;
            wait::until("the place that was left", async || {
                let now = page.eval("return Math.round(scrollY)", vec![]).await?;
                let near = now.as_f64().is_some_and(|now| (now - before).abs() < 40.0);
                Ok(near.then_some(()))
            })
            .await?;
            page.is_quiet().await
        });
    }
}

fn notes_and_entries_are_reached_by_keys() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        page.watch_focus().await?;
        // The notes are one stop, at the first that is seen.
        page.tab_to("button", Name::Has("Notes: the arrow keys".to_owned())).await?;
        page.focus_is_on("button", "Corno I in D, bar 1, note 1").await?;
        for (key, note) in [
            ("ArrowRight", "Corno I in D, bar 3, note 1"),
            ("ArrowRight", "Corno I in D, bar 5, note 1"),
            ("ArrowRight", "Corno I in D, bar 5, note 2"),
            ("ArrowLeft", "Corno I in D, bar 5, note 1"),
        ] {
            page.press(key).await?;
            page.focus_is_on("button", note).await.with_context(|| format!("after {key}"))?;
        }
        page.press("Enter").await?;
        page.find("region", "This moment").await?;
        let ring = "return document.querySelector('.tapped-note') !== null
            && document.querySelector('.tapped .sea').textContent !== ''";
        wait::until("the note told", async || Ok(page.eval(ring, vec![]).await?.as_bool().filter(|is| *is)))
            .await?;
        page.focus_is_on("button", "Corno I in D, bar 5, note 1").await?;
        // From row to row, and behind the end of a system to the next.
        for _ in 0..2 {
            page.press("ArrowDown").await?;
        }
        page.focus_is_on("button", "Corno II in D, bar ").await?;
        for _ in 0..2 {
            page.press("ArrowUp").await?;
        }
        let system = "return [...document.querySelectorAll('.music-system')].findIndex((one) => {
            const box = one.getBoundingClientRect(), at = document.activeElement.getBoundingClientRect();
            return box.top <= at.bottom && box.bottom >= at.top; })";
        let first = page.eval(system, vec![]).await?;
        for _ in 0..60 {
            page.press("ArrowRight").await?;
            page.settled().await?;
            if page.eval(system, vec![]).await? != first {
                break;
            }
        }
        ensure!(page.eval(system, vec![]).await? != first, "the walk ends with the system");
        wait::until("the system before", async || {
            page.press("ArrowLeft").await?;
            page.settled().await?;
            Ok((page.eval(system, vec![]).await? == first).then_some(()))
        })
        .await?;
        // The entries of the map are one stop too; the one that has the focus is seen.
        let is_entry = "return document.activeElement.closest('.map-entries') !== null";
        for _ in 0..30 {
            page.press("Shift+Tab").await?;
            if page.eval(is_entry, vec![]).await? == json!(true) {
                break;
            }
        }
        let entry = "const { width, height } = document.activeElement.getBoundingClientRect();
            return [document.activeElement.textContent, width > 44 && height > 20]";
        let one = page.eval(entry, vec![]).await?;
        page.press("ArrowRight").await?;
        let next = page.eval(entry, vec![]).await?;
        ensure!(one[1] == json!(true) && next[1] == json!(true) && one[0] != next[0], "{one}, then {next}");
        page.press("Enter").await?;
        let said = "return document.querySelector('.map-said').textContent";
        wait::until("the entry", async || Ok((page.eval(said, vec![]).await? == next[0]).then_some(())))
            .await?;
        page.focus_was_seen().await
    });
}

fn focus_goes_to_what_is_new() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score"), async |page| {
        page.find("button", "Open the demo movement").await?;
        page.focus("button", "Open the demo movement").await?;
        page.press("Enter").await?;
        is_audited(page).await?;
        page.focus_is_on("heading", "Introduction and Rondo").await?;
        page.focus("button", "Another score").await?;
        page.press("Enter").await?;
        page.find("button", "Open the demo movement").await?;
        let field = "return document.activeElement === document.querySelector('input[type=file]')";
        wait::until("the field", async || Ok(page.eval(field, vec![]).await?.as_bool().filter(|is| *is)))
            .await?;
        // Into the middle of the page, by the thumb or the keyboard.
        page.click("button", "Open the demo movement").await?;
        is_audited(page).await?;
        page.resize(Window::PHONE).await?;
        page.tap("button", "Go to: Audit").await?;
        page.focus_is_on("heading", "Audit").await?;
        page.is_quiet().await
    });
}

fn bars_are_chosen_by_enter_and_by_letters() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        // On a narrow window the parts come first, then what depends on them.
        let order = "return [...document.querySelectorAll('.movement > *')]
            .sort((one, other) => one.getBoundingClientRect().top - other.getBoundingClientRect().top)
            .map((one) => one.className.split(' ').pop())";
        let order = page.eval(order, vec![]).await?;
        ensure!(order == json!(["parts", "taking", "audited"]), "{order}");
        page.tap("button", Name::Has("B (bar ".to_owned())).await?;
        page.value_is("textbox", "From bar or letter", "B").await?;
        page.sees("7 staves, bars ").await?;
        page.fill("textbox", "From bar or letter", "999").await?;
        page.sees("There is no bar or letter “999”").await?;
        page.press("Enter").await?;
        page.fill("textbox", "From bar or letter", "1").await?;
        page.fill("textbox", "To bar or letter", "3").await?;
        page.sees("7 staves, bars 1–3").await?;
        page.press("Enter").await?;
        page.hash_has("/read").await?;
        page.is_quiet().await
    });
}

fn what_hinders_a_file_is_said_beside_its_field() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        let catch = "window.saved = [];
            HTMLAnchorElement.prototype.click = function () { window.saved.push(this.download); };";
        page.eval(catch, vec![]).await?;
        page.eval("document.querySelector('.taking details').open = true", vec![]).await?;
        page.sees("Files hold the ticked parts from the first bar to the last").await?;
        page.choose("Write files", "Written for").await?;
        page.click("button", "Save as MusicXML").await?;
        page.sees("Type the label to write for").await?;
        page.fill("textbox", "Written for", "Blob").await?;
        page.click("button", "Save as MusicXML").await?;
        page.sees("“Blob” names no instrument").await?;
        let beside = "return document.querySelector('.taking details').textContent.includes('“Blob”')";
        ensure!(page.eval(beside, vec![]).await? == json!(true), "the sentence stands elsewhere");
        page.fill("textbox", "Written for", "Corni in F").await?;
        page.click("button", "Save as MusicXML").await?;
        page.choose("Write files", "At sounding pitch").await?;
        page.click("button", "Save as MusicXML").await?;
        wait::until("two files, each with a name of its own", async || {
            let saved = page.eval("return window.saved", vec![]).await?;
            let text = saved.to_string();
            Ok((text.contains("(for Corni in F)") && text.contains("(sounding)")).then_some(()))
        })
        .await?;
        ensure!(!page.text().await?.contains("Blob”"), "what was mended is said still");
        page.is_quiet().await
    });
}

fn scores_taken_off_are_put_back_each() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash("/score"), async |page| {
        let text = std::fs::read_to_string(demo_file()).context("the demo movement")?;
        page.find("button", "Open the demo movement").await?;
        for title in ["First", "Second"] {
            let other = text.replace("Introduction and Rondo", title);
            give(page, "drop", "a.musicxml", &other).await?;
            page.find("heading", title).await?;
            is_audited(page).await?;
        }
        page.tap("button", "Another score").await?;
        for title in ["First", "Second"] {
            page.tap("button", format!("Take off this device: {title}").as_str()).await?;
            page.focus_is_on("button", &format!("Put it back: {title}")).await?;
        }
        page.tap("button", "Put it back: First").await?;
        page.focus_is_on("button", "Open First").await?;
        page.tap("button", "Put it back: Second").await?;
        page.find("button", "Open First").await?;
        page.find("button", "Open Second").await?;
        page.is_quiet().await
    });
}

fn labels_of_ten_staves_stand_on_their_lines() {
    let labels =
        ["D Horn 1", "D Horn 2", "B♭ (basso) Horn 3", "B♭ (basso) Horn 4", "D Trumpet 1", "D Trumpet 2"];
    let low = ["Alto Trombone", "Tenor Trombone", "Bass Trombone", "Timpani in D A"];
    let staves: Vec<String> = labels
        .into_iter()
        .chain(low)
        .map(|label| format!("staff={}&notes=C4.C4", label.replace(' ', "+")))
        .collect();
    let hash = format!("/read?{}", staves.join("&"));
    flow::in_every_browser(&Setup::new(Window::DESK).hash(&hash), async |page| {
        page.sees("a minor seventh lower").await?;
        // What a label means stands on one line, under the label and not over it.
        let lines = "return [...document.querySelectorAll('.staff-label small')]
            .filter((one) => one.getBoundingClientRect().height > 24).map((one) => one.textContent)";
        wait::until("meanings on one line", async || {
            Ok((page.eval(lines, vec![]).await? == json!([])).then_some(()))
        })
        .await?;
        page.is_quiet().await
    });
}

/// What a browser does that opens files with the installed app ("File Handling", W3C Web Incubator CG).
const LAUNCHED: &str = "const getFile = async () => {
        const parts = document.querySelector('link[href$=\"parts.js\"]').href;
        const answer = await fetch(parts.replace('parts.js', 'demo.musicxml'));
        return new File([await answer.text()], 'launched.musicxml');
    };
    const setConsumer = (told) => told({ files: [{ getFile }] });
    Object.defineProperty(window, 'launchQueue', { value: { setConsumer } });";

fn a_file_opened_by_the_system_is_shown() {
    flow::in_every_browser(&Setup::new(Window::DESK), async |page| {
        page.stand_in(LAUNCHED).await?;
        page.visit("/score").await?;
        is_audited(page).await?;
        page.hash_has("kept=").await?;
        page.well_laid_out().await?;
        page.is_quiet().await
    });
}

/// The bar lines of each staff on the screen, system by system, in tenths of a pixel from its left edge; and the texts
/// over the staves: how many stand over the first of each system, and which.
const BARS: &str = "
    const systems = [...document.querySelectorAll('.system')].map((system) => {
        const staves = [...system.querySelectorAll('.touched > .picture:not(.ghost) > svg')];
        const lines = staves.map((staff) => [...staff.querySelectorAll('.ink-staff rect')]
            .map((line) => line.getBoundingClientRect())
            .filter((line) => line.height > line.width)
            .map((line) => Math.round(10 * (line.left + line.right) / 2)));
        const texts = staves.map((staff) => [...staff.querySelectorAll('text')].map((text) => text.textContent));
        return { lines, texts };
    });
    return systems;";

fn bars_taken_into_read_keep_their_lines_and_numbers() {
    for window in [Window::PHONE, Window::LANDSCAPE] {
        flow::in_every_browser(&Setup::new(window).hash("/score?demo=1"), async |page| {
            is_audited(page).await?;
            page.fill("textbox", "From bar or letter", "9").await?;
            page.fill("textbox", "To bar or letter", "12").await?;
            page.sees("bars 9–12").await?;
            page.click("button", "Open in Read").await?;
            page.hash_has("bars=1_9.").await?;
            // Every staff of a system, what sounds among them, has its lines where the first has them.
            let systems = wait::until("bar lines", async || {
                let systems = page.eval(BARS, vec![]).await?;
                let staves = systems[0]["lines"].as_array().map_or(0, Vec::len);
                Ok((staves == 9).then_some(systems))
            })
            .await?;
            let (mut lines, mut numbers) = (0, Vec::new());
            for system in systems.as_array().context("systems")? {
                let staves = system["lines"].as_array().context("staves")?;
                let places = |staff: &serde_json::Value| -> Vec<i64> {
                    staff.as_array().into_iter().flatten().filter_map(serde_json::Value::as_i64).collect()
                };
                let first = places(&staves[0]);
                lines += first.len();
                for staff in staves.iter().map(places) {
                    let near = staff.len() == first.len()
                        && staff.iter().zip(&first).all(|(one, other)| (one - other).abs() <= 10);
                    ensure!(near, "lines at {staff:?} under lines at {first:?}");
                }
                let texts = system["texts"].as_array().context("texts")?;
                let of = |staff: &serde_json::Value| -> Vec<String> {
                    let all = staff.as_array().into_iter().flatten().filter_map(serde_json::Value::as_str);
                    all.filter(|text| text.parse::<u32>().is_ok()).map(str::to_owned).collect()
                };
                numbers.extend(texts.first().map(of).unwrap_or_default());
                ensure!(
                    texts.iter().skip(1).all(|staff| of(staff).is_empty()),
                    "numbers under the first staff"
                );
            }
            ensure!(numbers == ["9", "10", "11", "12"], "{numbers:?}");
            ensure!(lines >= 3, "{lines} lines");
            // What is said of a column begins with its bar, and so does what is said at a glance.
            page.find_all("button", Name::Has("bar 10: ".to_owned()))
                .await?
                .first()
                .context("a column of bar 10")?;
            page.sees("bar 9 · ").await?;
            page.axe().await?;
            // The link brings them, and the way back and forth leaves them.
            page.reload().await?;
            page.sees("bar 9 · ").await?;
            page.hash_has("bars=1_9.").await?;
            page.is_quiet().await
        });
    }
}

fn bars_make_an_exercise_and_files() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        // What would be saved is caught.
        let catch = "window.saved = [];
            HTMLAnchorElement.prototype.click = function () { window.saved.push(this.download); };";
        page.eval(catch, vec![]).await?;
        page.click("button", "Save as a table (CSV)").await?;
        page.eval("document.querySelector('.taking details').open = true", vec![]).await?;
        page.click("button", "Save as MusicXML").await?;
        page.click("button", "Save as MIDI").await?;
        wait::until("three files", async || {
            let saved =
                page.eval("return window.saved.map((name) => name.split('.').pop()).sort()", vec![]).await?;
            Ok((saved == json!(["csv", "mid", "musicxml"])).then_some(()))
        })
        .await?;
        page.click("button", "Make an exercise").await?;
        page.hash_has("/practise").await?;
        page.hash_has("from=read").await?;
        page.find("button", "Set an exercise").await?;
        // What it asks is drawn from these staves.
        wait::until("a staff of the movement", async || {
            let text = page.text().await?;
            let labels = ["Corno I", "Tromba I", "Timpani in D A"];
            Ok(labels.iter().any(|label| text.contains(label)).then_some(()))
        })
        .await?;
        page.is_quiet().await
    });
}

/// What is said under the map, and whether the bar that was gone to, or of it the staff that enters, stands in the window, clear of
/// the map, which is at its head.
const WENT: &str = "const map = document.querySelector('#map').getBoundingClientRect();
    const mark = (document.querySelector('.entering') ?? document.querySelector('.gone-to'))?.getBoundingClientRect();
    return [document.querySelector('.map-said').textContent,
        mark !== undefined && mark.top >= map.bottom && mark.top < innerHeight, Math.round(map.top)]";

/// Waits until a bar was gone to, as it is said.
pub(crate) async fn went_to(page: &Page, said: &str) -> Result<()> {
    wait::until("the bar under the map", async || {
        let now = page.eval(WENT, vec![]).await?;
        let text = now.get(0).and_then(|text| text.as_str()).unwrap_or_default();
        let clear =
            now.get(1) == Some(&json!(true)) && now.get(2).and_then(serde_json::Value::as_i64) < Some(400);
        Ok((text.starts_with(said) && clear).then_some(()))
    })
    .await
}

fn the_map_leads_to_entries_bars_and_letters_and_stays_at_the_head() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        page.find("region", "Map of the movement").await?;
        page.find("img", Name::Has("entries after 4 bars of rest or more, 1 change of crook".to_owned()))
            .await?;
        page.well_laid_out().await?;
        page.axe().await?;
        // By the text of the demo horns in F and drums rest in bars 4 to 8.
        page.click("button", "Next entry").await?;
        went_to(page, "Bar 9: Corno III, IV in F; Timpani in D A after 5 bars of rest").await?;
        page.key_on("Enter", "button", "Next entry").await?;
        went_to(page, "Bar 11: Tromba").await?;
        page.click("button", "Entry before").await?;
        went_to(page, "Bar 9: ").await?;
        page.click("button", "Entry before").await?;
        page.sees("No entry before this").await?;
        page.fill("textbox", "Go to bar or letter", "C").await?;
        page.press("Enter").await?;
        went_to(page, "Bar 38").await?;
        ensure!(page.eval(WENT, vec![]).await?.get(2) == Some(&json!(0)), "the map is not at the head");
        page.fill("textbox", "Go to bar or letter", "999").await?;
        page.press("Enter").await?;
        page.sees("There is no bar or letter “999” in this movement").await?;
        // A finger leads to the bar it lies on, and the frame is drawn round it.
        let picture = page.find("img", Name::Has("entries after".to_owned())).await?;
        let extent = page.extent(&picture).await?;
        page.tap_at(extent.middle()).await?;
        let framed = "const frame = document.querySelector('.map-frame').getBoundingClientRect();
            const picture = document.querySelector('.map-picture').getBoundingClientRect();
            const middle = picture.left + picture.width / 2;
            return frame.left <= middle && frame.right >= middle";
        wait::until("the frame round the finger", async || {
            Ok((page.eval(framed, vec![]).await? == json!(true)).then_some(()))
        })
        .await?;
        page.is_quiet().await
    });
    flow::in_every_browser(&Setup::new(Window::PHONE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        // Behind what stands in the window comes the map.
        page.find("img", Name::Has("entries after".to_owned())).await?;
        // A line on a telephone, which is opened and folded again.
        let high = "return document.querySelector('#map').getBoundingClientRect().height <= 60";
        ensure!(page.eval(high, vec![]).await? == json!(true), "the folded map is higher than a line");
        page.tap("button", "Next entry").await?;
        went_to(page, "Bar 9: ").await?;
        page.tap("button", "The whole map").await?;
        page.find("textbox", "Go to bar or letter").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.tap("button", "The whole map").await?;
        page.find_gone("textbox", "Go to bar or letter").await?;
        page.is_quiet().await
    });
}

fn real_movements_are_opened() {
    let Some(scores) = outside::scores() else { return };
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score"), async |page| {
        choose(page, &scores.join("Beethoven_Op.92_1.mxl")).await?;
        is_audited(page).await?;
        page.sees("35 notes under the bass clef").await?;
        page.sees("bars 9, 66–80").await?;
        // One to each: both horns read as old, and the audit follows.
        page.well_laid_out().await?;
        page.fill("textbox", "From bar or letter", "63").await?;
        page.fill("textbox", "To bar or letter", "66").await?;
        page.sees("bars 63–66").await?;
        page.click("button", "Open in Read").await?;
        page.hash_has("/read").await?;
        page.back().await?;
        page.click("button", "Another score").await?;
        // The largest of them.
        choose(page, &scores.join("Beethoven_Op.125_4.mxl")).await?;
        page.sees("943 bars · ").await?;
        is_audited(page).await?;
        page.click("button", "Another score").await?;
        page.find("region", "Scores on this device").await?;
        page.is_quiet().await
    });
}
