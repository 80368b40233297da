//! The music of a movement while it is scrolled through, and what is made ready before a movement is opened.

use super::score::is_audited;
use anyhow::ensure;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    a_system_that_comes_near_is_shown_piece_by_piece,
    what_holds_a_score_starts_before_one_is_chosen
];

/// Scrolls to the end of the music, a step when all that is near stands. Gives how many pieces of systems that were not in the
/// window yet came in one picture at most, how many came in all, and how many pieces the largest system has.
const SCROLL: &str = "const systems = document.querySelector('#systems');
    const high = (one) => one.querySelectorAll('.picture-of').length;
    const near = () => [...document.querySelectorAll('.music-system')].filter((one) => {
        const box = one.getBoundingClientRect();
        return box.top < innerHeight + 700 && box.bottom > -700;
    });
    let [now, most, all, largest] = [0, 0, 0, 0];
    new MutationObserver((changes) => {
        for (const node of changes.flatMap(({ addedNodes }) => [...addedNodes])) {
            if (!node.classList?.contains('picture-of')) continue;
            const box = node.getBoundingClientRect();
            if (box.bottom < 0 || box.top > innerHeight) now += 1;
        }
    }).observe(systems, { childList: true, subtree: true });
    const picture = async () => {
        await new Promise((done) => requestAnimationFrame(done));
        most = Math.max(most, now);
        all += now;
        now = 0;
    };
    while (systems.getBoundingClientRect().bottom > innerHeight) {
        scrollBy({ top: 200, behavior: 'instant' });
        do await picture(); while (near().some((one) => high(one) === 0));
        largest = Math.max(largest, ...near().map(high));
    }
    return { most, all, largest };";

fn a_system_that_comes_near_is_shown_piece_by_piece() {
    flow::in_every_browser(&Setup::new(Window::DESK).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        let seen = page.promised(SCROLL).await?;
        let of = |what: &str| seen[what].as_u64();
        ensure!(of("most") == Some(1), "one piece in a picture: {seen}");
        ensure!(of("largest") > Some(1) && of("all") > of("largest"), "several pieces: {seen}");
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
