//! On the wall: read from the back row, revealed one by one, stepped through by keys.

use anyhow::{Context, Result, ensure};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::input::Place;
use crookwise_tests::page::Page;
use crookwise_tests::passage::EIGHT;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::{Value, json};
use thirtyfour::By;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    from_the_back_row,
    what_is_stepped_to_is_seen,
    all_of_a_symphony_is_seen,
    eight_of_sixteen_staves_are_readable,
    controls_are_one_row_on_a_telephone
];

/// The least size of a text on the wall, in CSS pixels.
const LEAST: f64 = 28.0;

/// Every text that is seen, with its size, where that is less than a size; staves that stand small beside eight others
/// are not for the back row.
const SMALL: &str = r"
    const [least] = arguments;
    const seen = (at) => at.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !at.closest('.unseen, .glyph-store, .far');
    const found = [];
    for (const at of document.body.querySelectorAll('*')) {
        const own = [...at.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim());
        if (!own || !seen(at) || ['SCRIPT', 'STYLE', 'OPTION'].includes(at.tagName)) continue;
        const scale = at.getScreenCTM ? at.getScreenCTM().a : 1;
        const size = parseFloat(getComputedStyle(at).fontSize) * scale;
        if (size < least - 0.01) found.push(`${size} px: ${at.textContent.trim().slice(0, 40)}`);
    }
    return found";

/// What of the page stands outside the window, the controls aside.
const OUTSIDE: &str = r"
    const found = [];
    for (const at of document.querySelectorAll('main, main *')) {
        if (!at.checkVisibility({ visibilityProperty: true }) || at.closest('.unseen, svg')) continue;
        const { left, top, right, bottom, width, height } = at.getBoundingClientRect();
        const inside = left > -1 && top > -1 && right < innerWidth + 1 && bottom < innerHeight + 1;
        if (width && height && !inside) found.push(`${at.className} ${at.textContent.slice(0, 30)}: to ${right}, ${bottom}`);
    }
    const { scrollWidth, scrollHeight } = document.documentElement;
    if (scrollWidth > innerWidth || scrollHeight > innerHeight) found.push(`the page: ${scrollWidth} by ${scrollHeight}`);
    for (const at of document.querySelectorAll('main *'))
        if (at.clientHeight && at.scrollHeight > at.clientHeight + 1 && getComputedStyle(at).overflowY === 'auto')
            found.push(`${at.className} scrolls`);
    return found";

/// What can be hidden: its button, and what a reader then sees no more.
const PARTS: [(&str, &str); 4] = [
    ("Partials", ".mark.partial"),
    ("Sounding staff", "[role=img][aria-label^='Sounding staff'] svg"),
    ("Names", ".mark.name, .big"),
    ("Chord", "section[aria-label='The column together']"),
];

async fn is_seen(page: &Page, part: &str) -> Result<bool> {
    let script = "return [...document.querySelectorAll(arguments[0])].some((at) => at.checkVisibility({ visibilityProperty: true }))";
    Ok(page.eval(script, vec![json!(part)]).await? == json!(true))
}

/// Presses a button of the controls with the mouse, which calls them back where they have left.
async fn press(page: &Page, button: &str) -> Result<()> {
    for x in [300.0, 340.0] {
        page.mouse_move(Place { x, y: 300.0 }).await?;
    }
    controls_are_seen(page, true).await?;
    page.click("button", button).await
}

async fn controls_are_seen(page: &Page, seen: bool) -> Result<()> {
    let script = "return getComputedStyle(document.querySelector('#wall-bar')).opacity !== '0'";
    let what = if seen { "the controls to come back" } else { "the controls to leave" };
    wait::until(what, async || Ok((page.eval(script, vec![]).await? == json!(seen)).then_some(()))).await
}

/// Controls that nobody uses leave, and come back to a finger, a mouse and the tabulator key.
async fn controls_come_and_go(page: &Page) -> Result<()> {
    controls_are_seen(page, false).await?;
    // Stepping by a clicker does not call them.
    page.press("ArrowRight").await?;
    controls_are_seen(page, false).await?;
    page.mouse_move(Place { x: 420.0, y: 320.0 }).await?;
    controls_are_seen(page, true).await?;
    controls_are_seen(page, false).await?;
    // A tap where a button was presses none: it calls them.
    let names = page.extent(&page.find("button", "Names").await?).await?;
    page.tap_at(names.middle()).await?;
    controls_are_seen(page, true).await?;
    ensure!(!is_seen(page, ".big").await?, "the tap that called the controls pressed one");
    controls_are_seen(page, false).await?;
    page.tab_to("button", "Names").await?;
    controls_are_seen(page, true).await?;
    page.press("Enter").await?;
    wait::until("the names", async || Ok(is_seen(page, ".big").await?.then_some(()))).await?;
    tokio::time::sleep(std::time::Duration::from_secs(5)).await;
    controls_are_seen(page, true).await.context("the keyboard keeps them")
}

/// The band of the selected column stands in the window, whole.
async fn the_band_is_in_the_window(page: &Page) -> Result<()> {
    wait::until("the band in the window", async || {
        let script = "const { top, bottom } = document.querySelector('.band').getBoundingClientRect();
            return top > -1 && bottom < innerHeight + 1";
        Ok((page.eval(script, vec![]).await? == json!(true)).then_some(()))
    })
    .await
}

async fn all_is_large(page: &Page, what: &str) -> Result<()> {
    let found = page.eval(SMALL, vec![json!(LEAST)]).await?;
    let found: Vec<&str> = found.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    ensure!(found.is_empty(), "{what}, texts too small for the back row:\n  {}", found.join("\n  "));
    let wide = "return document.documentElement.scrollWidth <= document.documentElement.clientWidth";
    ensure!(page.eval(wide, vec![]).await? == json!(true), "{what}: it scrolls sideways");
    Ok(())
}

/// Presses a key; the column is then this one.
async fn step(page: &Page, key: &str, column: usize) -> Result<()> {
    page.press(key).await?;
    page.makes_together(&format!("Column {column} of 2")).await.with_context(|| format!("after {key}"))
}

/// A button that has the focus keeps it when the column changes, and with the focus on a note a clicker steps as well:
/// only off the wall do the page keys go from staff to staff.
async fn wherever_the_focus_is(page: &Page) -> Result<()> {
    page.focus("button", "Partials").await?;
    for (key, column) in [("ArrowRight", 2), ("PageUp", 1)] {
        step(page, key, column).await?;
        let focus = page.focused().await?;
        ensure!(focus.is_some_and(|at| at.1 == "Partials"), "the focus goes when the column does");
    }
    let notes = page.find_all("button", Name::Has("written E5, sounds G4".into())).await?;
    let mark = notes.first().context("no horn")?.find(By::Css(".mark")).await?;
    page.click_on(&mark).await?;
    for (key, column) in [("PageDown", 2), ("PageUp", 1)] {
        step(page, key, column).await?;
    }
    let selected = "return document.querySelector('.cell[aria-current]').textContent";
    let note = page.eval(selected, vec![]).await?;
    ensure!(
        note.as_str().is_some_and(|note| note.starts_with("written E5, sounds G4")),
        "a clicker leads from staff to staff: {note}"
    );
    Ok(())
}

async fn on_the_wall(page: &Page, part_by_part: bool) -> Result<()> {
    page.tab_to("button", "On the wall").await?;
    page.press("Enter").await?;
    page.find("button", "Leave the wall").await?;
    page.settled().await?;
    ensure!(page.focused().await?.is_some(), "the focus is lost on the way to the wall");
    all_is_large(page, "everything hidden").await?;
    for (_, part) in PARTS {
        ensure!(!is_seen(page, part).await?, "{part} is not hidden to begin with");
    }
    for (at, (button, part)) in PARTS.iter().enumerate() {
        press(page, button).await?;
        wait::until(button, async || Ok(is_seen(page, part).await?.then_some(()))).await?;
        if part_by_part {
            for (_, other) in &PARTS[at + 1..] {
                ensure!(!is_seen(page, other).await?, "{button} reveals {other} as well");
            }
            press(page, button).await?;
            wait::until(button, async || Ok((!is_seen(page, part).await?).then_some(()))).await?;
            press(page, button).await?;
        }
    }
    all_is_large(page, "everything shown").await?;
    for (key, column) in
        [("ArrowRight", 2), ("ArrowLeft", 1), ("PageDown", 2), ("PageDown", 2), ("PageUp", 1), ("PageUp", 1)]
    {
        step(page, key, column).await?;
    }
    if part_by_part {
        wherever_the_focus_is(page).await?;
    }
    page.press("Escape").await?;
    page.find_gone("button", "Leave the wall").await?;
    page.find("button", "On the wall").await?;
    page.settled().await?;
    ensure!(page.focused().await?.is_some(), "the focus is lost on the way back");
    Ok(())
}

fn from_the_back_row() {
    flow::in_every_browser(&Setup::new(Window::DESK).hash(EIGHT), async |page| {
        on_the_wall(page, true).await?;
        page.resize(Window::LANDSCAPE).await?;
        on_the_wall(page, false).await?;
        // A single staff of natural brass: its partials with their drift.
        page.set_hash("/read?staff=Corni+in+Es&notes=E5.Fs5.A4._&at=2").await?;
        page.notes_are(&["written E5", "written F-sharp 5", "written A4", "held"]).await?;
        page.click("button", "On the wall").await?;
        // No field shows what the score prints.
        page.find("heading", "Corni in Es").await?;
        for button in ["Partials", "Sounding staff", "Names"] {
            press(page, button).await?;
        }
        all_is_large(page, "one staff").await?;
        press(page, "Leave the wall").await?;
        page.find_gone("button", "Leave the wall").await?;
        page.find("heading", "Written").await?;
        // Who steps back from the wall has left it.
        page.click("link", "Practise").await?;
        page.find("region", "Course").await?;
        page.click("link", "Read").await?;
        page.click("button", "On the wall").await?;
        page.find("button", "Leave the wall").await?;
        page.back().await?;
        page.find("region", "Course").await?;
        page.find_gone("button", "Leave the wall").await
    });
}

/// As many columns as a page can have: more than one window holds.
fn what_is_stepped_to_is_seen() {
    let long = format!("/read?staff=Corni+in+Es&notes={}&at=1", ["G4.C5.E5.G5"; 16].join("."));
    flow::in_every_browser(&Setup::new(Window::DESK).hash(long), async |page| {
        page.click("button", "On the wall").await?;
        page.find("button", "Leave the wall").await?;
        let stands = page.eval("return scrollY", vec![]).await?;
        for at in 1..64 {
            page.press("ArrowRight").await?;
            the_band_is_in_the_window(page).await.with_context(|| format!("column {}", at + 1))?;
        }
        ensure!(
            page.eval("return scrollY", vec![]).await? != stands,
            "the page was no higher than its window"
        );
        for at in (0..63).rev() {
            page.press("ArrowLeft").await?;
            the_band_is_in_the_window(page).await.with_context(|| format!("back to column {}", at + 1))?;
        }
        controls_come_and_go(page).await
    });
}

/// A full page: sixteen staves, some of them with several players.
fn full_page() -> String {
    let staves = [
        ("2+Flauti", "Fs5.D5.Fs5.A5"),
        ("2+Oboi", "D5.A4.D5.Fs5"),
        ("2+Clarinetti+in+A", "F5.C5.F5.A5"),
        ("2+Fagotti", "D3.A3.D3.A3"),
        ("Corni+I,+II+in+E", "C5.D5.E5.C5&notes2=G4.G4.C5.C4"),
        ("Corni+III,+IV+in+C", "C5.G4.E4.C5&notes2=E4.G4.C4.C5"),
        ("2+Trombe+in+D", "C5.G4.E5.C5&notes2=C4.G4.C4.C5"),
        ("Trombone+alto", "A3.Fs4.A3.D4"),
        ("Trombone+tenore", "Fs3.A3.D4.Fs3"),
        ("Trombone+basso", "D3.D3.A2.D3"),
        ("Timpani+in+D,+A", "D3.A2.D3.A2"),
        ("Gran+cassa", "C3.C3.-.C3"),
        ("Violino+I", "D5.Fs5.A5.D6"),
        ("Violino+II", "A4.D5.Fs5.A5"),
        ("Viola", "Fs4.A4.D5.Fs4"),
        ("Violoncello+e+Basso", "D3.D3.A2.D3"),
    ];
    let staff = |(label, notes): &(&str, &str)| {
        let players = if notes.contains("notes2") { "&players=2" } else { "" };
        format!("&staff={label}{players}&notes={notes}")
    };
    format!("/read?key=D+major{}&at=1", staves.iter().map(staff).collect::<String>())
}

/// Which staves stand large: how many before the first of them, and how many they are; and which one is selected.
async fn large(page: &Page) -> Result<(i64, i64, i64)> {
    let script = "const all = [...document.querySelectorAll('.staff-block:not(.sounding)')];
        const large = all.filter((at) => !at.matches('.far'));
        const together = large.every((at, i) => at === all[all.indexOf(large[0]) + i]);
        const lines = (at) => at.querySelector('svg').getBoundingClientRect().height;
        const small = all.filter((at) => at.matches('.far')).every((at) => lines(at) < 0.75 * lines(large[0]));
        return together && small && [all.indexOf(large[0]), large.length, all.findIndex((at) => at.querySelector('[aria-current=true].staff-label'))]";
    let found = page.eval(script, vec![]).await?;
    let number = |at: usize| found.get(at).and_then(Value::as_i64);
    number(0)
        .zip(number(1))
        .zip(number(2))
        .map(|((first, many), selected)| (first, many, selected))
        .with_context(|| {
            format!("the large staves do not stand together, or the others are not small: {found}")
        })
}

async fn all_is_inside(page: &Page, what: &str) -> Result<()> {
    let found = page.eval(OUTSIDE, vec![]).await?;
    let found: Vec<&str> = found.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    ensure!(found.is_empty(), "{what}, outside the window:\n  {}", found.join("\n  "));
    Ok(())
}

/// What the horns and trumpets of the full page sound in its first column, from the top.
const BRASS: [&str; 6] = ["E4", "B3", "C4", "E3", "D5", "D4"];

/// The staves of a symphony about 1800, with notes far over and under them.
fn symphony() -> String {
    let staves = [
        ("2+Flauti", "E6.D6.C6", "G5.A5.G5"),
        ("2+Oboi", "E5.F5.E5", "C5.D5.C5"),
        ("2+Clarinetti+in+B", "A4.G4.A4", "F4.G4.F4"),
        ("2+Fagotti", "G3.A3.G3", "C3.F2.C3"),
        ("2+Corni+in+C+basso", "E5.D5.C5", "C5.D5.E4"),
        ("2+Trombe+in+C", "C5.D5.E5", "E4.G4.C5"),
        ("Timpani+in+C,+G", "C3.G2.C3", ""),
        ("Violino+I", "E5.D5.C5", ""),
        ("Violino+II", "G4.B4.C5", ""),
        ("Viola", "C4.F4.E4", ""),
        ("Violoncello+e+Basso", "C3.F2.C3", ""),
    ];
    let staff = |(label, upper, lower): &(&str, &str, &str)| match *lower {
        "" => format!("&staff={label}&notes={upper}"),
        lower => format!("&staff={label}&players=2&notes={upper}&notes2={lower}"),
    };
    format!("/read?key=C+major{}&at=1", staves.iter().map(staff).collect::<String>())
}

/// How many staves stand small, how many there are, and whether all that is written and sounds stands over the controls.
const WHOLE: &str = "const bar = document.querySelector('#wall-bar').getBoundingClientRect().top;
    const seen = [...document.querySelectorAll('.staff-block')].filter((at) => at.checkVisibility());
    const lowest = Math.max(...seen.flatMap((at) => [...at.querySelectorAll('svg')]).map((at) => at.getBoundingClientRect().bottom));
    return [document.querySelectorAll('.far').length, seen.length, lowest <= bar + 1 || `${lowest} of ${bar}`];";

fn all_of_a_symphony_is_seen() {
    flow::in_every_browser(&Setup::new(Window::DESK).hash(symphony()), async |page| {
        page.click("button", "On the wall").await?;
        page.find("button", "Leave the wall").await?;
        page.settled().await?;
        let mut staves = 11;
        for (button, part) in PARTS {
            press(page, button).await?;
            wait::until(button, async || Ok(is_seen(page, part).await?.then_some(()))).await?;
            page.settled().await?;
            all_is_large(page, &format!("with {button}")).await?;
            all_is_inside(page, &format!("with {button}")).await?;
            staves += usize::from(button == "Sounding staff");
            let now = page.eval(WHOLE, vec![]).await?;
            ensure!(now == json!([0, staves, true]), "with {button}: {now}");
        }
        Ok(())
    });
}

/// Of more staves than have room those round the selected one are read from the back row; the others stand small, in order.
fn eight_of_sixteen_staves_are_readable() {
    flow::in_every_browser(&Setup::new(Window::DESK).hash(full_page()), async |page| {
        page.click("button", "On the wall").await?;
        page.find("button", "Leave the wall").await?;
        page.settled().await?;
        all_is_inside(page, "everything hidden").await?;
        for (button, part) in PARTS {
            press(page, button).await?;
            wait::until(button, async || Ok(is_seen(page, part).await?.then_some(()))).await?;
            page.settled().await?;
            all_is_inside(page, &format!("with {button}")).await?;
        }
        // What a teacher reveals of the brass is what it sounds, not its partials alone.
        let named = "return [...document.querySelectorAll('.here .mark[data-sounds]')].map((mark) => {
            const behind = getComputedStyle(mark, '::after');
            return behind.visibility === 'visible' ? behind.content.replaceAll('\"', '') : '' })";
        let names = page.eval(named, vec![]).await?;
        ensure!(names == json!(BRASS), "the brass sounds {names}");
        for staff in 0..16 {
            let (first, many, selected) = large(page).await?;
            ensure!((many, selected) == (8, staff), "{many} large, {selected} selected of {staff}");
            ensure!(first == (staff - 4).clamp(0, 8), "from {first} round {staff}");
            all_is_large(page, "eight of sixteen").await?;
            all_is_inside(page, &format!("staff {}", staff + 1)).await?;
            page.press("ArrowDown").await?;
            page.settled().await?;
        }
        // Stepping keeps the staff, also from a note, whose arrows change it only off the wall.
        for key in ["ArrowRight", "ArrowUp", "ArrowRight", "ArrowLeft"] {
            page.press(key).await?;
            page.settled().await?;
        }
        ensure!(large(page).await? == (8, 8, 14), "stepping leaves the staff");
        all_is_inside(page, "another column").await?;
        let note = "document.querySelector('.cell[aria-current]').focus(); return document.activeElement.textContent";
        let before = page.eval(note, vec![]).await?;
        page.press("ArrowUp").await?;
        page.press("ArrowDown").await?;
        page.settled().await?;
        ensure!(large(page).await? == (8, 8, 14), "arrows do not lead from staff to staff");
        ensure!(page.eval(note, vec![]).await? == before, "an arrow changes the note");
        Ok(())
    });
}

/// On a telephone the controls are one row, which runs sideways; the way back is always in sight.
fn controls_are_one_row_on_a_telephone() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(EIGHT), async |page| {
        page.click("button", "On the wall").await?;
        page.find("button", "Leave the wall").await?;
        page.settled().await?;
        let bar = "const bar = document.querySelector('#wall-bar');
            const all = [...bar.children].map((at) => at.getBoundingClientRect());
            const last = all.at(-1);
            return bar.getBoundingClientRect().height < 64 && bar.scrollWidth > bar.clientWidth
                && all.every(({ width, height }) => width >= 44 && height >= 44)
                && last.left > 0 && last.right < innerWidth + 1 && document.documentElement.scrollWidth <= innerWidth";
        ensure!(
            page.eval(bar, vec![]).await? == json!(true),
            "the controls are not one row of a telephone's"
        );
        for (button, part) in PARTS {
            page.click("button", button).await?;
            wait::until(button, async || Ok(is_seen(page, part).await?.then_some(()))).await?;
        }
        page.click("button", "Leave the wall").await?;
        page.find_gone("button", "Leave the wall").await.map(drop)
    });
}
