//! What a column of sounding pitches is called: each rule by cases, written before the code that follows them.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_score::chord::{Harmony, HarmonyKind, Heard, Quality, Role};
use crookwise_theory::Pitch;

fn pitches(names: &str) -> Vec<Pitch> {
    names.split_whitespace().map(|name| name.parse().unwrap()).collect()
}

/// The harmony of pitches such as "C4 E4 G4"; the key is "" for none.
fn harmony(names: &str, key: &str) -> Harmony {
    let key = (!key.is_empty()).then(|| key.parse().unwrap());
    Harmony::of_pitches(&pitches(names), key)
}

#[track_caller]
fn called(cases: &[(&str, &str, &str)]) {
    for (names, key, expected) in cases {
        assert_eq!(harmony(names, key).to_string(), *expected, "{names} in {key:?}");
    }
}

#[test]
fn silence_and_one_note() {
    called(&[
        ("", "", "silence"),
        ("", "C major", "silence"),
        ("C4", "", "C alone"),
        ("Eb4 Eb4", "", "E-flat in unison"),
        ("C3 C4 C6", "C major", "C in octaves"),
        // The same key of the keyboard by two letters is one note.
        ("D#4 Eb4", "Eb major", "E-flat in unison"),
    ]);
}

#[test]
fn two_notes_are_an_interval() {
    called(&[
        ("C3 G3", "", "open fifth on C"),
        ("C3 G4 C5 G5", "", "open fifth on C"),
        ("G3 C4", "", "open fifth on C, fifth in the bass"),
        ("F#3 Db4", "C major", "open fifth on F-sharp"),
        ("C4 E4", "", "major third, C and E"),
        ("C3 E5 C5", "", "major third, C and E"),
        ("E3 C4", "C major", "minor sixth, E and C"),
        ("D4 C5", "", "minor seventh, D and C"),
        ("C3 D4", "C major", "major second, C and D"),
        ("E4 F4", "", "minor second, E and F"),
        // A third is a third on whatever letters the staves have it.
        ("C4 D#4", "", "minor third, C and E-flat"),
        ("D#3 C4", "", "major sixth, E-flat and C"),
        ("B3 F4", "", "diminished fifth, B and F"),
        ("F3 B3", "", "augmented fourth, F and B"),
        // In a key the key spells.
        ("Ab3 B3", "C minor", "augmented second, A-flat and B"),
        ("Ab3 Cb4", "C minor", "augmented second, A-flat and B"),
        ("Gb3 C4", "G major", "diminished fifth, F-sharp and C"),
    ]);
}

#[test]
fn triads_in_all_positions() {
    called(&[
        ("C4 E4 G4", "", "C major"),
        ("E3 G4 C5", "", "C major, third in the bass"),
        ("G2 C4 E5", "", "C major, fifth in the bass"),
        ("G3 Bb3 D4", "", "G minor"),
        ("D3 F3 B4", "", "B diminished, third in the bass"),
        ("Eb4 G4 Bb4 Eb2", "Eb major", "E-flat major"),
        ("D#4 G4 A#4", "Eb major", "E-flat major"),
        // Letters that make no stack of thirds, and no key: the letters that most of them agree with.
        ("C4 Fb4 G4", "", "C major"),
        ("Eb3 G3 A#3", "", "E-flat major"),
        ("E4 G#4 B4", "C major", "E major"),
        ("E4 Ab4 B4", "C major", "E major"),
        ("G#4 B4 D5", "C major", "G-sharp diminished"),
        ("Ab3 Cb4 Eb4", "C major", "A-flat minor"),
        ("Ab3 B3 Eb4", "C major", "A-flat minor"),
        ("B3 D#4 F#4", "C major", "B major"),
        ("Db3 F3 Ab3", "C minor", "D-flat major"),
    ]);
}

#[test]
fn augmented_triads_have_the_root_their_letters_or_the_key_give() {
    called(&[
        ("C4 E4 G#4", "", "C augmented"),
        ("C4 E4 Ab4", "", "A-flat augmented, third in the bass"),
        // Letters that no stack of thirds has: the bass.
        ("E4 G#4 Dbb5", "", "E augmented"),
        // In major it is built on the tonic, the dominant, the subdominant or the second degree.
        ("C4 E4 Ab4", "C major", "C augmented"),
        ("B3 Eb4 G4", "C major", "G augmented, third in the bass"),
        ("F4 A4 C#5", "C major", "F augmented"),
        ("D4 F#4 A#4", "C major", "D augmented"),
        // In minor on the third degree above all.
        ("G3 B3 D#4", "C minor", "E-flat augmented, third in the bass"),
        ("C4 E4 G#4", "C minor", "A-flat augmented, third in the bass"),
    ]);
    let found = harmony("C4 E4 G#4", "");
    let others: Vec<String> = found.also.iter().map(ToString::to_string).collect();
    assert_eq!(others, ["E augmented, fifth in the bass", "A-flat augmented, third in the bass"]);
}

#[test]
fn sevenths_in_all_positions() {
    called(&[
        ("G3 B3 D4 F4", "", "G dominant seventh"),
        ("B3 D4 F4 G4", "", "G dominant seventh, third in the bass"),
        ("D3 G3 B3 F4", "C major", "G dominant seventh, fifth in the bass"),
        ("F2 G3 B3 D4", "C major", "G dominant seventh, seventh in the bass"),
        ("E3 C4 G4 B4", "", "C major seventh, third in the bass"),
        ("D4 F4 A4 C5", "", "D minor seventh"),
        ("B3 D4 F4 A4", "", "B half-diminished seventh"),
        ("C4 Eb4 G4 B4", "", "C minor-major seventh"),
        ("C4 E4 G#4 B4", "", "C augmented major seventh"),
        ("C4 E4 G#4 Bb4", "", "C augmented seventh"),
        // No sixth chords: what has four thirds is a seventh, whatever its bass.
        ("C4 E4 G4 A4", "", "A minor seventh, third in the bass"),
        ("F3 Ab3 C4 D4", "C minor", "D half-diminished seventh, third in the bass"),
    ]);
}

#[test]
fn missing_members_are_said() {
    called(&[
        ("G3 B3 F4", "", "G dominant seventh, fifth missing"),
        ("F3 G3 B3", "C major", "G dominant seventh, fifth missing, seventh in the bass"),
        ("C4 E4 B4", "", "C major seventh, fifth missing"),
        ("D4 F4 C5", "", "D minor seventh, fifth missing"),
        ("C4 Eb4 B4", "", "C minor-major seventh, fifth missing"),
        // Minor or dominant: without its third nobody knows.
        ("G3 D4 F4", "", "G seventh, third missing"),
        ("C4 G4 B4", "", "C major seventh, third missing"),
        ("B3 F4 A4", "", "B half-diminished seventh, third missing"),
        // The fifth that is missing is the one the key would have.
        ("B3 D4 A4", "C major", "B half-diminished seventh, fifth missing"),
        ("B3 D4 A4", "G major", "B minor seventh, fifth missing"),
        ("D4 F4 C5", "C minor", "D half-diminished seventh, fifth missing"),
        // Third, fifth and seventh alone are a triad.
        ("B3 D4 F4", "C major", "B diminished"),
    ]);
}

#[test]
fn diminished_sevenths() {
    called(&[
        // By their letters.
        ("B3 D4 F4 Ab4", "", "B diminished seventh"),
        ("G#3 B3 D4 F4", "", "G-sharp diminished seventh"),
        ("D4 F4 G#4 B4", "", "G-sharp diminished seventh, fifth in the bass"),
        // Letters that make no stack of thirds: the bass.
        ("D4 F4 Ab4 B4", "", "B diminished seventh, third in the bass"),
        ("D4 E#4 Ab4 B4", "", "D diminished seventh"),
        // In a key by its leading note, whatever the letters.
        ("B3 D4 F4 Ab4", "C minor", "B diminished seventh"),
        ("G#3 B3 D4 F4", "C minor", "B diminished seventh, seventh in the bass"),
        ("Ab3 B3 D4 F4", "A minor", "G-sharp diminished seventh"),
        ("F#3 A3 C4 Eb4", "C major", "F-sharp diminished seventh"),
        // Without the leading note by the letters, and where they say nothing by the degree it leads to.
        ("C#4 E4 G4 Bb4", "C major", "C-sharp diminished seventh"),
        ("E4 G4 Bb4 Db5", "C major", "E diminished seventh"),
        ("Db4 E4 G4 A#4", "C major", "C-sharp diminished seventh"),
        ("Db4 E4 G4 A#4", "C minor", "E diminished seventh, seventh in the bass"),
    ]);
    let others: Vec<String> =
        harmony("B3 D4 F4 Ab4", "C minor").also.iter().map(|chord| chord.root.to_string()).collect();
    assert_eq!(others, ["D", "F", "G#"]);
}

#[test]
fn augmented_sixths() {
    called(&[
        // By their letters, in any position.
        ("Ab3 C4 F#4", "", "Italian sixth on A-flat"),
        ("Ab3 C4 D4 F#4", "", "French sixth on A-flat"),
        ("Ab3 C4 Eb4 F#4", "", "German sixth on A-flat"),
        ("F#3 Ab3 C4 Eb4", "", "German sixth on A-flat, sixth in the bass"),
        ("Ab3 C4 Eb4 Gb4", "", "A-flat dominant seventh"),
        ("Ab3 C4 Gb4", "", "A-flat dominant seventh, fifth missing"),
        // By their place in the key, whose letters they get.
        ("Ab3 C4 Gb4", "C minor", "Italian sixth on A-flat"),
        ("Ab3 C4 Eb4 Gb4", "C minor", "German sixth on A-flat"),
        ("G#3 C4 D4 F#4", "C major", "French sixth on A-flat"),
        ("Db3 F3 Ab3 B3", "C minor", "German sixth on D-flat"),
        ("Db3 F3 Ab3 Cb4", "C minor", "German sixth on D-flat"),
        // Elsewhere in the key by their letters.
        ("Bb3 D4 F4 G#4", "C major", "German sixth on B-flat"),
        ("Bb3 D4 F4 Ab4", "C major", "B-flat dominant seventh"),
        ("F3 A3 B3 D#4", "C major", "French sixth on F"),
    ]);
    // The other way to hear it is said.
    let german = harmony("Ab3 C4 Eb4 Gb4", "C minor");
    assert_eq!(german.also[0].to_string(), "A-flat dominant seventh");
    let sixth = german.members.iter().find(|member| member.role == Role::Sixth).unwrap();
    assert_eq!((sixth.note.to_string(), &sixth.voices[..]), ("F#".into(), &[3][..]));
    assert!(german.letters[3].respelled && !german.letters[0].respelled);
    // An augmented sixth has no root.
    for names in ["Ab3 C4 Eb4 Gb4", "Ab3 C4 Gb4", "Ab3 C4 D4 F#4"] {
        let sixth = harmony(names, "C minor");
        let roles: Vec<&str> = sixth.members.iter().map(|member| member.role.words()).collect();
        assert!(roles.contains(&"lower note") && roles.contains(&"sixth"), "{names}: {roles:?}");
        assert!(!roles.contains(&"root"), "{names}: {roles:?}");
    }
    // The degree is that of its lowest member.
    assert_eq!(german.degree.unwrap().to_string(), "6");
}

#[test]
fn natural_brass_does_not_decide_on_letters() {
    // A horn prints F-sharp for either letter, so its strict spelling proves nothing.
    let heard = |names: &str, brass: &[usize]| -> Vec<Heard> {
        let heard = |(place, pitch)| Heard { pitch, spells: !brass.contains(&place) };
        pitches(names).into_iter().enumerate().map(heard).collect()
    };
    let key = Some("C major".parse().unwrap());
    assert_eq!(Harmony::of(&heard("Bb3 D4 F4 G#4", &[3]), key).to_string(), "B-flat dominant seventh");
    assert_eq!(Harmony::of(&heard("Bb3 D4 F4 Ab4 G#5", &[4]), key).to_string(), "B-flat dominant seventh");
    assert_eq!(Harmony::of(&heard("Bb3 D4 F4 G#4 Ab5", &[4]), key).to_string(), "German sixth on B-flat");
    // Where nothing decides, the letters with the fewest signs.
    for (names, expected) in [
        ("D#4 G4 A#4", "E-flat major"),
        ("Ab3 Cb4 Eb4", "G-sharp minor"),
        ("D#4 F#4 A#4", "E-flat minor"),
        ("Gb3 Bb3 Db4", "F-sharp major"),
    ] {
        assert_eq!(Harmony::of(&heard(names, &[0, 1, 2]), None).to_string(), expected);
    }
}

#[test]
fn pedals_under_other_harmony() {
    called(&[
        ("C2 G3 B3 D4 F4", "C major", "G dominant seventh over a pedal C"),
        ("C2 C3 G3 B3 D4 F4 C5", "", "G dominant seventh over a pedal C"),
        ("C2 B3 D4 F4 Ab4", "C minor", "B diminished seventh over a pedal C"),
        ("G2 F4 A4 C5", "C major", "F major over a pedal G"),
        ("Eb2 D4 F4 Ab4 Bb4", "Eb major", "B-flat dominant seventh over a pedal E-flat"),
        ("C2 G3 B3 F4", "C major", "G dominant seventh, fifth missing, over a pedal C"),
        ("F2 C4 E4 G4", "", "C major over a pedal F"),
        ("G2 Ab3 C4 Eb4 F#4", "C minor", "German sixth on A-flat over a pedal G"),
        // A member of the chord in the bass is no pedal.
        ("F2 G3 B3 D4", "C major", "G dominant seventh, seventh in the bass"),
        ("C2 F3 A3 D4", "C major", "D minor seventh, seventh in the bass"),
        // Two notes over a bass are no chord over a pedal.
        ("C2 F#4 G4", "C minor", "no chord"),
    ]);
    let found = harmony("C2 G3 B3 D4 F4 C5", "C major");
    let pedal = found.members.iter().find(|member| member.role == Role::Pedal).unwrap();
    assert_eq!(pedal.voices, [0, 5]);
    // Its degree is that of the chord over it.
    assert_eq!(found.degree.unwrap().to_string(), "5");
}

#[test]
fn suspensions_and_ninths_with_their_root_in_the_bass() {
    called(&[
        ("C3 F3 G3", "", "C with a suspended fourth"),
        ("G2 C4 D4 F4", "C major", "G seventh with a suspended fourth"),
        ("G2 B3 D4 F4 A4", "C major", "G dominant ninth"),
        ("G2 B3 D4 F4 Ab4", "C minor", "G dominant minor ninth"),
        ("G2 B3 F4 A4", "C major", "G dominant ninth, fifth missing"),
        // With another bass the same notes might be several things.
        ("F3 G3 C4", "", "no chord"),
        ("G3 C4 F4", "", "no chord"),
    ]);
}

#[test]
fn no_chord_is_an_answer() {
    called(&[
        ("C4 D4 E4", "", "no chord"),
        ("C4 C#4 D4", "C major", "no chord"),
        ("C4 D4 E4 G4", "", "no chord"),
        ("C3 Db4 D4 Eb4 E4 F4 F#4", "C major", "no chord"),
    ]);
    let found = harmony("C4 D4 E4 D5", "C major");
    assert_eq!(found.kind, HarmonyKind::NoChord);
    assert!(found.members.iter().all(|member| member.role == Role::Other));
    assert_eq!(found.members.iter().map(|member| member.voices.len()).collect::<Vec<_>>(), [1, 2, 1]);
    assert_eq!(found.degree, None);
}

#[test]
fn the_bass_is_the_lowest_sound_in_whatever_order() {
    called(&[("C5 E4 G3", "", "C major, fifth in the bass"), ("G4 E3 C5", "", "C major, third in the bass")]);
}

#[test]
fn who_holds_which_member() {
    let found = harmony("Eb2 G3 Bb3 G4 Eb4 Eb4 G3", "Eb major");
    let HarmonyKind::Chord(chord) = &found.kind else { panic!("{found}") };
    assert_eq!((chord.quality, chord.root.to_string()), (Quality::Major, "Eb".into()));
    let held: Vec<_> = found.members.iter().map(|member| (member.role, member.voices.as_slice())).collect();
    let expected: [(Role, &[usize]); 3] =
        [(Role::Root, &[0, 4, 5]), (Role::Third, &[1, 6, 3]), (Role::Fifth, &[2])];
    assert_eq!(held, expected);
    let third = &found.members[1];
    assert_eq!(third.octaves, [(3, 2), (4, 1)]);
    assert_eq!((third.unisons(), third.octave_doublings()), (1, 1));
    assert_eq!(found.degree.unwrap().to_string(), "1");
}

#[test]
fn letters_follow_the_key_and_are_marked() {
    let found = harmony("D#4 G4 A#4 Bb5", "Eb major");
    let letters: Vec<String> = found.letters.iter().map(|letter| letter.pitch.to_string()).collect();
    assert_eq!(letters, ["Eb4", "G4", "Bb4", "Bb5"]);
    assert_eq!(
        found.letters.iter().map(|letter| letter.respelled).collect::<Vec<_>>(),
        [true, false, true, false]
    );
    // Octaves change at C whatever the letter.
    let found = harmony("B#3 E4 G4", "C major");
    assert_eq!(found.letters[0].pitch.to_string(), "C4");
    // Without a chord each note by itself.
    let found = harmony("C4 D4 D#4 E4", "Eb major");
    assert_eq!(found.letters[2].pitch.to_string(), "Eb4");
}

#[test]
fn wild_pitches_are_survived() {
    let wild = [
        Pitch::new(crookwise_theory::Step::B, i32::MAX, i32::MAX),
        Pitch::new(crookwise_theory::Step::C, i32::MIN, i32::MIN),
        Pitch::new(crookwise_theory::Step::E, 1_000_000, 4),
        Pitch::new(crookwise_theory::Step::G, -40, 4),
    ];
    for count in 0..=wild.len() {
        for key in [None, Some("Cb major".parse().unwrap())] {
            let found = Harmony::of_pitches(&wild[..count], key);
            assert_eq!(found.letters.len(), count);
            let _ = found.to_string();
        }
    }
}
