//! Laws that hold for every instrument, crook, clef, habit of notation and pitch. What a law is held against is
//! worked out here in another way than in the library: pitches as a place on the line of fifths and a number of
//! semitones, clefs as the letter on their bottom line.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_theory::label::{Mechanism, StaffLabel};
use crookwise_theory::tables::{HORN_CROOKS, INSTRUMENTS, TEMPERAMENTS, TRUMPET_CROOKS};
use crookwise_theory::{
    BassNotation, Clef, ClefReading, ClefSign, CrookFamily, Degree, Direction, Habits, Instrument, Interval,
    Intonation, Key, Mode, Notation, Partial, Pitch, Printed, Scheme, Signature, Situation, Sounding,
    StaffPosition, Step, Tonic, Transposition, TunedOn, Tuning, Warmth, Written, read, write,
};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};

/// Every staff there is a row for: each instrument, and horn and trumpet in each of their crooks, natural and with
/// valves. Timpani have laws of their own.
fn staves() -> Vec<StaffLabel> {
    let mut staves = Vec::new();
    for row in INSTRUMENTS.iter().filter(|row| !row.id.starts_with("timp")) {
        if let Some(transposition) = row.transposition {
            staves.push(staff(row, transposition, None));
        }
    }
    for (id, crooks) in [("horn", &HORN_CROOKS[..]), ("trumpet", &TRUMPET_CROOKS[..])] {
        let row = Instrument::by_id(id).unwrap();
        for crook in crooks {
            for mechanism in [Mechanism::Natural, Mechanism::Valves] {
                staves.push(staff(row, crook.transposition, Some(mechanism)));
            }
        }
    }
    staves
}

fn staff(
    instrument: &'static Instrument,
    transposition: Transposition,
    mechanism: Option<Mechanism>,
) -> StaffLabel {
    StaffLabel {
        instrument,
        key: None,
        octave: None,
        count: None,
        players: Vec::new(),
        mechanism,
        doubled_below: false,
        drums: Vec::new(),
        transposition,
    }
}

fn any_staff() -> impl Strategy<Value = StaffLabel> {
    prop::sample::select(staves())
}

fn any_clef() -> impl Strategy<Value = Clef> {
    (prop::sample::select(&Clef::ALL[..]), -2..=2_i8)
        .prop_map(|(clef, octave)| Clef::new(clef.sign, clef.line(), octave).unwrap())
}

fn any_habits() -> impl Strategy<Value = Habits> {
    let bass = prop::option::of(prop::sample::select(&[BassNotation::Old, BassNotation::New][..]));
    let schemes: Vec<Scheme> = Scheme::BASS_CLARINET.into_iter().chain(Scheme::WAGNER_TUBA).collect();
    let scheme = prop::option::of(prop::sample::select(schemes));
    (any_clef(), bass, scheme, any::<bool>()).prop_map(|(clef, bass, scheme, at_pitch)| Habits {
        clef,
        bass,
        scheme,
        at_pitch,
    })
}

/// Every pitch that a page may hold, and more: five octaves around the staff, up to three sharps or flats.
fn any_pitch() -> impl Strategy<Value = Pitch> {
    (prop::sample::select(&Step::ALL[..]), -3..=3_i32, -1..=8_i32)
        .prop_map(|(step, alter, octave)| Pitch::new(step, alter, octave))
}

fn any_key() -> impl Strategy<Value = Key> {
    let keys: Vec<Key> = Key::common(Mode::Major).into_iter().chain(Key::common(Mode::Minor)).collect();
    prop::sample::select(keys)
}

fn any_intonation() -> impl Strategy<Value = Intonation> {
    let warmth = prop::option::of((0.0..40.0_f64, 0.0..40.0_f64));
    let tuned_on = prop::sample::select(&[TunedOn::C, TunedOn::G][..]);
    (0..TEMPERAMENTS.len(), -5..=6_i32, 370.0..=570.0_f64, tuned_on, warmth).prop_map(
        |(temperament, root, a4, tuned_on, warmth)| Intonation {
            tuning: Tuning { temperament: &TEMPERAMENTS[temperament], root: Tonic::from_fifths(root), a4 },
            tuned_on,
            warmth: warmth.map(|(tuned_at, playing_at)| Warmth { tuned_at, playing_at }),
        },
    )
}

/// A pitch as its place on the line of fifths and its semitones above C0: adding two of these transposes.
type Place = (i32, i32);

fn place(pitch: Pitch) -> Place {
    let fifths = [0, 2, 4, -1, 1, 3, 5][pitch.step as usize] + 7 * pitch.alter;
    let natural = [0, 2, 4, 5, 7, 9, 11][pitch.step as usize];
    (fifths, pitch.octave * 12 + natural + pitch.alter)
}

/// The pitch at that place.
fn at(place: Place) -> Pitch {
    let (fifths, semitones) = place;
    let letters = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];
    let letter = letters[(fifths + 1).rem_euclid(7) as usize];
    let alter = (fifths + 1).div_euclid(7);
    let step = Step::from_letter(letter).unwrap();
    let natural = [0, 2, 4, 5, 7, 9, 11][step as usize];
    let octave = (semitones - alter - natural) / 12;
    Pitch::new(step, alter, octave)
}

/// An interval as a place: what it adds.
fn place_of(steps: i32, semitones: i32) -> Place {
    // The natural note so many letters above C, then the alteration that the semitones ask for.
    let natural = [0, 2, 4, 5, 7, 9, 11][steps.rem_euclid(7) as usize] + 12 * steps.div_euclid(7);
    let fifths = [0, 2, 4, -1, 1, 3, 5][steps.rem_euclid(7) as usize];
    (fifths + 7 * (semitones - natural), semitones)
}

fn add(left: Place, right: Place) -> Place {
    (left.0 + right.0, left.1 + right.1)
}

fn config() -> Config {
    let cases = Config::default().cases.max(1000);
    Config { cases, rng_seed: RngSeed::Fixed(1), failure_persistence: None, ..Config::default() }
}

/// The first law again without chance: every staff, clef with octave mark, bass notation and system there is.
#[test]
fn every_habit_of_every_staff_comes_back() {
    let mut octaves = (0..=8).cycle();
    let mut seen = 0;
    for staff in staves() {
        let schemes = Scheme::of(staff.instrument).iter().copied().map(Some).chain([None]);
        for scheme in schemes {
            for clef in Clef::ALL {
                for mark in -2..=2 {
                    let clef = Clef::new(clef.sign, clef.line(), mark).unwrap();
                    for bass in [None, Some(BassNotation::Old), Some(BassNotation::New)] {
                        let habits = Habits { clef, bass, scheme, at_pitch: false };
                        let situation = Situation::of(&staff, habits);
                        for step in Step::ALL {
                            for alter in -1..=1 {
                                let printed = Printed(Pitch::new(step, alter, octaves.next().unwrap()));
                                let reading = read(&situation, printed);
                                let back = write(&situation, reading.sounding).strict;
                                assert_eq!(back, reading, "{} {clef} {mark} {bass:?}", staff.instrument.id);
                                seen += 1;
                            }
                        }
                    }
                }
            }
        }
    }
    assert!(seen > 400_000, "{seen}");
}

/// The two drums sound near F2 to F3: a B-flat two octaves above the drum is no G of the page.
#[test]
fn only_the_drums_octave_is_written_c_and_g() {
    let decoded = crookwise_theory::label::decode(
        "Timpani in Es, B",
        crookwise_theory::label::DecodeOptions::default(),
    );
    let situation = Situation::of(&decoded.staves[0], Habits::of(Clef::BASS));
    let written =
        |sound: &str| write(&situation, Sounding(sound.parse().unwrap())).strict.printed.to_string();
    assert_eq!(["Eb3", "Bb2", "Bb3"].map(written), ["C3", "G2", "G3"]);
    assert_eq!(["Bb5", "Eb5", "Eb2", "Bb1", "F3"].map(written), ["Bb5", "Eb5", "Eb2", "Bb1", "F3"]);
}

proptest! {
    // Always the same cases, so that a failure is one for everybody; PROPTEST_CASES asks for more of them.
    #![proptest_config(config())]

    /// What is written for a sound is what sounded it, in every habit of notation; and what the trade would print
    /// instead is the same key of a keyboard.
    #[test]
    fn back_and_forth_is_the_identity(
        staff in any_staff(),
        habits in any_habits(),
        pitch in any_pitch(),
        signature in -7..=7_i32,
        movement in prop::option::of(any_key()),
    ) {
        let situation = Situation { signature: Signature(signature), movement, ..Situation::of(&staff, habits) };
        let reading = read(&situation, Printed(pitch));
        let writing = write(&situation, reading.sounding);
        prop_assert_eq!(writing.strict, reading);
        prop_assert_eq!(writing.strict.printed.0, pitch);
        if let Some(also) = writing.also_printed {
            prop_assert!(also.0 != pitch);
            prop_assert!(also.0.same_key(pitch), "{also} for {pitch}");
            prop_assert!(read(&situation, also).sounding.0.same_key(reading.sounding.0));
        }
        // And from the sound: the paper found for any sound gives it back.
        let from_sound = write(&situation, Sounding(pitch));
        prop_assert_eq!(read(&situation, from_sound.strict.printed).sounding.0, pitch);
    }

    /// Going there and back by interval, and by MusicXML's three numbers.
    #[test]
    fn a_transposition_is_undone_by_its_inverse(pitch in any_pitch(), steps in -30..=30_i32, extra in -3..=3_i32) {
        let natural = Interval::between(Pitch::natural(Step::C, 4), Pitch::from_diatonic(28 + steps, 0));
        let interval = Interval::new(steps, natural.semitones + extra);
        let transposition = Transposition(interval);
        let sounding = transposition.to_sounding(Written(pitch));
        prop_assert_eq!(transposition.to_written(sounding).0, pitch);
        prop_assert_eq!(Interval::between(pitch, sounding.0), interval);
        prop_assert_eq!(Transposition::from_musicxml(transposition.to_musicxml()), transposition);
        prop_assert_eq!(sounding.0, at(add(place(pitch), place_of(steps, interval.semitones))));
    }

    /// A pitch on another letter is the same key, has the same frequency in every temperament on twelve keys, and
    /// comes back.
    #[test]
    fn respelling_never_changes_frequency(pitch in any_pitch(), letters in -4..=4_i32, intonation in any_intonation()) {
        let other = pitch.respelled(letters);
        prop_assert_eq!(other.midi(), pitch.midi());
        prop_assert_eq!(other.diatonic(), pitch.diatonic() + letters);
        prop_assert_eq!(other.respelled(-letters), pitch);
        let (one, two) = (intonation.tuning.frequency(pitch), intonation.tuning.frequency(other));
        prop_assert!(one.to_bits() == two.to_bits(), "{pitch} {one}, {other} {two}");
    }

    /// By interval, by imagined clef with signature, octave and accidental, and on the instrument in hand: three
    /// ways to one sound, each worked out by itself.
    #[test]
    fn three_ways_of_reading_agree(
        staff in any_staff(),
        habits in any_habits(),
        hand in any_staff(),
        pitch in any_pitch(),
        signature in -7..=7_i32,
    ) {
        let signature = Signature(signature);
        let situation = Situation { signature, in_hand: Some(&hand), ..Situation::of(&staff, habits) };
        let reading = read(&situation, Printed(pitch));
        let sounding = reading.sounding.0;

        // By interval, on the line of fifths.
        let shift = place_of(reading.interval.steps, reading.interval.semitones);
        prop_assert_eq!(at(add(place(pitch), shift)), sounding);

        // By clef: the note keeps its place on the staff; the imagined clef names it.
        let ClefReading { clef, octaves, fifths, signature: imagined } = reading.by_clef;
        let bottom = |clef: Clef| {
            let line = i32::from(clef.line());
            let on_line = match clef.sign { ClefSign::G => 32, ClefSign::F => 24, ClefSign::C => 28 };
            on_line - 2 * (line - 1) + 7 * i32::from(clef.octave())
        };
        let on_staff = pitch.octave * 7 + pitch.step as i32 - bottom(habits.clef);
        let read_there = bottom(clef) + on_staff + 7 * octaves;
        prop_assert_eq!(read_there, sounding.octave * 7 + sounding.step as i32);
        prop_assert_eq!(imagined.0, signature.0 + fifths);
        prop_assert_eq!(fifths, shift.0);
        let by_signature = |signature: i32| {
            // How often a letter occurs among the first so many of the endless row of sharps, or of flats.
            let sharps = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];
            let place = sharps.iter().position(|&letter| letter == sounding.step.letter()).unwrap();
            let row = if signature >= 0 { place } else { 6 - place };
            (0..signature.unsigned_abs() as usize).filter(|nth| nth % 7 == row).count() as i32 * signature.signum()
        };
        let alter = match reading.sign.alter {
            None => by_signature(imagined.0),
            Some(alter) => alter,
        };
        prop_assert_eq!(alter, sounding.alter);

        // On the instrument in hand: what is read there sounds the same.
        let there = reading.in_hand.unwrap();
        let own = hand.transposition.0;
        prop_assert_eq!(at(add(place(there.written.0), place_of(own.steps, own.semitones))), sounding);
        let from_part = place_of(there.interval.steps, there.interval.semitones);
        prop_assert_eq!(at(add(place(reading.written.0), from_part)), there.written.0);
    }

    /// The habits of notation, told again in one line each: old notation lies an octave low under a plain F clef of
    /// the instruments that have it, new notation does not, and an octave mark that the pitches already count is
    /// not counted again.
    #[test]
    fn old_notation_adds_an_octave_and_marks_never_shift_twice(
        crook in 0..HORN_CROOKS.len(),
        clef in any_clef(),
        bass in prop::option::of(prop::sample::select(&[BassNotation::Old, BassNotation::New][..])),
    ) {
        let horn = staff(Instrument::by_id("horn").unwrap(), HORN_CROOKS[crook].transposition, Some(Mechanism::Natural));
        let notation = Notation::of(&horn, Habits { bass, ..Habits::of(clef) });
        let table = HORN_CROOKS[crook].transposition.0;
        let plain_f = clef.sign == ClefSign::F && clef.octave() == 0;
        let old = plain_f && bass != Some(BassNotation::New);
        // The crooks an octave low share that octave with a clef that says so.
        let low = table.steps <= -7;
        let shared = if low && clef.octave() < 0 { 7 } else { 0 };
        let expected = table.steps + if old { 7 } else { 0 } + shared;
        prop_assert_eq!(notation.printed_to_sounding().steps, expected);
        prop_assert_eq!(notation.bass.is_some(), plain_f);
    }

    /// Drift is the ratio between what the tube gives and what the tuning asks for; bending closes it.
    #[test]
    fn drift_is_the_ratio_of_two_frequencies(
        horn in any::<bool>(),
        crook in 0..18_usize,
        number in 2..=18_u8,
        spelling in -1..=1_i32,
        intonation in any_intonation(),
    ) {
        let family = if horn { CrookFamily::Horn } else { CrookFamily::Trumpet };
        let crooks = family.crooks();
        let crook = &crooks[crook % crooks.len()];
        let partial = Partial::new(number).unwrap();
        for midi in partial.written_midi() {
            let octave = (midi - 12).div_euclid(12);
            let plain = Pitch::natural(Step::C, octave) + Interval::usual((midi - 12).rem_euclid(12));
            let written = Written(plain.respelled(spelling));
            let target = intonation.tuning.frequency(crook.transposition.to_sounding(written).0);
            let natural = intonation.natural_hz(partial, crook.transposition);
            let ratio = 1200.0 * libm::log2(natural / target);
            let drift = intonation.drift(partial, written, crook.transposition);
            prop_assert!((drift - ratio).abs() < 1e-6, "{drift} {ratio}");
            prop_assert!((intonation.bend(partial, written, crook.transposition) + ratio).abs() < 1e-6);
        }
    }

    /// Moving the reference pitch moves every frequency and no drift.
    #[test]
    fn reference_pitch_does_not_change_drift(intonation in any_intonation(), a4 in 370.0..=570.0_f64, crook in 0..18_usize) {
        let other = Intonation { tuning: Tuning { a4, ..intonation.tuning }, ..intonation };
        let (partial, written) = (Partial::new(7).unwrap(), Written("Bb4".parse().unwrap()));
        let transposition = HORN_CROOKS[crook].transposition;
        let (one, two) = (intonation.drift(partial, written, transposition), other.drift(partial, written, transposition));
        prop_assert!((one - two).abs() < 1e-9);
        let hz = other.natural_hz(partial, transposition) / intonation.natural_hz(partial, transposition);
        prop_assert!((hz - a4 / intonation.tuning.a4).abs() < 1e-9);
    }

    /// The drums of a label: what is written for one of them sounds it, whether the page transposes or not; every
    /// other note stays where it is.
    #[test]
    fn drums_come_back(tonic in 0..12_usize, fifth_above in any::<bool>(), pitch in any_pitch()) {
        let row = INSTRUMENTS.iter().find(|row| row.id.starts_with("timp")).unwrap();
        let tonic = [-6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5][tonic];
        let (first, second) = (Tonic::from_fifths(tonic), Tonic::from_fifths(tonic + 1));
        let up = Interval::between(Pitch::natural(Step::C, 4), Pitch { step: first.step, alter: first.alter, octave: 4 });
        let mut drums = staff(row, Transposition(up), None);
        drums.drums = if fifth_above { vec![second, first] } else { vec![first, second] };
        let situation = Situation::of(&drums, Habits::of(Clef::BASS));
        for named in [first, second] {
            let sound = Pitch { step: named.step, alter: named.alter, octave: pitch.octave };
            let writing = write(&situation, Sounding(sound));
            prop_assert_eq!(writing.strict.sounding.0, sound);
            prop_assert_eq!(read(&situation, writing.strict.printed).sounding.0, sound);
        }
        if ![first, second].contains(&pitch.tonic()) {
            prop_assert_eq!(write(&situation, Sounding(pitch)).strict.printed.0, pitch);
        }
    }

    /// Nothing panics, whatever number stands in a pitch, an interval or a signature.
    #[test]
    fn nothing_panics_on_extreme_numbers(
        row in 0..INSTRUMENTS.len(),
        habits in any_habits(),
        step in prop::sample::select(&Step::ALL[..]),
        alter in wild(),
        octave in wild(),
        steps in wild(),
        semitones in wild(),
        fifths in wild(),
        key in any_key(),
        mechanism in prop::sample::select(&[None, Some(Mechanism::Natural), Some(Mechanism::Valves)][..]),
        drum in wild(),
    ) {
        let mut strange = staff(&INSTRUMENTS[row], Transposition::new(steps, semitones), mechanism);
        if INSTRUMENTS[row].id.starts_with("timp") {
            strange.drums = vec![Tonic::new(step, drum), Tonic::new(Step::C, 0)];
        }
        let pitch = Pitch::new(step, alter, octave);
        let other = strange.clone();
        for movement in [None, Some(key), Some(Key::new(Tonic::new(step, alter), Mode::Minor))] {
            let situation = Situation {
                signature: Signature(fifths),
                movement,
                in_hand: Some(&other),
                intonation: Intonation {
                    tuning: Tuning { root: Tonic::new(step, drum), ..Tuning::default() },
                    ..Intonation::default()
                },
                ..Situation::of(&strange, habits)
            };
            let reading = read(&situation, Printed(pitch));
            let writing = write(&situation, Sounding(pitch));
            let words = (
                reading.interval.to_string(),
                reading.interval.short(),
                reading.sounding.to_string(),
                reading.crook_degree.to_string(),
                reading.by_clef.signature.words(),
                reading.by_clef.clef.name(),
            );
            prop_assert!(words.0.len() < 1000 && words.2.len() < 200);
            prop_assert!(writing.strict.target_hz >= 0.0);
        }
        let interval = Interval::new(steps, semitones);
        let _ = (interval.direction() == Direction::Up, interval.fifths(), Interval::usual(semitones), -interval);
        let _ = (Signature(fifths).practical(), Signature(fifths).transposed(interval), Signature(fifths).words());
        let _ = (Tonic::from_fifths(fifths), Tonic::new(step, alter).fifths(), Degree::of(pitch, key));
        let _ = (habits.clef.position(pitch), habits.clef.pitch_at(StaffPosition(steps)));
        let _ = (pitch.respelled(steps), Transposition(interval).to_musicxml());
        let _ = Transposition::from_chromatic(semitones, fifths, None);
        let _ = crookwise_theory::spelling::in_key(pitch, key);
        let _ = (Partial::of(CrookFamily::Horn, pitch), crookwise_theory::Reach::of(CrookFamily::Trumpet, pitch));
        let _ = crookwise_theory::notation::printed_at(habits.clef, StaffPosition(octave), Signature(fifths));
    }
}

/// Numbers of every size, the ends of the range among them.
fn wild() -> impl Strategy<Value = i32> {
    prop_oneof![
        3 => any::<i32>(),
        1 => -20..=20_i32,
        1 => prop::sample::select(&[i32::MIN, i32::MIN + 1, -1, 0, 1, i32::MAX - 1, i32::MAX][..]),
    ]
}
