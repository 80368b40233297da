//! A second marker, written apart from the crate: it knows letters, semitones, the intervals written down in the kit and
//! the trade's tables of partials and hand notes, and nothing of the crate's own reading.

use super::labelled;
use crookwise_practice::{Answer, Kind, Marking, Question, QuestionSound, Spot};
use crookwise_score::{ChangeTo, Event, Quality, Role};
use crookwise_theory::{BassNotation, Clef, ClefSign, Pitch};

/// A pitch as letters above C0 and semitones above C0.
pub type Heights = (i32, i32);

const NATURAL: [i32; 7] = [0, 2, 4, 5, 7, 9, 11];

pub fn heights(pitch: Pitch) -> Heights {
    let letter = "CDEFGAB".find(pitch.step.letter()).unwrap() as i32;
    (pitch.octave * 7 + letter, pitch.octave * 12 + NATURAL[letter as usize] + pitch.alter)
}

/// Place on the line of fifths of a letter and its semitones.
fn fifths((letters, semitones): Heights) -> i32 {
    semitones * 7 - letters * 12
}

/// What a place of a page means: from printed to written, from written to sounding, the instrument.
pub struct Staff {
    pub bass: Heights,
    pub by: Heights,
    pub id: &'static str,
    pub clef: Clef,
    /// Its label there.
    pub label: String,
}

impl Staff {
    pub fn at(question: &Question, at: Spot) -> Self {
        let staff = &question.passage.staves()[at.staff];
        let mut label = staff.label.clone();
        let for_him = |player: Option<usize>| player.is_none_or(|player| player == at.player);
        let changes = staff.changes().iter().filter(|change| change.column <= at.column);
        for change in changes.filter(|change| for_him(change.player)) {
            if let ChangeTo::Label(to) = &change.to {
                label = changed(&staff.label, to);
            }
        }
        let (_, id, crooks) = labelled(&label);
        let mut by = *crooks.get(at.player).unwrap_or(&crooks[0]);
        let usual = match id {
            "viola" => Clef::ALTO,
            "bassoon" | "cb" | "timp_old" => Clef::BASS,
            _ => Clef::TREBLE,
        };
        let clef = staff.settings.clef.unwrap_or(usual);
        let habit = matches!(id, "horn" | "trumpet" | "basset_hn") && clef == Clef::BASS;
        let old = habit && staff.settings.bass != Some(BassNotation::New);
        if id == "timp_old" && !drums_in_c(question, at.staff) {
            by = (0, 0);
        }
        Self { bass: if old { (7, 12) } else { (0, 0) }, by, id, clef, label }
    }

    pub fn natural(&self) -> bool {
        matches!(self.id, "horn" | "trumpet")
    }

    fn written(&self, printed: Heights) -> Heights {
        (printed.0 + self.bass.0, printed.1 + self.bass.1)
    }

    pub fn sounding(&self, printed: Heights) -> Heights {
        let written = self.written(printed);
        (written.0 + self.by.0, written.1 + self.by.1)
    }
}

/// The label that a change makes of another: "muta in D" keeps the noun.
pub fn changed(label: &str, to: &str) -> String {
    match (to.strip_prefix("muta in "), label.split_once(" in ")) {
        (Some(crook), Some((noun, _))) => format!("{noun} in {crook}"),
        _ => to.to_owned(),
    }
}

/// Drums in D and A transpose where nothing but C and G is printed.
fn drums_in_c(question: &Question, staff: usize) -> bool {
    (0..question.passage.columns().len()).all(|column| {
        match printed(question, Spot { staff, column, player: 0 }) {
            Some(note) => matches!(fifths(note), 0 | 1),
            None => true,
        }
    })
}

pub fn printed(question: &Question, at: Spot) -> Option<Heights> {
    match question.passage.event(at.staff, at.column, at.player)? {
        Event::Note(printed) => Some(heights(printed.0)),
        _ => None,
    }
}

/// Whether a note is good enough for a right one.
fn as_good(right: Heights, given: Heights, marking: Marking) -> bool {
    let apart = given.1 - right.1;
    let letters = (given.0 - right.0) % 7 == 0;
    (if marking.octave { apart == 0 } else { apart % 12 == 0 }) && (letters || marking.enharmonics)
}

/// The spelling within a key: from five fifths below the tonic to six above.
fn within_key(note: Heights, tonic: i32) -> Heights {
    let mut own = note;
    while fifths(own) - tonic > 6 {
        own = (own.0 + 1, own.1);
    }
    while fifths(own) - tonic < -5 {
        own = (own.0 - 1, own.1);
    }
    own
}

/// As horns and trumpets print a note: from A-flat to C-sharp on the line of fifths.
fn as_brass(note: Heights) -> Heights {
    within_key(note, 1)
}

/// What the second marker says of an answer; `None` where it has no opinion.
pub fn right(question: &Question, answer: &Answer, marking: Marking) -> Option<bool> {
    let at = question.at;
    let staff = || Staff::at(question, at);
    match (question.kind, answer) {
        (Kind::Sounds, Answer::Note(_) | Answer::Name(_) | Answer::Key(_)) => {
            let staff = staff();
            let sounding = staff.sounding(printed(question, at)?);
            let mut also = vec![sounding];
            if staff.natural() {
                also.push(within_key(sounding, question.passage.movement_at(at.column)?.tonic.fifths()));
            }
            Some(also.into_iter().any(|right| note_or_name(right, answer, marking)))
        }
        (Kind::Writes, Answer::Note(given)) => {
            let staff = staff();
            let sounding = heights(question.given?.0);
            let strict = (sounding.0 - staff.by.0 - staff.bass.0, sounding.1 - staff.by.1 - staff.bass.1);
            spelled(question, (strict, staff.by), staff.natural(), heights(*given), marking)
        }
        (Kind::InHand, Answer::Note(given)) => {
            let sounding = staff().sounding(printed(question, at)?);
            let (_, _, hand) = labelled(question.in_hand.as_deref()?);
            let strict = (sounding.0 - hand[0].0, sounding.1 - hand[0].1);
            spelled(question, (strict, hand[0]), false, heights(*given), marking)
        }
        (Kind::Partial, Answer::Partial(given)) => {
            let staff = staff();
            Some(partial(staff.id, staff.written(printed(question, at)?).1 + 12) == *given)
        }
        (Kind::Made, Answer::Made(given)) => {
            let staff = staff();
            let (one, other) = made(staff.id, staff.written(printed(question, at)?).1 + 12);
            Some(given.id() == one || given.id() == other)
        }
        (Kind::Degree, Answer::Degree(given)) => {
            let sounding = staff().sounding(printed(question, at)?);
            let key = question.passage.movement_at(at.column)?;
            let tonic = key.tonic.fifths();
            let minor = key.to_string().ends_with("minor");
            if !(-8..=10).contains(&(fifths(sounding) - tonic)) {
                return None;
            }
            // The scale lies from the fourth below to the leading note above; in minor three fifths lower.
            let scale = [0, 2, 4, -1, 1, 3, 5].map(|place| {
                if minor && [2, 5, 6].contains(&scale_place(place)) { place - 7 } else { place }
            });
            let letters = ["F", "C", "G", "D", "A", "E", "B"];
            let letter = |fifths: i32| letters[(fifths + 1).rem_euclid(7) as usize];
            let number = (0..7).find(|&at| letter(tonic + scale[at]) == letter(fifths(sounding)))?;
            let alter = (fifths(sounding) - tonic - scale[number]) / 7;
            Some(usize::from(given.number) == number + 1 && given.alter == alter)
        }
        (Kind::Clef, Answer::Clef { clef, octaves, fifths: signs }) => {
            let staff = staff();
            let note = printed(question, at)?;
            let sounding = staff.sounding(note);
            let there = note.0 - bottom(staff.clef) + bottom(*clef) + 7 * octaves;
            let near = if marking.octave { there == sounding.0 } else { (there - sounding.0) % 7 == 0 };
            Some(near && *signs == fifths(sounding) - fifths(note))
        }
        (Kind::Chord, Answer::Chord(given)) => {
            let sounding = chord_sounds(question);
            let (root, quality, bass) = chord(&sounding)?;
            let tonic = question.passage.movement?.tonic.fifths();
            let given_root = given.root.fifths();
            let same_key = (given_root * 7).rem_euclid(12) == root;
            let spelled = (-5..=6).contains(&(given_root - tonic));
            Some(
                same_key
                    && (spelled || marking.enharmonics)
                    && given.quality == quality
                    && given.bass == bass,
            )
        }
        (Kind::Label, Answer::Label(choice)) => {
            let by = choice.transposition.0;
            // The kit asks about one staff only where labels are tested.
            Some(super::LABELS.iter().any(|(label, id, crooks)| {
                question.in_hand.is_none()
                    && named_like(&question.passage.staves()[0].label, label)
                    && *id == choice.instrument.id
                    && crooks[0] == (by.steps, by.semitones)
            }))
        }
        (Kind::WrongNote, Answer::Column(given)) => {
            let off: Vec<usize> = (0..question.passage.columns().len())
                .filter(|&column| {
                    (0..question.passage.staves()[0].players()).any(|player| {
                        let [one, two] = [0, 1].map(|staff| {
                            let at = Spot { staff, column, player };
                            printed(question, at).map(|note| Staff::at(question, at).sounding(note).1)
                        });
                        one != two
                    })
                })
                .collect();
            Some(off == [usize::from(*given)])
        }
        (Kind::WrongStaff, Answer::Staff(given)) => {
            let Some(QuestionSound::Page(notes)) = &question.heard else { return Some(false) };
            let mut off: Vec<usize> = notes
                .iter()
                .filter(|played| {
                    let note = printed(question, played.at).unwrap();
                    Staff::at(question, played.at).sounding(note).1 != heights(played.sounding.0).1
                })
                .map(|played| played.at.staff)
                .collect();
            off.dedup();
            Some(off == [usize::from(*given)])
        }
        (Kind::Natural, Answer::Which(given)) => {
            Some(matches!(question.heard, Some(QuestionSound::Two { natural }) if natural == *given))
        }
        (Kind::Players, Answer::Notes(given)) => {
            let players = question.passage.staves()[at.staff].players();
            let sounds: Vec<Heights> = (0..players)
                .map(|player| {
                    let at = Spot { player, ..at };
                    Some(Staff::at(question, at).sounding(printed(question, at)?))
                })
                .collect::<Option<_>>()?;
            let given: Vec<Heights> = given.iter().map(|note| heights(*note)).collect();
            let all = sounds.iter().all(|right| given.iter().any(|note| as_good(*right, *note, marking)));
            let none_else =
                given.iter().all(|note| sounds.iter().any(|right| as_good(*right, *note, marking)));
            Some(all && none_else)
        }
        _ => None,
    }
}

fn scale_place(place: i32) -> i32 {
    [0, 2, 4, -1, 1, 3, 5].iter().position(|known| *known == place).unwrap() as i32
}

fn note_or_name(right: Heights, answer: &Answer, marking: Marking) -> bool {
    match answer {
        Answer::Note(given) => as_good(right, heights(*given), marking),
        Answer::Name(given) => {
            let given = heights(Pitch { step: given.step, alter: given.alter, octave: 4 });
            as_good(right, given, Marking { octave: false, ..marking })
        }
        Answer::Key(key) => {
            let apart = i32::from(*key) - 12 - right.1;
            if marking.octave { apart == 0 } else { apart % 12 == 0 }
        }
        _ => false,
    }
}

/// A written note: the strict one is right, and for brass the one the trade prints. Parts with a signature may print
/// others where the strict one is hard to read: of those there is no opinion.
fn spelled(
    question: &Question,
    (strict, by): (Heights, Heights),
    brass: bool,
    given: Heights,
    marking: Marking,
) -> Option<bool> {
    if as_good(strict, given, marking) || (brass && as_good(as_brass(strict), given, marking)) {
        return Some(true);
    }
    let same_sound = as_good(strict, given, Marking { enharmonics: true, ..marking });
    // In the keys of the signature, from the lowered second of the major to the raised fourth of the minor one.
    let near = question.passage.movement_at(question.at.column).is_some_and(|key| {
        let signs = key.signature().0 - fifths(by);
        (signs - 5..=signs + 9).contains(&fifths(strict))
    });
    let plain = near && (-5..=5).contains(&fifths(strict));
    (!same_sound || brass || plain).then_some(false)
}

/// Letters above C0 of the bottom line.
fn bottom(clef: Clef) -> i32 {
    let mark = match clef.sign {
        ClefSign::G => 32,
        ClefSign::C => 28,
        ClefSign::F => 24,
    };
    mark - 2 * (i32::from(clef.line()) - 1)
}

/// Partials by written MIDI number, 2 to 18.
fn partial(id: &str, midi: i32) -> Option<u8> {
    let table: [(i32, u8); 19] = [
        (48, 2),
        (55, 3),
        (60, 4),
        (64, 5),
        (67, 6),
        (70, 7),
        (72, 8),
        (74, 9),
        (76, 10),
        (77, 11),
        (78, 11),
        (79, 12),
        (80, 13),
        (81, 13),
        (82, 14),
        (83, 15),
        (84, 16),
        (85, 17),
        (86, 18),
    ];
    let (_, number) = table.iter().find(|(known, _)| *known == midi)?;
    let within = if id == "horn" { 2..=16 } else { 3..=18 };
    within.contains(number).then_some(*number)
}

/// How a note is made and the other way, from the trade's table.
fn made(id: &str, midi: i32) -> (String, String) {
    let file = format!("{}/../theory/data/reach_{id}.csv", env!("CARGO_MANIFEST_DIR"));
    for row in csv::Reader::from_path(file).unwrap().records() {
        let row = row.unwrap();
        if row[0].parse() == Ok(midi) {
            let other = if id == "horn" { row[4].split(' ').next().unwrap_or_default() } else { "" };
            return (row[3].to_owned(), other.to_owned());
        }
    }
    (String::new(), String::new())
}

/// Semitones of all that sounds in the first column.
fn chord_sounds(question: &Question) -> Vec<i32> {
    let mut sounds = Vec::new();
    for (staff, own) in question.passage.staves().iter().enumerate() {
        for player in 0..own.players() {
            let at = Spot { staff, column: 0, player };
            if let Some(note) = printed(question, at) {
                sounds.push(Staff::at(question, at).sounding(note).1);
            }
        }
    }
    sounds
}

/// Root, quality and bass of sounds that make a whole triad or seventh.
fn chord(sounds: &[i32]) -> Option<(i32, Quality, Role)> {
    let lowest = sounds.iter().min()?.rem_euclid(12);
    let mut classes: Vec<i32> = sounds.iter().map(|sound| sound.rem_euclid(12)).collect();
    classes.sort_unstable();
    classes.dedup();
    let known: [(&[i32], Quality); 10] = [
        (&[0, 4, 7], Quality::Major),
        (&[0, 3, 7], Quality::Minor),
        (&[0, 3, 6], Quality::Diminished),
        (&[0, 4, 7, 10], Quality::DominantSeventh),
        (&[0, 4, 7, 11], Quality::MajorSeventh),
        (&[0, 3, 7, 10], Quality::MinorSeventh),
        (&[0, 3, 6, 10], Quality::HalfDiminishedSeventh),
        (&[0, 3, 7, 11], Quality::MinorMajorSeventh),
        (&[0, 4, 8, 11], Quality::AugmentedMajorSeventh),
        (&[0, 4, 8, 10], Quality::AugmentedSeventh),
    ];
    for (shape, quality) in known {
        for root in 0..12 {
            let mut own: Vec<i32> = shape.iter().map(|above| (root + above) % 12).collect();
            own.sort_unstable();
            if own == classes {
                let above = (lowest - root).rem_euclid(12);
                let place = shape.iter().position(|member| *member == above)?;
                return Some((root, quality, [Role::Root, Role::Third, Role::Fifth, Role::Seventh][place]));
            }
        }
    }
    None
}

/// Whether a label in some language may be one of the kit's: it holds one of the words by which that staff is called.
fn named_like(label: &str, row: &str) -> bool {
    let words: &[&str] = match row {
        "Corni in Es" => &[
            "Corni in Es",
            "Corni in Mi bemolle",
            "Hörner in Es",
            "Cors en Mi bémol",
            "Trompas en Mi bemol",
            "Horns in E flat",
        ],
        "Trombe in D" => &[
            "Trombe in D",
            "Trombe in Re",
            "Trompeten in D",
            "Trompettes en Ré",
            "Trompetas en Re",
            "Trumpets in D",
        ],
        "Clarinetti in B" => &[
            "Clarinetti in B",
            "Clarinetti in Si bemolle",
            "Klarinetten in B",
            "Clarinettes en Si bémol",
            "Clarinetes en Si bemol",
            "Clarinets in B flat",
        ],
        "Corno inglese" => &["Corno inglese", "Englischhorn", "Cor anglais", "Corno inglés"],
        "Hörner in tief H" => &[
            "Hörner in tief H",
            "Corni in Si basso",
            "Hörner in H tief",
            "Cors en Si grave",
            "Trompas en Si grave",
            "Horns in B basso",
        ],
        _ => &[],
    };
    words.contains(&label)
}
