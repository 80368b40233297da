//! The address and the setting, kept in step: what a link brings is opened, what is changed is what the address says.

use crate::state::crooks::Crooks;
use crate::state::kept::follow;
use crate::state::session::Session;
use crookwise_share::crooks::SentCrooks;
use leptos::prelude::*;

/// Follows both, for as long as the app lasts.
pub fn follow_crooks(crooks: Crooks) {
    let Session { whereabouts, notices, .. } = Session::get();
    follow(move || {
        let sent = whereabouts.crooks.get();
        let own = crooks.setting.with_untracked(SentCrooks::of);
        if sent.is_empty() || sent == own {
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
        let own = crooks.setting.with(SentCrooks::of);
        // Nobody has changed anything yet: the address stays bare.
        if !core::mem::take(&mut is_first) {
            whereabouts.crooks.set(own);
        }
    });
}
