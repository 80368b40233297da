//! Whole random pages: every number of staves, players and columns, with everything that may stand on them.

use crookwise_score::{
    BarNumber, Change, ChangeTo, Choice, Event, Length, MOST_COLUMNS, MOST_PLAYERS, MOST_STAVES, Passage,
    Settings, SignatureSource,
};
use crookwise_share::ReadPage;
use crookwise_theory::label::Mechanism;
use crookwise_theory::tables::{INSTRUMENTS, TEMPERAMENTS};
use crookwise_theory::{
    BassNotation, Clef, ClefSign, Key, Mode, Pitch, Printed, Scheme, Signature, Step, Tonic, Transposition,
    TunedOn, Warmth,
};
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use proptest::sample::{Index, select};

fn event() -> impl Strategy<Value = Event> {
    prop_oneof![
        6 => (0..7_i32, -3..=3_i32, 0..9_i32)
            .prop_map(|(step, alter, octave)| Event::Note(Printed(Pitch::new(Step::from_index(step), alter, octave)))),
        1 => Just(Event::Rest),
        2 => Just(Event::Held),
    ]
}

fn choice() -> impl Strategy<Value = Choice> {
    (0..INSTRUMENTS.len(), -14..14_i32, -24..24_i32).prop_map(|(at, steps, semitones)| Choice {
        instrument: &INSTRUMENTS[at],
        transposition: Transposition::new(steps, semitones),
    })
}

fn clef() -> impl Strategy<Value = Clef> {
    select(vec![Clef::TREBLE, Clef::BASS, Clef::ALTO, Clef::new(ClefSign::G, 2, -1).unwrap()])
}

fn signature() -> impl Strategy<Value = SignatureSource> {
    prop_oneof![
        Just(SignatureSource::None),
        Just(SignatureSource::Movement),
        (-7..=7_i32).prop_map(|fifths| SignatureSource::Typed(Signature(fifths))),
    ]
}

fn key() -> impl Strategy<Value = Key> {
    let keys: Vec<Key> = [Mode::Major, Mode::Minor].into_iter().flat_map(Key::common).collect();
    select(keys)
}

fn label() -> impl Strategy<Value = String> {
    prop_oneof![3 => "[A-Za-z., ]{0,30}", 1 => "\\PC{0,20}", 1 => "[0-9_&=%+#.*-]{0,12}"]
}

prop_compose! {
    fn settings()(
        mechanism in of(select(vec![Mechanism::Natural, Mechanism::Valves])),
        clef in of(clef()),
        bass in of(select(vec![BassNotation::Old, BassNotation::New])),
        scheme in of(select(vec![Scheme::Russian, Scheme::Rheingold])),
        signature in of(signature()),
        at_pitch in any::<bool>(),
    ) -> Settings {
        Settings { mechanism, clef, bass, scheme, signature, at_pitch }
    }
}

fn change() -> impl Strategy<Value = (Index, Option<usize>, ChangeTo)> {
    let to = prop_oneof![
        label().prop_map(ChangeTo::Label),
        clef().prop_map(ChangeTo::Clef),
        signature().prop_map(ChangeTo::Signature),
    ];
    (any::<Index>(), of(0..MOST_PLAYERS), to)
}

/// What one staff is made of: label, choice, settings, players, crooks, events, changes.
type Drawn = (
    String,
    Option<Choice>,
    Settings,
    usize,
    Vec<Option<Choice>>,
    Vec<Event>,
    Vec<(Index, Option<usize>, ChangeTo)>,
);

fn staff(columns: usize) -> impl Strategy<Value = Drawn> {
    (
        label(),
        of(choice()),
        settings(),
        1..=MOST_PLAYERS,
        vec(of(choice()), MOST_PLAYERS),
        vec(event(), columns * MOST_PLAYERS),
        vec(change(), 0..12),
    )
}

fn put(passage: &mut Passage, columns: usize, drawn: Drawn) {
    let (label, choice, settings, players, crooks, events, changes) = drawn;
    let at = passage.add_staff(&label).unwrap();
    passage.set_players(at, players).unwrap();
    for column in 0..columns {
        for (player, &event) in events.iter().skip(column * MOST_PLAYERS).take(players).enumerate() {
            // What cannot be held is left a rest; the column is there all the same.
            let made = passage.set(at, column, player, event);
            if made.is_err() {
                passage.set(at, column, player, Event::Rest).unwrap();
            }
        }
        if let (0, Some(Event::Note(printed))) = (column % 5, events.get(column * MOST_PLAYERS)) {
            passage.set_together(at, column, *printed).unwrap();
        }
    }
    for (player, crook) in crooks.into_iter().enumerate().take(players) {
        passage.set_crook(at, player, crook).unwrap();
    }
    for (column, player, to) in changes {
        if columns > 0 {
            // A clef of one player is refused by the passage.
            let _ = passage.set_change(at, Change { column: column.index(columns), player, to });
        }
    }
    let staff = passage.staff_mut(at).unwrap();
    (staff.choice, staff.settings) = (choice, settings);
}

fn bar() -> impl Strategy<Value = BarNumber> {
    let text = prop_oneof![2 => "[0-9]{1,3}", 1 => "[0-9A-Za-z]{0,8}"];
    text.prop_map(|text| BarNumber::new(&text).unwrap())
}

/// What stands in columns, whatever their staves: keys, lengths, bars.
type InColumns = (Vec<(Index, Key)>, Vec<(Index, u32, u32)>, Vec<(Index, BarNumber)>);

prop_compose! {
    /// What stands beside the staves.
    fn room()(
        a4 in (37_000..57_000_i32).prop_map(|hundredths| f64::from(hundredths) / 100.0),
        temperament in 0..TEMPERAMENTS.len(),
        root in -6..7_i32,
        on_g in any::<bool>(),
        warmth in of((-50..400_i32, 0..400_i32)),
        year in of(1600..2000_i32),
        in_hand in of("[a-zA-Zäöü ]{1,20}"),
        movement in of(key()),
        keys in vec((any::<Index>(), key()), 0..5),
        lengths in vec((any::<Index>(), 1..2_000_u32, 1..65_u32), 0..20),
        bars in vec((any::<Index>(), bar()), 0..9),
        selection in (any::<Index>(), any::<Index>(), of(any::<Index>())),
    ) -> (ReadPage, InColumns, (Index, Index, Option<Index>)) {
        let mut page = ReadPage { passage: Passage::default(), year, in_hand, ..ReadPage::of_label("") };
        page.passage.movement = movement;
        page.intonation.tuning.a4 = a4;
        page.intonation.tuning.temperament = &TEMPERAMENTS[temperament];
        page.intonation.tuning.root = Tonic::from_fifths(root);
        page.intonation.tuned_on = if on_g { TunedOn::G } else { TunedOn::C };
        page.intonation.warmth = warmth.map(|(tuned_at, playing_at)| Warmth {
            tuned_at: f64::from(tuned_at) / 10.0,
            playing_at: f64::from(playing_at) / 10.0,
        });
        (page, (keys, lengths, bars), selection)
    }
}

/// Any page of so many staves and columns at most.
pub fn any_page(staves: usize, columns: usize) -> impl Strategy<Value = ReadPage> {
    let staves = staves.min(MOST_STAVES);
    (0..=columns.min(MOST_COLUMNS)).prop_flat_map(move |columns| {
        let made = (vec(staff(columns), 1..=staves), room());
        made.prop_map(move |(staves, (mut page, (keys, lengths, bars), (staff, player, selected)))| {
            for drawn in staves {
                put(&mut page.passage, columns, drawn);
            }
            if columns > 0 {
                for (column, key) in keys {
                    page.passage.set_movement_at(column.index(columns), Some(key)).unwrap();
                }
                for (column, above, below) in lengths {
                    page.passage.set_length(column.index(columns), Length::new(above, below)).unwrap();
                }
                for (column, number) in bars {
                    page.passage.set_bar(column.index(columns), Some(number)).unwrap();
                }
                page.selected = selected.map(|at| at.index(columns));
            }
            page.staff = staff.index(page.passage.staves().len());
            page.player = player.index(page.passage.staves()[page.staff].players());
            page
        })
    })
}
