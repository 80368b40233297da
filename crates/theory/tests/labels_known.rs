//! Instruments and wordings at the edge of the trade that a margin may have all the same, and what is not guessed.

use crookwise_theory::label::{DecodeOptions, Decoded, LabelProblem, Mechanism, decode};
use crookwise_theory::tables::INSTRUMENTS;

fn read(label: &str) -> Decoded {
    decode(label, DecodeOptions::default())
}

/// Ids of the staves, and the words of the first.
fn ids(decoded: &Decoded) -> String {
    decoded.staves.iter().map(|staff| staff.instrument.id).collect::<Vec<_>>().join(" ")
}

#[test]
fn flats_in_short() {
    for (label, name) in [
        ("Corni in mi bem.", "Horn in E-flat"),
        ("Corni in Mi bem", "Horn in E-flat"),
        ("Cors en mi bém.", "Horn in E-flat"),
        ("Corni in si bem. basso", "Horn in B-flat basso"),
        ("Clarinetti in Si bem.", "Clarinet in B-flat"),
        ("Trombe in La bem. alto", "Trumpet in A-flat alto"),
        ("Corni in fa dies.", "Horn in F-sharp"),
    ] {
        let decoded = read(label);
        assert_eq!((decoded.staves[0].name().as_str(), &decoded.problem), (name, &None), "{label}");
    }
}

#[test]
fn instruments_at_the_edge_of_the_trade() {
    for (label, id, words) in [
        ("Violone", "cb", "Double bass — sounds an octave lower"),
        ("Violoni", "cb", "Double bass — sounds an octave lower"),
        ("Piccolo trumpet in A", "picc_tpt", "Piccolo trumpet in A — sounds a major sixth higher"),
        ("Piccolo trumpet", "picc_tpt", "Piccolo trumpet in B-flat — sounds a minor seventh higher"),
        ("Kleine Trompete in D", "picc_tpt", "Piccolo trumpet in D — sounds a major second higher"),
        ("Alt-Horn in Es", "tenor_horn", "Tenor horn in E-flat — sounds a major sixth lower"),
        ("Alto-Posaune", "tromb_a", "Alto trombone — sounds as written"),
        ("Baß-Trompete in Es", "bass_tpt_c", "Bass trumpet in E-flat — sounds a major sixth lower"),
        ("Tromba bassa in D", "bass_tpt_c", "Bass trumpet in D — sounds a minor seventh lower"),
        ("Cornets à pistons en La", "cornet_bb", "Cornet in A — sounds a minor third lower"),
        ("2 Cornets à pistons en La", "cornet_bb", "Cornet in A — sounds a minor third lower"),
        ("Principale", "trumpet", "Trumpet in C — sounds as written"),
        ("Principale in D", "trumpet", "Trumpet in D — sounds a major second higher"),
        ("Prinzipal", "trumpet", "Trumpet in C — sounds as written"),
        ("Corno da tirarsi", "slide_horn", "Corno da tirarsi — sounds as written"),
        ("Tromba da tirarsi", "slide_trumpet", "Slide trumpet — sounds as written"),
        ("Zugtrompete", "slide_trumpet", "Slide trumpet — sounds as written"),
        ("Serpent", "serpent", "Serpent — sounds as written"),
        ("Serpente", "serpent", "Serpent — sounds as written"),
        ("Ophicléides", "ophicleide", "Ophicleide — sounds as written"),
        ("Cimbasso", "cimbasso", "Cimbasso — sounds as written"),
        ("Flicorno", "flugel", "Flugelhorn in B-flat — sounds a major second lower"),
        ("Flicorno contralto", "tenor_horn", "Tenor horn in E-flat — sounds a major sixth lower"),
        (
            "Flicorno sopranino",
            "fl_sopranino",
            "Sopranino flugelhorn in E-flat — sounds a minor third higher",
        ),
        ("Vle.", "viola", "Viola — sounds as written"),
        ("Canto", "soprano", "Soprano voice — sounds as written"),
        ("Violoncello e Basso", "bassi", "Cellos and basses — sounds as written, the basses an octave lower"),
        ("Bassi", "bassi", "Cellos and basses — sounds as written, the basses an octave lower"),
        ("Glocken", "bells", "Tubular bells — sounds as written"),
        ("Cembalo", "harpsichord", "Harpsichord — sounds as written"),
    ] {
        let decoded = read(label);
        assert_eq!((ids(&decoded).as_str(), &decoded.problem), (id, &None), "{label}");
        assert_eq!(decoded.staves[0].words(), words, "{label}");
    }
    assert_eq!(read("Piccolo trumpet in A").staves[0].mechanism, Some(Mechanism::Valves));
    assert_eq!(read("Alt-Horn in Es").staves[0].mechanism, Some(Mechanism::Valves));
    assert_eq!(read("Principale").staves[0].mechanism, Some(Mechanism::Natural));
    for label in ["Violone", "Canto", "Flicorno"] {
        let decoded = read(label);
        assert!(decoded.assumed.is_some() && !decoded.alternatives.is_empty(), "{label}");
    }
}

#[test]
fn choirs_and_figured_basses_in_five_languages() {
    for label in
        ["Coro", "Cori", "Chor", "Chöre", "Chœur", "Chœurs", "Chorus", "Choir", "Coros", "Kinderchor"]
    {
        assert_eq!(ids(&read(label)), "chorus", "{label}");
    }
    for (label, id) in [
        ("Coro Soprani", "soprano"),
        ("Sopran (Chor)", "soprano"),
        ("Contralti del coro", "alto"),
        ("Tenori del coro", "tenor_voice"),
        ("Coro: Soprano, Alto, Tenore, Basso", "soprano alto tenor_voice bass_voice"),
        ("Singstimme", "voice"),
        ("Voix", "voice"),
    ] {
        let decoded = read(label);
        assert_eq!((ids(&decoded).as_str(), &decoded.problem), (id, &None), "{label}");
    }
    for label in [
        "Basso continuo",
        "Continuo",
        "Basso numerato",
        "B.c.",
        "Generalbass",
        "Bezifferter Bass",
        "Basse continue",
        "Basse chiffrée",
        "Bajo continuo",
        "Bajo cifrado",
        "Figured bass",
        "Thorough bass",
    ] {
        let decoded = read(label);
        assert_eq!((ids(&decoded).as_str(), &decoded.problem), ("continuo", &None), "{label}");
        // Whether a double bass plays too the label does not say.
        assert!(decoded.alternatives.iter().any(|other| other.staff.doubled_below), "{label}");
    }
}

#[test]
fn strokes_without_pitch_in_five_languages() {
    for (id, labels) in [
        ("cymbals", "Cymbals; Piatti; Becken; Cymbales; Platillos"),
        ("triangle", "Triangle; Triangolo; Triangel; Triángulo"),
        ("bass_drum", "Bass drum; Gran cassa; Große Trommel; Grosse caisse; Bombo"),
        ("snare_drum", "Side drum; Snare drum; Tamburo; Kleine Trommel; Caisse claire; Caja"),
        ("tambourine", "Tambourine; Tamburo basco; Tamburin; Tambour de basque; Pandereta"),
        ("tam_tam", "Tam-tam; Tamtam; Gong"),
        ("castanets", "Castanets; Castagnette; Kastagnetten; Castagnettes; Castañuelas"),
        ("percussion", "Percussion; Percussioni; Schlagzeug; Batterie; Percusión"),
    ] {
        for label in labels.split("; ") {
            let decoded = read(label);
            assert_eq!((ids(&decoded).as_str(), &decoded.problem), (id, &None), "{label}");
            let staff = &decoded.staves[0];
            assert!(!staff.is_pitched() && staff.words().contains("no pitch"), "{label}: {}", staff.words());
            assert_eq!((staff.key, staff.mechanism), (None, None), "{label}");
        }
    }
    assert_eq!(ids(&read("Gran Cassa, Piatti, Triangolo")), "bass_drum cymbals triangle");
    assert_eq!(ids(&read("Cymbales antiques")), "crotales");
    for row in &INSTRUMENTS {
        let decides = row.is_crooked() || row.has_named_drums() || !row.is_pitched();
        assert_eq!(row.transposition.is_none(), decides, "{}", row.id);
    }
}

#[test]
fn keys_that_cannot_be_read_are_not_guessed() {
    for (label, word, offered) in [
        ("Corni in Z", "Z", "Horn in E-flat"),
        ("Horn in Q", "Q", "Horn in E-flat"),
        ("Corni in X", "X", "Horn in F"),
        ("Corni in I", "I", "Horn in F"),
        ("2 Corni in Ez", "Ez", "Horn in E-flat"),
        ("Trombe in W", "W", "Trumpet in D"),
        ("Clarinetti in X", "X", "Clarinet in A"),
    ] {
        let decoded = read(label);
        assert!(decoded.staves.is_empty() && decoded.assumed.is_none(), "{label}");
        let others: Vec<String> = decoded.alternatives.iter().map(|other| other.staff.name()).collect();
        assert!(others.iter().any(|name| name == offered), "{label}: {others:?}");
        match &decoded.problem {
            Some(LabelProblem::UnreadKey { word: named, .. }) => assert_eq!(named, word, "{label}"),
            other => panic!("{label}: {other:?}"),
        }
    }
    let sentence = read("Corni in Z").problem.unwrap().to_string();
    assert_eq!(sentence, "“Z” names no key known here: choose in which one the horn stands");
    let natural = |label: &str| read(label).alternatives[0].staff.mechanism;
    assert_eq!(
        (natural("Corni in Z"), natural("Ventilhörner in Z")),
        (Some(Mechanism::Natural), Some(Mechanism::Valves))
    );
    // A longer word after "in" is no key: the instrument is known all the same.
    assert_eq!(ids(&read("Corni in lontananza")), "horn");
    // Of several crooks the one that is read stands.
    assert_eq!(ids(&read("Corni in Es muta in Z")), "horn");
}

#[test]
fn little_is_no_evidence() {
    for label in ["Qwrtz in Pf", "Qwrtz Vl", "Xyz Ob"] {
        let decoded = read(label);
        assert!(decoded.staves.is_empty(), "{label}");
        assert!(matches!(decoded.problem, Some(LabelProblem::NoInstrument { .. })), "{label}");
    }
    assert_eq!(ids(&read("Pf")), "piano");
    assert_eq!(ids(&read("Corni lontani in Es")), "horn");
}

/// Where one word is not understood, the nearest is offered only if it would say something new.
#[test]
fn the_nearest_word_says_something_new() {
    for label in
        ["Corni lontani in Es", "Corni Corno Hornx in F", "Trombe bex in D", "Clarinetti principalx in A"]
    {
        match read(label).problem {
            Some(LabelProblem::UnknownWord { nearest, .. }) => assert_eq!(nearest, None, "{label}"),
            None => {}
            other => panic!("{label}: {other:?}"),
        }
    }
    let hirn = read("Hirn in F").problem.unwrap().to_string();
    assert_eq!(hirn, "“Hirn” names no instrument known here; the nearest word known is “horn”");
}

#[test]
fn an_open_octave_is_said_to_be_open() {
    for label in
        ["Clarinet in G", "Clarinetto in Sol", "Corni in B", "Trombe in G", "Corni in La", "Hörner in C"]
    {
        let decoded = read(label);
        let assumed = decoded.assumed.unwrap_or_default();
        assert!(assumed.contains("No octave word is printed"), "{label}: {assumed}");
        let here = decoded.staves[0].transposition.0;
        let apart = |other: crookwise_theory::Interval| (other.semitones - here.semitones).abs() == 12;
        assert!(decoded.alternatives.iter().any(|other| apart(other.staff.transposition.0)), "{label}");
    }
    assert_eq!(read("Clarinet in G (low)").assumed, None);
    assert_eq!(read("Clarinet in G (high)").assumed, None);
}

/// "muta in" said of some of the players, who are named with it or once more.
#[test]
fn changes_of_one_player() {
    for (label, staves, players) in [
        ("Corno I in Es, II muta in C", 1, [2].as_slice()),
        ("Corni in Es, II muta in C", 1, &[2]),
        ("Corni in Es, Corno II muta in C", 1, &[2]),
        ("Corni I, II in Es, Corno II muta in C", 1, &[2]),
        ("Corno II muta in D", 1, &[2]),
        ("Corni I, II in Es muta in C", 1, &[1, 2]),
        ("Corni I. II. in Es, III. IV. in C; III. IV. muta in D", 2, &[3, 4]),
    ] {
        let decoded = read(label);
        assert_eq!((decoded.staves.len(), decoded.changes.len()), (staves, 1), "{label}");
        assert_eq!(decoded.changes[0].players, players, "{label}");
    }
}
