//! The address and the setting, kept in step: what a link brings is opened, what is changed is what the address says. The device
//! keeps it too, since notes of a whole movement may be more than an address holds.

use crate::state::crooks::{Crooks, setting};
use crate::state::kept::follow;
use crate::state::session::Session;
use crate::store::Store;
use crate::words::crooks as words;
use crookwise_share::crooks::{CrooksLink, SentCrooks};
use crookwise_share::{Link, LinkError};
use leptos::prelude::*;

/// Follows both, for as long as the app lasts.
pub fn follow_crooks(crooks: Crooks) {
    let Session { whereabouts, notices, .. } = Session::get();
    let store = Store::get();
    follow(move || {
        let text = whereabouts.crooks.get();
        let own = crooks.setting.with_untracked(address);
        let Ok(Some(Link::Crooks(sent))) = Link::decode_readable(&text) else { return };
        if text == own {
            return;
        }
        let view = sent.view();
        let is_other_view = sent.is_only_a_view()
            || crooks.setting.with_untracked(|setting| SentCrooks::of(setting).showing(view) == sent);
        if is_other_view {
            crooks.look(|setting| setting.view = view);
            return;
        }
        untrack(|| match sent.open() {
            Ok(setting) => crooks.open(setting),
            Err(error) => {
                notices.say(error.to_string());
                whereabouts.crooks.set(own);
            }
        });
    });
    let mut is_first = true;
    follow(move || {
        let link = crooks.setting.with(SentCrooks::of).link();
        // Nobody has changed anything yet: the address stays bare.
        if core::mem::take(&mut is_first) {
            return;
        }
        let short = link.short();
        let is_kept = store.keep_crooks(&short.clone().unwrap_or_else(|| link.encode()));
        if !is_kept && short.is_none() {
            notices.show(Some(words::NOT_KEPT.to_owned()));
        }
        whereabouts.crooks.set(short.unwrap_or_else(|| crooks.setting.with_untracked(bare)));
    });
    follow(move || {
        let text = whereabouts.wanted.get();
        if !text.is_empty() {
            untrack(|| {
                whereabouts.wanted.set(String::new());
                match opened(&text) {
                    Ok(brought) => crooks.change(|asked| setting::take(asked, brought)),
                    Err(why) => notices.say(why),
                }
            });
        }
    });
}

/// What the device has kept of this window's setting, where it can be read, else a movement of our own. What is looked at says the
/// address alone.
pub fn first() -> CrooksLink {
    let kept = Store::get().kept_crooks().and_then(|text| opened(&text).ok());
    let view = Session::get().whereabouts.crooks_view();
    CrooksLink { view, ..kept.unwrap_or_else(setting::first) }
}

/// The setting in a link that never was in an address, and may be longer.
fn opened(text: &str) -> Result<CrooksLink, String> {
    match Link::decode_kept(text) {
        Ok(Some(Link::Crooks(sent))) => sent.open().map_err(|error| error.to_string()),
        Ok(_) => Err(LinkError::Damaged.to_string()),
        Err(error) => Err(error.to_string()),
    }
}

/// What the address says of a setting: the link, or where it would be too long, what is looked at alone.
fn address(setting: &CrooksLink) -> String {
    SentCrooks::of(setting).link().short().unwrap_or_else(|| bare(setting))
}

fn bare(setting: &CrooksLink) -> String {
    SentCrooks::default().showing(setting.view).link().encode()
}
