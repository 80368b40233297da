//! The app comes up in real browsers, at every size, without a word on the console, a request elsewhere, or a barrier.

use crookwise_tests::browser::Browser;
use crookwise_tests::flow::{self, Setup};
use crookwise_tests::window::{Light, Window};

fn comes_up(window: Window) {
    flow::in_every_browser(&Setup::new(window), async |page| {
        let heading = page.find("heading", "Crookwise").await?;
        // Our own search by role and name agrees with what the browser tells a screen reader.
        assert_eq!(page.spoken(&heading).await?, ("heading".into(), "Crookwise".into()));
        let width = page.eval("return document.documentElement.clientWidth", vec![]).await?;
        assert_eq!(width.as_u64(), Some(u64::from(window.width)), "the page is as wide as its window");
        page.axe().await
    });
}

#[test]
fn on_a_tablet_on_its_side() {
    comes_up(Window::LANDSCAPE);
}

#[test]
fn on_a_tablet_upright() {
    comes_up(Window::PORTRAIT);
}

#[test]
fn on_a_telephone() {
    comes_up(Window::PHONE);
}

#[test]
fn on_a_desk() {
    comes_up(Window::DESK);
}

#[test]
fn in_the_dark() {
    flow::in_browser(Browser::Chromium, &Setup::new(Window::LANDSCAPE).light(Light::Dark), async |page| {
        page.find("heading", "Crookwise").await?;
        page.axe().await
    });
}
