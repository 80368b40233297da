//! The largest page that there can be is kept and opened; a link says that it does not fit.

use crate::open;
use crate::pages::FRONT;
use crookwise_score::{
    BarNumber, Change, ChangeTo, Choice, Event, Length, MOST_COLUMNS, MOST_PLAYERS, MOST_STAVES,
    SignatureSource,
};
use crookwise_share::{LONGEST_KEPT, Link, LinkError, ReadPage, TooLong};
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
        page.passage.set_bar(column, BarNumber::new("1234567x")).unwrap();
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
    let long = Link::Read(Box::new(largest(2))).share(FRONT).unwrap_err();
    assert_eq!((long.staves, long.columns), ((3, MOST_STAVES), (0, 2)));
    assert!(long.to_string().ends_with("The first 3 of its 16 staves would fit"), "{long}");
    let nothing = TooLong { staves: (0, 16), columns: (0, 2) }.to_string();
    assert!(nothing.ends_with("Not even one staff or one column of it would fit"), "{nothing}");
    // A page that the app can make: sixteen staves of four players, all on notes that follow no rule.
    let mut page = ReadPage::of_label("4 Corni in Es");
    let mut seed = 1_u32;
    for staff in 0..MOST_STAVES {
        if staff > 0 {
            page.passage.add_staff("4 Corni in Es").unwrap();
        }
        page.passage.set_players(staff, MOST_PLAYERS).unwrap();
        for (column, player) in
            (0..MOST_COLUMNS).flat_map(|column| (0..MOST_PLAYERS).map(move |player| (column, player)))
        {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let step = Step::from_index((seed >> 8) as i32 % 7);
            let pitch = Pitch::new(step, (seed >> 14) as i32 % 9 - 4, (seed >> 20) as i32 % 12);
            page.passage.set(staff, column, player, Event::Note(Printed(pitch))).unwrap();
        }
    }
    let whole = Link::Read(Box::new(page));
    let long = whole.share(FRONT).unwrap_err();
    let said = format!(
        "The first {} of its 16 staves would fit, or the first {} of its 64 columns",
        long.staves.0, long.columns.0
    );
    assert!(long.to_string().ends_with(&said) && long.staves.0 > 9 && long.columns.0 > 40, "{long}");
    // What is said to fit fits, and no more.
    for (columns, fits) in [(long.columns.0, true), (long.columns.0 + 1, false)] {
        assert_eq!(whole.first_columns(columns).share(FRONT).is_ok(), fits);
    }
}

#[test]
fn where_no_code_holds_it_all_the_first_columns_have_one() {
    let page = |columns: usize| {
        let staves = ["Flauto", "Oboe", "Corno in Es", "Violino I", "Viola", "Bassi"].map(|label| {
            let mut seed = label.len();
            let notes = (0..columns).map(|_| {
                seed = seed * 16_807 % 2_147_483_647;
                ["C4", "Fs5", "Bb3", "G4", "Ab5", "D3", "E4", "B5", "F3", "Cs5", "A4"][seed % 11]
            });
            format!("staff={label}&notes={}", notes.collect::<Vec<_>>().join("."))
        });
        Link::Read(Box::new(open(&format!("/read?{}", staves.join("&"))).unwrap()))
    };
    let whole = page(MOST_COLUMNS);
    let long = whole.share(FRONT).unwrap().code.unwrap_err();
    let (fit, all) = long.columns;
    assert!(fit > 8 && fit < all && all == MOST_COLUMNS, "{long:?}");
    let code = |columns| whole.first_columns(columns).share(FRONT).unwrap().code;
    assert!(code(fit).is_ok() && code(fit + 1).is_err());
    assert_eq!(whole.first_columns(fit), page(fit));
    // One staff is readable as long as it may be, and packed beyond.
    let link = Link::Read(Box::new(open("/read?staff=Corni&notes=C4.E4").unwrap()));
    let shared = link.share(FRONT).unwrap();
    assert!(shared.address.ends_with("&staff=Corni&notes=C4.E4") && shared.code.is_ok());
}

#[test]
fn a_column_of_twelve_staves_has_a_code_in_any_language() {
    let twelve = [
        "2 Flauti|2 Oboi|2 Clarinetti in A|2 Fagotti|Corni I, II in E|Corni III, IV in D|2 Trombe in D|3 Tromboni|\
         Timpani in D, A|Violino I|Viola|Violoncello e Basso",
        "2 Flöten|2 Oboen|2 Klarinetten in A|2 Fagotte|1. u. 2. Horn in E|3. u. 4. Horn in C|2 Trompeten in E|\
         3 Posaunen|Pauken in E, H|1. Violine|Bratsche|Violoncell u. Kontrabass",
        "Flutes|Oboes|Clarinets in B-flat|Bassoons|Horns 1-2 in F|Horns 3-4 in E-flat|Trumpets in B-flat|Trombones|\
         Tuba|Timpani in F, B-flat|Violins|Cellos",
        "2 Flûtes|2 Hautbois|2 Clarinettes en La|2 Bassons|2 Cors en Ré|2 Cors en Mi bémol|2 Trompettes en Ré|\
         3 Trombones|Timbales en Ré, La|Violons|Altos|Basses",
        // Whatever somebody calls his own twelve.
        "Anna, horn|Ben|Clara|David, cornet|Emil|Frieda|Georg|Hanna|Ida|Jakob|Karl, tuba|Lea",
    ];
    for labels in twelve {
        let notes = "E5 C#5 G4 Bb3 C5 G4 E4 Ab4 G2 F6 D5 C2".split(' ');
        let mut page = ReadPage { passage: Default::default(), selected: Some(0), ..ReadPage::of_label("") };
        for (label, note) in labels.split('|').zip(notes) {
            let at = page.passage.add_staff(label).unwrap();
            for player in 0..2 {
                page.passage.set_players(at, 2).unwrap();
                page.passage.set(at, 0, player, Event::Note(Printed(note.parse().unwrap()))).unwrap();
            }
        }
        page.passage.movement = Some("E major".parse().unwrap());
        assert_eq!(page.passage.staves().len(), 12);
        let shared = Link::Read(Box::new(page)).share(FRONT).unwrap();
        assert!(shared.code.is_ok(), "{}", shared.address);
    }
}
