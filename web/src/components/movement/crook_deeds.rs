//! The horns and trumpets of a movement are handed to Crooks, to be planned as a whole.

use super::deeds::Deeds;
use crate::browser::sight;
use crate::words;
use crookwise_opened::{Answer, Ask};
use leptos::prelude::*;
use leptos::task::spawn_local;

impl Deeds {
    /// Plans the crooks of the whole movement, or of the bars that are chosen. The way back leads to where the reader was.
    pub fn to_crooks(self, whole: bool) {
        let Self { movement, session, .. } = self;
        let bars = match untrack(|| movement.bars()) {
            _ if whole => None,
            Ok(bars) => Some(bars),
            Err(why) => return self.fail(why),
        };
        let title = movement.open.with_untracked(|open| {
            open.as_ref().map(|open| words::movement::title(&open.summary.title, &open.file).to_owned())
        });
        let ask = Ask::Crooks { bars, title: title.unwrap_or_default() };
        spawn_local(async move {
            match self.ask(&ask).await {
                Some(Answer::Crooks(text)) => {
                    movement.depth.set(sight::depth());
                    session.whereabouts.plan(text);
                    sight::top();
                }
                Some(Answer::No(why)) => self.fail(why),
                _ => {}
            }
        });
    }
}
