//! The app comes up in real browsers, at every size, without a word on the console, a request elsewhere, or a barrier.
//! In Chromium the sizes, light and dark, are looked at more closely in `flows_layout`.

use crookwise_tests::browser::Browser;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::window::Window;
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] =
    &crookwise_tests::flows![on_a_tablet_on_its_side, on_a_tablet_upright, on_a_telephone, on_a_desk];

fn comes_up(browser: Browser, window: Window) {
    flow::in_browser(browser, &Setup::new(window).kept(), async |page| {
        let heading = page.find("heading", "Crookwise").await?;
        // Our own search by role and name agrees with what the browser tells a screen reader.
        assert_eq!(page.spoken(&heading).await?, ("heading".into(), "Crookwise".into()));
        // A telephone would show a page that is too wide all at once, and so be wider than it is; elsewhere it scrolls.
        let sizes =
            "const page = document.documentElement; return [innerWidth, page.scrollWidth - page.clientWidth]";
        let sizes = page.eval(sizes, vec![]).await?;
        assert_eq!(
            sizes,
            json!([window.width, 0]),
            "the page is as wide as its window and does not scroll sideways"
        );
        page.axe().await
    });
}

fn on_a_tablet_on_its_side() {
    comes_up(Browser::Chromium, Window::LANDSCAPE);
    comes_up(Browser::WebKit, Window::LANDSCAPE);
}

fn on_a_tablet_upright() {
    comes_up(Browser::WebKit, Window::PORTRAIT);
}

fn on_a_telephone() {
    comes_up(Browser::WebKit, Window::PHONE);
}

fn on_a_desk() {
    comes_up(Browser::WebKit, Window::DESK);
}
