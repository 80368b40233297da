//! Players take the crook that their number has: what each player of a staff reads, for the forms in which scores number
//! and count their players.

use crookwise_theory::label::{DecodeOptions, Decoded, MOST_SEATS, decode};
use proptest::prelude::*;

fn read(label: &str) -> Decoded {
    decode(label, DecodeOptions::default())
}

/// "1 E-flat, 2 E-flat": number and key of each player.
fn seated(decoded: &Decoded, players: usize) -> String {
    let seat = |seat: &crookwise_theory::label::Seat| {
        let name = decoded.staves[seat.staff].name();
        format!("{} {}", seat.number, name.rsplit(" in ").next().unwrap_or(&name))
    };
    decoded.seats(players).iter().map(seat).collect::<Vec<_>>().join(", ")
}

/// What the trade leaves open is offered for each staff that a label names.
#[test]
fn every_staff_of_a_label_has_its_own_other_readings() {
    for (label, others) in [
        ("Corno I in B, Corno II in C", [(0, "Horn in B-flat alto"), (1, "Horn in C alto")].as_slice()),
        ("Corni I. II. in Es, III. IV. in B", &[(1, "Horn in B-flat alto")]),
        ("Corni in F, Tromba in Es, Trombe in B", &[(2, "Trumpet in B-flat alto")]),
    ] {
        let decoded = decode(label, DecodeOptions::default());
        for (of, name) in others {
            let offered = decoded.alternatives.iter().filter(|other| other.of == *of);
            let offered: Vec<String> = offered.map(|other| other.staff.name()).collect();
            assert!(offered.iter().any(|other| other == name), "{label}: {offered:?}");
        }
        for other in &decoded.alternatives {
            assert!(other.of < decoded.staves.len() && decoded.staves[other.of] != other.staff, "{label}");
        }
    }
}

#[test]
fn each_number_has_its_crook() {
    let mut wrong = Vec::new();
    for (label, named, players, expected) in [
        ("Corni I. II. in Es, III. IV. in C", Some(4), 4, "1 E-flat, 2 E-flat, 3 C basso, 4 C basso"),
        ("Corni I. II. in Es, III. IV. in C", Some(4), 2, "1 E-flat, 2 E-flat"),
        (
            "Corni I. II. in Es, III. IV. in C",
            Some(4),
            5,
            "1 E-flat, 2 E-flat, 3 C basso, 4 C basso, 5 C basso",
        ),
        ("Hörner 1. 2. in E. 3. 4. in H tief", Some(4), 4, "1 E, 2 E, 3 B natural basso, 4 B natural basso"),
        ("Hörner 1. 2. in E, 3. 4. in H", Some(4), 4, "1 E, 2 E, 3 B natural basso, 4 B natural basso"),
        ("Hörner 1-2 in F, 3-4 in D", Some(4), 4, "1 F, 2 F, 3 D, 4 D"),
        ("Horns 1-2 in F, 3-4 in D", Some(4), 4, "1 F, 2 F, 3 D, 4 D"),
        ("Corni 1.2 in F, 3.4 in D", Some(4), 4, "1 F, 2 F, 3 D, 4 D"),
        ("Corni 1 e 2 in F, 3 e 4 in D", Some(4), 4, "1 F, 2 F, 3 D, 4 D"),
        ("Cors 1 et 2 en Fa, 3 et 4 en Ré", Some(4), 4, "1 F, 2 F, 3 D, 4 D"),
        ("1er et 2e Cors en Fa, 3e et 4e en Ré", Some(4), 4, "1 F, 2 F, 3 D, 4 D"),
        ("I. II. Horn in E, III. IV. Horn in C", Some(4), 4, "1 E, 2 E, 3 C basso, 4 C basso"),
        ("4 Hörner (1.2. in Es, 3.4. in D)", Some(4), 4, "1 E-flat, 2 E-flat, 3 D, 4 D"),
        ("4 Corni in Es/C", Some(4), 4, "1 E-flat, 2 E-flat, 3 C basso, 4 C basso"),
        ("4 Corni in Es/C", Some(4), 3, "1 E-flat, 2 E-flat, 3 C basso"),
        ("4 Corni in Es e C", Some(4), 4, "1 E-flat, 2 E-flat, 3 C basso, 4 C basso"),
        ("4 Corni (Es/C)", Some(4), 4, "1 E-flat, 2 E-flat, 3 C basso, 4 C basso"),
        ("3 Corni in Es, C", Some(3), 3, "1 E-flat, 2 E-flat, 3 C basso"),
        ("2 Corni in F, 2 in D", Some(4), 4, "1 F, 2 F, 3 D, 4 D"),
        ("2 Corni in F, 2 Corni in D", Some(4), 4, "1 F, 2 F, 3 D, 4 D"),
        ("2 Corni in E e G", Some(2), 2, "1 E, 2 G"),
        ("Corni in Es/C", None, 1, "1 E-flat"),
        ("Corni in Es/C", None, 2, "1 E-flat, 2 C basso"),
        ("Corni in Es/C", None, 3, "1 E-flat, 2 E-flat, 3 C basso"),
        ("Corni in Es/C", None, 4, "1 E-flat, 2 E-flat, 3 C basso, 4 C basso"),
        ("Corno I in B alto, Corno II in G", Some(2), 2, "1 B-flat alto, 2 G"),
        ("Corno I in B alto, Corno II in G", Some(2), 3, "1 B-flat alto, 2 G, 3 G"),
        ("Corno II in G, Corno I in B alto", Some(2), 2, "1 B-flat alto, 2 G"),
        ("Corno III in B alto, Corno IV in G", Some(2), 2, "3 B-flat alto, 4 G"),
        ("Corno III in B alto, IV in G", Some(2), 2, "3 B-flat alto, 4 G"),
        ("Corno 1, 2 in E, G", Some(2), 2, "1 E, 2 G"),
        ("Corni 1-4 in F, D", Some(4), 4, "1 F, 2 F, 3 D, 4 D"),
        ("Corno I in Es, Corno in G", Some(2), 2, "1 E-flat, 2 G"),
        ("Corno 3, 4 in F", Some(2), 2, "3 F, 4 F"),
        ("Corno 3, 4 in F", Some(2), 3, "3 F, 4 F, 5 F"),
        ("Corno 3, 4 in F", Some(2), 1, "3 F"),
        ("Corno 2 in F", Some(1), 1, "2 F"),
        ("2 Corni in F", Some(2), 2, "1 F, 2 F"),
        ("4 Hörner in F", Some(4), 4, "1 F, 2 F, 3 F, 4 F"),
        ("Corni in F", None, 2, "1 F, 2 F"),
        ("Flauto I, Oboe I", Some(2), 2, "1 Flute, 1 Oboe"),
        ("Qwrtz", None, 2, ""),
    ] {
        let decoded = read(label);
        let taken = (decoded.named_players(), seated(&decoded, players));
        if taken != (named, expected.to_owned()) {
            wrong.push(format!("{label}, {players}: {taken:?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

proptest! {
    #[test]
    fn as_many_seats_as_players(words in proptest::collection::vec(prop_oneof![
        Just("Corni"), Just("Corno"), Just("in"), Just("Es"), Just("F"), Just("I."), Just("II."), Just("III."), Just("2"),
        Just("4"), Just("1-4"), Just(","), Just("/"), Just("e"), Just("Flauto"), Just("64"),
    ], 0..12), players in 0_usize..200) {
        let decoded = read(&words.join(" "));
        let seats = decoded.seats(players);
        prop_assert_eq!(seats.len(), if decoded.staves.is_empty() { 0 } else { players.min(MOST_SEATS) });
        prop_assert!(seats.iter().all(|seat| seat.staff < decoded.staves.len() && seat.number > 0));
        // A number that the label prints once belongs to the staff it is printed with.
        for (staff, label) in decoded.staves.iter().enumerate() {
            for number in &label.players {
                let printed = decoded.staves.iter().flat_map(|label| &label.players).filter(|one| *one == number);
                if printed.count() == 1 && let Some(seat) = seats.iter().find(|seat| seat.number == *number) {
                    prop_assert_eq!(seat.staff, staff);
                }
            }
        }
    }
}
