//! A link leads to a place of a movement, and a link to the place on the screen is made.

use crate::browser::address;
use crate::components::movement::deeds::Deeds;
use crate::components::movement::map_deeds::go_to_bar;
use crate::state::movement::ComesFrom;
use crate::state::movement::link::{self, LinkedPlace};
use crate::words;
use crookwise_share::Link;
use leptos::prelude::*;

impl Deeds {
    /// Shows a place of a movement, if that is open: the address names the movement from then on, and what is chosen in it is
    /// left as anything that was chosen.
    pub(super) fn arrive(self, source: &ComesFrom, place: &LinkedPlace) {
        let Self { movement, music, along, session, .. } = self;
        if movement.open.map(|open| open.source == *source) != Some(true) {
            return;
        }
        if place.paper.is_some() {
            // The address goes on to say what is on paper; of the bars only which they are is wanted.
            session.whereabouts.score.set(link::pairs_to(source, place));
            return movement.lead_to(place);
        }
        session.whereabouts.score.set(link::pairs(Some(source)));
        if *place == LinkedPlace::default() {
            return;
        }
        movement.lead_to(place);
        let first = untrack(|| movement.bars()).map(|bars| bars.0).unwrap_or_default();
        match place.along {
            Some(staff) => along.begin(staff, first),
            None => along.leave(),
        }
        // The music may be laid anew for it.
        music.arrives_at.set(Some(first));
        go_to_bar(music, first, &[]);
    }

    /// The address of the place that is chosen.
    pub(super) fn place_link(self) -> String {
        let Self { movement, along, .. } = self;
        let open = movement.open.get();
        let place = LinkedPlace {
            staves: movement.chosen.get(),
            bars: Some(movement.typed_bars()),
            along: along.staff.get(),
            paper: None,
            title: match &open {
                Some(open) if open.source != ComesFrom::Demo => {
                    words::movement::title(&open.summary.title, &open.file).to_owned()
                }
                _ => String::new(),
            },
        };
        let pairs = open.map(|open| link::pairs_to(&open.source, &place)).unwrap_or_default();
        address::with_hash(&Link::Score(pairs).encode())
    }
}
