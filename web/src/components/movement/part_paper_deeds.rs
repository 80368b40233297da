//! What a part on paper asks of the worker, and the ways to it and back.

use crate::browser::sight;
use crate::components::movement::deeds::Deeds;
use crate::components::movement::part_paper::BACK;
use crate::state::kept::{Derived, follow};
use crate::state::movement::Movement;
use crate::state::movement::part_paper::PartPaper;
use crookwise_opened::{Answer, Ask};
use leptos::prelude::*;
use leptos::task::spawn_local;

/// What leads to the paper.
pub const OPENER: &str = "print-a-part";

/// Puts a part on paper; the way back leads to where the reader was.
pub fn open(paper: PartPaper) {
    let movement = Movement::get();
    movement.depth.set(sight::depth());
    movement.open.with_untracked(|open| {
        if let Some(open) = open {
            paper.open(&open.source, &open.summary, &movement.chosen.get_untracked());
        }
    });
    sight::top_at(BACK.to_owned());
}

/// Keeps the part laid out as it is wanted, for as long as the app lasts.
pub fn follow_part_paper(paper: PartPaper) {
    let (movement, deeds) = (Movement::get(), Deeds::get());
    let wanted = Derived::new(move || {
        let wishes = paper.wishes.get().filter(|_| movement.open.is_some())?;
        let bars = if wishes.only_chosen { movement.bars().ok() } else { None };
        let (width, letters) = wishes.measures();
        let ask = Ask::Part { row: wishes.row(), bars: bars.unwrap_or((0, u32::MAX)), width, letters };
        Some((movement.now(), ask))
    });
    follow(move || {
        let Some((now, ask)) = wanted.get() else { return };
        paper.rows.set(None);
        paper.problem.set(None);
        spawn_local(async move {
            fetch_signs(deeds, paper).await;
            let answer = deeds.ask(&ask).await;
            // Unless something else is wanted by now.
            if untrack(|| wanted.get()) != Some((now, ask)) {
                return;
            }
            match answer {
                Some(Answer::Part(rows)) => paper.rows.set(Some(rows)),
                Some(Answer::No(why)) => paper.problem.set(Some(why)),
                _ => {}
            }
        });
    });
}

/// Has the signs that parts are drawn with, which are the same for all.
async fn fetch_signs(deeds: Deeds, paper: PartPaper) {
    if paper.signs.with_untracked(String::is_empty)
        && let Some(Answer::Signs(signs)) = deeds.ask(&Ask::Signs).await
    {
        paper.signs.set(signs);
    }
}
