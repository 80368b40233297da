//! The address and the setting, kept in step: what a link brings is opened, what is changed is what the address says.

use crate::state::crooks::Crooks;
use crate::state::kept::follow;
use crate::state::session::Session;
use crookwise_share::Link;
use crookwise_share::crooks::{CrooksLink, SentCrooks};
use leptos::prelude::*;

/// Follows both, for as long as the app lasts.
pub fn follow_crooks(crooks: Crooks) {
    let Session { whereabouts, notices, .. } = Session::get();
    follow(move || {
        let text = whereabouts.crooks.get();
        let own = crooks.setting.with_untracked(address);
        let Ok(Some(Link::Crooks(sent))) = Link::decode_readable(&text) else { return };
        if sent.is_empty() || text == own {
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
        let own = crooks.setting.with(address);
        // Nobody has changed anything yet: the address stays bare.
        if !core::mem::take(&mut is_first) {
            whereabouts.crooks.set(own);
        }
    });
}

/// What the address says of a setting: the link, or where it would be too long, the place alone.
fn address(setting: &CrooksLink) -> String {
    SentCrooks::of(setting).link().short().unwrap_or_else(|| Link::CROOKS.to_owned())
}
