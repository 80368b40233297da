//! What horns and trumpets sound, as what is wanted in Crooks.

use crate::holder::{Opened, decoder};
use crookwise_planner::of_score;
use crookwise_planner::{MOST_NOTES, Ticks};
use crookwise_share::crooks::{CrooksLink, MOST_BARS, MOST_TITLE, SentCrooks};

/// In these bars, or in all of them, as the text of a link to Crooks, where the movement is called so.
pub(crate) fn wanted(opened: &Opened, bars: Option<(u32, u32)>, title: &str) -> Result<String, String> {
    let score = &opened.import.score;
    let wide = |bar: u32| usize::try_from(bar).unwrap_or(usize::MAX);
    let bars = bars.map_or(0..usize::MAX, |(first, last)| wide(first)..wide(last).saturating_add(1));
    let bars = bars.start..bars.end.min(score.bars().len());
    let found = of_score::in_bars(score, bars, Ticks::default(), &mut decoder);
    let Some(found) = found else {
        return Err("No horns and trumpets were found here whose notes can be planned".to_owned());
    };
    let notes = found.request.notes.len();
    if notes == 0 {
        return Err("The horns and trumpets are silent here".to_owned());
    }
    if notes > MOST_NOTES || found.layout.bars.len() > wide(MOST_BARS) {
        return Err("This is too long to be planned at once: choose fewer bars".to_owned());
    }
    let link = CrooksLink { title: title.chars().take(MOST_TITLE).collect(), ..CrooksLink::from(found) };
    Ok(SentCrooks::of(&link).link().encode())
}
