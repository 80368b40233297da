//! The largest page that there can be is kept and opened; a link says that it does not fit.

use crookwise_score::{
    Change, ChangeTo, Choice, Event, Length, MOST_COLUMNS, MOST_PLAYERS, MOST_STAVES, SignatureSource,
};
use crookwise_share::{LONGEST, LONGEST_KEPT, Link, LinkError, ReadPage};
use crookwise_theory::label::LONGEST as LONGEST_LABEL;
use crookwise_theory::{Clef, ClefSign, Instrument, Pitch, Printed, Signature, Step, Transposition};

/// Everything that a page of so many columns can hold, each with its longest text: labels of letters that an address
/// writes in twelve.
fn largest(columns: usize) -> ReadPage {
    let label = "\u{1d122}".repeat(LONGEST_LABEL);
    let mut page = ReadPage::of_label(&label);
    for _ in 1..MOST_STAVES {
        page.passage.add_staff(&label).unwrap();
    }
    let event = Event::Note(Printed(Pitch::new(Step::F, 9, -2)));
    let id = Instrument::by_id("bass_clarinet").unwrap_or(&crookwise_theory::tables::INSTRUMENTS[0]);
    let choice = Some(Choice { instrument: id, transposition: Transposition::new(-28, -48) });
    for staff in 0..MOST_STAVES {
        page.passage.set_players(staff, MOST_PLAYERS).unwrap();
        for column in 0..columns {
            for player in 0..MOST_PLAYERS {
                page.passage.set(staff, column, player, event).unwrap();
            }
        }
        let mut change =
            |column, player, to| page.passage.set_change(staff, Change { column, player, to }).unwrap();
        for column in 0..columns {
            change(column, None, ChangeTo::Label(label.clone()));
            (0..MOST_PLAYERS).for_each(|player| change(column, Some(player), ChangeTo::Label(label.clone())));
            change(column, None, ChangeTo::Clef(Clef::new(ClefSign::G, 2, -1).unwrap()));
            change(column, None, ChangeTo::Signature(SignatureSource::Typed(Signature(-7))));
        }
        for player in 0..MOST_PLAYERS {
            page.passage.set_crook(staff, player, choice).unwrap();
        }
    }
    for column in 0..columns {
        page.passage.set_length(column, Length::new(u32::MAX, u32::MAX - 1)).unwrap();
        page.passage.set_movement_at(column, Some("Eb minor".parse().unwrap())).unwrap();
    }
    page.in_hand = Some(label);
    page
}

#[test]
fn the_largest_page_is_kept_and_opened() {
    let link = Link::Read(Box::new(largest(MOST_COLUMNS)));
    let text = link.encode();
    // Room is left for what pages learn later.
    assert!(text.len() * 5 / 4 < LONGEST_KEPT, "{} characters", text.len());
    assert_eq!(Link::decode_kept(&text), Ok(Some(link)));
    assert_eq!(Link::decode(&text), Err(LinkError::TooLong));
}

#[test]
fn a_page_that_does_not_fit_says_what_would() {
    let long = Link::Read(Box::new(largest(2))).share().unwrap_err();
    assert_eq!((long.staves, long.columns), ((0, MOST_STAVES), (0, 2)));
    assert!(long.to_string().ends_with("Not even one staff or one column of it would fit"), "{long}");
    // A page that the app can make: sixteen staves of three players with a note in every column.
    let mut page = ReadPage::of_label("3 Corni in Es");
    for staff in 0..MOST_STAVES {
        if staff > 0 {
            page.passage.add_staff("3 Corni in Es").unwrap();
        }
        page.passage.set_players(staff, 3).unwrap();
        for column in 0..MOST_COLUMNS {
            for player in 0..3 {
                page.passage
                    .set(staff, column, player, Event::Note(Printed("Bb4".parse().unwrap())))
                    .unwrap();
            }
        }
    }
    let long = Link::Read(Box::new(page.clone())).share().unwrap_err();
    assert!(long.length > LONGEST && long.staves == (9, 16) && long.columns == (37, 64), "{long:?}");
    let said = "The first 9 of its 16 staves would fit, or the first 37 of its 64 columns";
    assert!(long.to_string().ends_with(said), "{long}");
    // What is said to fit fits, and no more.
    for (staves, fits) in [(9, true), (10, false)] {
        let mut part = page.clone();
        while part.passage.staves().len() > staves {
            part.passage.remove_staff(staves).unwrap();
        }
        assert_eq!(Link::Read(Box::new(part)).share().is_ok(), fits);
    }
}
