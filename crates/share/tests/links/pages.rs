//! Whole random pages go back and forth unchanged, in Read and as the matter of an exercise.

use crate::any_page::any_page;
use crate::open;
use crookwise_practice::{AskedStaff, Exercise, Material};
use crookwise_score::{Cell, Event, MOST_COLUMNS, MOST_STAVES};
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_share::{CameraCode, LONGEST, Link, LinkError, Shared};
use proptest::prelude::*;

/// What stands before a link at a host of thirty letters.
pub const FRONT: &str = "https://music.school-of-winds2.example/#";

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn every_page_goes_back_and_forth(page in any_page(MOST_STAVES, MOST_COLUMNS)) {
        let link = Link::Read(Box::new(page));
        prop_assert_eq!(Link::decode_kept(&link.encode()), Ok(Some(link)));
    }

    #[test]
    fn every_page_goes_back_and_forth_packed(page in any_page(MOST_STAVES, 24)) {
        let link = Link::Read(Box::new(page));
        let packed = link.pack();
        prop_assert!(packed.len() < link.encode().len() + 8);
        let opened = if packed.len() <= LONGEST { Ok(Some(link)) } else { Err(LinkError::TooLong) };
        prop_assert_eq!(Link::decode(&packed), opened);
        // Where only readable links are opened, it must be told apart.
        prop_assert!(Link::is_packed(&packed));
        prop_assert_eq!(Link::decode_kept(&packed), Err(LinkError::Damaged));
    }

    #[test]
    fn a_short_link_opens_and_a_long_one_says_what_fits(page in any_page(MOST_STAVES, MOST_COLUMNS)) {
        let whole = Link::Read(Box::new(page.clone()));
        match whole.share(FRONT) {
            Ok(Shared { address, code }) => {
                let text = address.strip_prefix(FRONT).unwrap();
                prop_assert!(text.len() <= LONGEST);
                prop_assert_eq!(open(text), Ok(page));
                prop_assert_eq!(&code.clone().ok(), &CameraCode::of(&address));
                if let Err(long) = code {
                    prop_assert!(long.columns.0 < long.columns.1.max(1));
                    let part = whole.first_columns(long.columns.0).share(FRONT);
                    prop_assert!(long.columns.0 == 0 || part.is_ok_and(|part| part.code.is_ok()));
                }
            }
            Err(long) => {
                prop_assert!(whole.pack().len() > LONGEST && whole.encode().len() > LONGEST);
                prop_assert!(long.staves.0 < long.staves.1 && long.columns.0 < long.columns.1);
                prop_assert!(long.to_string().starts_with("This is too long for a link. "));
            }
        }
    }

    #[test]
    fn an_exercise_about_any_page_goes_back_and_forth(page in any_page(4, 16)) {
        let material = Material::Passage(Box::new(page.passage));
        let exercise = Exercise { material, ..Exercise::default() };
        let link: Link = PractiseLink::Do(Some(SentExercise::of(&exercise))).into();
        let opened = Link::decode_kept(&link.encode());
        prop_assert_eq!(&opened, &Ok(Some(link)));
        match opened {
            Ok(Some(Link::Practise(link))) => {
                prop_assert_eq!(link.exercise().map(SentExercise::open), Some(Ok(exercise)));
            }
            other => prop_assert!(false, "{other:?}"),
        }
    }
}

#[test]
fn a_note_for_all_below_another_for_all_stays_one() {
    let page = open("/read?staff=&players=2&notes=*C0.*C0").unwrap();
    assert!(page.passage.staves()[0].cells().iter().all(Cell::is_together));
    assert_eq!(open(&Link::Read(Box::new(page.clone())).encode()), Ok(page));
}

#[test]
fn rests_at_the_end_are_left_out_where_another_line_counts_the_columns() {
    let page =
        open("/read?staff=Corni&players=2&notes=C4.-.-.-&notes2=E4._.-.-&staff=Viola&notes=-.-.-.-").unwrap();
    assert_eq!((page.passage.columns().len(), page.passage.event(1, 3, 0)), (4, Some(Event::Rest)));
    let text = Link::Read(Box::new(page.clone())).encode();
    assert!(text.ends_with("&staff=Corni&players=2&notes=C4.-.-.-&notes2=E4._&staff=Viola"), "{text}");
    assert_eq!(open(&text), Ok(page));
}

#[test]
fn screens_of_practise_go_back_and_forth() {
    let exercise = Some(SentExercise::of(&Exercise::default()));
    let mut links = vec![
        PractiseLink::Course,
        PractiseLink::Step(13),
        PractiseLink::Class("ABC-123".into()),
        PractiseLink::Record,
        PractiseLink::Repeat,
        PractiseLink::AboutPage,
    ];
    for exercise in [exercise, None] {
        links.push(PractiseLink::Do(exercise.clone()));
        links.push(PractiseLink::Set(exercise.clone()));
        links.push(PractiseLink::Wall(exercise.clone()));
        links.push(PractiseLink::Paper(exercise));
    }
    for link in links.into_iter().map(Link::from) {
        assert_eq!(Link::decode(&link.encode()), Ok(Some(link)));
    }
}

#[test]
fn a_title_stands_readable_beside_its_exercise_and_is_no_part_of_it() {
    let plain = Exercise { staves: vec![AskedStaff::of("Corni in Es")], ..Exercise::default() };
    let page = open("/read?staff=Corni+in+D&notes=C4.E4").unwrap().passage;
    let about = Exercise { material: Material::Passage(Box::new(page)), staves: Vec::new(), ..plain.clone() };
    for exercise in [plain, about] {
        let titled = Exercise { title: "Übung für Montag: Es & D".into(), ..exercise.clone() };
        assert_eq!(titled.pack(), exercise.pack());
        let link = Link::from(PractiseLink::Do(Some(SentExercise::of(&titled))));
        let text = link.encode();
        assert!(text.contains("&title=%C3%9Cbung+f%C3%BCr+Montag%3A+Es+%26+D"), "{text}");
        assert_eq!(Link::decode(&link.pack()), Ok(Some(link.clone())));
        let Ok(Some(Link::Practise(PractiseLink::Do(Some(sent))))) = Link::decode(&text) else {
            panic!("{text}")
        };
        assert_eq!(sent.open(), Ok(titled));
        // Without a title there is no pair, and what nobody has named is named by nobody.
        let blank = SentExercise::of(&Exercise { title: "  ".into(), ..exercise.clone() });
        let text = Link::from(PractiseLink::Do(Some(blank))).encode();
        assert_eq!(text, Link::from(PractiseLink::Do(Some(SentExercise::of(&exercise)))).encode());
    }
    // By hand it may be anything; what is too long is cut, what is no letter goes.
    let code = "AQAKAQIBBwIWQ29ybmkgaW4gRXMeQ2xhcmluZXR0aSBpbiBB";
    let by_hand = format!("/practise?set={code}&title=%00a%0A{}", "b".repeat(100));
    let Ok(Some(Link::Practise(link))) = Link::decode(&by_hand) else { panic!("{by_hand}") };
    assert_eq!(link.exercise().unwrap().title(), format!("a{}", "b".repeat(59)));
    assert!(Link::decode("/practise?step=3&title=x").is_err());
}

#[test]
fn a_lookup_and_an_exercise_fit_a_camera_code() {
    let lookup =
        Link::Read(Box::new(open("/read?staff=Corni+in+Es&notes=C4.E4.G4.Bb4.C5.Fs5.A4.E5").unwrap()));
    let exercise = PractiseLink::Do(Some(SentExercise::of(&Exercise::default()))).into();
    for link in [lookup, exercise] {
        let address = format!("https://www.example.org/some/folder/crookwise/#{}", link.encode());
        assert!(CameraCode::of(&address).is_some(), "{} characters", address.len());
    }
}
