//! Crooks: keys typed, the best plan read, a gap mended, the way back, the address; by keyboard and by touch.

use crate::score;
use anyhow::{Result, ensure};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;
use thirtyfour::By;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    keys_are_typed_and_the_best_plan_is_read,
    a_gap_is_mended_by_touch_and_taken_back,
    a_plan_stands_in_the_address,
    the_notes_of_read_are_planned_and_mended,
    a_movement_open_in_score_is_planned_as_a_whole,
    crooks_that_are_printed_stand_beside_the_plan,
    a_bare_b_is_what_it_is_to_the_reader,
    more_notes_than_an_address_holds_are_kept,
    a_plan_is_opened_in_read_and_as_a_score,
    a_plan_is_shared_and_opened_again,
    what_may_be_asked_is_chosen_by_the_keyboard,
    crooks_owned_are_ticked_one_by_one,
    it_is_laid_out_well_at_every_size
];

const KEYS: &str = "Keys and their bars";
/// Without the hand a plan has gaps.
const GAPS: &str = "/crooks?keys=16_G+minor.16_Ab+major.16_G+minor&horn=2_1_D&trumpet=2_101_D&change=16&worth=1_0_0_0_0_0_0_0_0";

/// Trumpets have little of a key so far from theirs.
const TRUMPETS: &str = "/crooks?keys=16_Ab+major&trumpet=2_101_D";

/// Waits until something of the answer stands in the window as it is, without scrolling.
async fn in_sight(page: &Page, what: &str) -> Result<()> {
    let script = "scrollTo(0, 0); const one = document.querySelector(arguments[0])?.getBoundingClientRect();
        return one !== undefined && one.bottom <= innerHeight";
    wait::until(&format!("{what} on the first screen"), async || {
        Ok((page.eval(script, vec![json!(what)]).await? == json!(true)).then_some(()))
    })
    .await
}

fn keys_are_typed_and_the_best_plan_is_read() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        page.click("link", "Crooks").await?;
        page.sees("Four horns and two trumpets for a movement in G minor").await?;
        page.sees("Plan 1 of").await?;
        page.sees("best, proved").await?;
        page.axe().await?;
        page.fill("textbox", KEYS, "d-Moll 48").await?;
        page.sees("for a movement in D minor").await?;
        page.find("list", "Corno 1, 2").await?;
        page.sees("in D, bars 1 to 48").await?;
        in_sight(page, ".plan-percent").await?;
        // What is not understood is said, and the plan stays.
        page.fill("textbox", KEYS, "d-Moll 48, quark").await?;
        page.sees("“quark” is no key").await?;
        page.sees("in D, bars 1 to 48").await?;
        page.sees("The plan below is for what stood there before.").await?;
        page.axe().await?;
        // Bars that no key has are not filled in silence.
        page.fill("textbox", KEYS, "d-Moll 5-40, F 45-48").await?;
        page.sees("Without a key of their own: bars 1 to 4 in D minor, bars 41 to 44 in D minor.").await?;
        ensure!(!page.text().await?.contains("for what stood there before"), "it is for what stands there");
        page.fill("textbox", KEYS, "d-Moll 48").await?;
        page.sees("in D, bars 1 to 48").await?;
        page.click("button", "Next plan").await?;
        page.sees("Plan 2 of").await?;
        page.hash_has("plan=2").await?;
        page.is_quiet().await
    });
}

fn a_gap_is_mended_by_touch_and_taken_back() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(GAPS), async |page| {
        page.sees("Two horns and two trumpets").await?;
        let gaps = page.find_all("button", Name::Has(": nobody has".to_owned())).await?.len();
        ensure!(gaps > 0, "no gap");
        page.tap("button", Name::Has("Bars 17 to 32, A♭ major: nobody has".to_owned())).await?;
        page.find("region", "What can be done").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        // What was not asked for is offered: the hand, in the whole plan.
        page.tap("button", Name::Has("Corno 1, 2 in D: written D♭5, half stopped".to_owned())).await?;
        page.find_gone("region", "What can be done").await?;
        page.hash_has("worth=1_0_0_0.6").await?;
        page.tap("button", "Undo").await?;
        page.hash_has("worth=1_0_0_0_").await?;
        // Trumpets have no hand.
        page.come_back(TRUMPETS).await?;
        page.tap("button", Name::Has(": nobody has".to_owned())).await?;
        page.sees("another instrument must").await?;
        page.tap("button", "Leave this gap").await?;
        page.find_gone("region", "What can be done").await?;
        page.is_quiet().await
    });
}

fn a_plan_stands_in_the_address() {
    flow::in_every_browser(
        &Setup::new(Window::PORTRAIT).hash("/crooks?keys=24_C+minor.24_Eb+major"),
        async |page| {
            page.sees("Four horns for a movement in C minor").await?;
            page.fill("textbox", KEYS, "C minor 24, E-flat major 24, C minor 12").await?;
            page.hash_has("keys=24_C+minor.24_Eb+major.12_C+minor").await?;
            page.reload().await?;
            page.sees("bars 1 to 60").await?;
            let typed = page.find("textbox", KEYS).await?;
            let (name, _) = page.spoken(&typed).await?;
            ensure!(name == KEYS || !name.is_empty(), "{name}");
            page.click("link", "Read").await?;
            page.find("button", "Pages").await?;
            page.back().await?;
            page.sees("C minor").await?;
            page.is_quiet().await
        },
    );
}

fn the_notes_of_read_are_planned_and_mended() {
    // Sounding A3 and C4 of a horn in F are no notes of one in E alone.
    let page = "/read?staff=2+Corni+in+F&players=2&notes=C5.D5.E5.G4&notes2=C5.G4.C5.C3";
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).hash(page), async |page| {
        page.click("link", "Crooks").await?;
        page.click("button", "Keys as rows, or notes from Read").await?;
        page.click("button", "The notes of the page in Read").await?;
        page.sees("Wanted: 8 notes of horns and trumpets").await?;
        page.sees("of 8 notes").await?;
        page.find("list", "Corno 1, 2").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.hash_has("wanted=").await?;
        page.reload().await?;
        page.sees("of 8 notes").await?;
        page.click("button", "Plan keys again").await?;
        page.find("textbox", KEYS).await?;
        page.is_quiet().await
    });
}

fn a_movement_open_in_score_is_planned_as_a_whole() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score"), async |page| {
        page.click("button", "Open the demo movement").await?;
        page.find("heading", "Parts").await?;
        page.click("button", "Plan its crooks").await?;
        page.sees("for “Introduction and Rondo”, bars 0 to 81").await?;
        page.sees("what the horns and trumpets of “Introduction and Rondo” sound").await?;
        page.sees("Plan 1 of").await?;
        page.find("list", Name::Has("Corno 1".to_owned())).await?;
        // The composer's own crooks are known.
        page.sees("These are the crooks that are printed.").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.hash_has("wanted=").await?;
        page.hash_has("printed=1_").await?;
        page.reload().await?;
        page.sees("These are the crooks that are printed.").await?;
        page.sees("for “Introduction and Rondo”, bars 0 to 81").await?;
        page.sees("Plan 1 of").await?;
        page.back().await?;
        page.find("heading", "Parts").await?;
        page.fill("textbox", "From bar or letter", "13").await?;
        page.fill("textbox", "To bar or letter", "20").await?;
        page.click("button", "Plan the crooks of these bars").await?;
        // By their numbers in print, everywhere.
        page.sees("for “Introduction and Rondo”, bars 13 to 20").await?;
        page.sees("Plan 1 of").await?;
        page.sees("Read takes bars 13 to 20.").await?;
        page.fill("textbox", "From bar", "99999").await?;
        page.press("Enter").await?;
        page.sees("There is no bar or letter “99999”").await?;
        page.click("button", "Undo").await?;
        page.sees("for “Introduction and Rondo”, bars 0 to 81").await?;
        page.is_quiet().await
    });
}

fn crooks_that_are_printed_stand_beside_the_plan() {
    // What is open in E-flat; print has the first horn in D.
    let notes = "/crooks?wanted=wPqvAUsEAUsAAmoEAgFrAAJKBAIBSwACahECAWsAAg&printed=1_D.2_Eb&horn=2_1_Eb.D";
    for window in [Window::PHONE, Window::LANDSCAPE] {
        flow::in_every_browser(&Setup::new(window).hash(notes), async |page| {
            page.find("list", "Corno 1, 2").await?;
            page.find("list", "Corno 1 as printed").await?;
            page.find("list", "Corno 2 as printed").await?;
            page.sees("in D, bars 1 to 4").await?;
            page.sees(
                "The crooks that are printed give 7 of 8 notes without a change; this plan gives 1 more",
            )
            .await?;
            page.sees("No plan may do what is printed: it has a pair on different crooks.").await?;
            page.well_laid_out().await?;
            page.axe().await?;
            page.is_quiet().await
        });
    }
}

fn a_bare_b_is_what_it_is_to_the_reader() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash("/crooks"), async |page| {
        page.sees("Plan 1 of").await?;
        page.fill("textbox", KEYS, "B 1-24").await?;
        page.sees("B alone is B natural here").await?;
        page.sees("for a movement in B major").await?;
        page.is_quiet().await
    });
}

/// A score of two horns that play one note after the other for seven hundred bars, by no rule that packing would find.
pub fn long_score() -> String {
    let mut chance = 7_u32;
    let mut next = |many: u32| {
        chance = chance.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (chance >> 16) % many
    };
    let mut bar = |number: u32| {
        let attributes = "<attributes><divisions>2</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>";
        let mut notes = if number == 1 { attributes.to_owned() } else { String::new() };
        let mut left = 8;
        while left > 0 {
            let length = (1 + next(3)).min(left);
            left -= length;
            let (step, octave) = (["C", "E", "G"][next(3) as usize], 4 + next(2));
            notes += &format!(
                "<note><pitch><step>{step}</step><octave>{octave}</octave></pitch><duration>{length}</duration></note>"
            );
        }
        format!("<measure number=\"{number}\">{notes}</measure>")
    };
    let mut part =
        |id: &str| format!("<part id=\"{id}\">{}</part>", (1..=700).map(&mut bar).collect::<String>());
    let parts = [part("P1"), part("P2")].concat();
    format!(
        "<score-partwise version=\"4.0\"><work><work-title>Long</work-title></work><part-list>\
        <score-part id=\"P1\"><part-name>Corno I in D</part-name></score-part>\
        <score-part id=\"P2\"><part-name>Corno II in D</part-name></score-part></part-list>{parts}</score-partwise>"
    )
}

fn more_notes_than_an_address_holds_are_kept() {
    let file = std::env::temp_dir().join(format!("crookwise-long-{}.musicxml", std::process::id()));
    std::fs::write(&file, long_score()).expect("a place for a file");
    flow::in_every_browser(&Setup::new(Window::DESK).hash("/score"), async |page| {
        score::choose(page, &file).await?;
        page.find("heading", "Parts").await?;
        page.click("button", "Plan its crooks").await?;
        page.sees("for “Long”, bars 1 to 700").await?;
        page.sees("Plan 1 of").await?;
        let hash = page.hash().await?;
        ensure!(hash.trim_start_matches('#') == "/crooks", "{hash:.200}");
        page.click("button", "Share").await?;
        page.sees("This is too long for a link").await?;
        page.reload().await?;
        page.sees("for “Long”, bars 1 to 700").await?;
        page.sees("Plan 1 of").await?;
        page.is_quiet().await
    });
}

fn a_plan_is_opened_in_read_and_as_a_score() {
    flow::in_every_browser(
        &Setup::new(Window::LANDSCAPE).hash("/crooks?keys=24_G+minor.24_Bb+major"),
        async |page| {
            page.sees("Plan 1 of").await?;
            // What would be saved is caught.
            let catch = "const own = URL.createObjectURL;
                URL.createObjectURL = (file) => { window.saved = file; return own.call(URL, file); };
                HTMLAnchorElement.prototype.click = () => {};";
            page.eval(catch, vec![]).await?;
            page.click("button", "Save MusicXML").await?;
            // What writes it may still be on its way.
            let is_saved = "return window.saved !== undefined";
            wait::until("a file that is saved", async || {
                Ok((page.eval(is_saved, vec![]).await? == json!(true)).then_some(()))
            })
            .await?;
            let text = page.promised("return await window.saved.text()").await?;
            let text = text.as_str().unwrap_or_default();
            for part in [
                "<score-partwise",
                ">0 G minor; 96 Bb major<",
                "<part-name>Corno IV in G<",
                "<transpose>",
                "<measure number=\"48\"",
            ] {
                ensure!(text.contains(part), "no {part} in {} letters: {:.2000}", text.len(), text);
            }
            page.click("button", "Open in Read").await?;
            page.find("button", "Pages").await?;
            page.sees("Corni").await?;
            page.back().await?;
            page.sees("Plan 1 of").await?;
            page.click("button", "As a score").await?;
            page.find("region", "Playback").await?;
            page.sees("48 bars").await?;
            page.is_quiet().await
        },
    );
}

fn a_plan_is_shared_and_opened_again() {
    flow::in_every_browser(
        &Setup::new(Window::PHONE).hash("/crooks?keys=24_G+minor.24_Bb+major"),
        async |page| {
            page.sees("Plan 1 of").await?;
            in_sight(page, ".plan-percent").await?;
            page.tap("button", "Share").await?;
            let field = page.find("textbox", "A link to exactly this plan").await?;
            page.well_laid_out().await?;
            page.axe().await?;
            let link = field.prop("value").await?.unwrap_or_default();
            let (_, hash) = link.split_once('#').unwrap_or_default();
            ensure!(hash.starts_with("/crooks?"), "{link}");
            page.visit("/read").await?;
            page.visit(hash).await?;
            page.sees("Four horns for a movement in G minor").await?;
            page.is_quiet().await
        },
    );
}

fn what_may_be_asked_is_chosen_by_the_keyboard() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/crooks"), async |page| {
        page.sees("Plan 1 of").await?;
        page.choose_by_keys_in("players", "Trumpets", "3").await?;
        page.sees("Four horns and three trumpets for a movement in G minor").await?;
        page.key_on("Enter", "button", "Undo").await?;
        page.sees("Four horns and two trumpets for a movement in G minor").await?;
        page.press("Control+y").await?;
        page.sees("Four horns and three trumpets for a movement in G minor").await?;
        page.press("Control+z").await?;
        page.sees("Four horns and two trumpets for a movement in G minor").await?;
        page.is_quiet().await
    });
}

fn crooks_owned_are_ticked_one_by_one() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash("/crooks"), async |page| {
        page.sees("Plan 1 of").await?;
        page.find("button", Name::Has("crooks owned usual".to_owned())).await?;
        page.open_list("crooks owned").await?;
        let horns = page.find("group", "Those that your horns have").await?;
        let first = horns.find(By::Css(".own-crook[aria-pressed=true]")).await?;
        page.tap_on(&first).await?;
        page.find_gone("button", Name::Has("crooks owned usual".to_owned())).await?;
        ensure!(first.attr("aria-pressed").await?.as_deref() == Some("false"), "still ticked");
        page.well_laid_out().await?;
        page.axe().await?;
        page.shut_list("crooks owned").await?;
        page.tap("button", "Undo").await?;
        page.find("button", Name::Has("crooks owned usual".to_owned())).await?;
        // Few are owned in few taps.
        page.open_list("crooks owned").await?;
        for name in ["None of them", "in D", "in G"] {
            let horns = page.find("group", "Those that your horns have").await?;
            let script = "return [...arguments[0].querySelectorAll('button')].find((one) => one.textContent === arguments[1])";
            let button =
                page.driver().execute(script, vec![horns.to_json()?, json!(name)]).await?.element()?;
            page.tap_on(&button).await?;
            if name == "None of them" {
                page.sees("The horns have no crook yet: tick those they own.").await?;
            }
        }
        page.hash_has("horn=2_1_G.D").await?;
        page.shut_list("crooks owned").await?;
        page.sees("Plan 1 of").await?;
        page.is_quiet().await
    });
}

/// What scrolls sideways, but for a table.
const SIDEWAYS: &str = "return [...document.querySelectorAll('.crooks, .crooks *')].filter((at) => {
        const style = getComputedStyle(at);
        return ['auto', 'scroll'].includes(style.overflowX) && at.scrollWidth > at.clientWidth + 1 && !at.matches('.table-room');
    }).map((at) => at.className)";

fn it_is_laid_out_well_at_every_size() {
    for window in [Window::PHONE, Window::PORTRAIT, Window::LANDSCAPE, Window::DESK] {
        flow::in_every_browser(&Setup::new(window).hash("/crooks"), async |page| {
            page.sees("Plan 1 of").await?;
            page.well_laid_out().await?;
            page.visit(GAPS).await?;
            page.sees("nobody has").await?;
            page.well_laid_out().await?;
            let sideways = page.eval(SIDEWAYS, vec![]).await?;
            ensure!(sideways == json!([]), "scrolls sideways: {sideways}");
            page.axe().await
        });
    }
}
