//! The music of a movement while it is scrolled through, and what is made ready before a movement is opened.

use super::score::is_audited;
use anyhow::{Result, ensure};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    a_system_that_comes_near_is_shown_piece_by_piece,
    what_is_looked_at_stays_when_the_music_is_laid_anew,
    a_link_to_bars_leads_there_on_a_telephone,
    the_staff_that_enters_is_seen_where_its_system_is_higher_than_the_window,
    who_enters_too_is_told_where_not_all_have_room,
    who_comes_back_stands_where_he_looked,
    a_note_that_is_tapped_is_seen_beside_what_is_said_of_it,
    what_is_corrected_stays_before_the_reader,
    who_looks_at_bars_stays_there_where_what_holds_the_score_breaks,
    who_corrects_goes_on_where_what_holds_the_score_breaks,
    what_holds_a_score_starts_before_one_is_chosen
];

/// Counts the pieces of systems that come while they are not in the window yet: how many came in all, and how many in one picture
/// at most. A picture ends with what is done before it.
const COUNT_PIECES: &str = "const systems = document.querySelector('#systems');
    const seen = globalThis.__pieces = { most: 0, all: 0, now: 0 };
    new MutationObserver((changes) => {
        for (const node of changes.flatMap(({ addedNodes }) => [...addedNodes])) {
            if (!node.classList?.contains('picture-of')) continue;
            const box = node.getBoundingClientRect();
            if (box.bottom < 0 || box.top > innerHeight) seen.now += 1;
        }
    }).observe(systems, { childList: true, subtree: true });
    const picture = () => {
        seen.most = Math.max(seen.most, seen.now);
        seen.all += seen.now;
        seen.now = 0;
        requestAnimationFrame(picture);
    };
    picture();";

/// A step down; true when the end of the music is in the window.
const STEP: &str = "scrollBy({ top: 200, behavior: 'instant' });
    return document.querySelector('#systems').getBoundingClientRect().bottom <= innerHeight;";

/// How many pieces those systems have that are in the window or come next.
const NEAR: &str = "return [...document.querySelectorAll('.music-system')].filter((one) => {
        const box = one.getBoundingClientRect();
        return box.top < innerHeight + 700 && box.bottom > -700;
    }).map((one) => one.querySelectorAll('.picture-of').length);";

fn a_system_that_comes_near_is_shown_piece_by_piece() {
    flow::in_every_browser(&Setup::new(Window::DESK).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        page.eval(COUNT_PIECES, vec![]).await?;
        let mut largest = 0;
        while page.eval(STEP, vec![]).await? != json!(true) {
            let near = wait::until("the systems that are near", async || {
                let pieces: Vec<u64> = serde_json::from_value(page.eval(NEAR, vec![]).await?)?;
                Ok((!pieces.contains(&0)).then_some(pieces))
            });
            largest = near.await?.into_iter().max().unwrap_or(0).max(largest);
        }
        let seen = page.eval("return globalThis.__pieces", vec![]).await?;
        let of = |what: &str| seen[what].as_u64();
        ensure!(of("most") == Some(1), "one piece in a picture: {seen}");
        ensure!(largest > 1 && of("all") > Some(largest), "several pieces: {seen} of {largest}");
        page.is_quiet().await
    });
}

/// Whether the system with a bar begins in the upper half of the window.
const IS_LOOKED_AT: &str = "const [bar] = arguments;
    const one = [...document.querySelectorAll('.music-system')].find((one) => {
        const [first, last] = one.getAttribute('aria-label').match(/\\d+/g).map(Number);
        return first <= bar && bar <= (last ?? first);
    });
    const top = one?.getBoundingClientRect().top;
    return document.querySelector('#systems').getAttribute('aria-busy') === null && top >= 0 && top < innerHeight / 2;";

async fn is_looked_at(page: &Page, bar: u32) -> Result<()> {
    page.settled().await?;
    wait::until(&format!("bar {bar} to be looked at"), async || {
        Ok((page.eval(IS_LOOKED_AT, vec![json!(bar)]).await? == json!(true)).then_some(()))
    })
    .await
}

fn what_is_looked_at_stays_when_the_music_is_laid_anew() {
    let hash = "/score?demo=1&bars=40-41";
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(hash), async |page| {
        is_audited(page).await?;
        is_looked_at(page, 40).await?;
        // A part alone, from its head on; then all rows again.
        page.click("button", "Read along").await?;
        page.click("button", "Corno III in F").await?;
        page.find("region", "Reading along").await?;
        page.click("button", "Next question").await?;
        page.sees("What will sound?").await?;
        page.press("Escape").await?;
        page.find_gone("region", "Reading along").await?;
        is_looked_at(page, 40).await?;
        // Back to the start, and from there to the beginning.
        page.click("button", Name::Has("Back to the start".to_owned())).await?;
        page.settled().await?;
        page.click("button", Name::Has("Back to the start".to_owned())).await?;
        is_looked_at(page, 0).await?;
        page.is_quiet().await
    });
}

fn a_link_to_bars_leads_there_on_a_telephone() {
    let hash = "/score?demo=1&staves=5.6.7.8&bars=17-24";
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(hash), async |page| {
        is_audited(page).await?;
        is_looked_at(page, 17).await?;
        page.is_quiet().await
    });
}

/// How many staves are marked where they enter, whether the first of them stands between the map and what stays at the foot of the
/// window, and whether its system is higher than that.
const ENTERING: &str = "const boxes = (kind) => [...document.querySelectorAll(kind)].map((one) => one.getBoundingClientRect());
    const marks = boxes('.entering').filter(({ height }) => height > 0);
    const foot = Math.min(...boxes('#playback, .moment, .score-wall-bar').filter(({ height }) => height > 0).map(({ top }) => top));
    const head = boxes('#map')[0].bottom;
    const system = [...document.querySelectorAll('.music-system')].find((one) => one.querySelector('.entering'));
    return [marks.length, marks.length > 0 && marks[0].top >= head && marks[0].bottom <= foot,
        system?.getBoundingClientRect().height > foot - head];";

/// Waits until so many staves are marked and the first stands in the window; whether their system is higher than that.
async fn entering_is_seen(page: &Page, count: usize) -> Result<bool> {
    page.settled().await?;
    let seen = wait::until("the staff that enters", async || {
        let now = page.eval(ENTERING, vec![]).await?;
        Ok((now[0] == json!(count) && now[1] == json!(true)).then_some(now))
    });
    Ok(seen.await?[2] == json!(true))
}

/// Waits until the map knows who enters: before, nothing leads from entry to entry.
async fn map_is_known(page: &Page) -> Result<()> {
    let known = "return document.querySelector('#map .step:not([disabled])') !== null";
    wait::until("the map", async || Ok((page.eval(known, vec![]).await? == json!(true)).then_some(()))).await
}

/// The window of a small telephone that lies between others, in which no system of the demo has room.
const LOW: Window = Window { width: 390, height: 560, touch: true };

fn the_staff_that_enters_is_seen_where_its_system_is_higher_than_the_window() {
    flow::in_every_browser(&Setup::new(LOW).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        map_is_known(page).await?;
        let mut higher = 0;
        // Horns and drums; trumpets; both pairs of horns; drums alone, which stand lowest.
        for count in [2, 1, 2, 1] {
            page.tap("button", "Next entry").await?;
            higher += u32::from(entering_is_seen(page, count).await?);
        }
        ensure!(higher > 2, "the window is not low enough to tell");
        // Letters are anybody's.
        page.tap("button", "The whole map").await?;
        page.fill("textbox", "Go to bar or letter", "C").await?;
        page.press("Enter").await?;
        page.sees("Bar 38").await?;
        ensure!(page.eval(ENTERING, vec![]).await?[0] == json!(0), "nobody enters at a letter");
        page.tap("button", "The whole map").await?;
        page.is_quiet().await
    });
    // A link to an entry of drums is followed before it is known who enters there.
    let hash = "/score?demo=1&staves=5.6.7.8.9.10.11&bars=29-31";
    flow::in_every_browser(&Setup::new(LOW).hash(hash), async |page| {
        is_audited(page).await?;
        entering_is_seen(page, 1).await?;
        page.is_quiet().await
    });
}

fn who_enters_too_is_told_where_not_all_have_room() {
    flow::in_every_browser(&Setup::new(LOW).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        map_is_known(page).await?;
        // Horns and drums enter, and the drums stand below the window: the folded map says so, and a tap leads there.
        page.tap("button", "Next entry").await?;
        page.find("button", "Also: Timpani in D A").await?;
        entering_is_seen(page, 2).await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.tap("button", "Also: Timpani in D A").await?;
        page.find("button", "Also: Corno III, IV in F").await?;
        entering_is_seen(page, 1).await?;
        // The trumpets alone have room.
        page.tap("button", "Next entry").await?;
        page.find_gone("button", "Also: Corno III, IV in F").await?;
        entering_is_seen(page, 1).await?;
        let also = page.eval("return document.querySelector('.map-also') === null", vec![]).await?;
        ensure!(also == json!(true), "nobody else enters");
        page.is_quiet().await
    });
    // Where all have room nothing is said.
    flow::in_every_browser(&Setup::new(Window::DESK).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        map_is_known(page).await?;
        page.click("button", "As written").await?;
        page.settled().await?;
        page.click("button", "Next entry").await?;
        entering_is_seen(page, 2).await?;
        let also = page.eval("return document.querySelector('.map-also') === null", vec![]).await?;
        ensure!(also == json!(true), "all have room");
        page.is_quiet().await
    });
}

fn who_comes_back_stands_where_he_looked() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        page.fill("textbox", "Go to bar or letter", "40").await?;
        page.press("Enter").await?;
        is_looked_at(page, 40).await?;
        let steps = page.steps().await?;
        page.reload().await?;
        is_audited(page).await?;
        is_looked_at(page, 40).await?;
        ensure!(page.steps().await? == steps, "looking at bars is no step of the history");
        // From the top it is seen from the top again.
        page.eval("scrollTo({ top: 0, behavior: 'instant' })", vec![]).await?;
        page.settled().await?;
        page.reload().await?;
        is_audited(page).await?;
        page.settled().await?;
        ensure!(page.eval("return scrollY < 2", vec![]).await? == json!(true), "the top was looked at");
        page.is_quiet().await
    });
}

/// What holds the score breaks at a question, the so many-th from now on, as it does now and then in a browser on a busy machine.
const BREAK: &str = "const ask = Worker.prototype.postMessage;
    const [last] = arguments;
    let asked = 0;
    globalThis.__broken = false;
    Worker.prototype.postMessage = function (...all) {
        asked += 1;
        if (asked < last) return ask.apply(this, all);
        Worker.prototype.postMessage = ask;
        globalThis.__broken = true;
        this.dispatchEvent(new Event('error'));
    };";

async fn breaks(page: &Page, at: u32, by: &str) -> Result<()> {
    page.eval(BREAK, vec![json!(at)]).await?;
    page.eval(by, vec![]).await?;
    let broken = "return __broken";
    wait::until("what holds the score to break", async || {
        Ok((page.eval(broken, vec![]).await? == json!(true)).then_some(()))
    })
    .await?;
    is_audited(page).await
}

fn who_looks_at_bars_stays_there_where_what_holds_the_score_breaks() {
    // While systems are asked for that come near.
    flow::in_every_browser(&Setup::new(Window::PHONE).hash("/score?demo=1&bars=40-41"), async |page| {
        is_audited(page).await?;
        is_looked_at(page, 40).await?;
        breaks(page, 1, "scrollBy({ top: 1200, behavior: 'instant' })").await?;
        let deep = "return document.querySelector('#systems').getBoundingClientRect().top < -1000";
        wait::until("the bars that were looked at", async || {
            Ok((page.eval(deep, vec![]).await? == json!(true)).then_some(()))
        })
        .await?;
        page.is_quiet().await
    });
    // While a link leads to an entry: before there is music, and when it stands there.
    for question in [3, 6] {
        flow::in_every_browser(&Setup::new(LOW).hash("/read"), async |page| {
            let to = "location.hash = '#/score?demo=1&staves=5.6.7.8.9.10.11&bars=29-31'";
            breaks(page, question, to).await?;
            entering_is_seen(page, 1).await?;
            page.is_quiet().await
        });
    }
}

/// What is typed in the form that corrects, whether the focus is there, and how far down the page is.
const TYPED: &str = "const field = document.querySelector('.correcting input');
    return [field?.value, field !== null && document.activeElement === field, Math.round(scrollY)]";

fn who_corrects_goes_on_where_what_holds_the_score_breaks() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        // What is corrected lies over the score of another, too.
        page.click("button", "Correct: Corno III in F").await?;
        page.fill("textbox", "Label as the score prints it", "Corno III in Xx").await?;
        page.press("Enter").await?;
        page.sees("“Corno III in Xx” names no instrument that is known").await?;
        page.press("Escape").await?;
        page.click("button", "Correct: Corno I in D").await?;
        page.fill("textbox", "Label as the score prints it", "Corno in Yy").await?;
        page.settled().await?;
        let typed = page.eval(TYPED, vec![]).await?;
        // A system that was not seen yet is asked for; who types notices nothing.
        breaks(
            page,
            1,
            "scrollTo({ top: 0, behavior: 'instant' }); scrollTo({ top: 1500, behavior: 'instant' })",
        )
        .await?;
        page.eval(
            "const [down] = arguments; scrollTo({ top: down, behavior: 'instant' })",
            vec![typed[2].clone()],
        )
        .await?;
        page.settled().await?;
        is_audited(page).await?;
        ensure!(page.eval(TYPED, vec![]).await? == typed, "what was typed is lost");
        page.press("Enter").await?;
        page.sees("“Corno in Yy” names no instrument that is known").await?;
        page.sees("Corno III in Xx").await?;
        page.click("button", "Undo").await?;
        page.click("button", "Undo").await?;
        page.find_gone("button", "Back to “Corno III in F”, as the file has it").await?;
        page.is_quiet().await
    });
}

const COUNT: &str = "(() => {
    const { Worker: Own } = globalThis;
    globalThis.__workers = 0;
    globalThis.Worker = class extends Own {
        constructor(...all) {
            super(...all);
            globalThis.__workers += 1;
        }
    };
})();";

fn what_holds_a_score_starts_before_one_is_chosen() {
    flow::in_every_browser(&Setup::new(Window::DESK), async |page| {
        page.stand_in(COUNT).await?;
        page.come_back("/score").await?;
        page.find("button", "Open the demo movement").await?;
        let workers = async || page.eval("return globalThis.__workers", vec![]).await;
        wait::until("a worker", async || Ok((workers().await? == json!(1)).then_some(()))).await?;
        page.click("button", "Open the demo movement").await?;
        is_audited(page).await?;
        ensure!(workers().await? == json!(1), "the score is held by the one that was started");
        page.is_quiet().await
    });
}

/// Whether a ring round the note stands between the map and what is said of it, and how far that stands over the dock.
const TAPPED: &str =
    "const boxes = (kind) => [...document.querySelectorAll(kind)].map((one) => one.getBoundingClientRect());
    const [map, said, dock] = ['#map', '#moment', '#playback'].map((kind) => boxes(kind)[0]);
    if (!said) return null;
    const seen = boxes('.tapped-note').some(({ top, bottom }) => top >= map.bottom && bottom <= said.top);
    return [seen && document.querySelector('.tapped .sea').textContent !== '', dock.top - said.bottom];";

fn a_note_that_is_tapped_is_seen_beside_what_is_said_of_it() {
    for window in [Window::LANDSCAPE, Window::PHONE] {
        flow::in_every_browser(&Setup::new(window).hash("/score?demo=1"), async |page| {
            is_audited(page).await?;
            page.find("region", "Playback").await?;
            page.first_head().await?;
            // The lowest note over the dock: what is said of it would lie over it.
            let dock =
                page.eval("return document.querySelector('#playback').getBoundingClientRect().top", vec![]);
            let dock = dock.await?.as_f64().unwrap_or_default();
            let heads =
                page.heads().await?.into_iter().filter(|head| head.y < dock - 8.0 && head.y > dock / 2.0);
            let lowest = heads.max_by(|one, other| one.y.total_cmp(&other.y));
            page.tap_at(lowest.ok_or_else(|| anyhow::anyhow!("no note low in the window"))?).await?;
            let told = wait::until("the note in sight", async || {
                let now = page.eval(TAPPED, vec![]).await?;
                Ok((now[0] == json!(true)).then_some(now))
            });
            let gap = told.await?[1].as_f64().unwrap_or(99.0);
            ensure!(gap.abs() < 2.0, "{gap} pixels of music between the sheet and the dock");
            page.settled().await?;
            ensure!(page.eval(TAPPED, vec![]).await?[0] == json!(true), "it is covered again");
            page.is_quiet().await
        });
    }
}

fn what_is_corrected_stays_before_the_reader() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        page.click("button", "Correct: Corno I in D").await?;
        let field = "const field = document.querySelector('.correcting input');
            field.scrollIntoView({ block: 'center', behavior: 'instant' });";
        page.eval(field, vec![]).await?;
        page.settled().await?;
        let stands = "return document.querySelector('.correcting input').getBoundingClientRect().top";
        let before = page.eval(stands, vec![]).await?.as_f64().unwrap_or_default();
        page.fill("textbox", "Label as the score prints it", "Corno I in B basso").await?;
        page.press("Tab").await?;
        page.find("button", "Back to “Corno I in D”, as the file has it").await?;
        page.settled().await?;
        is_audited(page).await?;
        let after = page.eval(stands, vec![]).await?.as_f64().unwrap_or_default();
        ensure!((after - before).abs() < 3.0, "the form went from {before} to {after}");
        page.is_quiet().await
    });
}
