//! Usual tempi for the words that scores print. Common practice: the marks of metronomes and those of editors differ, some by
//! half; what is reckoned from here is said as assumed.

use super::TempoStep;
use crate::score::Score;

/// Words and beats a minute, the beat that of the time signature.
const WORDS: [(&str, u32); 22] = [
    ("prestissimo", 200),
    ("presto", 176),
    ("vivacissimo", 168),
    ("vivace", 152),
    ("allegrissimo", 160),
    ("allegro", 132),
    ("allegretto", 108),
    ("moderato", 100),
    ("maestoso", 84),
    ("sostenuto", 72),
    ("andantino", 80),
    ("andante", 72),
    ("adagietto", 66),
    ("adagio", 54),
    ("larghetto", 58),
    ("larghissimo", 36),
    ("largo", 46),
    ("lento", 52),
    ("grave", 40),
    ("menuetto", 112),
    ("minuetto", 112),
    ("marcia", 108),
];
/// Words that say a tempo by another one, which is left as it is.
const BY_ANOTHER: [&str; 4] = ["più", "piu", "meno", "stesso"];

/// Words that say how much of what follows them.
const HOW_MUCH: [&str; 10] = ["un", "poco", "molto", "assai", "più", "piu", "meno", "non", "troppo", "quasi"];
/// Words that make a heading without a tempo of their own.
const NO_COUNT: [&str; 2] = ["tempo", "mosso"];

/// Whether words are a heading of tempo ("Andante con moto", "Poco sostenuto", "Tempo I"), which print has over all staves:
/// they begin with a capital letter and with a word of the list, with "tempo" or "mosso", or with how much of one of these.
#[must_use]
pub fn is_heading(text: &str) -> bool {
    let mut words = text.split(|letter: char| !letter.is_alphabetic()).filter(|word| !word.is_empty());
    let is_large = words.clone().next().is_some_and(|first| first.starts_with(char::is_uppercase));
    let is = |word: &str, known: &str| word.eq_ignore_ascii_case(known);
    let Some(what) = words.find(|word| !HOW_MUCH.iter().any(|much| is(word, much))) else { return false };
    is_large && WORDS.iter().map(|(word, _)| *word).chain(NO_COUNT).any(|known| is(what, known))
}

/// The tempo that words mean in a bar, in thousandths of quarter notes a minute: that of the first word of the list among them; at
/// "tempo primo" the first of the score.
pub(super) fn tempo(text: &str, score: &Score, bar: usize, first: Option<&TempoStep>) -> Option<u32> {
    let all = || text.split(|letter: char| !letter.is_alphabetic()).filter(|word| !word.is_empty());
    let is = |word: &str, other: &str| word.eq_ignore_ascii_case(other);
    if all().any(|word| BY_ANOTHER.iter().any(|other| is(word, other))) {
        return None;
    }
    let mut two = all().zip(all().skip(1));
    if two.any(|(one, other)| is(one, "tempo") && (is(other, "primo") || is(other, "I"))) {
        return first.map(|step| step.tempo);
    }
    let (_, count) = all().find_map(|word| WORDS.iter().find(|(known, _)| is(word, known)))?;
    Some(beats(*count, score, bar))
}

/// So many beats a minute as thousandths of quarter notes. The beat is that of the time signature; of three eighths or shorter in a
/// group it is the group.
pub(super) fn beats(count: u32, score: &Score, bar: usize) -> u32 {
    let time = score.bars().get(..=bar).and_then(|before| before.iter().rev().find_map(|bar| bar.time));
    let Some(time) = time else { return count.saturating_mul(1000) };
    let group = if time.value >= 8 && time.beats % 3 == 0 && time.beats > 3 { 3 } else { 1 };
    count.saturating_mul(4000 * group) / u32::from(time.value.max(1))
}
