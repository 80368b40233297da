//! A second judge of the explanations: every sentence about every kind of question is parsed and held against a
//! reckoning of its own, by letters and semitones, staves and intervals written down in the tests of exercises.

mod making;
mod mistaken;
mod several;
mod spoken;

#[path = "../../../../crates/practice/tests/second/mod.rs"]
mod second;

use super::names::Names;
use super::right_way::{right_way, short_way};
use crookwise_practice::{Answer, Kind, Question, Spot};
use second::oracle::{Staff, heights, printed};
use spoken::{Heights, Said, alter, bottom_line, fifths, interval, name, note, signature, signed};

fn minus(one: Heights, other: Heights) -> Heights {
    (one.0 - other.0, one.1 - other.1)
}

/// A question as it is reckoned here.
struct Judge<'a> {
    question: &'a Question,
    staff: Staff,
    printed: Heights,
    sounding: Heights,
}

impl<'a> Judge<'a> {
    fn of(question: &'a Question) -> Self {
        Self::at(question, question.at)
    }

    fn at(question: &'a Question, at: Spot) -> Self {
        let staff = Staff::at(question, at);
        let (printed, sounding) = match (question.given, printed(question, at)) {
            (Some(given), _) => {
                let sounding = heights(given.0);
                (minus(minus(sounding, staff.by), staff.bass), sounding)
            }
            (None, Some(printed)) => (printed, staff.sounding(printed)),
            (None, None) => ((0, 0), (0, 0)),
        };
        Self { question, staff, printed, sounding }
    }

    fn by(&self) -> Heights {
        minus(self.sounding, self.printed)
    }

    fn written(&self) -> Heights {
        (self.printed.0 + self.staff.bass.0, self.printed.1 + self.staff.bass.1)
    }

    /// The signature that stands on the staff.
    fn signature(&self) -> i32 {
        let resolved = crookwise_score::ResolvedStaff::of(
            &self.question.passage,
            self.question.at.staff,
            crookwise_theory::label::DecodeOptions::default(),
        );
        resolved.place_at(self.question.at.column, self.question.at.player).unwrap().signature.0
    }

    /// "C5 sounds a major sixth lower: E♭4."
    fn sounds(&self, mut said: Said<'_>) {
        assert_eq!(note(said.up_to(" sounds ")), self.printed);
        if said.may_begin("as it is printed.") {
            assert_eq!(self.by(), (0, 0));
            return;
        }
        assert_eq!(interval(said.up_to(": ")), self.by());
        assert_eq!(note(said.up_to(".")), self.sounding);
    }

    /// "Old notation; in new notation it would sound G3."
    fn notation(&self, mut said: Said<'_>) {
        let old = said.up_to(" notation; in ") == "Old";
        said.up_to(" notation it would sound ");
        let by = if old { (-7, -12) } else { (7, 12) };
        assert_eq!(old, self.staff.bass != (0, 0));
        assert_eq!(note(said.up_to(".")), (self.sounding.0 + by.0, self.sounding.1 + by.1));
    }

    /// "the alto clef (C3), an octave higher": the lowest line there, octaves counted.
    fn imagined(said: &mut Said<'_>) -> i32 {
        said.begins("the ");
        let clef = said.up_to(" clef (");
        bottom_line(clef, said.up_to(")")) + 7 * Self::octaves(said)
    }

    fn octaves(said: &mut Said<'_>) -> i32 {
        [
            (", an octave higher", 1),
            (", an octave lower", -1),
            (", 2 octaves higher", 2),
            (", 2 octaves lower", -2),
        ]
        .into_iter()
        .find(|(words, _)| said.may_begin(words))
        .map_or(0, |(_, octaves)| octaves)
    }

    /// "Imagine the alto clef (C3), an octave higher and add 2 sharps to the signature. … So C5 is read D5."
    fn by_clef(&self, mut said: Said<'_>) {
        said.begins("Imagine ");
        let bottom = Self::imagined(&mut said);
        let own = self.staff.clef.bottom_line().diatonic();
        assert_eq!(bottom - own, self.by().0, "the note is read on another line");
        let added = if said.may_begin(" and add ") { signature(said.up_to(" to the signature")) } else { 0 };
        assert_eq!(added, fifths(self.by()));
        said.begins(".");
        let there = alter(self.sounding);
        if said.may_begin(" Its accidental is read as ") {
            assert_eq!(spoken::signs(said.up_to(" there.")), there);
            assert_ne!(alter(self.printed), there);
        } else {
            let own = self.signature();
            let plain = alter(self.printed) == signed(own, self.printed.0);
            let read = signed(own + added, self.sounding.0);
            assert!((plain && there == read) || there == alter(self.printed), "{there} {read}");
        }
        said.begins(" So ");
        assert_eq!(note(said.up_to(" is read ")), self.printed);
        assert_eq!(note(said.up_to(".")), self.sounding);
    }

    /// "Third degree of E♭ major (3); third degree above the crook's own C (3)."
    fn by_degree(&self, mut said: Said<'_>) {
        let word = said.up_to(" degree of ").to_lowercase();
        let (tonic, mode) = said.up_to(" (").split_once(' ').unwrap();
        let number = said.up_to(")");
        let key = self.question.passage.movement_at(self.question.at.column).unwrap();
        let tonic = name(tonic);
        assert_eq!(tonic, oracle_name(key.tonic));
        assert_eq!(mode == "minor", key.mode == crookwise_theory::Mode::Minor);
        degree(&word, number, self.sounding, tonic, mode == "minor");
        if said.may_begin("; ") {
            let word = said.up_to(" degree above the crook's own C (");
            degree(word, said.up_to(")"), self.written(), (0, 0), false);
        }
    }
}

fn oracle_name(tonic: crookwise_theory::Tonic) -> Heights {
    heights(crookwise_theory::Pitch { step: tonic.step, alter: tonic.alter, octave: 0 })
}

/// Whether a note is that degree above a tonic; spelled otherwise where it lies far from the key.
fn degree(word: &str, number: &str, sounding: Heights, tonic: Heights, minor: bool) {
    let at = number.find(|c: char| c.is_ascii_digit()).unwrap();
    let (sign, number) = (spoken::signs(&number[..at]), number[at..].parse::<i32>().unwrap());
    let scale = if minor { [0, 2, 3, 5, 7, 8, 10] } else { [0, 2, 4, 5, 7, 9, 11] };
    let expected = (tonic.1 + scale[number as usize - 1] + sign).rem_euclid(12);
    assert_eq!(expected, sounding.1.rem_euclid(12), "{word} {number}");
    let far = fifths(minus(sounding, tonic)).abs() > 10;
    assert!(far || (tonic.0 + number - 1 - sounding.0) % 7 == 0, "{word}");
    let ordinal = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh"][number as usize - 1];
    let raised = match sign {
        0 => String::new(),
        1.. => "raised ".to_owned(),
        _ => "lowered ".to_owned(),
    };
    assert_eq!(word, format!("{raised}{ordinal}"));
}

/// Judges every sentence of a question.
fn judge(question: &Question) -> usize {
    let lines = right_way(question, Names::default());
    let each: Vec<Said<'_>> = lines.iter().map(|line| Said(line)).collect();
    if question.kind == Kind::Label {
        assert!(each.is_empty());
        return 0;
    }
    let own = Judge::of(question);
    match question.kind {
        Kind::Sounds | Kind::Degree => to_sound(&own, &each),
        Kind::Writes => to_paper(&own, &each),
        Kind::InHand => to_hand(&own, &each),
        Kind::Clef => clef(&own, &each),
        Kind::Partial => making::partial(&own, &each),
        Kind::Made => making::made(&own, &each),
        Kind::Natural => making::natural(&own, &each),
        Kind::Players => several::players(question, &each),
        Kind::Chord => several::chord(question, &each),
        Kind::WrongNote => several::copied(question, &each),
        Kind::WrongStaff => several::played(question, &each),
        Kind::Label => {}
    }
    shortly(&own);
    lines.len()
}

fn to_sound(own: &Judge<'_>, lines: &[Said<'_>]) {
    let mut intervals = 0;
    for line in lines {
        let mut said = *line;
        if said.may_begin("By interval: ") || (own.question.kind == Kind::Degree && intervals == 0) {
            intervals += 1;
            own.sounds(said);
        } else if said.0.contains(" notation; in ") {
            own.notation(said);
        } else if said.may_begin("By clef: ") {
            own.by_clef(said);
        } else if said.may_begin("By degree: ") {
            own.by_degree(said);
        } else if said.may_begin("C and G on drums stand for") {
            assert_eq!((own.staff.id, own.by()), ("timp_old", (1, 2)));
        } else {
            making::making(own, said);
        }
    }
    assert_eq!(intervals, 1);
    let notation = lines.iter().any(|line| line.0.contains(" notation; in "));
    let low = own.staff.natural() && own.staff.clef == crookwise_theory::Clef::BASS;
    assert_eq!(notation, low && own.question.kind == Kind::Sounds);
}

/// The note that is right as it is given: in its strict spelling, or as parts print it.
fn right(question: &Question) -> Heights {
    match &question.right {
        Answer::Note(note) => heights(*note),
        other => panic!("{other}"),
    }
}

fn to_paper(own: &Judge<'_>, lines: &[Said<'_>]) {
    let mut named = false;
    for (at, line) in lines.iter().enumerate() {
        let mut said = *line;
        if at == 0 && said.may_begin("The staff sounds as it is written, so ") {
            assert_eq!(own.by(), (0, 0));
            assert_eq!(note(said.up_to(" is written as it sounds.")), own.sounding);
        } else if at == 0 {
            said.begins("What is written sounds ");
            assert_eq!(interval(said.up_to(", so ")), own.by());
            assert_eq!(note(said.up_to(" must be written ")), own.sounding);
            assert_eq!(interval(said.up_to(": ")), minus((0, 0), own.by()));
            assert_eq!(note(said.up_to(".")), own.printed);
            named = true;
        } else if said.may_begin("By clef: find the place of ") {
            let end = said.0.find([',', ' ']).unwrap();
            assert_eq!(note(&said.0[..end]), own.sounding);
            said.0 = &said.0[end..];
            let further = Judge::octaves(&mut said);
            said.begins(" in ");
            let bottom = Judge::imagined(&mut said) - 7 * further;
            assert_eq!(bottom - own.staff.clef.bottom_line().diatonic(), own.by().0);
            said.begins("; in the clef of the staff it is ");
            assert_eq!(note(said.up_to(".")), own.printed);
        } else if said.may_begin("Parts print ") {
            assert_eq!(note(said.up_to(" for it.")), right(own.question));
            assert_ne!(right(own.question), own.printed);
        } else if said.may_begin("Printed ") {
            assert_eq!(note(said.up_to(", but to be read as a written ")), own.printed);
            assert_eq!(note(said.up_to(".")), own.written());
        } else {
            making::making(own, said);
        }
    }
    assert!(named || own.by() == (0, 0));
    let told = lines.iter().any(|line| line.0.starts_with("Parts print "));
    assert_eq!(told, right(own.question) != own.printed);
}

fn hand(question: &Question) -> Heights {
    second::labelled(question.in_hand.as_deref().unwrap()).2[0]
}

fn to_hand(own: &Judge<'_>, lines: &[Said<'_>]) {
    let hand = hand(own.question);
    let there = minus(own.sounding, hand);
    own.sounds(lines[0]);
    let mut said = lines[1];
    said.up_to(", which sounds ");
    assert_eq!(interval(said.up_to(", that is ")), hand);
    assert_eq!(note(said.up_to(".")), there);
    let mut said = lines[2];
    said.begins("From staff to staff: read every note ");
    assert_eq!(interval(said.up_to(".")), minus(there, own.printed));
    let mut rest = lines[3..].iter();
    if right(own.question) != there {
        let mut said = *rest.next().unwrap();
        said.begins("Parts print ");
        assert_eq!(note(said.up_to(" for it.")), right(own.question));
    }
    assert!(rest.next().is_none());
}

fn clef(own: &Judge<'_>, lines: &[Said<'_>]) {
    own.sounds(lines[0]);
    own.by_clef(lines[1]);
    match lines.get(2).copied() {
        None => assert_eq!(fifths(own.by()), 0),
        Some(mut said) => {
            said.begins("The signature changes by ");
            let by = signature(said.up_to(": it becomes "));
            assert_eq!(by, fifths(own.by()));
            assert_eq!(signature(said.up_to(".")), own.signature() + by);
        }
    }
}

/// The line in the key of a worksheet.
fn shortly(own: &Judge<'_>) {
    let Some(line) = short_way(own.question, Names::default()) else { return };
    let mut said = Said(&line);
    match own.question.kind {
        Kind::Partial | Kind::Made | Kind::Natural => making::making(own, Said(&format!("{line}."))),
        Kind::Writes => {
            assert_eq!(note(said.up_to(" is written ")), own.sounding);
            assert_eq!(interval(said.0), minus((0, 0), own.by()));
        }
        Kind::InHand => {
            assert_eq!(note(said.up_to(" is read ")), own.printed);
            assert_eq!(interval(said.0), minus(minus(own.sounding, hand(own.question)), own.printed));
        }
        _ => {
            assert_eq!(note(said.up_to(" sounds ")), own.printed);
            assert_eq!(interval(said.0), own.by());
        }
    }
}

#[test]
fn every_sentence_of_every_explanation_is_true() {
    let (mut sentences, mut kinds, mut untrue) = (0, Vec::new(), Vec::new());
    for exercise in second::exercises(6) {
        for question in exercise.questions().unwrap_or_default() {
            kinds.push(question.kind);
            match std::panic::catch_unwind(|| judge(&question)) {
                Ok(judged) => sentences += judged,
                Err(_) => untrue.push(format!(
                    "{}{:#?}",
                    question.canonical(),
                    right_way(&question, Names::default())
                )),
            }
        }
    }
    untrue.truncate(5);
    assert!(untrue.is_empty(), "{}", untrue.join("\n"));
    assert!(sentences > 10_000, "{sentences}");
    assert!(Kind::ALL.iter().all(|kind| kinds.iter().filter(|own| *own == kind).count() > 100));
}
