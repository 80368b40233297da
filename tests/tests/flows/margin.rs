//! The margin of a whole page: eight staves set up from nothing, read, heard, shared and opened again in a fresh browser,
//! once by touch and once by keyboard alone.

use anyhow::{Context, Result, ensure};
use crookwise_share::Link;
use crookwise_tests::browser::Browser;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use thirtyfour::By;

/// The flows of this file.
pub const FLOWS: &[Flow] =
    &crookwise_tests::flows![by_touch_on_a_tablet, by_keyboard_alone, labels_where_they_stand];

const LABEL: &str = "What the score prints";

/// The page when it is done: its players with what their two columns are called.
const PAGE: [(&str, &[&str]); 10] = [
    ("Oboi", &["written B-flat 5, sounds B-flat 5", "held: written B-flat 5, sounds B-flat 5"]),
    ("Clarinetti in B", &["written F5, sounds E-flat 5", "written E5, sounds D5"]),
    ("Fagotti", &["written E-flat 3, sounds E-flat 3", "written B-flat 2, sounds B-flat 2"]),
    ("Corni in Es, player 1", &["written E5, sounds G4, partial 10", "written D5, sounds F4, partial 9"]),
    (
        "Corni in Es, player 2",
        &["written C5, sounds E-flat 4, partial 8", "written G4, sounds B-flat 3, partial 6"],
    ),
    (
        "Trombe in Es, player 1",
        &["written G4, sounds B-flat 4, partial 6", "written G4, sounds B-flat 4, partial 6"],
    ),
    (
        "Trombe in Es, player 2",
        &["written G4, sounds B-flat 4, partial 6", "written G4, sounds B-flat 4, partial 6"],
    ),
    ("Timpani in Es. B.", &["written C3, sounds E-flat 3", "written G2, sounds B-flat 2"]),
    ("Violino I", &["written G4, sounds G4", "written F4, sounds F4"]),
    ("Violoncello e Basso", &["written E-flat 3, sounds E-flat 3", "written B-flat 2, sounds B-flat 2"]),
];
const FIRST_CHORD: [&str; 4] = [
    "Column 1 of 2, in E♭ major E♭ major",
    "on the first degree of the key",
    "third G Corni in Es 1 partial (10, −14), Violino I",
    "fifth B♭ Trombe in Es partial (6, +2), Oboi in two octaves",
];
const SECOND_CHORD: [&str; 3] =
    ["Column 2 of 2, in E♭ major B♭ major", "third D Clarinetti in B", "fifth degree of the key"];

async fn chord_is(page: &Page, sentences: &[&str]) -> Result<()> {
    for sentence in sentences {
        page.makes_together(sentence).await?;
    }
    Ok(())
}

/// Everything on the page is as it should be, with its first column selected.
async fn stands(page: &Page) -> Result<()> {
    page.players_are(&PAGE).await?;
    chord_is(page, &FIRST_CHORD).await
}

/// The staff's name on the button that selects it.
fn staff(label: &str) -> Name {
    Name::Has(label.to_owned())
}

/// The players' names from the top down.
async fn names(page: &Page) -> Result<Vec<String>> {
    Ok(page.players().await?.into_iter().map(|(name, _)| name).collect())
}

/// Waits until the players have these names, from the top down.
async fn names_are(page: &Page, wanted: &[&str]) -> Result<()> {
    wait::until(&format!("the players {wanted:?}"), async || Ok((names(page).await? == wanted).then_some(())))
        .await
        .with_context(|| format!("after {}", wanted.join(", ")))
}

/// The players' names when the staff at one place, counted in players, stands at another.
fn moved(from: usize, to: usize) -> Vec<&'static str> {
    let mut names: Vec<&str> = PAGE.iter().map(|(name, _)| *name).collect();
    let name = names.remove(from);
    names.insert(to, name);
    names
}

/// The link of the share panel opens in a fresh browser and shows the same.
async fn opens_the_same_elsewhere(page: &Page) -> Result<()> {
    let link = page.value("textbox", "A link to exactly this page").await?;
    let (start, hash) = link.split_once('#').context("a link without #")?;
    ensure!(start == page.address(), "{link} leads elsewhere than here");
    ensure!(hash.starts_with("/read?v=3."), "{hash} is not packed");
    ensure!(Link::decode(&page.hash().await?) == Link::decode(hash), "the address means what the link does");
    // What the sheet stands over is beyond everybody's reach.
    page.press("Escape").await?;
    page.find_gone("dialog", "Share").await?;
    let (players, said) = (page.players().await?, page.together().await?);
    flow::elsewhere(page, hash, async |other| {
        stands(other).await?;
        ensure!(other.players().await? == players, "the players have the same notes");
        ensure!(other.together().await? == said, "the column is named alike");
        ensure!(other.value_in("movement", "radiogroup", "Movement").await? == "E♭ major");
        Ok(())
    })
    .await
}

/// A staff under the last one, with its label: the caret stands where it is typed.
async fn add_by_touch(page: &Page, label: &str) -> Result<()> {
    page.tap("button", "Add a staff").await?;
    page.focus_is_on("textbox", LABEL).await?;
    page.write(label).await?;
    page.find("img", format!("Written staff, {label}").as_str()).await?;
    Ok(())
}

/// Gives the selected staff so many players, in what holds for it: that opens for this, and is put away again.
async fn players(page: &Page, number: &str) -> Result<()> {
    page.tap("button", "Change this staff").await?;
    page.open_list("players").await?;
    page.choose("Players", number).await?;
    page.shut_list("players").await?;
    page.tap("button", "Change this staff").await
}

/// Notes tapped on a staff from its first column on.
async fn place(page: &Page, label: &str, notes: &[&str], bass: bool) -> Result<()> {
    for (column, note) in notes.iter().enumerate() {
        let staff = page.column_of(label, column).await?;
        page.tap_at(if bass { staff.bass(note)? } else { staff.treble(note)? }).await?;
    }
    Ok(())
}

async fn set_up_by_touch(page: &Page) -> Result<()> {
    page.tap("button", "Pages").await?;
    page.tap("button", "One staff, empty").await?;
    page.find_gone("dialog", "Pages").await?;
    page.tap("textbox", LABEL).await?;
    page.press("Control+a").await?;
    page.write("Oboi").await?;
    page.choose_in("movement", "Movement", "E♭ major").await?;
    // One staff alone: its notes are tapped, the second is held.
    page.tap_at(page.staff_column(0).await?.treble("B5")?).await?;
    page.tap("button", "Hold").await?;
    page.notes_are(&["written B-flat 5, sounds B-flat 5", "held"]).await?;

    add_by_touch(page, "Clarinetti in B").await?;
    place(page, "Clarinetti in B", &["F5", "E5"], false).await?;
    add_by_touch(page, "Fagotti").await?;
    place(page, "Fagotti", &["E3", "B2"], true).await?;
    add_by_touch(page, "Corni in Es").await?;
    players(page, "2").await?;
    place(page, "Corni in Es", &["E5", "D5"], false).await?;
    // The second player's notes: his cell, then the staff, which is his as long as he is selected.
    let cells = page.find_all("button", "rest").await?;
    let cell = cells.first().context("the second horn has no rest")?;
    let mark = cell.find(By::Css(".mark")).await?;
    page.tap_on(&mark).await?;
    place(page, "Corni in Es", &["C5", "G4"], false).await?;
    add_by_touch(page, "Trombe in Es").await?;
    players(page, "2").await?;
    for column in 0..2 {
        page.tap_at(page.column_of("Trombe in Es", column).await?.treble("G4")?).await?;
        page.tap("button", "All players play this note").await?;
    }
    add_by_touch(page, "Timpani in Es. B.").await?;
    place(page, "Timpani in Es. B.", &["C3", "G2"], true).await?;
    add_by_touch(page, "Violino I").await?;
    place(page, "Violino I", &["G4", "F4"], false).await?;
    add_by_touch(page, "Violoncello e Basso").await?;
    place(page, "Violoncello e Basso", &["E3", "B2"], true).await?;
    Ok(())
}

/// Rearranges the staves, takes all of it back, and leaves the page as it was. `press` presses a button.
async fn rearrange(page: &Page, press: impl AsyncFn(&str, Name) -> Result<()>) -> Result<()> {
    let all: Vec<&str> = PAGE.iter().map(|(name, _)| *name).collect();
    press("button", staff("Violino I")).await?;
    press("button", "Change this staff".into()).await?;
    press("button", "players 1".into()).await?;
    press("button", "Move it up".into()).await?;
    names_are(page, &moved(8, 7)).await?;
    press("button", "Move it up".into()).await?;
    names_are(page, &moved(8, 5)).await?;
    press("button", "Move it down".into()).await?;
    names_are(page, &moved(8, 7)).await?;
    press("button", "Duplicate it".into()).await?;
    let mut doubled = moved(8, 7);
    doubled.insert(8, "Violino I");
    names_are(page, &doubled).await?;
    // The list stands over the button.
    page.shut_list("players").await?;
    press("button", "Take this staff away".into()).await?;
    names_are(page, &moved(8, 7)).await?;
    // What was open was of the copy, and went with it; the staff that took its place is the next to go.
    press("button", "Change this staff".into()).await?;
    press("button", "Take this staff away".into()).await?;
    let without: Vec<&str> = moved(8, 7).into_iter().filter(|name| *name != "Timpani in Es. B.").collect();
    names_are(page, &without).await?;
    for wanted in [moved(8, 7), doubled, moved(8, 7), moved(8, 5), moved(8, 7), all] {
        press("button", "Undo".into()).await?;
        names_are(page, &wanted).await?;
    }
    Ok(())
}

/// The column is read and heard, then shared. `press` presses a button.
async fn read_hear_and_share(page: &Page, press: impl AsyncFn(&str, Name) -> Result<()>) -> Result<()> {
    stands(page).await?;
    press("button", "Hear the column".into()).await?;
    page.is_heard(true).await?;
    press("button", "Stop".into()).await?;
    page.is_heard(false).await?;
    press("button", "Share".into()).await?;
    opens_the_same_elsewhere(page).await
}

/// A page under the label, its notes entered by letters, arrows and signs; the keyboard ends on the last note.
async fn add_by_keys(page: &Page, label: &str, players: Option<&str>, keys: &[&str]) -> Result<()> {
    page.key_on("Enter", "button", "Add a staff").await?;
    page.focus_is_on("textbox", LABEL).await?;
    page.write(label).await?;
    page.find("img", format!("Written staff, {label}").as_str()).await?;
    if let Some(players) = players {
        page.key_on("Enter", "button", "Change this staff").await?;
        page.open_list_by_keys("players").await?;
        page.choose_by_keys("Players", players).await?;
        page.shut_list("players").await?;
        page.focus_is_on("button", &format!("players {players}")).await?;
        page.press("Escape").await?;
        page.focus_is_on("button", "Change this staff").await?;
    }
    // The first empty column of the new staff, then letters.
    let cells = page.find_all("button", "rest").await?;
    page.tab_to_element(cells.first().context("the new staff has no columns")?).await?;
    press_all(page, keys).await
}

async fn press_all(page: &Page, keys: &[&str]) -> Result<()> {
    for key in keys {
        page.press(key).await?;
        page.settled().await?;
    }
    Ok(())
}

async fn set_up_by_keys(page: &Page) -> Result<()> {
    page.key_on("Enter", "button", "Pages").await?;
    page.key_on("Enter", "button", "One staff, empty").await?;
    page.focus_is_on("button", "Pages").await?;
    page.tab_to("textbox", LABEL).await?;
    page.press("Control+a").await?;
    page.write("Oboi").await?;
    page.choose_by_keys_in("movement", "Movement", "E♭ major").await?;
    page.tab_to("button", "Add a note").await?;
    press_all(page, &["b"]).await?;
    page.notes_are(&["written B-flat 4"]).await?;
    press_all(page, &["Shift+ArrowUp"]).await?;
    page.notes_are(&["written B-flat 5, sounds B-flat 5"]).await?;
    page.key_on("Space", "button", "Hold").await?;
    page.focus_is_on("button", "Hold").await?;

    add_by_keys(page, "Clarinetti in B", None, &["f", "Shift+ArrowUp", "e"]).await?;
    add_by_keys(page, "Fagotti", None, &["e", "b"]).await?;
    add_by_keys(page, "Corni in Es", Some("2"), &["e", "d"]).await?;
    // The second player's first column is the next stop, and a letter goes where the focus is.
    let rests = page.find_all("button", "rest").await?;
    page.tab_to_element(rests.first().context("the second horn has no rest")?).await?;
    press_all(page, &["c", "g"]).await?;
    add_by_keys(page, "Trombe in Es", Some("2"), &["g"]).await?;
    page.key_on("Enter", "button", "All players play this note").await?;
    let note = page.find_all("button", Name::Has("written G4, sounds B-flat 4".into())).await?;
    page.tab_to_element(note.first().context("the first trumpet has no note")?).await?;
    press_all(page, &["g"]).await?;
    page.key_on("Space", "button", "All players play this note").await?;
    add_by_keys(page, "Timpani in Es. B.", None, &["c", "g"]).await?;
    add_by_keys(page, "Violino I", None, &["g", "f"]).await?;
    add_by_keys(page, "Violoncello e Basso", None, &["e", "b"]).await
}

/// Labels are typed one after the other where they stand, a list of them is pasted, a staff is dragged to its place, and a
/// column is entered downwards.
fn labels_where_they_stand() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/read?staff=Flauti"), async |page| {
        page.watch_focus().await?;
        page.key_on("Enter", "button", "Add a staff").await?;
        page.focus_is_on("textbox", LABEL).await?;
        page.write("Oboi").await?;
        page.press("Enter").await?;
        names_are(page, &["Flauti", "Oboi", ""]).await?;
        page.focus_is_on("textbox", LABEL).await?;
        page.paste("textbox", LABEL, "Corni in Es\n\n2 Trombe in D\nViole").await?;
        let all =
            ["Flauti", "Oboi", "Corni in Es", "2 Trombe in D, player 1", "2 Trombe in D, player 2", "Viole"];
        names_are(page, &all).await?;
        page.focus_is_on("textbox", LABEL).await?;
        // Enter goes on; what stands there is changed in place.
        page.key_on("Enter", "button", staff("Flauti")).await?;
        page.focus("textbox", LABEL).await?;
        page.press("Enter").await?;
        page.value_is("textbox", LABEL, "Oboi").await?;
        page.focus_is_on("textbox", LABEL).await?;
        page.write(" I").await?;
        page.find("img", "Written staff, Oboi I").await?;

        page.focus_was_seen().await?;

        // Dragged by its grip over the staff above; where the window is touched, a mouse that drags is swallowed.
        let grip = page.driver().find(By::Css(".grip")).await?;
        let from = page.extent(&grip).await?.middle();
        page.touch_down(from).await?;
        page.touch_move(from.moved(0.0, -30.0)).await?;
        page.touch_up(from.moved(0.0, -45.0)).await?;
        let moved = [
            "Oboi I",
            "Flauti",
            "Corni in Es",
            "2 Trombe in D, player 1",
            "2 Trombe in D, player 2",
            "Viole",
        ];
        names_are(page, &moved).await?;

        // A letter, then Enter: the next letter is for the staff below, in the same column.
        let first = page.find_all("button", "Add a note").await?;
        page.tab_to_element(first.first().context("nowhere to add a note")?).await?;
        press_all(
            page,
            &["e", "Enter", "g", "Enter", "c", "Enter", "a", "Enter", "r", "Enter", "f", "Enter", "d"],
        )
        .await?;
        let notes = ["written E5", "written G4", "written C5", "written A4", "rest", "written F4"];
        let (first, others) = notes.split_first().context("no notes")?;
        let mut wanted = vec![(moved[0], vec![*first, "written D5"])];
        wanted.extend(moved[1..].iter().zip(others).map(|(name, note)| (*name, vec![*note, "rest"])));
        let wanted: Vec<(&str, &[&str])> =
            wanted.iter().map(|(name, notes)| (*name, notes.as_slice())).collect();
        page.players_are(&wanted).await
    });
}

fn by_touch_on_a_tablet() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        set_up_by_touch(page).await?;
        chord_is(page, &SECOND_CHORD).await?;
        let press = async |role: &str, name: Name| page.tap(role, name).await;
        // The other browser does it by keyboard.
        if page.browser() == Browser::WebKit {
            rearrange(page, press).await?;
        }
        page.tap_at(page.column_of("Violino I", 0).await?.treble("G4")?).await?;
        read_hear_and_share(page, press).await
    });
}

fn by_keyboard_alone() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        page.watch_focus().await?;
        set_up_by_keys(page).await?;
        chord_is(page, &SECOND_CHORD).await?;
        let press = async |role: &str, name: Name| page.key_on("Enter", role, name).await;
        if page.browser() != Browser::WebKit {
            rearrange(page, press).await?;
        }
        let first = page.find_all("button", Name::Has("written B-flat 5".into())).await?;
        page.tab_to_element(first.first().context("the oboe has no note")?).await?;
        press_all(page, &["Enter"]).await?;
        read_hear_and_share(page, press).await?;
        page.focus_was_seen().await
    });
}
