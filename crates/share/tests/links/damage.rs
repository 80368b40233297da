//! A damaged link opens as nothing. What is left of it may only open where the standard reads the same pairs out of it,
//! as with `%2f` for `%2F`, or where nothing but the whole stamp was lost, as if typed by hand: then as the same.

use crate::any_page::any_page;
use crate::{bare, meaning};
use crookwise_practice::{AskedStaff, Exercise, Kind};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use proptest::prelude::*;

/// Letters that stand in links, and some that do not.
const LETTERS: &str = "abcXYZ0189&=+.%_-*#?/ ~\u{e4}";

fn links() -> Vec<String> {
    let lookup = "/read?staff=Corni+in+Es&notes=C4.E4.G4.Bb4&key=Eb+major&at=2";
    let page =
        "/read?staff=H%C3%B6rner+%26+%2F&players=2&notes=*C5.G4&notes2=-.C4&muta2=2_in+D&lengths=1.3_2";
    let exercise = SentExercise::of(&Exercise {
        staves: vec![AskedStaff::of("Corni in Es")],
        kinds: vec![Kind::Sounds],
        ..Exercise::default()
    });
    let opened = |text: &str| Link::decode(text).unwrap().unwrap();
    let links = [
        opened(lookup),
        opened(page),
        Link::Kept("My page".into()),
        PractiseLink::Step(3).into(),
        PractiseLink::Record.into(),
        PractiseLink::Class("CWX1".into()).into(),
        PractiseLink::Do(Some(exercise)).into(),
    ];
    links.iter().flat_map(|link| [link.encode(), link.pack()]).collect()
}

/// Refused, or the same link by the standard.
fn is_refused_or_the_same(whole: &str, spoiled: &str) {
    let opened = Link::decode(spoiled);
    // All that a packed link says stands in its stamp.
    let packed = whole.contains("?v=3.");
    let unstamped = !packed && bare(spoiled) == meaning(spoiled) && bare(spoiled) == bare(whole);
    // As out of the middle of a sentence.
    let within = spoiled.trim_end_matches(['.', ',', ';', ':', '!', '?', ')', ']', '}', '>', '*', '"', '\'']);
    let marked = meaning(within) == meaning(whole);
    if meaning(whole) == meaning(spoiled) || unstamped || marked {
        assert_eq!(opened, Link::decode(whole), "{spoiled}");
    } else {
        assert!(opened.is_err(), "{whole:?} became {spoiled:?} and opened as {opened:?}");
    }
}

#[test]
fn one_letter_changed_is_refused_wherever_it_stands() {
    for whole in links() {
        let letters: Vec<char> = whole.chars().collect();
        for at in 1..letters.len() {
            for letter in LETTERS.chars() {
                let mut spoiled = letters.clone();
                spoiled[at] = letter;
                is_refused_or_the_same(&whole, &spoiled.iter().collect::<String>());
                spoiled.insert(at, letters[at]);
                is_refused_or_the_same(&whole, &spoiled.iter().collect::<String>());
            }
        }
    }
}

#[test]
fn a_stretch_lost_or_doubled_and_letters_that_change_places_are_refused() {
    for whole in links() {
        for at in 1..whole.len() {
            for end in at + 1..=whole.len().min(at + 12) {
                let lost = format!("{}{}", &whole[..at], &whole[end..]);
                // What is cut back to a bare place is the address of that place.
                if !["/", "/read", "/practise"].contains(&lost.as_str()) {
                    is_refused_or_the_same(&whole, &lost);
                }
                is_refused_or_the_same(&whole, &format!("{}{}", &whole[..end], &whole[at..]));
            }
            let mut swapped: Vec<char> = whole.chars().collect();
            if at + 1 < swapped.len() {
                swapped.swap(at, at + 1);
                is_refused_or_the_same(&whole, &swapped.iter().collect::<String>());
            }
        }
    }
}

#[test]
fn a_link_cut_short_is_refused_wherever_it_was_cut() {
    for whole in links() {
        let place = whole.find('?').unwrap();
        for end in place + 1..whole.len() {
            is_refused_or_the_same(&whole, &whole[..end]);
            assert!(Link::decode(&whole[..end]).is_err() || whole.ends_with('='), "{} opened", &whole[..end]);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn a_changed_letter_of_any_page_is_refused(
        page in any_page(8, 12),
        changes in prop::collection::vec((any::<prop::sample::Index>(), "[ -~]"), 1..40),
    ) {
        let link = Link::Read(Box::new(page));
        for (packed, (at, letter)) in changes.into_iter().enumerate() {
            let whole = if packed % 4 == 0 { link.pack() } else { link.encode() };
            let mut spoiled: Vec<char> = whole.chars().collect();
            let at = at.index(spoiled.len() - 1) + 1;
            spoiled[at] = letter.chars().next().unwrap_or('?');
            is_refused_or_the_same(&whole, &spoiled.iter().collect::<String>());
        }
    }

    #[test]
    fn no_text_panics(text in "\\PC{0,200}", pairs in "[a-z0-9=&.%_+-]{0,120}") {
        let _ = Link::decode(&text);
        for place in ["read?staff=Corni", "read?kept=x", "practise?do=AQ", "practise?step=1"] {
            let _ = Link::decode(&format!("#/{place}&{pairs}"));
        }
    }
}
