//! The harness itself: it must notice what flows rely on it to notice, and its fingers and keys must reach the page.

use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    noise_is_noticed,
    barriers_are_noticed,
    a_script_waits_for_what_it_reads,
    fingers_mouse_and_keys_reach_the_page
];

/// What the harness says after the page ran a script.
async fn noise(page: &Page, script: &str) -> anyhow::Result<String> {
    page.eval(script, vec![]).await?;
    wait::until("the harness to notice", async || {
        Ok(page.is_quiet().await.err().map(|problem| problem.to_string()))
    })
    .await
}

fn noise_is_noticed() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        let noises = [
            ("console.error('one')", "one"),
            ("console.warn('two')", "two"),
            ("setTimeout(() => { throw new Error('three') })", "three"),
            ("setTimeout(() => { Promise.reject(new Error('four')) })", "four"),
        ];
        for (script, word) in noises {
            let heard = noise(page, script).await?;
            assert!(heard.contains(word), "{script}: {heard}");
        }
        let missing = noise(page, "fetch('nothing-here.txt')").await?;
        assert!(missing.contains("nothing-here.txt"), "{missing}");
        // The page's own policy stops this one before it leaves; that it was tried is noticed all the same.
        let foreign = noise(page, "fetch('http://127.0.0.2:9/elsewhere').catch(() => {})").await?;
        assert!(foreign.contains("127.0.0.2"), "{foreign}");
        Ok(())
    });
}

fn barriers_are_noticed() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        // A page of its own, so that what the app itself may have is not in question here.
        let plain = "document.body.innerHTML = '<main><h1>Plain</h1><button>Named</button></main>'";
        page.eval(plain, vec![]).await?;
        page.axe().await?;
        page.eval(
            "document.querySelector('main').insertAdjacentHTML('beforeend', '<button></button>')",
            vec![],
        )
        .await?;
        let found = page.axe().await.expect_err("a button without a name is a barrier").to_string();
        assert!(found.contains("button-name") && found.contains("<button></button>"), "{found}");
        // Over it a dialog alone is looked at, and a barrier in it is found.
        let over =
            "document.body.insertAdjacentHTML('beforeend', '<dialog aria-label=Over><p>Over</p></dialog>');
            document.querySelector('dialog').showModal()";
        page.eval(over, vec![]).await?;
        page.axe().await?;
        let second =
            "document.querySelector('dialog').insertAdjacentHTML('beforeend', '<button id=second></button>')";
        page.eval(second, vec![]).await?;
        let found = page.axe().await.expect_err("a barrier in a dialog").to_string();
        assert!(found.contains("button-name") && found.contains("id=\"second\""), "{found}");
        page.eval("document.querySelector('dialog').remove()", vec![]).await?;
        // By the rules for colours alone the same button is none, and faint words are found.
        page.axe_of_colours().await?;
        page.eval("document.querySelector('h1').style.cssText = 'color: #ccc; background: #fff'", vec![])
            .await?;
        let found = page.axe_of_colours().await.expect_err("faint words are a barrier").to_string();
        assert!(found.contains("color-contrast") && !found.contains("button-name"), "{found}");
        Ok(())
    });
}

fn a_script_waits_for_what_it_reads() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        let comes =
            "setTimeout(() => document.body.insertAdjacentHTML('beforeend', '<p id=late>Late</p>'), 400)";
        page.eval(comes, vec![]).await?;
        let read = page.eval("return document.querySelector('#late').textContent", vec![]).await?;
        assert!(read == json!("Late"), "{read}");
        Ok(())
    });
}

/// A field in place of the page that writes down what reaches it.
const FIELD: &str = "
    document.body.innerHTML = '<main><div id=pad role=application aria-label=Pad tabindex=0>pad</div></main>';
    const pad = document.getElementById('pad');
    const area = { position: 'fixed', left: '20px', top: '20px', width: '300px', height: '200px', touchAction: 'none' };
    Object.assign(pad.style, area);
    window.heard = [];
    for (const kind of ['pointerdown', 'pointermove', 'pointerup', 'click']) {
        pad.addEventListener(kind, (event) => {
            if (kind === 'pointermove' && !event.buttons) return;
            if (kind === 'pointerdown') pad.setPointerCapture(event.pointerId);
            const words = `${event.pointerType} ${kind} ${Math.round(event.clientX)},${Math.round(event.clientY)}`;
            // A browser may say twice that the pointer is where it was.
            if (heard.at(-1) !== words) heard.push(words);
        });
    }
    document.addEventListener('keydown', (event) => {
        if (event.key !== 'Control') heard.push(`${event.ctrlKey ? 'Control+' : ''}${event.key}`);
    });";

async fn hears(page: &Page, wanted: &[&str]) -> anyhow::Result<()> {
    let wanted = json!(wanted);
    let heard = wait::until("the field to hear it", async || {
        let heard = page.eval("return heard", vec![]).await?;
        Ok((heard == wanted).then_some(()))
    })
    .await;
    if heard.is_err() {
        assert_eq!(page.eval("return heard", vec![]).await?, wanted);
    }
    page.eval("heard.length = 0", vec![]).await?;
    Ok(())
}

fn fingers_mouse_and_keys_reach_the_page() {
    flow::in_every_browser(&Setup::new(Window::PHONE), async |page| {
        page.eval(FIELD, vec![]).await?;
        let pad = page.extent(&page.find("application", "Pad").await?).await?;
        assert_eq!((pad.corner.x, pad.corner.y, pad.width, pad.height), (20.0, 20.0, 300.0, 200.0));
        let start = pad.at(0.1, 0.25);

        page.touch_down(start).await?;
        page.touch_move(start.moved(0.0, 40.0)).await?;
        page.touch_up(start.moved(0.0, 60.0)).await?;
        let heard = page.eval("return heard", vec![]).await?;
        let heard: Vec<&str> =
            heard.as_array().into_iter().flatten().filter_map(|word| word.as_str()).collect();
        assert_eq!(heard.first(), Some(&"touch pointerdown 50,70"), "{heard:?}");
        assert!(heard.contains(&"touch pointermove 50,110"), "{heard:?}");
        assert_eq!(heard.last(), Some(&"touch pointerup 50,130"), "a drag is no click: {heard:?}");
        page.eval("heard.length = 0", vec![]).await?;

        page.tap_at(start).await?;
        hears(page, &["touch pointerdown 50,70", "touch pointerup 50,70", "touch click 50,70"]).await?;

        page.mouse_down(start).await?;
        page.mouse_move(start.moved(30.0, 0.0)).await?;
        page.mouse_up(start.moved(30.0, 0.0)).await?;
        let mouse = [
            "mouse pointerdown 50,70",
            "mouse pointermove 80,70",
            "mouse pointerup 80,70",
            "mouse click 80,70",
        ];
        hears(page, &mouse).await?;

        page.focus("application", Name::Any).await?;
        assert_eq!(page.focused().await?, Some(("application".into(), "Pad".into())));
        page.press("ArrowUp").await?;
        page.press("Control+z").await?;
        page.write("Es+").await?;
        hears(page, &["ArrowUp", "Control+z", "E", "s", "+"]).await
    });
}
