//! A change of crook, clef and key before a column of Read: entered, seen, heard said, shared, taken back, removed; by touch
//! and by keyboard alone.

use anyhow::{Context, Result, ensure};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    by_touch_for_one_of_a_pair,
    by_keyboard_for_all,
    done_is_pressed_once,
    a_later_system_is_headed_by_what_holds_there
];

const PAIR: &str = "/read?staff=Corni+in+Es&players=2&notes=C5.C5.C5&notes2=C5.C5.C5";
const ONE: &str = "/read?staff=Corno+in+Es&notes=C5.C5.C5&key=Eb+major";
const CROOK: &str = "Change of crook, as printed";

/// The texts over the staves, from the page's pictures.
async fn directions(page: &Page) -> Result<Vec<String>> {
    let script = "return [...document.querySelectorAll('.touched .picture:not(.ghost) text')]\
        .map((text) => `${text.textContent} ${text.getAttribute('font-style')}`)";
    let found = page.eval(script, Vec::new()).await?;
    let found = found.as_array().context("no list of texts")?;
    Ok(found.iter().filter_map(|text| text.as_str().map(str::to_owned)).collect())
}

async fn directions_are(page: &Page, wanted: &[&str]) -> Result<()> {
    let read = async || Ok((directions(page).await? == wanted).then_some(()));
    wait::until(&format!("the directions {wanted:?}"), read).await
}

/// The cell of a column, by what it is called at the least and its place among those called so.
async fn cell(page: &Page, name: &str, place: usize) -> Result<thirtyfour::WebElement> {
    let cells = page.find_all("button", Name::Has(name.to_owned())).await?;
    cells.get(place).cloned().with_context(|| format!("no cell {place} of those called {name}"))
}

/// The address opens in a fresh browser with the same players and directions.
async fn opens_the_same_elsewhere(page: &Page) -> Result<()> {
    let hash = page.hash().await?;
    let hash = hash.trim_start_matches('#');
    flow::elsewhere(page, hash, async |other| {
        ensure!(other.players().await? == page.players().await?, "the players have the same notes");
        let wanted = directions(page).await?;
        directions_are(other, &wanted.iter().map(String::as_str).collect::<Vec<_>>()).await?;
        Ok(())
    })
    .await
}

fn by_touch_for_one_of_a_pair() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(PAIR), async |page| {
        // The sheet stands as it will when what sounds has come.
        page.find("img", "Sounding staff, lower").await?;
        page.settled().await?;
        let third = cell(page, "written C5", 2).await?;
        page.tap_on(&third).await?;
        page.tap("button", "Change here").await?;
        page.choose("The crook of", "player 2 alone").await?;
        page.choose("New crook", "D").await?;
        directions_are(page, &["II muta in D italic"]).await?;
        page.sees("Horn in D").await?;
        let first = ["written C5, sounds E-flat 4, partial 8"; 3];
        let second = [
            "written C5, sounds E-flat 4, partial 8",
            "written C5, sounds E-flat 4, partial 8",
            "muta in D: written C5, sounds D4, partial 8",
        ];
        page.players_are(&[("Corni in Es, player 1", &first), ("Corni in Es, player 2", &second)]).await?;
        opens_the_same_elsewhere(page).await?;
        page.tap("button", "Done").await?;
        page.find_gone("textbox", CROOK).await?;
        page.tap("button", "Undo").await?;
        directions_are(page, &[]).await?;
        page.tap("button", "Redo").await?;
        directions_are(page, &["II muta in D italic"]).await?;
        page.tap("button", "Change here").await?;
        page.tap("button", "Nothing changes here").await?;
        directions_are(page, &[]).await?;
        page.players_are(&[("Corni in Es, player 1", &first), ("Corni in Es, player 2", &first)]).await?;
        page.tap("button", "Done").await?;
        page.find_gone("textbox", CROOK).await
    });
}

fn by_keyboard_for_all() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(ONE), async |page| {
        page.tab_to_element(&cell(page, "written C5", 0).await?).await?;
        page.press("Enter").await?;
        page.press("ArrowRight").await?;
        page.settled().await?;
        page.key_on("Enter", "button", "Change here").await?;
        page.tab_to("textbox", CROOK).await?;
        page.write("muta in F").await?;
        page.choose_by_keys("New clef", "Bass F4").await?;
        page.choose_by_keys("New key of the movement", "F major").await?;
        directions_are(page, &["muta in F italic"]).await?;
        // Old notation in the bass clef: what is printed as C5 is played as C6.
        page.notes_are(&[
            "written C5, sounds E-flat 4, partial 8",
            "muta in F; bass clef; F major: written C5, sounds F5, partial 16",
            "written C5, sounds F5, partial 16",
        ])
        .await?;
        opens_the_same_elsewhere(page).await?;
        page.key_on("Enter", "button", "Nothing changes here").await?;
        page.notes_are(&["written C5, sounds E-flat 4, partial 8"; 3]).await?;
        page.key_on("Enter", "button", "Done").await?;
        page.focus_is_on("button", "Change here").await
    });
}

fn done_is_pressed_once() {
    // With several staves and a long answer, above which all stands that is pressed next.
    let page = format!("{ONE}&staff=Trombe+in+C&players=2&notes=G4.C5.E5&notes2=E4.E4.C5&at=2");
    for window in [Window::PHONE, Window::PORTRAIT, Window::LANDSCAPE] {
        flow::in_every_browser(&Setup::new(window).hash(&page), async |page| {
            let third = cell(page, "written C5, sounds E-flat 4", 2).await?;
            page.tap_on(&third).await?;
            // There they stay until they are shut.
            if window == Window::PHONE {
                page.tap("button", "More tools").await?;
            }
            page.tap("button", "Change here").await?;
            page.fill("textbox", CROOK, "muta in C basso").await?;
            // What was typed is taken when the field is left, which the press on the button does.
            page.tap("button", "Done").await?;
            page.find_gone("textbox", CROOK).await?;
            directions_are(page, &["muta in C basso italic"]).await?;
            page.tap("button", "Change here").await?;
            page.value_is("textbox", CROOK, "muta in C basso").await?;
            page.fill("textbox", CROOK, "").await?;
            page.tap("button", "Done").await?;
            page.find_gone("textbox", CROOK).await?;
            directions_are(page, &[]).await?;
            page.is_quiet().await
        });
    }
}

fn a_later_system_is_headed_by_what_holds_there() {
    let notes = |note: &str| [note; 40].join(".");
    let horns = format!("staff=Corni+in+Es&notes={}&muta=3_in+D", notes("C5"));
    let page = format!("/read?{horns}&staff=Viola&notes={}&at=1", notes("C4"));
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(page), async |page| {
        let heads = "return [...document.querySelectorAll('.staff-label')].map((head) =>
            head.querySelector('textarea')?.value ?? head.querySelector('span')?.textContent ?? '')";
        wait::until("later systems headed by what holds", async || {
            let heads = page.eval(heads, vec![]).await?;
            let heads: Vec<&str> =
                heads.as_array().into_iter().flatten().filter_map(|head| head.as_str()).collect();
            let count = |name: &str| heads.iter().filter(|head| **head == name).count();
            let systems = heads.len() / 2;
            Ok((systems > 1 && count("in D") == systems - 1 && count("Corni in Es") == 1).then_some(()))
        })
        .await
    });
}
