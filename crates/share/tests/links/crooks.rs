//! The setting of Crooks goes back and forth, and links to it that were made once open for ever.

use crate::meaning;
use crookwise_planner::key_plan::KeyStretch;
use crookwise_planner::printed::PrintedCrook;
use crookwise_planner::written::BarLaid;
use crookwise_planner::{CrookPlayer, NamedCrook, Ticks, WantedNote, Weights};
use crookwise_score::BarNumber;
use crookwise_score::score::TimeSignature;
use crookwise_share::crooks::{CrooksLink, CrooksView, CrooksWanted, FIRM, MendedNote, SentCrooks};
use crookwise_share::{LONGEST, Link, LinkError};
use crookwise_theory::{CrookFamily, Key, Pitch, Sounding, Step, Tonic};
use proptest::prelude::*;

/// Second version. Their checksums were reckoned by another library (zlib's crc32).
const CROOKS_2: [&str; 5] = [
    "#/crooks?v=2.bf17651f&keys=32_G+minor.26_Bb+major.40_G+minor&horn=2_1_G.Bb+alto&horn=2_2_all&plan=2",
    "#/crooks?v=2.6674cfca&view=write&keys=&mine=horn_D.trumpet_D&typed=D4+Fs4+A4",
    "#/crooks?v=2.3c30196a&view=table&wanted=1P8KawgBZgIE-gGBAwYCZPgHBwwQAA&time=6_8&horn=1_-_Eb&trumpet=2_101_all&pairs=apart&change=3_2&worth=1_0.9_0.7_0.6_0.4_0.3_0.8_0_0&cost=0.25&highest=16&mended=2_Fs4_1.3_Eb5&table=Fs+minor&crooks=horn_A+alto.horn_C+basso&mine=-",
    "#/crooks?v=2.d150c38e&wanted=1P8KawgBZgIE-gGBAwYCZPgHBwwQAA&time=3_4&bars=0_1_1_3-4.1_24_3.12a_1_9-2_9-8.13_2_3_3-4&of=Sinfonia+in+Es&horn=2_1_G.Bb+alto&mended=2_Fs4_1",
    "#/crooks?v=2.d36c9516&wanted=1P8KawgBZgIE-gGBAwYCZPgHBwwQAA&of=Sinfonia+in+Es&printed=1_G.1_1-2_Bb+alto.2_D&horn=2_1_G.Bb+alto",
];

/// By hand.
const BY_HAND: [&str; 2] = ["#/crooks?keys=24_Fs+minor.24_A+major", "#/crooks?view=table&table=Eb+major"];

fn open(text: &str) -> Result<CrooksLink, LinkError> {
    match Link::decode(text) {
        Ok(Some(Link::Crooks(sent))) => sent.open(),
        Err(error) => Err(error),
        other => panic!("{text} opened as {other:?}"),
    }
}

#[test]
fn links_made_once_open_for_ever() {
    for text in CROOKS_2 {
        let setting = open(text).unwrap();
        let again = SentCrooks::of(&setting).link();
        assert_eq!(open(&again.encode()), Ok(setting.clone()), "{text}");
        assert_eq!(open(&again.pack()), Ok(setting), "{text}");
    }
    for text in BY_HAND {
        assert!(open(text).is_ok(), "{text}");
    }
    let keys = open(CROOKS_2[0]).unwrap();
    let stretch = |key: &str, bars| KeyStretch { key: key.parse().unwrap(), bars };
    let all = vec![stretch("G minor", 32), stretch("Bb major", 26), stretch("G minor", 40)];
    assert_eq!((keys.wanted, keys.plan, keys.players.len()), (CrooksWanted::Keys(all), 1, 4));
    assert_eq!(keys.players[0].crooks.len(), 2);
    let printed = open(CROOKS_2[4]).unwrap().printed;
    let told = printed.iter().map(|one| (one.player, one.from.quarters(), one.crook.name));
    assert_eq!(told.collect::<Vec<_>>(), [(0, 0.0, "G"), (0, 0.5, "B-flat alto"), (1, 0.0, "D")]);
    let typed = open(CROOKS_2[1]).unwrap();
    assert_eq!((typed.view, typed.typed.as_str(), typed.mine.len()), (CrooksView::MayWrite, "D4 Fs4 A4", 2));
    let notes = open(CROOKS_2[2]).unwrap();
    assert_eq!((notes.time, notes.together), (TimeSignature { beats: 6, value: 8 }, false));
    assert_eq!((notes.weights.highest, notes.weights.change_cost), (16, 0.25));
    assert_eq!(notes.mended[0].sounding, Sounding("F#4".parse().unwrap()));
    let CrooksWanted::Notes(wanted) = &notes.wanted else { panic!("keys") };
    assert_eq!(wanted[1].from, Ticks::of_fraction(1, 2).unwrap());
    assert_eq!((wanted[1].weight, wanted[3].any_octave, wanted[3].sounding.0.alter), (2.5, true, -4));
    // Mended: anybody's from now on.
    assert_eq!((notes.request().notes[1].player, wanted[1].player), (Some(0), Some(0)));
    assert_eq!(notes.shown.len(), 2);
    let movement = open(CROOKS_2[3]).unwrap();
    assert_eq!((movement.title.as_str(), movement.bars.len()), ("Sinfonia in Es", 28));
    let told = |at: usize| {
        let bar: &BarLaid = &movement.bars[at];
        (bar.number.as_str(), bar.length.quarters(), bar.time.map(|time| time.beats))
    };
    let bars = [0, 1, 24, 25, 26, 27].map(told);
    let is = |number, length, beats| (number, length, beats);
    assert_eq!(bars[..3], [is("0", 1.0, Some(3)), is("1", 3.0, None), is("24", 3.0, None)]);
    assert_eq!(bars[3..], [is("12a", 4.5, Some(9)), is("13", 3.0, Some(3)), is("14", 3.0, None)]);
}

#[test]
fn a_note_that_is_to_be_had_counts_more_than_all_else() {
    let setting = open("#/crooks?wanted=1P8KawgBZgIE-gGBAwYCZPgHBwwQAA&mended=1_C4_-_firm.2_D4_1").unwrap();
    let notes = setting.notes();
    assert_eq!((notes[0].weight, notes[0].player, setting.mended[1].firm), (FIRM, None, false));
    assert!(notes[1].weight < 10.0);
}

#[test]
fn the_keys_of_the_movement_go_along_with_its_notes() {
    let link = "#/crooks?wanted=1P8KawgBZgIE-gGBAwYCZPgHBwwQAA&key=Fs+minor.97-2_A+major";
    let setting = open(link).unwrap();
    let told: Vec<_> = setting.keys.iter().map(|(from, key)| (from.quarters(), key.to_string())).collect();
    assert_eq!(told, [(0.0, "F# minor".to_owned()), (48.5, "A major".to_owned())]);
    assert_eq!(SentCrooks::of(&setting).link().encode().split("&key=").nth(1), Some("Fs+minor.97-2_A+major"));
    // A key of more signs than any that is read stays at home, and the link can be opened.
    let far = Key { tonic: Tonic::from_fifths(-9), ..setting.keys[0].1 };
    let setting = CrooksLink { keys: vec![(Ticks::default(), far)], ..setting };
    assert_eq!(open(&SentCrooks::of(&setting).link().encode()).map(|read| read.keys), Ok(Vec::new()));
}

#[test]
fn fixed_crooks_go_round() {
    let setting =
        open("#/crooks?fixed=1_2_G.3_1_Bb+alto&keys=9_G+minor.9_Bb+major.9_G+minor&horn=2_1_G.Bb+alto")
            .unwrap();
    let told: Vec<_> = setting.fixed.iter().map(|one| (one.stretch, one.player, one.crook.name)).collect();
    assert_eq!(told, [(0, 1, "G"), (2, 0, "B-flat alto")]);
    assert_eq!(open(&SentCrooks::of(&setting).link().encode()), Ok(setting));
    for wrong in ["fixed=0_1_G", "fixed=1_9_G", "fixed=1_1_Q", "fixed=1_1", "fixed="] {
        assert!(open(&format!("#/crooks?keys=9_G+minor&horn=2_1_G&{wrong}")).is_err(), "{wrong}");
    }
}

#[test]
fn the_place_alone_brings_nothing() {
    let Ok(Some(Link::Crooks(sent))) = Link::decode("#/crooks") else { panic!("no place") };
    assert!(sent.is_empty());
    assert_eq!(sent.open(), Ok(CrooksLink::default()));
    assert_eq!(sent.link().encode(), "/crooks");
}

#[test]
fn what_is_not_understood_is_said_in_words_of_music() {
    let cases = [
        ("keys=32_G", "the keys of the movement"),
        ("keys=0_G+minor", "the keys of the movement"),
        ("keys=9999_G+minor.9999_D+minor", "the keys of the movement"),
        ("wanted=%21", "the notes that are wanted"),
        ("wanted=_____w", "the notes that are wanted"),
        ("horn=9_1_all", "the players"),
        ("horn=8_1_all&horn=1_2_all", "the players"),
        ("horn=2_1_Q", "the players"),
        ("change=-1", "the rest for a change of crook"),
        ("change=1_0", "the rest for a change of crook"),
        ("cost=-1", "what a change costs"),
        ("worth=1_1", "what each way of making a note is worth"),
        ("highest=1", "the highest partial"),
        ("mended=0_C4", "the notes that were mended"),
        ("mended=1_C4_1_1", "the notes that were mended"),
        ("mended=1_C99", "the notes that were mended"),
        ("time=4_3", "the time signature"),
        ("bars=1", "where the bars begin"),
        ("bars=1_0_4", "where the bars begin"),
        ("bars=1_1_0", "where the bars begin"),
        ("bars=1_1_4-0", "where the bars begin"),
        ("bars=1_1_4_4-3", "where the bars begin"),
        ("bars=1_9999_4.1_9999_4", "where the bars begin"),
        ("bars=1x!_1_4", "where the bars begin"),
        ("key=G", "the key of the movement"),
        ("key=0_G+minor", "the key of the movement"),
        ("key=G+minor.8_D+major.8_G+minor", "the key of the movement"),
        ("printed=5_G", "the crooks that are printed"),
        ("printed=1_Q", "the crooks that are printed"),
        ("printed=1_4_G.1_G", "the crooks that are printed"),
        ("printed=1_0_G", "the crooks that are printed"),
        ("printed=1_1-0_G", "the crooks that are printed"),
        ("horn=1_1_all&trumpet=1_1_all&printed=2_C+alto", "the crooks that are printed"),
        ("table=Q", "the key of the table"),
        ("mine=horn_Q", "the crooks"),
        ("mine=viola_D", "the crooks"),
    ];
    for (pairs, said) in cases {
        let error = open(&format!("#/crooks?{pairs}")).expect_err(pairs).to_string();
        assert!(
            error.starts_with(&format!("This link is not understood where it gives {said}: “")),
            "{error}"
        );
    }
    assert_eq!(open("#/crooks?keis=1"), Err(LinkError::Unknown("keis".into())));
    let many = format!("#/crooks?keys={}", ["1_C+major"; 65].join("."));
    assert!(open(&many).is_err());
}

#[test]
fn a_changed_letter_is_refused() {
    for text in CROOKS_2 {
        let letters: Vec<char> = text.chars().collect();
        for at in text.find('?').unwrap() + 1..letters.len() {
            for letter in "aZ0&=._%é".chars().filter(|letter| *letter != letters[at]) {
                let mut spoiled = letters.clone();
                spoiled[at] = letter;
                let spoiled: String = spoiled.into_iter().collect();
                // A pair without a value is the same pair with the sign and without.
                let is_same = meaning(&spoiled) == meaning(text);
                assert!(is_same || open(&spoiled).is_err(), "{spoiled}");
            }
        }
    }
}

/// A passage of a hundred bars for four players goes into a link.
#[test]
fn a_passage_for_four_players_fits() {
    let pitches = ["G4", "Bb4", "D5", "G5"];
    let notes = (0..1_200).map(|at: i64| {
        let from = Ticks::of_fraction(at / 4, 1).unwrap();
        let to = Ticks::of_fraction(at / 4 + 1, 1).unwrap();
        let pitch = pitches[at as usize % 4].parse().unwrap();
        WantedNote { player: Some(at as usize % 4), ..WantedNote::free(from, to, pitch) }
    });
    let setting = CrooksLink { wanted: CrooksWanted::Notes(notes.collect()), ..CrooksLink::default() };
    let link = SentCrooks::of(&setting).link();
    assert!(link.encode().len() < LONGEST, "{}", link.encode().len());
    assert_eq!(open(&link.encode()), Ok(setting));
    let shared = link.share("https://crookwise.example/#").unwrap();
    assert!(shared.address.len() < 4_000, "{}", shared.address.len());
}

fn any_crooks(family: CrookFamily) -> impl Strategy<Value = Vec<NamedCrook>> {
    let all = NamedCrook::all(family);
    let len = all.len();
    prop_oneof![Just(all.clone()), prop::sample::subsequence(all, 0..=len)]
}

fn any_player() -> impl Strategy<Value = CrookPlayer> {
    let family = prop_oneof![Just(CrookFamily::Horn), Just(CrookFamily::Trumpet)];
    family.prop_flat_map(|family| {
        (any_crooks(family), prop::option::of(any::<u32>())).prop_map(move |(crooks, pair)| CrookPlayer {
            family,
            crooks,
            pair,
        })
    })
}

fn any_pitch() -> impl Strategy<Value = Sounding> {
    (0..7_i32, -9..=9_i32, -2..=12_i32)
        .prop_map(|(step, alter, octave)| Sounding(Pitch::new(Step::from_index(step), alter, octave)))
}

fn any_note() -> impl Strategy<Value = WantedNote> {
    let time = (0..1_000_000_000_i64, 1..1_000_000_000_i64);
    (time, any_pitch(), prop::option::of(0..8_usize), 0..100_000_u32, any::<bool>()).prop_map(
        |((from, length), sounding, player, hundredths, any_octave)| WantedNote {
            from: Ticks(from),
            to: Ticks(from + length),
            sounding,
            player,
            weight: f64::from(hundredths) / 100.0,
            any_octave,
        },
    )
}

const KEYS: [&str; 5] = ["C major", "F# minor", "Eb major", "C# major", "Ab minor"];

fn any_wanted() -> impl Strategy<Value = CrooksWanted> {
    let stretch = (prop::sample::select(&KEYS[..]), 1..150_u32)
        .prop_map(|(key, bars)| KeyStretch { key: key.parse().unwrap(), bars });
    prop_oneof![
        prop::collection::vec(stretch, 0..64).prop_map(CrooksWanted::Keys),
        prop::collection::vec(any_note(), 0..40).prop_map(CrooksWanted::Notes),
    ]
}

/// Numbers as print has them: in order, repeated, with letters, none; whole bars and fractions.
fn any_bars() -> impl Strategy<Value = Vec<BarLaid>> {
    let number = prop_oneof![
        (0..120_u32).prop_map(|number| number.to_string()),
        Just(String::new()),
        "[a-zA-Z0-9]{1,8}"
    ];
    let time = prop::option::of((1..=64_u16, prop::sample::select(vec![1_u16, 2, 4, 8, 64])));
    let run =
        (number, 1..40_usize, 1..50_i64, 1..9_i64, time).prop_map(|(number, many, above, below, time)| {
            let length = Ticks::of_fraction(above, below).unwrap();
            let mut number = BarNumber::new(&number).unwrap();
            let bar = move |at| {
                let time = time.filter(|_| at == 0).map(|(beats, value)| TimeSignature { beats, value });
                let bar = BarLaid { number: number.to_string(), length, time };
                number = number.next();
                bar
            };
            (0..many).map(bar).collect::<Vec<_>>()
        });
    prop::collection::vec(run, 0..5).prop_map(|runs| runs.concat())
}

/// Keys of a movement, each later than the one before.
fn any_keys() -> impl Strategy<Value = Vec<(Ticks, Key)>> {
    let key = prop::sample::select(&KEYS[..]).prop_map(|key| key.parse().unwrap());
    let all = prop::collection::btree_map(0..1_000_000_000_i64, key, 0..5);
    all.prop_map(|all| all.into_iter().map(|(from, key)| (Ticks(from), key)).collect())
}

/// Crooks of these players' families, by player and then by time.
fn printed_for(players: &[CrookPlayer], all: Vec<(usize, i64, usize)>) -> Vec<PrintedCrook> {
    let one = |(player, from, at): (usize, i64, usize)| {
        let crooks = players.get(player)?.family.crooks();
        Some(PrintedCrook { player, from: Ticks(from), crook: crooks.get(at % crooks.len())? })
    };
    let mut all: Vec<_> = all.into_iter().filter_map(one).collect();
    all.sort_by_key(|one| (one.player, one.from));
    all.dedup_by_key(|one| (one.player, one.from));
    all
}

fn any_setting() -> impl Strategy<Value = CrooksLink> {
    let mended = (0..60_000_usize, any_pitch(), prop::option::of(0..8_usize), any::<bool>())
        .prop_map(|(note, sounding, player, firm)| MendedNote { note, sounding, player, firm });
    let shown = || {
        let all: Vec<_> = CrookFamily::Horn.crooks().iter().chain(CrookFamily::Trumpet.crooks()).collect();
        prop::sample::subsequence(all, 0..12)
    };
    let weights = (prop::array::uniform9(0..100_000_u32), 0..100_000_u32, 2..=32_u8);
    let of = (any_bars(), "\\PC{0,40}", any_keys());
    let rest = (prop::collection::vec(mended, 0..5), 0..90_usize, shown(), shown(), "\\PC{0,40}", of);
    let view = prop::sample::select(vec![CrooksView::Plans, CrooksView::Table, CrooksView::MayWrite]);
    let players = prop::collection::vec(any_player(), 0..8);
    let printed = prop::collection::vec((0..8_usize, 0..1_000_000_000_i64, 0..99_usize), 0..9);
    let rest = (rest, printed);
    (view, any_wanted(), players, any::<bool>(), 0..1_000_000_000_i64, weights, rest).prop_map(
        |(view, wanted, players, together, change, (worth, cost, highest), (rest, printed))| {
            let printed = printed_for(&players, printed);
            let (mended, plan, shown, mine, typed, (bars, title, keys)) = rest;
            CrooksLink {
                view,
                wanted,
                time: TimeSignature { beats: 3, value: 8 },
                bars,
                keys,
                title,
                printed,
                players,
                together,
                change_time: Ticks(change),
                weights: Weights {
                    worth: worth.map(|hundredths| f64::from(hundredths) / 100.0),
                    change_cost: f64::from(cost) / 100.0,
                    highest,
                },
                mended,
                fixed: Vec::new(),
                plan,
                table: "D minor".parse().unwrap(),
                shown,
                mine,
                typed,
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn any_setting_goes_back_and_forth(setting in any_setting()) {
        let link = SentCrooks::of(&setting).link();
        if link.encode().chars().count() <= LONGEST {
            prop_assert_eq!(open(&link.encode()), Ok(setting.clone()));
        }
        if link.pack().chars().count() <= LONGEST {
            prop_assert_eq!(open(&link.pack()), Ok(setting));
        }
    }

    #[test]
    fn no_pairs_panic(
        pairs in "[a-z0-9=&.%_+-]{0,120}",
        name in "keys|wanted|horn|mended|worth|change|bars|printed",
        value in "[A-Za-z0-9_.-]{0,60}",
    ) {
        let _ = open(&format!("#/crooks?{pairs}"));
        let _ = open(&format!("#/crooks?{name}={value}"));
    }
}
