//! What the address says of Score: which movement is open, and which place of it a link leads to. A file stands on one device
//! only, so its link leads to it there, and says what it is called; the demo movement is everywhere.

use super::ComesFrom;
use super::music::RowsShown;
use super::part_paper::{PartWishes, value_of};
use crate::state::place::PAPER;
use crate::state::practise::paper::PaperSize;
use std::borrow::Cow;

/// A link to Score that is not understood.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoSource;

/// A place of a movement. Staves are counted from 0; in the link the first is 1.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LinkedPlace {
    /// The staves that are shown; those that usually are, where none is named.
    pub staves: Vec<u32>,
    /// The first and the last bar, as they would be typed.
    pub bars: Option<(String, String)>,
    /// The staff that is read along.
    pub along: Option<u32>,
    /// The part that is on paper.
    pub paper: Option<PartWishes>,
    /// What its score is called, for whom it is not here.
    pub title: String,
}

/// At which pitch a part is on paper, in a link.
const PITCHES: [(&str, RowsShown); 3] =
    [("written", RowsShown::Written), ("sounding", RowsShown::Sounding), ("both", RowsShown::Both)];

/// The letters of the longest title that a link has.
const LONGEST_TITLE: usize = 80;

/// The pairs of a link.
#[must_use]
pub fn pairs(source: Option<&ComesFrom>) -> String {
    match source {
        None => String::new(),
        Some(ComesFrom::Demo) => "demo=1".to_owned(),
        Some(ComesFrom::File(id)) => format!("kept={id}"),
    }
}

/// The pairs of a link to a place.
#[must_use]
pub fn pairs_to(source: &ComesFrom, place: &LinkedPlace) -> String {
    let mut more = form_urlencoded::Serializer::new(String::new());
    if !place.staves.is_empty() {
        more.append_pair("staves", &numbers(&place.staves));
    }
    if let Some((first, last)) = &place.bars {
        more.append_pair("bars", &format!("{first}-{last}"));
    }
    if let Some(staff) = &place.along {
        more.append_pair("along", &numbers(&[*staff]));
    }
    if let Some(wishes) = &place.paper {
        more.append_pair(PAPER, &numbers(&wishes.staves));
        let pitch = PITCHES.iter().find(|(_, shown)| *shown == wishes.shown);
        more.extend_pairs(pitch.map(|(name, _)| ("pitch", name)));
        more.append_pair("sheet", wishes.size.id());
        more.extend_pairs(wishes.only_chosen.then_some(("only", "bars")));
    }
    if !place.title.is_empty() {
        more.append_pair("title", &place.title.chars().take(LONGEST_TITLE).collect::<String>());
    }
    let more = more.finish();
    let source = pairs(Some(source));
    if more.is_empty() { source } else { [source.as_str(), more.as_str()].join("&") }
}

/// What the pairs of a link name: a movement and a place of it.
///
/// # Errors
/// Where they are not understood.
pub fn read(pairs: &str) -> Result<Option<(ComesFrom, LinkedPlace)>, NoSource> {
    let mut source = None;
    let mut place = LinkedPlace::default();
    let mut paper = Vec::new();
    for (name, value) in form_urlencoded::parse(pairs.as_bytes()) {
        let value = value.as_ref();
        match name.as_ref() {
            "demo" if value == "1" => source = Some(ComesFrom::Demo),
            "kept" if !value.is_empty() && value.chars().all(|letter| letter.is_ascii_alphanumeric()) => {
                source = Some(ComesFrom::File(value.to_owned()));
            }
            "staves" => place.staves = staves(value)?,
            "along" => place.along = staves(value)?.first().copied(),
            PAPER | "pitch" | "sheet" | "only" => paper.push((name, value.to_owned())),
            "bars" => {
                let (first, last) = value.split_once('-').unwrap_or((value, value));
                place.bars = Some((first.to_owned(), last.to_owned()));
            }
            "title" => {
                let letters = value.chars().filter(|letter| !letter.is_control());
                place.title = letters.take(LONGEST_TITLE).collect();
            }
            _ => return Err(NoSource),
        }
    }
    if !paper.is_empty() {
        place.paper = Some(on_paper(&paper)?);
    }
    match source {
        Some(source) => Ok(Some((source, place))),
        None if place == LinkedPlace::default() => Ok(None),
        None => Err(NoSource),
    }
}

/// What a link says of the part on paper; what it does not say is as the paper begins.
fn on_paper(pairs: &[(Cow<'_, str>, String)]) -> Result<PartWishes, NoSource> {
    let mut wishes = PartWishes::of(Vec::new());
    for (name, value) in pairs {
        match name.as_ref() {
            PAPER => wishes.staves = staves(value)?,
            "pitch" => wishes.shown = PITCHES.iter().find(|(name, _)| name == value).ok_or(NoSource)?.1,
            "sheet" => {
                wishes.size = PaperSize::ALL.into_iter().find(|size| size.id() == value).ok_or(NoSource)?;
            }
            _ if value == "bars" => wishes.only_chosen = true,
            _ => return Err(NoSource),
        }
    }
    if wishes.staves.is_empty() { Err(NoSource) } else { Ok(wishes) }
}

/// Staves as a link counts them.
fn numbers(staves: &[u32]) -> String {
    value_of(&staves.iter().map(|staff| staff.saturating_add(1)).collect::<Vec<_>>())
}

fn staves(numbers: &str) -> Result<Vec<u32>, NoSource> {
    let counted = numbers.split('.').map(|number| number.parse::<u32>().ok()?.checked_sub(1));
    counted.collect::<Option<_>>().ok_or(NoSource)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::movement::along::entries;
    use crate::state::movement::bars;
    use crookwise_opened::{Answer, Ask, ScoreHolder};
    use crookwise_practice::course::{CourseStep, Entry};
    use crookwise_share::Link;

    fn file(id: &str) -> ComesFrom {
        ComesFrom::File(id.to_owned())
    }

    #[test]
    fn links_go_round_and_rubbish_is_told() {
        for source in [None, Some(ComesFrom::Demo), Some(file("1a2b"))] {
            let read = read(&pairs(source.as_ref()));
            assert_eq!(read, Ok(source.map(|source| (source, LinkedPlace::default()))));
        }
        let rubbish = [
            "kept=",
            "kept=../x",
            "demo=2",
            "x",
            "staff=Corni",
            "bars=1-2",
            "demo=1&staves=0",
            "demo=1&along=x",
            "demo=1&staves=1..2",
            "demo=1&page=4",
            "demo=1&paper=0",
            "demo=1&pitch=both",
            "demo=1&paper=2&sheet=a5",
            "demo=1&paper=2&only=x",
        ];
        for rubbish in rubbish {
            assert_eq!(read(rubbish), Err(NoSource), "{rubbish}");
        }
    }

    #[test]
    fn a_link_to_a_place_is_read_by_eye_and_goes_round() {
        let place = LinkedPlace {
            staves: vec![4, 5],
            bars: Some(("24".into(), "C".into())),
            along: Some(4),
            paper: None,
            title: "Sinfonia & Rondo, 2".into(),
        };
        let text = pairs_to(&file("1a2b"), &place);
        assert_eq!(text, "kept=1a2b&staves=5.6&bars=24-C&along=5&title=Sinfonia+%26+Rondo%2C+2");
        assert_eq!(read(&text), Ok(Some((file("1a2b"), place))));
        assert_eq!(pairs_to(&ComesFrom::Demo, &LinkedPlace::default()), "demo=1");
        let one = read("demo=1&bars=12").unwrap().unwrap().1;
        assert_eq!(one.bars, Some(("12".into(), "12".into())));
    }

    #[test]
    fn a_link_to_a_part_on_paper_goes_round() {
        let mut wishes = PartWishes::of(vec![4, 5]);
        for (shown, size, only_chosen, text) in [
            (RowsShown::Written, PaperSize::A4, false, "demo=1&paper=5.6&pitch=written&sheet=a4"),
            (RowsShown::Both, PaperSize::Letter, true, "demo=1&paper=5.6&pitch=both&sheet=letter&only=bars"),
        ] {
            (wishes.shown, wishes.size, wishes.only_chosen) = (shown, size, only_chosen);
            let place = LinkedPlace { paper: Some(wishes.clone()), ..LinkedPlace::default() };
            assert_eq!(pairs_to(&ComesFrom::Demo, &place), text);
            assert_eq!(read(text), Ok(Some((ComesFrom::Demo, place))));
        }
        let typed = read("demo=1&paper=2").unwrap().unwrap().1;
        assert_eq!(typed.paper, Some(PartWishes::of(vec![1])));
    }

    /// Where lessons lead to: all of it is in the demo movement, and who is read along there has something to be asked.
    #[test]
    fn places_of_the_course_are_in_the_demo_movement() {
        let mut holder = ScoreHolder::default();
        let file = include_bytes!("../../../demo/movement.musicxml").to_vec();
        let mut ask = |ask: Ask, file: Vec<u8>| holder.answer(ask, file, &mut |_| {});
        let Answer::Score(summary) = ask(Ask::Open(String::new()), file) else { panic!() };
        let Answer::Map(rows) = ask(Ask::Map, Vec::new()) else { panic!() };
        let mut count = 0;
        for step in CourseStep::ALL {
            for entry in step.lesson().unwrap().entries {
                let Entry::Place { link, .. } = entry else { continue };
                let Ok(Some(Link::Score(pairs))) = Link::decode_readable(&link) else { panic!("{link}") };
                let (source, place) = read(&pairs).unwrap().unwrap();
                assert_eq!(
                    (source, pairs.as_str()),
                    (ComesFrom::Demo, pairs_to(&ComesFrom::Demo, &place).as_str())
                );
                let (from, to) = place.bars.expect("a place has bars");
                let (first, last) = bars::chosen(&summary, &from, &to).unwrap();
                assert!(place.staves.iter().all(|staff| rows.staves.iter().any(|row| row.staff == *staff)));
                if let Some(along) = place.along {
                    let asked = entries(&rows, along);
                    assert!(asked.iter().any(|one| (first..=last).contains(&one.bar)), "{link}");
                }
                count += 1;
            }
        }
        assert!(count >= 4, "{count}");
    }
}
