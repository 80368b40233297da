//! Harmonies of real scores beside labels that a musician made by hand before the code was written
//! (`tests/labels/README.md`): twelve movements of the OpenScore Orchestra corpus.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::movements::{decoder, repaired, rows, say};
use crookwise_score::HarmonyKind;
use crookwise_score::chord::{Chord, Quality};
use crookwise_score::harmony::{ScoreHarmony, harmonies};
use crookwise_score::score::{Quarters, Score};
use crookwise_tests::outside::{Comparison, hold};
use crookwise_theory::{Pitch, Tonic};

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] =
    &crookwise_tests::comparisons![harmonies_are_as_a_musician_labelled_them];

/// A row of the labels.
struct Label {
    movement: String,
    at: (String, Quarters),
    root: Option<Tonic>,
    quality: String,
    bass: Option<Tonic>,
    degree: String,
    key: String,
    doubtful: bool,
}

fn quarters(text: &str) -> Quarters {
    let (numerator, denominator) = text.split_once('/').unwrap_or((text, "1"));
    Quarters::new(numerator.parse().unwrap(), denominator.parse().unwrap()).unwrap()
}

fn labels() -> Vec<Label> {
    let tonic = |name: &str| format!("{name}4").parse::<Pitch>().ok().map(Pitch::tonic);
    let label = |row: Vec<String>| Label {
        movement: row[0].clone(),
        at: (row[1].clone(), quarters(&row[2])),
        root: tonic(&row[3]),
        quality: row[4].clone(),
        bass: tonic(&row[5]),
        degree: row[6].clone(),
        key: row[7].clone(),
        doubtful: row.get(8).is_some_and(|doubtful| doubtful == "?"),
    };
    rows("chords.tsv").into_iter().map(label).collect()
}

/// When a bar begins by its printed number.
fn start(score: &Score, number: &str) -> Quarters {
    score
        .bars()
        .iter()
        .find(|bar| bar.number.as_ref() == number)
        .unwrap_or_else(|| panic!("no bar {number}"))
        .start
}

/// How a chord is called in the labels.
fn called(quality: Quality) -> &'static str {
    match quality {
        Quality::Major => "maj",
        Quality::Minor => "min",
        Quality::Diminished => "dim",
        Quality::Augmented => "aug",
        Quality::DominantSeventh | Quality::Seventh => "7",
        Quality::MajorSeventh => "maj7",
        Quality::MinorSeventh => "min7",
        Quality::HalfDiminishedSeventh => "hdim7",
        Quality::DiminishedSeventh => "dim7",
        Quality::DominantNinth | Quality::DominantMinorNinth => "9",
        Quality::ItalianSixth => "It6",
        Quality::FrenchSixth => "Fr6",
        Quality::GermanSixth => "Ger6",
        _ => "other",
    }
}

/// Whether a harmony found is the one that was labelled, root and quality; with the bass asked for, that too.
fn same(label: &Label, found: &ScoreHarmony, with_bass: bool) -> bool {
    let key = |tonic: Tonic| tonic.pitch_class();
    let chord = |chord: &Chord, bass: Option<Tonic>| {
        let quality = called(chord.quality);
        // A ninth is a seventh whose ninth was taken for a passing note; and roots of diminished sevenths are four.
        let alike = quality == label.quality || (quality == "7" && label.quality == "9");
        let root = label.root.is_some_and(|root| key(root) == key(chord.root))
            || (quality == "dim7" && label.root.is_some_and(|root| (key(root) - key(chord.root)) % 3 == 0));
        let lowest = bass.is_none_or(|bass| label.bass.is_some_and(|other| key(other) == key(bass)));
        alike && root && (!with_bass || lowest)
    };
    let lowest =
        found.harmony.letters.iter().map(|letter| letter.pitch).min_by_key(|pitch| pitch.semitones());
    let bass = lowest.map(Pitch::tonic);
    match &found.harmony.kind {
        HarmonyKind::Chord(own) | HarmonyKind::Pedal { chord: own, .. } => chord(own, bass),
        HarmonyKind::OpenFifth { root, .. } => {
            label.quality == "fifth" && label.root.is_none_or(|other| key(other) == key(*root))
        }
        HarmonyKind::Interval { .. } => matches!(label.quality.as_str(), "third" | "interval"),
        HarmonyKind::One { .. } => matches!(label.quality.as_str(), "unison" | "none"),
        HarmonyKind::NoChord | HarmonyKind::Silence => label.quality == "none",
    }
}

/// What was counted of a stretch.
#[derive(Clone, Copy, Default)]
struct Count {
    rows: usize,
    chords: usize,
    basses: usize,
    degrees: (usize, usize),
    found: usize,
    superfluous: usize,
}

fn harmonies_are_as_a_musician_labelled_them(folder: &str) {
    let labels = labels();
    let verbose = std::env::var_os("CROOKWISE_SAY").is_some();
    let mut sum = Count::default();
    let mut lines = Vec::new();
    let mut last: Option<(String, Score, Vec<ScoreHarmony>)> = None;
    for stretch in rows("stretches.tsv") {
        let (movement, from, to) = (&stretch[0], &stretch[1], &stretch[2]);
        if last.as_ref().is_none_or(|(name, ..)| name != movement) {
            let score = repaired(folder, movement);
            let found = harmonies(&score, &score.sounded(&mut decoder));
            last = Some((movement.clone(), score, found));
        }
        let (_, score, found) = last.as_ref().unwrap();
        let begin = start(score, from);
        let last_bar = score.bars().iter().find(|bar| bar.number.as_ref() == to.as_str()).unwrap();
        let end = last_bar.start.plus(last_bar.length).unwrap();
        let at = |label: &Label| start(score, &label.at.0).plus(label.at.1).unwrap();
        let own: Vec<&Label> = labels
            .iter()
            .filter(|label| label.movement == *movement && at(label) >= begin && at(label) < end)
            .collect();
        assert!(!own.is_empty(), "{movement} {from} to {to}");
        let mut count = Count::default();
        for (place, label) in own.iter().enumerate() {
            let from = at(label);
            let to = own.get(place + 1).map_or(end, |next| at(next));
            // The harmony that holds longest from this row to the next.
            let held = |one: &ScoreHarmony| {
                let (from, to) = (one.from.max(from), one.to.min(to));
                to.minus(from).filter(|length| *length > Quarters::ZERO)
            };
            let longest = found.iter().filter_map(|one| held(one).map(|length| (length, one)));
            let longest = longest.max_by_key(|(length, _)| *length).map(|(_, one)| one);
            if label.doubtful {
                continue;
            }
            count.rows += 1;
            let right = longest.is_some_and(|one| same(label, one, false));
            count.chords += usize::from(right);
            count.basses += usize::from(longest.is_some_and(|one| same(label, one, true)));
            let in_key = longest.and_then(|one| one.key).is_some_and(|key| key.to_string() == label.key);
            if in_key && !label.degree.contains('/') && label.degree != "-" && right {
                count.degrees.0 += 1;
                let degree = longest.and_then(|one| one.harmony.degree).map(|degree| degree.to_string());
                count.degrees.1 +=
                    usize::from(degree.is_some_and(|degree| is_degree(&degree, &label.degree)));
            }
            if verbose && !right {
                let name = longest.map_or_else(String::new, |one| one.harmony.to_string());
                say(&format!(
                    "  {movement} {}+{}: {:?} {} labelled, {name} found",
                    label.at.0,
                    label.at.1,
                    label.root.map(|r| r.to_string()),
                    label.quality
                ));
            }
        }
        for one in found.iter().filter(|one| one.from >= begin && one.from < end) {
            count.found += 1;
            let near = |label: &&Label| {
                let apart = one.from.minus(at(label)).unwrap();
                let half = Quarters::new(1, 2).unwrap();
                apart <= half && apart >= Quarters::ZERO.minus(half).unwrap()
            };
            count.superfluous += usize::from(!own.iter().any(near));
        }
        lines.push(format!(
            "{movement} {from} to {to}: {} of {} chords, {} with their bass, {} of {} degrees; {} changes found, {} where none is labelled",
            count.chords, count.rows, count.basses, count.degrees.1, count.degrees.0, count.found, count.superfluous
        ));
        sum.rows += count.rows;
        sum.chords += count.chords;
        sum.basses += count.basses;
        sum.degrees = (sum.degrees.0 + count.degrees.0, sum.degrees.1 + count.degrees.1);
        sum.found += count.found;
        sum.superfluous += count.superfluous;
    }
    lines.push(format!(
        "in all {} of {} chords, {} with their bass, {} of {} degrees; {} changes found, {} where none is labelled",
        sum.chords, sum.rows, sum.basses, sum.degrees.1, sum.degrees.0, sum.found, sum.superfluous
    ));
    lines.iter().for_each(|line| say(line));
    hold("Chords", &lines);
}

/// Whether a degree as the program writes it ("b6") is the Roman one of a label ("bVI", "V7").
fn is_degree(ours: &str, label: &str) -> bool {
    const ROMAN: [&str; 7] = ["I", "II", "III", "IV", "V", "VI", "VII"];
    let plain: String = label
        .trim_start_matches(['b', '#'])
        .chars()
        .take_while(|letter| matches!(letter, 'i' | 'v' | 'I' | 'V'))
        .collect();
    let number = ROMAN.iter().position(|roman| *roman == plain.to_uppercase());
    let own = ours.trim_start_matches(['b', '#']).parse::<usize>().ok();
    match label {
        "Cad64" => own == Some(1),
        "N6" => own == Some(2),
        "It6" | "Fr6" | "Ger6" => own == Some(6),
        _ => number.is_some() && own == number.map(|number| number + 1),
    }
}
