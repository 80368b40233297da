//! From one printed staff to what sounds: the whole story by mouse, by touch, and by keyboard alone.

use anyhow::{Context, Result, ensure};
use crookwise_tests::browser::Browser;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::input::Place;
use crookwise_tests::page::Page;
use crookwise_tests::staff::letters;
use crookwise_tests::wait;
use crookwise_tests::window::Window;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    by_mouse,
    by_touch_on_a_tablet,
    by_touch_on_a_telephone,
    by_keyboard_alone,
    the_focus_is_never_lost,
    what_was_open_leaves_the_page_as_it_was
];

/// The label field.
const LABEL: &str = "What the score prints";
/// The start page without its notes.
const EMPTY: &str = "/read?staff=Corni+in+Es&key=Eb+major&a4=430&hand=Horn+in+F";
/// Notes and their order on the start page.
const START: [&str; 9] = [
    "written G4, sounds B-flat 3, partial 6",
    "written C5, sounds E-flat 4, partial 8, in tune",
    "written E5, sounds G4, partial 10, 14 cents flat",
    "written G5, sounds B-flat 4, partial 12",
    "written F-sharp 5, sounds A4, partial 11",
    "written E5, sounds G4, partial 10, 14 cents flat",
    "written B-flat 4, sounds D-flat 4, partial 7",
    "written A4, sounds C4, half stopped",
    "written C5, sounds E-flat 4, partial 8, in tune",
];

/// All that is said about the selected note.
async fn about(page: &Page) -> Result<String> {
    let region = page.find("region", "About the selected note").await?;
    region.text().await.context("the readout has no text")
}

/// The link of the share panel opens in a fresh browser and shows the same.
async fn opens_the_same_elsewhere(page: &Page) -> Result<()> {
    let link = page.value("textbox", "A link to exactly this page").await?;
    let (start, hash) = link.split_once('#').context("a link without #")?;
    ensure!(start == page.address(), "{link} leads elsewhere than here");
    // What the sheet stands over is beyond everybody's reach.
    page.press("Escape").await?;
    page.find_gone("dialog", "Share").await?;
    let notes = page.notes().await?;
    let said = about(page).await?;
    flow::elsewhere(page, hash, async |other| {
        other.notes_are(&notes.iter().map(String::as_str).collect::<Vec<_>>()).await?;
        let fields = [
            ("clef", "radiogroup", "Clef"),
            ("movement", "radiogroup", "Movement"),
            ("tuning", "spinbutton", "A in Hz"),
        ];
        other.value_is("textbox", LABEL, &page.value("textbox", LABEL).await?).await?;
        for (chip, role, name) in fields {
            let (own, there) =
                (page.value_in(chip, role, name).await?, other.value_in(chip, role, name).await?);
            ensure!(own == there, "{name}: {own} here, {there} there");
        }
        ensure!(about(other).await? == said, "the readout says the same: {said}");
        Ok(())
    })
    .await
}

/// Presses the mouse on a note's place: what would sound is shown, and nothing is entered before letting go.
async fn place_by_mouse(page: &Page, column: usize, note: &str, shown: &str) -> Result<()> {
    let place = page.staff_column(column).await?.treble(note)?;
    let before = page.notes().await?;
    page.mouse_down(place).await?;
    page.tries(shown).await?;
    ensure!(page.notes().await? == before, "nothing is entered before letting go");
    page.mouse_up(place).await
}

fn by_mouse() {
    flow::in_every_browser(&Setup::new(Window::DESK), async |page| {
        // The start page shows something worth looking at.
        page.notes_are(&START).await?;
        page.sees("Call across the Quarry").await?;
        // Another label first, so that the meaning is seen to follow what is typed.
        page.click("textbox", LABEL).await?;
        page.press("Control+a").await?;
        page.write("Trombe in D").await?;
        page.sees("Trumpet in D — sounds a major second higher").await?;
        page.press("Control+a").await?;
        page.write("Corni in Es").await?;
        page.sees("Horn in E-flat — sounds a major sixth lower").await?;
        page.notes_are(&START).await?;
        // What the start page says of its own piece is not said of the reader's.
        page.find("button", "movement unknown").await?;
        page.find("button", "tuning equal, A 440").await?;
        page.click("button", "More tools").await?;
        page.click("button", "Clear the staff").await?;
        page.notes_are(&[]).await?;
        page.visit(EMPTY).await?;

        // Notes placed, one moved.
        place_by_mouse(page, 0, "E5", "E5 → G4").await?;
        page.notes_are(&["written E5, sounds G4, partial 10, 14 cents flat"]).await?;
        place_by_mouse(page, 1, "G4", "G4 → B♭3").await?;
        place_by_mouse(page, 2, "C4", "C4 → E♭3").await?;
        page.notes_are(&["written E5", "written G4", "written C4, sounds E-flat 3, partial 4, in tune"])
            .await?;
        let column = page.staff_column(1).await?;
        page.mouse_down(column.treble("G4")?).await?;
        page.tries("G4 → B♭3").await?;
        page.mouse_move(column.treble("B4")?).await?;
        page.tries("B4 → D4").await?;
        page.mouse_up(column.treble("C5")?).await?;
        page.notes_are(&["written E5", "written C5, sounds E-flat 4, partial 8, in tune", "written C4"])
            .await?;

        // The first is selected by a click on its note, and read in full.
        page.click_at(page.staff_column(0).await?.treble("E5")?).await?;
        page.sees("Partial 10, open, 14 cents flat").await?;
        page.click("tab", "This note").await?;
        for sentence in [
            "Uncorrected 14 cents flat: 380.1 Hz against 383.1 Hz at A = 430 in equal temperament.",
            "Third degree of E♭ major (3); third degree above the crook's own C (3).",
        ] {
            page.sees(sentence).await?;
        }
        page.click("tab", "Three ways").await?;
        for sentence in [
            "Every note sounds a major sixth lower: 5 letters and 9 semitones.",
            "Imagine the bass clef (F4), an octave higher and add 3 flats to the signature.",
            "On a horn in F read D5: every note a major second lower.",
        ] {
            page.sees(sentence).await?;
        }
        ensure!(page.notes().await?.len() == 3, "a click on a note enters none");

        // Tools for the selected note, here the second by its button.
        page.click("button", Name::Has("written C5".into())).await?;
        page.click("button", "Sharp").await?;
        page.notes_are(&["written E5", "written C-sharp 5, sounds E4", "written C4"]).await?;
        page.click("button", "Natural").await?;
        page.click("button", "Octave down").await?;
        page.notes_are(&["written E5", "written C4", "written C4"]).await?;
        page.click("button", "Octave up").await?;
        page.click("button", "Flat").await?;
        page.notes_are(&["written E5", "written C-flat 5", "written C4"]).await?;
        page.click("button", "Hold").await?;
        page.notes_are(&["written E5", "written C-flat 5", "held: written C-flat 5", "written C4"]).await?;
        page.click("button", "Rest").await?;
        let whole = ["written E5", "written C-flat 5", "held: written C-flat 5", "rest", "written C4"];
        page.notes_are(&whole).await?;
        page.click("button", "Remove").await?;
        page.notes_are(&["written E5", "written C-flat 5", "held: written C-flat 5", "written C4"]).await?;
        page.click("button", "Undo").await?;
        page.notes_are(&whole).await?;
        page.click("button", "Redo").await?;
        page.notes_are(&["written E5", "written C-flat 5", "held: written C-flat 5", "written C4"]).await?;

        // A rung of the ladder enters its note behind the selected one; it is named before letting go.
        page.click("tab", "Series").await?;
        let rung = page.find("button", "Partial 5: enter E4, sounds G3").await?;
        let rung = page.extent(&rung).await?.middle();
        page.mouse_down(rung).await?;
        page.sees("E4").await?;
        page.mouse_move(rung.moved(-300.0, 0.0)).await?;
        page.mouse_up(rung.moved(-300.0, 0.0)).await?;
        ensure!(page.notes().await?.len() == 4, "a rung that was left enters nothing");
        page.click("button", "Partial 12: enter G5, sounds B-flat 4").await?;
        page.notes_are(&[
            "written E5",
            "written C-flat 5",
            "held",
            "written G5, sounds B-flat 4",
            "written C4",
        ])
        .await?;
        // And so does a note between the rungs.
        page.click("button", Name::Has("enter A4, sounds C4".into())).await?;
        page.sees("Half stopped, made from partial 7").await?;

        page.click("button", "Share").await?;
        opens_the_same_elsewhere(page).await?;
        page.click("button", "Share").await?;
        page.click("button", "Copy the link").await?;
        wait::until("an answer to copying", async || {
            let text = page.text().await?;
            Ok((text.contains("Copied.") || text.contains("select the link and copy it yourself"))
                .then_some(()))
        })
        .await?;
        page.click("button", "Done").await?;
        page.find_gone("textbox", "A link to exactly this page").await
    });
}

/// A pseudo-random sequence, the same in every run (the constants of Knuth's MMIX).
struct Chance(u64);

impl Chance {
    /// A number from -most to most, with both ends.
    fn within(&mut self, most: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let share = f64::from(u32::try_from(self.0 >> 32).unwrap_or(0)) / f64::from(u32::MAX);
        (share * 2.0 - 1.0) * most
    }
}

/// Twenty notes for a horn, from the lowest line of the staff to three ledger lines below and two above.
const TWENTY: [&str; 20] = [
    "G4", "C5", "E5", "D5", "G5", "F5", "A5", "C6", "B5", "C5", "E4", "C4", "G3", "C4", "G4", "B4", "A4",
    "D4", "F4", "E5",
];

/// How far a finger comes down beside the place it aims at, in CSS pixels either way.
const MISS: f64 = 7.0;
/// How far it trembles while it is lifted.
const TREMBLE: f64 = 3.0;
/// One line or space of fine movement.
const FINE: f64 = 14.0;

/// What is shown and written while a finger is down: the letter and octave that stand before the arrow.
async fn shown_letter(page: &Page) -> Result<i32> {
    let shown = wait::until("a note under the finger", async || {
        Ok(Some(page.tried().await?).filter(|shown| !shown.is_empty()))
    })
    .await?;
    letters(shown.split(' ').next().unwrap_or_default())
}

/// Enters a note behind the last one as a person does with a thick finger: taps somewhere near, then takes the note by its
/// handle, reads what is shown, moves finely until it is right, and lifts.
async fn enter_by_touch(page: &Page, column: usize, note: &str, chance: &mut Chance) -> Result<()> {
    let aimed = page.staff_column(column).await?;
    ensure!(aimed.width >= 44.0, "column {column} is {} px wide", aimed.width);
    page.tap_at(aimed.treble(note)?.moved(chance.within(MISS), chance.within(MISS))).await?;
    let what = format!("{note} to stand in column {column}");
    wait::until(&what, async || Ok((page.notes().await?.len() == column + 1).then_some(()))).await?;
    let handle = page.handle().await?;
    ensure!(
        handle.width >= 44.0 && handle.height >= 44.0,
        "the handle is too small for a finger: {handle:?}"
    );
    let mut finger = handle.middle().moved(chance.within(MISS), chance.within(MISS));
    page.touch_down(finger).await?;
    for _ in 0..12 {
        let off = letters(note)? - shown_letter(page).await?;
        beside_the_finger(page, finger).await?;
        if off == 0 {
            break;
        }
        let before = page.tried().await?;
        finger = finger.moved(chance.within(1.0), -FINE * f64::from(off.signum()));
        page.touch_move(finger).await?;
        wait::until("another note", async || Ok((page.tried().await? != before).then_some(()))).await?;
    }
    page.touch_up(finger.moved(chance.within(TREMBLE), chance.within(TREMBLE))).await?;
    wait::until("the finger to be lifted", async || Ok(page.tried().await?.is_empty().then_some(()))).await
}

/// A finger that begins on a staff scrolls, whatever it begins on: a note, between notes, where the next one goes. Only
/// the handle of the selected note, here the second, is held.
async fn a_swipe_changes_nothing(page: &Page) -> Result<()> {
    page.tap_at(page.staff_column(1).await?.treble("G4")?).await?;
    let notes = page.notes().await?;
    for column in [0, 2] {
        for (right, down) in [(0.0, -90.0), (0.0, 90.0), (-80.0, 0.0), (20.0, -60.0)] {
            for sounding in [0.0, 130.0] {
                let what = format!("a swipe by {right}, {down} over column {column} to scroll the page");
                // A first one right after a tap may be taken for the second half of a double tap.
                wait::until(&what, async || {
                    let from = page.staff_column(column).await?.treble("E5")?.moved(0.0, sounding);
                    let stood = page.scrolled().await?.0;
                    page.swipe(from, right, down).await?;
                    let now = page.notes().await?;
                    ensure!(now == notes, "a swipe from {from:?} changes the notes to {now:?}");
                    ensure!(page.tried().await?.is_empty(), "a swipe leaves a note tried");
                    let scrolls = page.browser() == Browser::Chromium && down < 0.0;
                    Ok((!scrolls || page.scrolled().await?.0 - stood > 20.0).then_some(()))
                })
                .await?;
            }
        }
    }
    Ok(())
}

/// The enlarged note is in view and leaves the finger, 24 px thick, uncovered.
async fn beside_the_finger(page: &Page, finger: Place) -> Result<()> {
    let shown = page.enlarged().await?;
    let end = shown.at(1.0, 1.0);
    let window = page.window();
    let in_view = shown.corner.x >= 0.0
        && shown.corner.y >= 0.0
        && end.x <= f64::from(window.width)
        && end.y <= f64::from(window.height);
    ensure!(in_view, "the enlarged note is out of view: {shown:?}");
    let nearest_x = finger.x.clamp(shown.corner.x, end.x) - finger.x;
    let nearest_y = finger.y.clamp(shown.corner.y, end.y) - finger.y;
    let away = nearest_x.hypot(nearest_y);
    ensure!(away >= 24.0, "the finger at {finger:?} covers the enlarged note at {shown:?}");
    Ok(())
}

async fn twenty_notes(page: &Page) -> Result<()> {
    page.visit(EMPTY).await?;
    let mut chance = Chance(u64::from(page.window().width));
    for (column, note) in TWENTY.into_iter().enumerate() {
        enter_by_touch(page, column, note, &mut chance).await?;
    }
    let notes = page.notes().await?;
    let wanted = TWENTY.map(|note| format!("written {note}, sounds "));
    let right = notes.iter().zip(&wanted).filter(|(note, wanted)| note.starts_with(*wanted)).count();
    ensure!(notes.len() == 20 && right >= 19, "{right} of twenty notes are right: {notes:#?}");
    Ok(())
}

async fn story_by_touch(page: &Page) -> Result<()> {
    page.tap("textbox", LABEL).await?;
    page.press("Control+a").await?;
    page.write("Corni in Es").await?;
    page.sees("Horn in E-flat — sounds a major sixth lower").await?;
    page.tap("button", "More tools").await?;
    page.tap("button", "Clear the staff").await?;
    page.notes_are(&[]).await?;
    page.set_hash(EMPTY).await?;
    page.sees("A 430").await?;

    // A tap where the next note goes enters it. What would sound is shown before letting go, enlarged beside the finger.
    let start = page.staff_column(0).await?.treble("C5")?;
    page.touch_down(start).await?;
    page.tries("C5 → E♭4").await?;
    beside_the_finger(page, start).await?;
    ensure!(page.notes().await?.is_empty(), "nothing is entered before letting go");
    page.touch_up(start.moved(2.0, -2.0)).await?;
    page.notes_are(&["written C5, sounds E-flat 4, partial 8"]).await?;
    ensure!(page.tried().await?.is_empty(), "nothing is tried any more");

    // The selected note has a handle; a finger on it moves the note finely.
    let start = page.handle().await?.middle();
    page.touch_down(start).await?;
    page.tries("C5 → E♭4").await?;
    page.touch_move(start.moved(2.0, -FINE)).await?;
    page.tries("D5 → F4").await?;
    page.touch_move(start.moved(-2.0, -2.0 * FINE)).await?;
    page.tries("E5 → G4").await?;
    beside_the_finger(page, start.moved(-2.0, -2.0 * FINE)).await?;
    page.notes_are(&["written C5"]).await.context("nothing is moved before letting go")?;
    page.touch_up(start.moved(-2.0, -2.0 * FINE)).await?;
    page.notes_are(&["written E5, sounds G4, partial 10, 14 cents flat"]).await?;
    page.tap("tab", "Three ways").await?;
    page.sees("On a horn in F read D5: every note a major second lower.").await?;

    // A tap in the column of a note selects it, wherever it falls, and says so; it never edits.
    page.tap_at(page.staff_column(1).await?.treble("G4")?).await?;
    page.notes_are(&["written E5", "written G4, sounds B-flat 3, partial 6"]).await?;
    page.sees("Partial 6").await?;
    page.tap_at(page.staff_column(0).await?.treble("F4")?).await?;
    page.sees("Partial 10, open, 14 cents flat").await?;
    page.notes_are(&["written E5", "written G4, sounds B-flat 3, partial 6"]).await?;
    a_swipe_changes_nothing(page).await?;
    page.tap_at(page.staff_column(0).await?.treble("F4")?).await?;
    let start = page.handle().await?.middle();
    page.touch_down(start).await?;
    page.tries("E5 → G4").await?;
    page.touch_move(start.moved(0.0, 2.0 * FINE)).await?;
    // Read before lifting: after a finger that leaves while it moves, Chromium swallows the next tap.
    page.tries("C5 → E♭4").await?;
    page.touch_up(start.moved(0.0, 2.0 * FINE)).await?;
    page.notes_are(&["written C5, sounds E-flat 4, partial 8, in tune", "written G4"]).await?;

    // Tools, undo and redo, and the ladder.
    for (tool, note) in [
        ("Sharp", "written C-sharp 5"),
        ("Natural", "written C5"),
        ("Octave down", "written C4"),
        ("Octave up", "written C5"),
        ("Flat", "written C-flat 5"),
        ("Undo", "written C5"),
        ("Redo", "written C-flat 5"),
        ("Undo", "written C5"),
    ] {
        page.tap("button", tool).await?;
        page.notes_are(&[note, "written G4"]).await.context(tool)?;
    }
    page.tap("button", "Hold").await?;
    page.tap("button", "Rest").await?;
    page.notes_are(&["written C5", "held: written C5", "rest", "written G4"]).await?;
    page.tap("button", "Remove").await?;
    page.notes_are(&["written C5", "held: written C5", "written G4"]).await?;
    page.tap("tab", "Series").await?;
    page.tap("button", "Partial 10: enter E5, sounds G4").await?;
    page.notes_are(&["written C5", "held: written C5", "written E5, sounds G4", "written G4"]).await?;
    page.tap("button", "Share").await?;
    opens_the_same_elsewhere(page).await
}

fn by_touch_on_a_tablet() {
    flow::in_every_browser(&Setup::new(Window::PORTRAIT), async |page| {
        story_by_touch(page).await?;
        if page.browser() == Browser::Chromium { twenty_notes(page).await } else { Ok(()) }
    });
}

/// A passage longer than the window is wide is one strip: it runs under the finger, and the page does not.
async fn a_strip_runs(page: &Page) -> Result<()> {
    page.visit("").await?;
    page.notes_are(&START).await?;
    let wide = "return [document.documentElement.scrollWidth <= innerWidth, document.querySelectorAll('[role=img][aria-label=\"Written staff\"]').length]";
    ensure!(
        page.eval(wide, vec![]).await? == serde_json::json!([true, 1]),
        "one strip, and no page that scrolls sideways"
    );
    page.sees("more →").await?;
    let from = page.staff_column(1).await?.treble("G4")?;
    let before = page.scrolled().await?.1;
    page.swipe(from, -150.0, 0.0).await?;
    ensure!(page.scrolled().await?.1 > before + 50.0, "the strip does not run");
    page.notes_are(&START).await?;
    // What is selected by other means is brought into sight.
    page.focus("button", "written G4, sounds B-flat 3, partial 6, 2 cents sharp").await?;
    page.press("Home").await?;
    wait::until("the first note in sight", async || Ok((page.scrolled().await?.1 < 1.0).then_some(())))
        .await?;
    page.press("End").await?;
    wait::until("the last note in sight", async || Ok((page.scrolled().await?.1 > 100.0).then_some(()))).await
}

fn by_touch_on_a_telephone() {
    flow::in_browser(Browser::Chromium, &Setup::new(Window::PHONE), async |page| {
        a_strip_runs(page).await?;
        story_by_touch(page).await?;
        twenty_notes(page).await
    });
}

/// Presses the tabulator key until this has the focus. WebKit adds to a field's name what stands in it.
async fn tab_to(page: &Page, role: &str, name: &str) -> Result<()> {
    for _ in 0..90 {
        page.press("Tab").await?;
        if page.focused().await?.is_some_and(|at| at.0 == role && at.1.starts_with(name)) {
            return Ok(());
        }
    }
    anyhow::bail!("the tabulator key never comes to {role} \"{name}\"")
}

/// Waits until this has the focus.
async fn focus_is_on(page: &Page, role: &str, name: &str) -> Result<()> {
    let seen = wait::until(name, async || {
        Ok(page.focused().await?.filter(|at| at.0 == role && at.1.starts_with(name)).map(|_| ()))
    })
    .await;
    if seen.is_err() {
        anyhow::bail!("the focus should be on {role} \"{name}\", but is on {:?}", page.focused().await?);
    }
    Ok(())
}

/// Presses a key in the notes, which then are these; the focus is on the one counted from 0.
async fn key(page: &Page, key: &str, notes: &[&str], at: usize) -> Result<()> {
    page.press(key).await?;
    page.notes_are(notes).await.with_context(|| format!("after {key}"))?;
    let name = notes.get(at).copied().unwrap_or("Add a note");
    focus_is_on(page, "button", name).await.with_context(|| format!("after {key}"))
}

/// Presses Enter on a button of the page; the focus stays or is handed on, but never lost to the page as a whole.
async fn enter_on(page: &Page, role: &str, name: impl Into<Name>) -> Result<()> {
    let name = name.into();
    page.focus(role, name.clone()).await?;
    page.press("Enter").await?;
    page.settled().await?;
    ensure!(page.focused().await?.is_some(), "the focus is lost after Enter on {name}");
    Ok(())
}

fn by_keyboard_alone() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        tab_to(page, "textbox", LABEL).await?;
        page.press("Control+a").await?;
        page.write("Corni in Es").await?;
        page.sees("Horn in E-flat — sounds a major sixth lower").await?;
        // To the notes: the selected one is the only one on the way.
        tab_to(page, "button", "written E5, sounds G4, partial 10, 14 cents flat").await?;
        page.press("End").await?;
        focus_is_on(page, "button", "written C5").await?;
        for left in (0..9).rev() {
            page.press("Delete").await?;
            wait::until("one note less", async || Ok((page.notes().await?.len() == left).then_some(())))
                .await?;
            focus_is_on(page, "button", if left > 0 { "written" } else { "Add a note" }).await?;
        }

        let e5 = "written E5, sounds G4, partial 10, 14 cents flat";
        key(page, "e", &[e5], 0).await?;
        tab_to(page, "tab", "Series").await?;
        page.press("ArrowRight").await?;
        focus_is_on(page, "tab", "This note").await?;
        page.sees("Uncorrected 14 cents flat: 388.9 Hz against 392.0 Hz").await?;
        page.press("ArrowLeft").await?;
        focus_is_on(page, "tab", "Series").await?;
        page.tab_to("button", e5).await?;
        key(page, "g", &[e5, "written G5"], 1).await?;
        key(page, "c", &[e5, "written G5", "written C6"], 2).await?;
        key(page, "ArrowDown", &[e5, "written G5", "written B5"], 2).await?;
        key(page, "ArrowUp", &[e5, "written G5", "written C6"], 2).await?;
        key(page, "ArrowDown", &[e5, "written G5", "written B5"], 2).await?;
        key(page, "Shift+ArrowDown", &[e5, "written G5", "written B4"], 2).await?;
        key(page, "-", &[e5, "written G5", "written B-flat 4, sounds D-flat 4, partial 7"], 2).await?;
        key(page, "+", &[e5, "written G5", "written B4"], 2).await?;
        key(page, "Shift+ArrowUp", &[e5, "written G5", "written B5"], 2).await?;
        key(page, "ArrowLeft", &[e5, "written G5", "written B5"], 1).await?;
        key(page, "Home", &[e5, "written G5", "written B5"], 0).await?;
        key(page, "ArrowRight", &[e5, "written G5", "written B5"], 1).await?;
        key(page, "Delete", &[e5, "written B5"], 0).await?;
        key(page, "Control+z", &[e5, "written G5", "written B5"], 1).await?;
        key(page, "Control+y", &[e5, "written B5"], 0).await?;
        key(page, "a", &[e5, "written A5", "written B5"], 1).await?;

        // The tools by the tabulator key; "Add a note" is on the way.
        tab_to(page, "button", "Add a note").await?;
        page.press("Enter").await?;
        page.notes_are(&[e5, "written A5", "written B5", "written B4"]).await?;
        focus_is_on(page, "button", "written B4").await?;
        page.tab_to("button", "Hold").await?;
        page.press("Enter").await?;
        page.notes_are(&[e5, "written A5", "written B5", "written B4", "held: written B4"]).await?;
        focus_is_on(page, "button", "Hold").await?;
        page.tab_to("button", "Rest").await?;
        page.press("Space").await?;
        let whole = [e5, "written A5", "written B5", "written B4", "held: written B4", "rest"];
        page.notes_are(&whole).await?;
        // Along the rungs go the arrows.
        tab_to(page, "button", "Partial 2: enter C3").await?;
        for _ in 2..8 {
            page.press("ArrowUp").await?;
        }
        focus_is_on(page, "button", "Partial 8: enter C5, sounds E-flat 4").await?;
        page.press("Enter").await?;
        page.notes_are(&[&whole[..], &["written C5"]].concat()).await?;
        ensure!(page.focused().await?.is_some(), "the focus is lost after a rung");

        // The link.
        page.focus("button", "Share").await?;
        page.press("Enter").await?;
        page.focus_is_on("button", "Done").await?;
        page.press("Escape").await?;
        focus_is_on(page, "button", "Share").await?;
        page.press("Enter").await?;
        page.focus_is_on("button", "Done").await?;
        opens_the_same_elsewhere(page).await?;
        page.focus("button", "Share").await?;
        page.press("Enter").await?;
        page.focus_is_on("button", "Done").await?;
        page.tab_to("button", "Copy the link").await?;
        page.press("Enter").await?;
        page.tab_to("button", "Done").await?;
        page.press("Enter").await?;
        page.find_gone("button", "Done").await?;
        focus_is_on(page, "button", "Share").await
    });
}

fn the_focus_is_never_lost() {
    flow::in_every_browser(
        &Setup::new(Window::LANDSCAPE).hash("/read?staff=Corni+in+B&notes=C5.E5&at=1"),
        async |page| {
            // Buttons that go or can do no more when they have done their work.
            enter_on(page, "button", "Remove").await?;
            enter_on(page, "button", "Remove").await?;
            page.notes_are(&[]).await?;
            enter_on(page, "button", "Undo").await?;
            enter_on(page, "button", "Undo").await?;
            page.notes_are(&["written C5", "written E5"]).await?;
            enter_on(page, "button", "Redo").await?;
            enter_on(page, "button", "Redo").await?;
            enter_on(page, "button", "Undo").await?;
            enter_on(page, "button", "More tools").await?;
            enter_on(page, "button", "Clear the staff").await?;
            page.notes_are(&[]).await?;
            enter_on(page, "button", Name::Has("read as ".into())).await?;
            enter_on(page, "button", Name::Has("Horn in B-flat alto".into())).await?;
            focus_is_on(page, "button", "read as").await?;
            page.sees("Horn in B-flat alto — sounds a major second lower").await?;
            enter_on(page, "button", Name::Has("read as ".into())).await?;
            enter_on(page, "button", Name::Has("the usual reading of this label".into())).await?;
            enter_on(page, "button", "Add a note").await?;
            enter_on(page, "button", "Flat").await?;
            enter_on(page, "button", "Share").await?;
            enter_on(page, "button", "Done").await?;
            enter_on(page, "button", "Settings").await?;
            enter_on(page, "button", "Dark").await?;
            page.press("Escape").await?;
            page.focus_is_on("button", "Settings").await?;
            page.set_hash("/read?v=1.0000&staff=Corni").await?;
            page.sees("This link is damaged").await?;
            enter_on(page, "button", "All right").await?;
            // A list keeps the focus when what it decides comes and goes.
            page.choose_by_keys_in("played", "Played", "with valves").await?;
            page.find_gone("region", "Natural series").await?;
            focus_is_on(page, "button", "played with valves").await
        },
    );
}

/// A sheet that is shut scrolls nothing, a tap beside a small list only shuts it, and a list of labels makes the staves of a
/// page, also where there is but one.
fn what_was_open_leaves_the_page_as_it_was() {
    flow::in_every_browser(&Setup::new(Window::PHONE), async |page| {
        let stands =
            async || Ok::<_, anyhow::Error>((page.hash().await?, page.eval("return scrollY", vec![]).await?));
        page.notes_are(&START).await?;
        page.tap("button", "More tools").await?;
        for (tool, sheet) in [("Change here", "Change here"), ("Ways of hearing", "Ways of hearing")] {
            page.tap("button", tool).await?;
            page.find("dialog", sheet).await?;
            let before = stands().await?;
            page.tap("button", "Done").await?;
            page.find_gone("dialog", sheet).await?;
            page.focus_is_on("button", tool).await?;
            page.settled().await?;
            ensure!(stands().await? == before, "after {sheet}: {:?} instead of {before:?}", stands().await?);
        }
        page.focus("button", "More tools").await?;
        page.press("Escape").await?;
        page.focus_is_on("button", "More tools").await?;
        page.find_gone("button", "Change here").await?;

        page.open_list("played").await?;
        let note = page.staff_column(0).await?.treble("C5")?;
        page.tap_at(note).await?;
        page.list_is_open("played", false).await?;
        ensure!(stands().await?.0.is_empty(), "a tap beside a list changes nothing");

        page.paste("textbox", LABEL, "Flauti\n2 Oboi\nCorni in Es\n").await?;
        wait::until("three staves", async || Ok((page.players().await?.len() == 4).then_some(()))).await?;
        page.tap("button", "Undo").await?;
        page.notes_are(&START).await
    });
}
