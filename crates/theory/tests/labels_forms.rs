//! What labels say beside instrument and key: several crooks, changes of crook in five languages, open octaves by year,
//! natural or valves, drums, schemes, slips, and what is not understood.

use crookwise_theory::label::{DecodeOptions, Decoded, LONGEST, LabelProblem, Mechanism, StaffLabel, decode};
use crookwise_theory::tables::INSTRUMENTS;

fn read(label: &str) -> Decoded {
    decode(label, DecodeOptions::default())
}

fn in_year(label: &str, year: i32) -> Decoded {
    decode(label, DecodeOptions { year: Some(year) })
}

/// A staff in short: its name, how many, which players.
fn short(staff: &StaffLabel) -> String {
    let count = staff.count.map(|count| format!("{count} × ")).unwrap_or_default();
    let players: Vec<String> = staff.players.iter().map(ToString::to_string).collect();
    let players = if players.is_empty() { String::new() } else { format!(" {}", players.join(".")) };
    format!("{count}{}{players}", staff.name())
}

fn shorts(staves: &[StaffLabel]) -> String {
    staves.iter().map(short).collect::<Vec<_>>().join(" | ")
}

#[test]
fn several_staves_on_one_label() {
    for (label, expected) in [
        ("Corno I in B alto, Corno II in G", "Horn in B-flat alto 1 | Horn in G 2"),
        ("Corno 1 in B alto, 2 in G", "Horn in B-flat alto 1 | Horn in G 2"),
        ("Corni in E e A", "Horn in E | Horn in A alto"),
        ("CORNI IN E E A", "Horn in E | Horn in A alto"),
        ("2 Corni in E e A", "1 × Horn in E | 1 × Horn in A alto"),
        ("2 Corni in D, 2 Corni in B basso", "2 × Horn in D | 2 × Horn in B-flat basso"),
        ("4 Hörner (1. u. 2. in Es, 3. u. 4. in C)", "Horn in E-flat 1.2 | Horn in C basso 3.4"),
        ("Corni (Hörner) in F", "Horn in F"),
        ("1° Cor en Ré", "Horn in D 1"),
        ("2 Corni in F, 2 in C", "2 × Horn in F | 2 × Horn in C basso"),
        ("Corni I/II in F, III/IV in C", "Horn in F 1.2 | Horn in C basso 3.4"),
        ("I. II. Horn in E, III. IV. Horn in C", "Horn in E 1.2 | Horn in C basso 3.4"),
        ("Horns in F and E-flat", "Horn in F | Horn in E-flat"),
        ("Klarinetten in A und B", "Clarinet in A | Clarinet in B-flat"),
        ("2 Oboen u. Englischhorn", "2 × Oboe | Cor anglais"),
        ("2 Flauti e Ottavino", "2 × Flute | Piccolo"),
        ("F Horn 1, Bb Clarinet 2", "Horn in F 1 | Clarinet in B-flat 2"),
        ("Corni in F e Trombe in C", "Horn in F | Trumpet in C"),
        ("Tromboni alto, tenore e basso", "Alto trombone | Tenor trombone | Bass trombone"),
        ("Soprano, Alto, Tenore, Basso", "Soprano voice | Alto voice | Tenor voice | Bass voice"),
        ("Violoncello, Contrabasso", "Cello | Double bass"),
        ("Violoncello e Contrabasso", "Cellos and basses"),
        ("Vc. & Cb.", "Cellos and basses"),
        ("Vc. e B.", "Cellos and basses"),
        ("Violoncelli/Kontrabässe", "Cellos and basses"),
    ] {
        let decoded = read(label);
        assert_eq!(shorts(&decoded.staves), expected, "{label}");
        assert_eq!((decoded.problem, decoded.changes.len()), (None, 0), "{label}");
    }
}

#[test]
fn changes_of_crook_and_instrument() {
    for (label, staff, change) in [
        ("Corni in Es muta in C", "Horn in E-flat", "Horn in C basso"),
        ("Corni in Es, mutano in B basso", "Horn in E-flat", "Horn in B-flat basso"),
        ("Corni in Es cambiano in Fa", "Horn in E-flat", "Horn in F"),
        ("Cor. in Es (muta in As)", "Horn in E-flat", "Horn in A-flat alto"),
        ("2 Corni in D. Muta in G.", "2 × Horn in D", "2 × Horn in G"),
        ("Hörner in Es, in F umstimmen", "Horn in E-flat", "Horn in F"),
        ("Horn in F nimmt E", "Horn in F", "Horn in E"),
        ("Trompeten in D, wechselt in C", "Trumpet in D", "Trumpet in C"),
        ("Cors en Mi♭ changez en Fa", "Horn in E-flat", "Horn in F"),
        ("Trompas en Mi♭ cambian a Fa", "Horn in E-flat", "Horn in F"),
        ("Horns in F change to D", "Horn in F", "Horn in D"),
        ("Corni in D, poi in A", "Horn in D", "Horn in A alto"),
        ("Clarinetto in B muta in A", "Clarinet in B-flat", "Clarinet in A"),
        ("Fl. II muta in Picc.", "Flute 2", "Piccolo 2"),
        ("Corno I in F muta in D", "Horn in F 1", "Horn in D 1"),
        ("Timpani in D, A mutano in G, D", "Timpani in D and A", "Timpani in G and D"),
        ("Timpani in D, A; muta A in G", "Timpani in D and A", "Timpani in D and G"),
        (
            "Timpani in D, A; muta A in G; muta D in C",
            "Timpani in D and A",
            "Timpani in D and G | Timpani in C and G",
        ),
        ("Corni in Es muta in F, poi in C", "Horn in E-flat", "Horn in F | Horn in C basso"),
        ("Corni in Es mutta in C", "Horn in E-flat", "Horn in C basso"),
    ] {
        let decoded = read(label);
        assert_eq!(shorts(&decoded.staves), staff, "{label}");
        assert_eq!(shorts(&decoded.changes), change, "{label}");
        assert_eq!(decoded.problem, None, "{label}");
    }
    let decoded = read("Corni in Es muta in C, Trombe in D");
    assert_eq!(shorts(&decoded.staves), "Horn in E-flat | Trumpet in D");
    assert_eq!(shorts(&decoded.changes), "Horn in C basso");
}

#[test]
fn open_octaves_follow_the_year_and_say_so() {
    for (label, year, taken, other) in [
        ("Corni in B", None, "Horn in B-flat basso", "Horn in B-flat alto"),
        ("Corni in B", Some(1776), "Horn in B-flat alto", "Horn in B-flat basso"),
        ("Corni in B", Some(1806), "Horn in B-flat basso", "Horn in B-flat alto"),
        ("Corni in b Fa", None, "Horn in B-flat alto", "Horn in B-flat basso"),
        ("Corni in Si♭", None, "Horn in B-flat basso", "Horn in B-flat alto"),
        ("Corni in C", None, "Horn in C basso", "Horn in C alto"),
        ("Corni in A", None, "Horn in A alto", "Horn in A basso"),
        ("Corni in La♭", Some(1850), "Horn in A-flat alto", "Horn in A-flat basso"),
        ("Hörner in H", Some(1876), "Horn in B natural basso", "Horn in B natural alto"),
        ("Trompeten in B", None, "Trumpet in B-flat", "Trumpet in B-flat alto"),
        ("Trombe in Sol", None, "Trumpet in G", "Trumpet in G basso"),
        ("Trombe in As", None, "Trumpet in A-flat", "Trumpet in A-flat alto"),
    ] {
        let decoded = decode(label, DecodeOptions { year });
        assert_eq!(shorts(&decoded.staves), taken, "{label} {year:?}");
        let others: Vec<String> = decoded.alternatives.iter().map(|other| other.staff.name()).collect();
        assert!(others.iter().any(|name| name == other), "{label} {year:?}: {others:?}");
        let assumed = decoded.assumed.unwrap_or_default();
        assert!(assumed.contains("No octave word is printed"), "{label}: {assumed}");
        assert!(decoded.alternatives.iter().all(|other| !other.reason.is_empty()), "{label}");
    }
    // With the word nothing is left open.
    for label in ["Corni in B basso", "Hörner in tief B", "Horn in B-flat (low)", "Cors en Si♭ grave"] {
        let assumed = read(label).assumed.unwrap_or_default();
        assert!(!assumed.contains("octave"), "{label}: {assumed}");
    }
}

#[test]
fn a_bare_b_by_its_style() {
    for (label, taken, other) in [
        ("Corni in B basso", "Horn in B-flat basso", "Horn in B natural basso"),
        ("Trompeten in B", "Trumpet in B-flat", "Trumpet in B natural"),
        ("Horn in B alto", "Horn in B-flat alto", "Horn in B natural alto"),
        ("B basso Horn 1", "Horn in B natural basso 1", "Horn in B-flat basso"),
        ("B Trumpet 1", "Trumpet in B natural 1", "Trumpet in B-flat"),
        ("Trumpets in B", "Trumpet in B natural", "Trumpet in B-flat"),
        ("B-Trompete", "Trumpet in B-flat", "Trumpet in B natural"),
        ("B Clarinet", "Clarinet in B-flat", "Clarinet in B natural"),
    ] {
        let decoded = read(label);
        assert_eq!(shorts(&decoded.staves), taken, "{label}");
        assert!(decoded.alternatives.iter().any(|found| found.staff.name() == other), "{label}");
        assert!(decoded.assumed.unwrap_or_default().contains("B is taken as"), "{label}");
    }
    for label in [
        "Horn in H basso",
        "Horn in B♮ basso",
        "Horn in B natural basso",
        "Corno in Si basso",
        "Corni in Bemì basso",
    ] {
        let decoded = read(label);
        assert_eq!(shorts(&decoded.staves), "Horn in B natural basso", "{label}");
        assert!(!decoded.assumed.unwrap_or_default().contains("B is taken as"), "{label}");
    }
}

#[test]
fn natural_or_valves() {
    use Mechanism::{Natural, Valves};
    for (label, year, mechanism) in [
        ("Corni in Es", None, Some(Natural)),
        ("Corni in Es", Some(1805), Some(Natural)),
        ("Corni in Es", Some(1890), Some(Valves)),
        ("Ventilhorn in F", Some(1805), Some(Valves)),
        ("Waldhorn in F", Some(1876), Some(Natural)),
        ("Naturhorn in Es", Some(1876), Some(Natural)),
        ("Cors à pistons en Fa", None, Some(Valves)),
        ("Cor simple en Ré", Some(1860), Some(Natural)),
        ("Corni da caccia in G", None, Some(Natural)),
        ("Corni cromatici in Mi", None, Some(Valves)),
        ("Trompetas naturales en Re", Some(1900), Some(Natural)),
        ("Trompettes à pistons en Ré", None, Some(Valves)),
        ("Tromba a macchina in Fa", None, Some(Valves)),
        ("Horn 1", None, Some(Valves)),
        ("Clarini", None, Some(Natural)),
        ("Cornet à pistons en La", None, Some(Valves)),
        ("Flügelhorn", Some(1800), Some(Valves)),
        ("Posthorn in A", None, Some(Natural)),
        ("Posaunen", None, None),
        ("Klarinette in A", None, None),
        ("Violini", None, None),
    ] {
        let decoded = decode(label, DecodeOptions { year });
        assert_eq!(decoded.staves[0].mechanism, mechanism, "{label} {year:?}");
    }
    assert!(in_year("Corni in Es", 1805).assumed.unwrap_or_default().contains("1805"));
}

#[test]
fn no_key_is_said_and_the_usual_ones_are_offered() {
    for (label, taken, other) in [
        ("Corni", "Horn in F", "Horn in D"),
        ("2 Trombe", "2 × Trumpet in C", "Trumpet in D"),
        ("Klar.", "Clarinet in B-flat", "Clarinet in A"),
    ] {
        let decoded = read(label);
        assert_eq!(shorts(&decoded.staves), taken);
        assert_eq!(decoded.problem, None);
        assert!(decoded.assumed.unwrap_or_default().contains("No key is printed"), "{label}");
        assert!(decoded.alternatives.iter().any(|found| found.staff.name() == other), "{label}");
    }
}

#[test]
fn drums_and_their_old_notation() {
    for (label, drums, shift) in [
        ("Timpani in D–A", "D A", (1, 2)),
        ("Timpani in A, D", "A D", (1, 2)),
        ("Timpani in B, F", "Bb F", (-1, -2)),
        ("Pauken in Es–B", "Eb Bb", (2, 3)),
        ("Timpani in C e G", "C G", (0, 0)),
        ("Timp. (D, A)", "D A", (1, 2)),
        ("Timpani in F, C", "F C", (3, 5)),
        ("Timpani in G, D", "G D", (-3, -5)),
        ("Timbales en ré-la", "D A", (1, 2)),
        ("Pauken in H, Fis", "B F#", (-1, -1)),
        ("D, A Timpani", "D A", (1, 2)),
        ("B, D, E Timpani", "B D E", (0, 0)),
        ("F, F Timpani", "F F", (0, 0)),
        ("Timpani", "", (0, 0)),
    ] {
        let decoded = read(label);
        let staff = &decoded.staves[0];
        assert_eq!(
            staff.drums.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "),
            drums,
            "{label}"
        );
        assert_eq!((staff.transposition.0.steps, staff.transposition.0.semitones), shift, "{label}");
        // The shift is a habit of notation: the reading at pitch stands beside it.
        assert_eq!(decoded.alternatives.len(), usize::from(shift != (0, 0)), "{label}");
    }
}

#[test]
fn notations_and_schemes_that_the_trade_leaves_open() {
    for (label, taken, others) in [
        ("Bassklarinette in B", "bcl_de", ["bcl_fr"].as_slice()),
        ("Clarinette basse en Si♭", "bcl_fr", &["bcl_de"]),
        ("Bass Clarinet in B-flat", "bcl_fr", &["bcl_de"]),
        ("Tenortuben in B", "wt_t_bb", &["wt_t_bbb", "wt_t_eb"]),
        ("Tenortuba in B (tief)", "wt_t_bbb", &["wt_t_bb", "wt_t_eb"]),
        ("Tenortuben in Es", "wt_t_eb", &["wt_t_bb"]),
        ("Basstuben in F", "wt_b_f", &["wt_b_bb", "tuba"]),
        ("Basstuba in F", "wt_b_f", &["tuba"]),
        ("Basstuba", "tuba", &["wt_b_f"]),
        ("Alto", "viola", &["alto", "tenor_horn"]),
        ("Basso", "bassi", &["bass_voice"]),
        ("Flauto piccolo", "piccolo", &["rec_sopranino"]),
        ("Cornet in E-flat", "cornet_bb", &["cornet_eb"]),
        ("Tenorhorn", "baritone", &["tenor_horn"]),
        ("Tenor Horn", "tenor_horn", &["baritone"]),
        ("Sop.", "soprano", &["cornet_eb"]),
    ] {
        let decoded = read(label);
        assert_eq!(decoded.staves[0].instrument.id, taken, "{label}");
        for other in others {
            assert!(
                decoded.alternatives.iter().any(|found| found.staff.instrument.id == *other),
                "{label}: {other}"
            );
        }
        let silent = ["piccolo"];
        assert!(decoded.assumed.is_some() || silent.contains(&taken), "{label}");
    }
    let decoded = in_year("Flauto", 1730);
    assert!(decoded.alternatives.iter().any(|found| found.staff.instrument.id == "rec_a"));
}

/// Labels that mislead: horns that are woodwind, trumpets that are horns.
#[test]
fn names_that_mislead() {
    for (label, id) in [
        ("Trompas", "horn"),
        ("Trombe", "trumpet"),
        ("Clarino I", "trumpet"),
        ("Corno inglese", "cor_ang"),
        ("Cor anglais", "cor_ang"),
        ("Corni di bassetto", "basset_hn"),
        ("Cor de basset", "basset_hn"),
        ("Waldhorn in D", "horn"),
        ("Corno di posta", "posthorn"),
        ("Tromba bassa in C", "bass_tpt_c"),
        ("Trombe in B basso", "trumpet"),
        ("Althorn in Es", "tenor_horn"),
        ("E♭ Alto Horn", "tenor_horn"),
        ("Bb alto Horn 1", "horn"),
        ("Cl. B", "cl_bb"),
        ("B. Cl.", "bcl_fr"),
        ("A. Cl.", "alto_cl"),
        ("A Cl. 1", "cl_a"),
        ("E♭ Cl.", "cl_eb"),
        ("E♭ B.", "eb_bass"),
        ("Alto Corno in Do", "horn"),
        ("Bb Alto Horn 1", "horn"),
        ("Alto Horn", "tenor_horn"),
        ("Tromba alta in Si♭", "trumpet"),
        ("Tromba alta in Fa", "tpt_f_contralto"),
        ("BB♭ Bass", "bb_bass"),
        ("Bassclarinette in B", "bcl_de"),
        ("Fl. picc.", "piccolo"),
        ("Flauto traverso", "flute"),
        ("Tr-ni", "tromb_t"),
        ("Contrafag.", "cfg"),
        ("Mezzosoprano", "soprano"),
        ("Flauto in Sol", "alto_fl"),
        ("Saxophon in B", "sax_t"),
        ("Bassi", "bassi"),
        ("Contrabbasso", "cb"),
    ] {
        let decoded = read(label);
        assert_eq!(decoded.problem, None, "{label}");
        assert_eq!(decoded.staves[0].instrument.id, id, "{label}");
    }
}

#[test]
fn every_abbreviation_of_the_table() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("data/instruments.csv");
    let mut tried = 0;
    for row in csv::Reader::from_path(path).unwrap().records().map(Result::unwrap) {
        for abbreviation in row[6].split(';').map(str::trim).filter(|text| *text != "–") {
            tried += 1;
            let decoded = read(abbreviation);
            assert_eq!(decoded.problem, None, "{abbreviation}");
            let id = &row[0];
            let taken = decoded.staves[0].instrument.id;
            // The clarinets share theirs: the key of a bare one is said to be open.
            let offered = decoded.alternatives.iter().any(|other| other.staff.instrument.id == id);
            let by_habit = ["vc_treble_old", "bcl_de", "bcl_fr", "bcl_a"];
            let open = decoded.assumed.is_some() || by_habit.contains(&id) || taken == "cello";
            assert!(taken == id || (offered && open), "{abbreviation}: {taken}, not {id}");
        }
    }
    assert!(tried > 140, "{tried}");
    assert_eq!(INSTRUMENTS.len(), 115);
}

#[test]
fn forms_in_other_keys() {
    for (label, id, steps, semitones) in [
        ("Piccolo in D-flat", "piccolo", 8, 13),
        ("Terzflöte in F", "fl_terz", 3, 5),
        ("Alto Clarinet in F", "alto_cl", -4, -7),
        ("Corno di bassetto in Sol", "basset_hn", -3, -5),
        ("Soprano Saxophone in C", "sax_s", 0, 0),
        ("Baritonsaxophon in F", "sax_b", -11, -19),
        ("Quintfagott in C", "tenoroon", 7, 12),
        ("Cornet in D", "cornet_bb", -6, -10),
        ("Bass Trumpet in B-flat", "bass_tpt_c", -8, -14),
        ("Tromba bassa in Re", "bass_tpt_c", -6, -10),
        ("Contralto trumpet in G", "tpt_f_contralto", -3, -5),
        ("Clarinet in G (low)", "cl_g", -3, -5),
        ("Basstuba in F basso", "wt_b_f", -11, -19),
        ("Posthorn in A", "posthorn", -2, -3),
        ("Posthorn in C", "posthorn", 0, 0),
        ("Tromba piccola in Si♭", "picc_tpt", 6, 10),
        ("Bass clarinet in A", "bcl_a", -9, -15),
        ("Tuba in Es", "tuba", 0, 0),
    ] {
        let decoded = read(label);
        assert_eq!(decoded.problem, None, "{label}");
        let staff = &decoded.staves[0];
        let shift = staff.transposition.0;
        assert_eq!((staff.instrument.id, shift.steps, shift.semitones), (id, steps, semitones), "{label}");
    }
    for label in [
        "Horn in Cis",
        "Bass Clarinet in D",
        "Oboe in G",
        "Violino in A",
        "Cor anglais in G",
        "Trumpet in F-sharp",
    ] {
        let decoded = read(label);
        assert!(
            matches!(decoded.problem, Some(LabelProblem::NoSuchCrook { .. })),
            "{label}: {:?}",
            decoded.problem
        );
        assert!(decoded.staves.is_empty(), "{label}");
    }
    let decoded = read("Horn in Cis");
    assert_eq!(decoded.alternatives[0].staff.name(), "Horn in D-flat");
}

#[test]
fn what_is_not_understood_is_named() {
    let cases = [
        ("", "Type what the score prints at the head of the staff"),
        (" \t\u{a0} ", "Type what the score prints at the head of the staff"),
        ("\u{0}\u{1}\u{7f}", "Type what the score prints at the head of the staff"),
        ("Hirn in F", "“Hirn” names no instrument known here; the nearest word known is “horn”"),
        ("🎺", "“🎺” names no instrument known here"),
        ("מקהלה", "“מקהלה” names no instrument known here"),
        ("\u{202e}snroH\u{202c}", "“snroH” names no instrument known here"),
        ("in Es", "“in” names no instrument known here"),
        ("Corni lontani in Es", "“lontani” is not understood"),
        ("Horn in Cis", "No horn in C-sharp is built, or none is known here"),
        ("Oboe in G", "No oboe in G is built, or none is known here"),
    ];
    for (label, sentence) in cases {
        let problem = read(label).problem.map(|problem| problem.to_string());
        assert_eq!(problem.as_deref(), Some(sentence), "{label:?}");
    }
    // A foreign word beside a known instrument: the staff is there all the same.
    assert_eq!(shorts(&read("Corni lontani in Es").staves), "Horn in E-flat");
    let long = "Corni in Es ".repeat(LONGEST / 12 + 1);
    assert_eq!(read(&long).problem, Some(LabelProblem::TooLong));
    assert_eq!(
        read(&long).problem.unwrap().to_string(),
        "This is longer than any label at the head of a staff"
    );
    assert_eq!(read(&"x".repeat(1_000_000)).problem, Some(LabelProblem::TooLong));
    // Many words written as one: there are thousands of ways to part them, and none is tried for long.
    let begun = std::time::Instant::now();
    assert!(read(&"contrabass".repeat(19)).staves.is_empty());
    assert!(read(&"altbassbasso ".repeat(15)).problem.is_some());
    assert!(begun.elapsed().as_secs() < 5);
    let wide = read(&"ẞ".repeat(LONGEST));
    assert!(
        matches!(wide.problem, Some(LabelProblem::NoInstrument { word, .. }) if word.chars().count() < 40)
    );
}

/// One slip is forgiven and said; two are not; short key names get none; and a slip between two instruments is not
/// guessed at.
#[test]
fn one_slip_and_no_more() {
    let decoded = read("Trmba in D");
    assert_eq!(shorts(&decoded.staves), "Trumpet in D");
    assert!(decoded.assumed.unwrap_or_default().starts_with("“Trmba” is read as “tromba”."));
    assert_eq!(shorts(&read("Corni in mi bemole").staves), "Horn in E-flat");
    assert_eq!(shorts(&read("Corni in Delasore").staves), "Horn in D");
    assert_eq!(shorts(&read("Hron in F").staves), "Horn in F");
    assert!(read("Trmba bsasa in D").problem.is_some());
    assert!(read("Troma in D").staves.is_empty(), "tromba or trompa");
    for (label, name) in [
        ("Corni in E", "Horn in E"),
        ("Corni in Es", "Horn in E-flat"),
        ("Corni in F", "Horn in F"),
        ("Corni in As", "Horn in A-flat alto"),
    ] {
        assert_eq!(shorts(&read(label).staves), name);
    }
    for label in ["Corni in Ez", "Corni in Fo", "Corni in Hs", "Corni in Xs"] {
        let decoded = read(label);
        assert!(matches!(decoded.problem, Some(LabelProblem::UnreadKey { .. })), "{label}");
        assert!(decoded.staves.is_empty(), "{label}");
    }
}
