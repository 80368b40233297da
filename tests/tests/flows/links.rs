//! The link: what stands in the address, what opens from it, what is kept on the device, and what a stranger may send.

use anyhow::{Result, ensure};
use crookwise_tests::browser::Browser;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    the_address_follows_and_comes_back,
    links_that_cannot_be_opened,
    what_a_stranger_writes_stays_text,
    without_storage_nothing_is_lost_from_the_address,
    a_key_held_down_is_not_lost_from_the_address
];

const LABEL: &str = "What the score prints";
/// A link as a reader may send it.
const TRUMPETS: &str = "/read?staff=Trombe+in+D&notes=C5.G5&at=1";

/// The sentence in the alert, once there is one.
async fn alert(page: &Page) -> Result<String> {
    wait::until("a sentence", async || {
        for one in page.find_all("alert", crookwise_tests::find::Name::Any).await? {
            let words = one.text().await?;
            if !words.is_empty() {
                return Ok(Some(words));
            }
        }
        Ok(None)
    })
    .await
}

/// The start page stands there: its label and its nine notes.
async fn is_the_start_page(page: &Page) -> Result<()> {
    page.sees("Call across the Quarry").await?;
    page.value_is("textbox", LABEL, "Corni in Es").await?;
    ensure!(page.notes().await?.len() == 9, "{:?}", page.notes().await?);
    Ok(())
}

/// The window is called so, once it is.
async fn is_called(page: &Page, title: &str) -> Result<()> {
    let called = wait::until("the name of the window", async || {
        let called = page.eval("return document.title", vec![]).await?;
        Ok((called == json!(title)).then_some(()))
    });
    called.await
}

fn the_address_follows_and_comes_back() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        is_the_start_page(page).await?;
        ensure!(page.hash().await?.is_empty(), "a page that nobody changed has a bare address");
        is_called(page, "Corni in Es · Crookwise").await?;
        page.fill("textbox", LABEL, "Trombe in D").await?;
        is_called(page, "Trombe in D · Crookwise").await?;
        page.hash_has("staff=Trombe+in+D").await?;
        page.hash_has("notes=G4.C5.E5.G5.Fs5.E5.Bb4.A4.C5").await?;
        ensure!(page.hash().await?.starts_with("#/read?v=2."), "{}", page.hash().await?);
        let own = page.notes().await?;
        let own: Vec<&str> = own.iter().map(String::as_str).collect();

        // The reader's own page comes back at a bare address.
        page.come_back("").await?;
        page.value_is("textbox", LABEL, "Trombe in D").await?;
        page.notes_are(&own).await?;

        // A link that is merely looked at, in a new tab or in this one, leaves what is kept alone.
        page.come_back("/read?staff=Fagotti&notes=C3").await?;
        page.notes_are(&["written C3, sounds C3"]).await?;
        page.come_back("").await?;
        page.notes_are(&own).await?;
        page.fill("textbox", LABEL, "Trombe in C").await?;
        page.fill("textbox", LABEL, "Trombe in D").await?;
        page.notes_are(&own).await?;
        page.set_hash("/read?staff=Fagotti&notes=C3").await?;
        page.notes_are(&["written C3, sounds C3"]).await?;
        page.come_back("").await?;
        page.value_is("textbox", LABEL, "Trombe in D").await?;
        page.notes_are(&own).await?;

        // The page before is one Undo away from a link pasted over it.
        page.fill("textbox", LABEL, "Trombe in Es").await?;
        page.set_hash("/read?staff=Fagotti&notes=C3").await?;
        page.notes_are(&["written C3, sounds C3"]).await?;
        page.click("button", "Undo").await?;
        page.value_is("textbox", LABEL, "Trombe in Es").await?;
        page.hash_has("staff=Trombe+in+Es").await?;
        page.click("button", "Redo").await?;
        page.value_is("textbox", LABEL, "Fagotti").await?;
        page.hash_has("staff=Fagotti").await
    });
}

fn links_that_cannot_be_opened() {
    flow::in_browser(Browser::Chromium, &Setup::new(Window::PORTRAIT).hash(TRUMPETS), async |page| {
        // A whole link of this version, to be damaged.
        page.click("button", "Octave down").await?;
        page.hash_has("notes=C4.G5").await?;
        let whole = page.hash().await?;
        let cut = &whole[..whole.len() - 5];
        let changed = whole.replace("C4.G5", "C4.G4");
        let enormous = format!("/read?staff={}", "a".repeat(20_000));
        let many = format!("/read?staff=Corni+in+Es&notes={}", ["C5"; 65].join("."));
        let damaged = "This link is damaged: a part of it was lost or changed on the way";
        let foreign = "This address does not lead to a page of Crookwise";
        let notes = "This link is not understood where it gives the notes: ";
        // Of every kind of refusal one, and whatever might be run instead of read.
        let kinds = [
            (cut, damaged),
            ("/read?v=rubbish&staff=Corni", damaged),
            (
                "/read?v=9.1234&staff=Corni",
                "This link was made by a later version of Crookwise (9); reload to get it",
            ),
            (enormous.as_str(), "This link is longer than any that Crookwise makes"),
            (&many, "This link asks for more than a page holds"),
            ("/read?key=C+major", "This link names no staff"),
            ("/read?notes=C5", "This link has a part that is not known here: “notes”"),
            ("/read?staff=Corni&notes=\"><img src=x onerror=alert(1)>", notes),
            ("javascript:alert(1)", foreign),
            ("<script>alert(1)</script>", foreign),
        ];
        let more = [
            (changed.as_str(), damaged),
            ("/read?v=1.0000&staff=Corni", damaged),
            ("/read?staff=Corni&notes=H9", notes),
            ("/read?staff=Corni&notes=C99999999999999999999", notes),
            ("/read?staff=Corni&notes=%E2%80%AEC5%00", notes),
            ("/read?staff=Corni&a4=NaN", "This link is not understood where it gives the height of A: “NaN”"),
            ("/read?staff=Corni&clef=G9", "This link is not understood where it gives a clef: “G9”"),
            ("/read%3Fstaff=Corni", foreign),
        ];
        for (hash, sentence) in kinds {
            page.visit(hash).await?;
            let said = alert(page).await?;
            let start: String = hash.chars().take(60).collect();
            ensure!(said.contains(sentence), "{start}: {said}");
            ensure!(!said.contains('\u{202e}') && said.chars().count() < 300, "{start}: {said}");
            is_the_start_page(page).await?;
            page.tap("button", "All right").await?;
            page.find_gone("button", "All right").await?;
        }
        // As an address pasted over an open page, each leaves that page as it is.
        page.visit(TRUMPETS).await?;
        for (hash, sentence) in kinds.into_iter().chain(more) {
            page.set_hash(hash).await?;
            let said = alert(page).await?;
            ensure!(said.contains(sentence), "{hash:.60}: {said}");
            ensure!(!said.contains('\u{202e}') && said.chars().count() < 300, "{hash:.60}: {said}");
            page.notes_are(&["written C5, sounds D5", "written G5, sounds A5"]).await?;
            page.tap("button", "All right").await?;
            page.find_gone("button", "All right").await?;
        }
        Ok(())
    });
}

fn what_a_stranger_writes_stays_text() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        let texts = [
            "<script>window.hit = 1</script>",
            "\"><img src=x onerror=\"window.hit = 1\">",
            "javascript:window.hit=1",
            "</title></svg><svg onload=window.hit=1>",
            "\u{202e}inroC\u{2066}",
        ];
        for text in texts {
            let script = "const words = new URLSearchParams([['staff', arguments[0]], ['notes', 'C5'], ['hand', arguments[0]], ['at', '1']]);
                return '/read?' + words";
            let hash = page.eval(script, vec![json!(text)]).await?;
            page.visit(hash.as_str().unwrap_or_default()).await?;
            page.value_is("textbox", LABEL, text).await?;
            page.notes_are(&["written C5"]).await?;
            page.click("button", "Share").await?;
            page.find("textbox", "A link to exactly this page").await?;
            let hit = page
                .eval(
                    "return [typeof window.hit, document.querySelectorAll('main script, main img').length]",
                    vec![],
                )
                .await?;
            ensure!(hit == json!(["undefined", 0]), "{text}: {hit}");
        }
        Ok(())
    });
}

/// Runs a script before the page's own from the next load on: a stand-in for a browser that is set up so.
async fn before_the_page(page: &Page, script: &str) -> Result<String> {
    let answer = page.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script })).await?;
    Ok(answer["identifier"].as_str().unwrap_or_default().to_owned())
}

fn without_storage_nothing_is_lost_from_the_address() {
    // Stand-ins for browsers whose storage is forbidden, is full, or does not exist.
    let stand_ins = [
        "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('forbidden', 'SecurityError'); } });",
        "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };",
        "Object.defineProperty(window, 'localStorage', { value: null });",
    ];
    flow::in_browser(Browser::Chromium, &Setup::new(Window::LANDSCAPE), async |page| {
        for script in stand_ins {
            let known = before_the_page(page, script).await?;
            page.come_back("").await?;
            is_the_start_page(page).await?;
            page.fill("textbox", LABEL, "Trombe in D").await?;
            page.click("button", "More tools").await?;
            page.click("button", "Clear the staff").await?;
            page.click("button", "Add a note").await?;
            page.notes_are(&["written B4, sounds C-sharp 5"]).await?;
            page.hash_has("notes=B4").await?;
            page.reload().await?;
            page.value_is("textbox", LABEL, "Trombe in D").await?;
            page.notes_are(&["written B4, sounds C-sharp 5"]).await?;
            page.cdp("Page.removeScriptToEvaluateOnNewDocument", json!({ "identifier": known })).await?;
        }
        Ok(())
    });
}

fn a_key_held_down_is_not_lost_from_the_address() {
    flow::in_every_browser(
        &Setup::new(Window::LANDSCAPE).hash("/read?staff=Corni+in+Es&notes=C5&at=1"),
        async |page| {
            // More changes than browsers let a page write into its address in a short time.
            page.focus("button", crookwise_tests::find::Name::Has("written C5".into())).await?;
            for _ in 0..26 {
                page.write("+-+-+-+-+-").await?;
            }
            page.write("+").await?;
            page.notes_are(&["written C-sharp 5"]).await?;
            page.hash_has("notes=Cs5").await
        },
    );
}
