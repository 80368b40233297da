//! Tens of thousands of labels made from nouns, keys, octave words, counts and word orders in five languages, each
//! also in another case or spacing and with a slip of the pen. What is expected comes from the tables' columns.

mod labels_kit;

use crookwise_theory::label::{DecodeOptions, Decoded, StaffLabel, decode};
use crookwise_theory::{MusicXmlTranspose, Transposition};
use labels_kit::{Chance, Language, Noun, Vocabulary, disguised, key_names, nouns, table, with_slip};
use std::collections::BTreeMap;

/// What a label must mean.
#[derive(Clone, Debug)]
struct Expected {
    /// Ids of rows that are right.
    ids: Vec<String>,
    transposition: Option<Transposition>,
    count: Option<u32>,
    players: Vec<u32>,
    /// The label leaves it open: it may be the default or one of the alternatives, and the program must say so.
    open: bool,
}

fn numbers(row: &BTreeMap<String, String>) -> Option<Transposition> {
    Some(Transposition::from_musicxml(MusicXmlTranspose {
        diatonic: row["mx_diatonic"].parse().ok()?,
        chromatic: row["mx_chromatic"].parse().ok()?,
        octave_change: row["mx_octave"].parse().ok()?,
    }))
}

fn fault(decoded: &Decoded, expected: &Expected) -> Option<String> {
    if let Some(problem) = &decoded.problem {
        return Some(problem.to_string());
    }
    let [staff] = &decoded.staves[..] else { return Some(format!("{} staves", decoded.staves.len())) };
    let right = |staff: &StaffLabel| {
        expected.ids.iter().any(|id| *id == staff.instrument.id)
            && expected.transposition.is_none_or(|transposition| staff.transposition == transposition)
    };
    if !right(staff) {
        let offered = decoded.alternatives.iter().any(|other| right(&other.staff));
        if !(expected.open && offered) {
            return Some(format!("{} {:?}", staff.instrument.id, staff.transposition.to_musicxml()));
        }
    }
    if (staff.count, &staff.players) != (expected.count, &expected.players) {
        return Some(format!("count {:?}, players {:?}", staff.count, staff.players));
    }
    None
}

/// Checks labels as they stand, disguised, and with a slip.
struct Checker {
    chance: Chance,
    words: Vocabulary,
    checked: usize,
    slips: usize,
    wrong: Vec<String>,
}

impl Checker {
    fn new(seed: u64) -> Self {
        let words = Vocabulary::from_tables();
        Self { chance: Chance::new(seed), words, checked: 0, slips: 0, wrong: Vec::new() }
    }

    fn read(&mut self, label: &str, expected: &Expected) {
        self.checked += 1;
        if let Some(fault) = fault(&decode(label, DecodeOptions::default()), expected) {
            self.wrong.push(format!("{label:?}: {fault}"));
        }
    }

    fn check(&mut self, label: &str, expected: &Expected) {
        self.read(label, expected);
        let other = disguised(label, &mut self.chance);
        if other != label {
            self.read(&other, expected);
        }
        if let Some(slip) = with_slip(label, &expected.ids[0], &self.words, &mut self.chance) {
            self.slips += 1;
            let slip = disguised(&slip, &mut self.chance);
            self.read(&slip, expected);
        }
    }

    fn finish(self, at_least: usize) {
        let shown: Vec<&String> = self.wrong.iter().take(60).collect();
        assert!(self.wrong.is_empty(), "{} of {} wrong:\n{shown:#?}", self.wrong.len(), self.checked);
        assert!(self.checked >= at_least, "only {} labels", self.checked);
        assert!(self.slips > self.checked / 10, "only {} slips in {}", self.slips, self.checked);
    }
}

/// Before the noun, after it, how many players, which ones.
type Number = (&'static str, &'static str, Option<u32>, &'static [u32]);

const NUMBERS: &[Number] = &[
    ("", "", None, &[]),
    ("2 ", "", Some(2), &[]),
    ("4 ", "", Some(4), &[]),
    ("", " I", None, &[1]),
    ("", " I. II.", None, &[1, 2]),
    ("", " III–IV", None, &[3, 4]),
    ("", " 1", None, &[1]),
    ("", " 1.2.", None, &[1, 2]),
    ("", " 3, 4", None, &[3, 4]),
    ("1. ", "", None, &[1]),
];

fn numbers_of(language: Language) -> Vec<Number> {
    let mut list = NUMBERS.to_vec();
    list.extend(match language {
        Language::French => {
            vec![("1er et 2e ", "", None, [1, 2].as_slice()), ("3e et 4e ", "", None, [3, 4].as_slice())]
        }
        Language::Italian => {
            vec![("", " 1º e 2º", None, [1, 2].as_slice()), ("", " I/II", None, [1, 2].as_slice())]
        }
        Language::German => {
            vec![("1. u. 2. ", "", None, [1, 2].as_slice()), ("3.4. ", "", None, [3, 4].as_slice())]
        }
        Language::Spanish => vec![("", " 1 y 2", None, [1, 2].as_slice())],
        Language::English => vec![("", " 1 & 2", None, [1, 2].as_slice())],
    });
    list
}

/// A crook by its table: key as the table of key names has it, high or low.
struct CrookRow {
    key: String,
    low: Option<bool>,
    pair: bool,
    transposition: Transposition,
}

fn crooks(name: &str) -> Vec<CrookRow> {
    let key = |crook: &str| {
        let letter = crook[..1].to_owned();
        match &crook[1..] {
            rest if rest.starts_with("-flat") => letter + "♭",
            rest if rest.starts_with("-sharp") => letter + "♯",
            _ => letter,
        }
    };
    let rows = table(name);
    let keys: Vec<String> = rows.iter().map(|row| key(&row["crook"])).collect();
    rows.iter()
        .zip(&keys)
        .map(|(row, key)| {
            let transposition = numbers(row).expect("three numbers");
            let others: Vec<Transposition> = rows
                .iter()
                .zip(&keys)
                .filter(|(_, other)| *other == key)
                .filter_map(|(row, _)| numbers(row))
                .filter(|other| *other != transposition)
                .collect();
            let low = others.first().map(|other| transposition.0.semitones < other.0.semitones);
            CrookRow { key: key.clone(), low, pair: low.is_some(), transposition }
        })
        .collect()
}

/// Key forms for a noun's language; Italian nouns stand with German letters too.
fn forms(language: Language) -> BTreeMap<String, Vec<String>> {
    let mut forms = key_names(language);
    if language == Language::Italian {
        for (key, list) in key_names(Language::German) {
            forms.entry(key).or_default().extend(list);
        }
    }
    forms
}

fn with_crooks(id: &str, file: &str, seed: u64, at_least: usize) {
    let mut checker = Checker::new(seed);
    let crooks = crooks(file);
    let nouns: Vec<Noun> = nouns().into_iter().filter(|noun| noun.id == id).collect();
    assert!(nouns.len() >= 8, "{nouns:?}");
    for noun in &nouns {
        let (language, text) = (noun.language, &noun.text);
        let within = language.within();
        for crook in &crooks {
            let words: Vec<&str> = match crook.low {
                Some(low) => language.octave_words()[usize::from(low)].to_vec(),
                None => Vec::new(),
            };
            for key in &forms(language)[&crook.key] {
                for number in numbers_of(language) {
                    let (before, after, count, players) = number;
                    let mut expected = Expected {
                        ids: vec![id.to_owned()],
                        transposition: Some(crook.transposition),
                        count,
                        players: players.to_vec(),
                        open: false,
                    };
                    let mut labels = Vec::new();
                    for word in &words {
                        labels.push(format!("{before}{text}{after} {within} {key} {word}"));
                        match checker.chance.below(4) {
                            0 => labels.push(format!("{before}{text}{after} {within} {key} ({word})")),
                            1 => labels.push(format!("{before}{text}{after} ({key} {word})")),
                            2 => labels.push(format!("{before}{text} {within} {key} {word}{after}")),
                            _ if language == Language::German => {
                                labels.push(format!("{before}{text}{after} {within} {word} {key}"));
                            }
                            _ if language == Language::English && !before.contains('.') => {
                                labels.push(format!("{before}{key} {word} {text}{after}"));
                            }
                            _ => {}
                        }
                    }
                    if !crook.pair {
                        labels.push(format!("{before}{text}{after} {within} {key}"));
                        match checker.chance.below(3) {
                            0 => labels.push(format!("{before}{text}{after} ({key})")),
                            1 => labels.push(format!("{before}{text} {within} {key}{after}")),
                            _ if language == Language::English && !before.contains('.') => {
                                labels.push(format!("{before}{key} {text}{after}"));
                            }
                            _ => {}
                        }
                    }
                    for label in labels {
                        checker.check(&label, &expected);
                    }
                    if crook.pair {
                        expected.open = true;
                        checker.check(&format!("{before}{text}{after} {within} {key}"), &expected);
                    }
                }
            }
        }
    }
    checker.finish(at_least);
}

#[test]
fn horns_in_every_key() {
    with_crooks("horn", "horn_crooks.csv", 20, 25_000);
}

#[test]
fn trumpets_in_every_key() {
    with_crooks("trumpet", "trumpet_crooks.csv", 21, 20_000);
}

/// Rows whose names another row has as well, so that a label alone does not tell them apart: the notations of the bass
/// clarinet, the cello's treble clef, the retuned viola, the schemes of the Wagner tubas.
const BY_HABIT: &[&str] = &[
    "bcl_de",
    "bcl_fr",
    "vc_treble_old",
    "va_k364",
    "wt_t_bb",
    "wt_t_bbb",
    "wt_t_eb",
    "wt_b_f",
    "wt_b_bb",
    "tuba",
];

/// Every name of every other instrument in every language, with players and counts.
#[test]
fn every_noun_of_the_table() {
    let mut checker = Checker::new(22);
    let rows: BTreeMap<String, BTreeMap<String, String>> =
        table("instruments.csv").into_iter().map(|row| (row["id"].clone(), row)).collect();
    let all = nouns();
    for noun in &all {
        if matches!(noun.id.as_str(), "horn" | "trumpet" | "timp_old") {
            continue;
        }
        let text = &noun.text;
        let same = |other: &&Noun| labels_kit::folded(&other.text) == labels_kit::folded(text);
        let shared = all.iter().filter(same).any(|other| other.id != noun.id);
        let open = shared || BY_HABIT.contains(&noun.id.as_str());
        for (before, after, count, players) in numbers_of(noun.language) {
            // The name may end with its key, and a number may stand in it ("Flute in E-flat").
            let expected = Expected {
                ids: vec![noun.id.clone()],
                transposition: numbers(&rows[&noun.id]),
                count,
                players: players.to_vec(),
                open,
            };
            checker.check(&format!("{before}{text}{after}"), &expected);
        }
    }
    checker.finish(8_000);
}

/// Clarinets by the rows of their keys, cornets by the remark of their row.
#[test]
fn clarinets_and_cornets_in_every_key() {
    let mut checker = Checker::new(23);
    let rows = table("instruments.csv");
    let mut forms_by_key: BTreeMap<&str, Vec<(String, Transposition, String)>> = BTreeMap::new();
    for row in rows.iter().filter(|row| row["english"].starts_with("Clarinet in ") && row["id"] != "cl_g") {
        let name = row["english"].trim_start_matches("Clarinet in ").split(" (").next().unwrap_or("");
        let key = name.replace("-flat", "♭").replace(" natural", "");
        let list = forms_by_key.entry("cl_bb").or_default();
        list.push((key, numbers(row).expect("three numbers"), row["id"].clone()));
    }
    let cornet = rows.iter().find(|row| row["id"] == "cornet_bb").expect("the cornet");
    let remark = cornet["remark"].trim_start_matches("shanks/crooks also ");
    for piece in remark.split("; ").filter(|piece| piece.contains(',')) {
        let (key, rest) = piece.split_once(' ').expect("a key and two numbers");
        let (diatonic, chromatic) = rest.split_once(',').expect("two numbers");
        let shift =
            Transposition::new(diatonic.parse().expect("steps"), chromatic.parse().expect("semitones"));
        forms_by_key.entry("cornet_bb").or_default().push((key.to_owned(), shift, "cornet_bb".to_owned()));
    }
    assert_eq!((forms_by_key["cl_bb"].len(), forms_by_key["cornet_bb"].len()), (7, 6));
    let bases: &[(&str, Language, &str, bool)] = &[
        ("cl_bb", Language::English, "Clarinet", false),
        ("cl_bb", Language::English, "Clarinets", true),
        ("cl_bb", Language::Italian, "Clarinetto", false),
        ("cl_bb", Language::Italian, "Clarinetti", true),
        ("cl_bb", Language::German, "Klarinette", false),
        ("cl_bb", Language::German, "Klarinetten", true),
        ("cl_bb", Language::French, "Clarinette", false),
        ("cl_bb", Language::French, "Clarinettes", true),
        ("cl_bb", Language::Spanish, "Clarinete", false),
        ("cl_bb", Language::Spanish, "Clarinetes", true),
        ("cornet_bb", Language::English, "Cornet", false),
        ("cornet_bb", Language::Italian, "Cornetta", false),
        ("cornet_bb", Language::German, "Kornett", false),
        ("cornet_bb", Language::French, "Cornet à pistons", false),
        ("cornet_bb", Language::French, "Cornets à pistons", true),
        ("cornet_bb", Language::Spanish, "Corneta", false),
    ];
    for (group, language, noun, _) in bases {
        for (key, transposition, id) in &forms_by_key[group] {
            for form in &forms(*language)[key] {
                for (before, after, count, players) in numbers_of(*language) {
                    let expected = Expected {
                        ids: vec![id.clone()],
                        transposition: Some(*transposition),
                        count,
                        players: players.to_vec(),
                        open: false,
                    };
                    let within = language.within();
                    checker.check(&format!("{before}{noun}{after} {within} {form}"), &expected);
                    checker.check(&format!("{before}{noun}{after} ({form})"), &expected);
                }
            }
        }
    }
    checker.finish(10_000);
}
