//! What crooks give of a key, in the hand and on the wall; and what may be written for those at hand: by keyboard and by touch.

use anyhow::{Result, ensure};
use crookwise_tests::browser::Browser;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::hearing::LISTEN;
use crookwise_tests::page::Page;
use crookwise_tests::window::{Light, Window};
use serde_json::{Value, json};

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    a_key_is_chosen_and_a_cell_is_heard,
    crooks_come_and_go_by_the_keyboard,
    the_table_is_read_from_the_back_row,
    a_passage_is_held_against_the_crooks_while_it_is_typed,
    notes_are_typed_by_the_names_that_the_reader_has_chosen,
    it_is_laid_out_well_at_every_size
];

const TABLE: &str = "/crooks?view=table";
const WRITE: &str = "/crooks?view=write";
const PASSAGE: &str = "A passage, by names of notes as they sound";
const OPEN_G: &str = "G, first degree, Horns in G: written C5, open";

fn a_key_is_chosen_and_a_cell_is_heard() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash("/crooks"), async |page| {
        page.tap("button", "What crooks give of a key").await?;
        page.find("table", "Degrees and chords of G minor").await?;
        page.hash_has("view=table").await?;
        page.stand_in(LISTEN).await?;
        page.reload().await?;
        page.find("table", "Degrees and chords of G minor").await?;
        page.tap("button", OPEN_G).await?;
        let heard = page.heard(0.5).await?;
        ensure!(heard.peak() > 0.005, "silent: {}", heard.peak());
        // The chord of the key: all open only with both.
        page.find("button", Name::Has("Both together: all open".to_owned())).await?;
        // On a telephone what is asked is one line, until it is to be changed.
        page.find_gone("button", "Add").await?;
        page.tap("button", Name::Has("G minor: horns in G, horns in B-flat alto".to_owned())).await?;
        page.choose("Key", "C minor").await?;
        page.find("table", "Degrees and chords of C minor").await?;
        page.find("rowheader", "Horns in C basso").await?;
        ensure!(page.eval(ROOM, vec![]).await? == json!(0), "the table scrolls sideways");
        page.tap("button", Name::Has("C minor: horns".to_owned())).await?;
        page.find_gone("button", "Add").await?;
        page.hash_has("table=C+minor").await?;
        page.reload().await?;
        page.find("rowheader", "Horns in E-flat").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.is_quiet().await
    });
}

fn crooks_come_and_go_by_the_keyboard() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(TABLE), async |page| {
        page.find("rowheader", "Both together").await?;
        page.choose_by_keys("Other horns and trumpets", "Trumpets in B-flat alto").await?;
        page.key_on("Enter", "button", "Add").await?;
        page.find("rowheader", "All together").await?;
        page.find("rowheader", "Trumpets in B-flat alto").await?;
        page.key_on("Enter", "button", "Without Horns in G").await?;
        page.find_gone("rowheader", "Horns in G").await?;
        page.find("rowheader", "Both together").await?;
        page.hash_has("crooks=horn_Bb+alto.trumpet_Bb+alto").await?;
        page.is_quiet().await
    });
}

/// How far the table scrolls sideways.
const ROOM: &str =
    "const room = document.querySelector('.table-room'); return room.scrollWidth - room.clientWidth";

/// How large letters of the table are in parts of the window's height, and what stands out of the window.
const WALL: &str = "const out = [...document.querySelectorAll('.on-wall :is(td button, th b, th[scope=row])')].filter((at) => {
        const box = at.getBoundingClientRect();
        return box.width > 0 && (box.bottom > innerHeight + 0.5 || box.right > innerWidth + 0.5);
    });
    const letters = ['td b', 'td small', 'thead b', 'th[scope=row]'].map((at) =>
        parseFloat(getComputedStyle(document.querySelector('.on-wall ' + at)).fontSize) / innerHeight);
    return [out.length, Math.min(...letters)]";

fn the_table_is_read_from_the_back_row() {
    flow::in_every_browser(&Setup::new(Window::DESK).hash(TABLE), async |page| {
        page.click("button", "On the wall").await?;
        page.find("heading", "G minor").await?;
        let measured = page.eval(WALL, vec![]).await?;
        ensure!(measured[0] == json!(0), "out of the window: {}", measured[0]);
        let smallest = measured[1].as_f64().unwrap_or_default();
        ensure!(smallest > 0.02, "the smallest letters are {smallest} of the height");
        page.axe().await?;
        page.press("ArrowRight").await?;
        page.find("heading", "F major").await?;
        page.press("Escape").await?;
        page.find_gone("button", "Leave the wall").await?;
        page.focus_is_on("button", "On the wall").await?;
        page.find("table", "Degrees and chords of F major").await?;
        page.is_quiet().await
    });
}

/// How many pictures of staves stand there.
async fn staves(page: &Page) -> Result<Value> {
    page.eval("return document.querySelectorAll('.may-write .picture svg').length", vec![]).await
}

fn a_passage_is_held_against_the_crooks_while_it_is_typed() {
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).hash("/crooks"), async |page| {
        page.click("button", "What may I write?").await?;
        page.find("button", Name::Has("open: written G3, C4, E4".to_owned())).await?;
        page.sees("written for trumpets in D").await?;
        ensure!(staves(page).await?.as_u64() > Some(0), "no staff");
        page.fill("textbox", PASSAGE, "D4 F#4 A4 D5").await?;
        page.sees("All of it is in reach.").await?;
        page.fill("textbox", PASSAGE, "D4 F#4 A4 Eb2").await?;
        page.sees("One note is out of reach.").await?;
        page.sees("D4: written C5 for horns in D, open; written C4 for trumpets in D, open.").await?;
        page.sees("E♭2 is out of reach: on horns in D it lies between partials 2 and 3 (D2, A2), too far for the hand").await?;
        page.sees("trumpets in D have nothing below A3").await?;
        page.key_on("Enter", "button", Name::Has("E♭3 in its place".to_owned())).await?;
        page.sees("All of it is in reach.").await?;
        page.value_is("textbox", PASSAGE, "D4 F#4 A4 Eb3").await?;
        page.hash_has("typed=D4+F%234+A4+Eb3").await?;
        page.reload().await?;
        page.sees("All of it is in reach.").await?;
        page.axe().await?;
        page.is_quiet().await
    });
}

fn notes_are_typed_by_the_names_that_the_reader_has_chosen() {
    let place = "/crooks?view=write&typed=B4+Bb4&mine=horn_Eb";
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(place), async |page| {
        page.sees("B♭4: written G5 for horns in E-flat, open.").await?;
        page.click("button", "Settings").await?;
        page.choose("Names of notes", "German: B, H").await?;
        page.press("Escape").await?;
        // What a link brings is the same note, however it is called.
        page.value_is("textbox", PASSAGE, "H4 B4").await?;
        page.sees("Such as D4 Fis4 H4 B4").await?;
        page.fill("textbox", PASSAGE, "b4 Es5").await?;
        page.sees("B4: written G5 for horns in Es, open.").await?;
        page.value_is("textbox", PASSAGE, "b4 Es5").await?;
        page.hash_has("typed=Bb4+Eb5").await?;
        page.click("button", "Plans").await?;
        page.click("button", "What may I write?").await?;
        page.value_is("textbox", PASSAGE, "B4 Es5").await?;
        page.is_quiet().await
    });
}

async fn stands_well(page: &Page, lights: &[Light]) -> Result<()> {
    for window in Window::ALL {
        page.resize(window).await?;
        for place in [TABLE, WRITE, "/crooks?view=write&typed=D4+Eb2+x&mine=horn_C+basso"] {
            page.visit(place).await?;
            page.sees("A guide, from published tables").await?;
            if place == TABLE {
                let room = page.eval(ROOM, vec![]).await?;
                ensure!(room == json!(0), "the table scrolls sideways by {room} in {window:?}");
            }
            for light in lights {
                page.set_light(*light).await?;
                page.well_laid_out().await?;
                page.axe().await?;
            }
        }
    }
    // Of more crooks than fit it is said that the table scrolls.
    page.resize(Window::PHONE).await?;
    page.visit("/crooks?view=table&crooks=horn_G.horn_Bb+alto.horn_D.trumpet_D").await?;
    page.sees("the table scrolls sideways").await?;
    page.is_quiet().await
}

fn it_is_laid_out_well_at_every_size() {
    let setup = Setup::new(Window::LANDSCAPE).hash(TABLE);
    flow::in_browser(Browser::Chromium, &setup, async |page| {
        stands_well(page, &[Light::Light, Light::Dark]).await
    });
}
