//! Labels at the head of a staff, as scores print them in five languages, and what they mean.
//!
//! A label is folded (`fold`) and cut into tokens (`tokens`); each token is looked up (`items`) in a lexicon that is made
//! from the tables (`lexicon`, `learn`, `keys`, `words`); a small grammar walks over them and sorts them into drafts of
//! staves (`walk`, `nouns`, `keyed`, `players`, `drafts`); tables and habits say what those are (`choose`, `resolve`, `readings`,
//! `crooked`, `special`, `habits`). `seats` says which of them each player reads.

mod catalogue;
mod cells;
mod choose;
mod crooked;
mod drafts;
mod fold;
mod habits;
mod items;
mod keyed;
mod keys;
mod learn;
mod lexicon;
mod naming;
mod near;
mod nouns;
mod numbers;
mod players;
mod readings;
mod resolve;
mod seats;
mod special;
mod staff;
mod tokens;
mod walk;
mod words;

pub use catalogue::{CatalogueEntry, catalogue};
pub use naming::sounds;
pub use seats::{MOST_SEATS, Seat};
pub use staff::{LabelProblem, Mechanism, StaffLabel};

use crate::instrument::Family;
use drafts::Draft;
use items::{Item, What};
use lexicon::Lexicon;
use tokens::{Kind, Token};
use words::Lemma;

/// Characters of the longest label that is read.
pub const LONGEST: usize = 200;

/// What is known beside the label.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct DecodeOptions {
    /// The year of the music, where known.
    pub year: Option<i32>,
}

/// Another reading of a label that the trade leaves open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Alternative {
    /// The staff by this reading.
    pub staff: StaffLabel,
    /// Of which staff it is another reading, as an index into [`Decoded::staves`].
    pub of: usize,
    /// When the trade means this one.
    pub reason: String,
}

/// Everything a label says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Decoded {
    /// The staves or crooks it names, in order; more than one for "Corno I in B alto, Corno II in G".
    pub staves: Vec<StaffLabel>,
    /// What the players are told to change to ("muta in …").
    pub changes: Vec<StaffLabel>,
    /// Other readings of the staves, in their order.
    pub alternatives: Vec<Alternative>,
    /// What was taken for granted and why, as a sentence.
    pub assumed: Option<String>,
    /// Of what was taken for granted: why the first brass of the label is natural or has valves.
    pub about_valves: Option<String>,
    /// What is not understood.
    pub problem: Option<LabelProblem>,
}

/// Reads a label.
///
/// Where the trade leaves something open, the usual reading is given, [`Decoded::assumed`] says why, and the others
/// stand in [`Decoded::alternatives`]. A horn or trumpet without a key is taken as the most usual one (F, and C) in
/// that way. Text that is mostly not understood gives no staff and a [`LabelProblem`]; a single foreign word beside
/// a known instrument gives the staff and the problem.
///
/// ```
/// use crookwise_theory::label::{DecodeOptions, decode};
///
/// let decoded = decode("2 Corni in Es", DecodeOptions::default());
/// assert_eq!(decoded.staves[0].name(), "Horn in E-flat");
/// assert_eq!(decoded.staves[0].count, Some(2));
/// ```
#[must_use]
pub fn decode(text: &str, options: DecodeOptions) -> Decoded {
    let none = |problem| Decoded { problem: Some(problem), ..Decoded::default() };
    if text.chars().take(LONGEST + 1).count() > LONGEST {
        return none(LabelProblem::TooLong);
    }
    let tokens = tokens::tokenise(text);
    if tokens.is_empty() {
        return none(LabelProblem::Empty);
    }
    let (first, choices) = read(text, options, &tokens, 0);
    if choices < 2 {
        return first;
    }
    // A word with a slip may be several others: one of them must be the only one that makes sense.
    let sound = |decoded: &Decoded| decoded.problem.is_none() && !decoded.staves.is_empty();
    let mut readings: Vec<Decoded> = Vec::new();
    for reading in
        (1..choices.min(MOST_MEANINGS)).map(|choice| read(text, options, &tokens, choice).0).chain([first])
    {
        if sound(&reading) && !readings.iter().any(|other| other.staves == reading.staves) {
            readings.push(reading);
        }
    }
    match (readings.pop(), readings.is_empty()) {
        (Some(only), true) => only,
        _ => read(text, options, &tokens, usize::MAX).0,
    }
}

/// How many meanings of a word with a slip are tried.
const MOST_MEANINGS: usize = 6;

/// Reads the tokens, a word with a slip in the meaning of that number. Gives back how many meanings it may have.
fn read(text: &str, options: DecodeOptions, tokens: &[Token], choice: usize) -> (Decoded, usize) {
    let mut items = items::classify(text, tokens, choice);
    letters_alone(tokens, &mut items.list);
    let drafts = walk::draft(&items.list);
    let mut out = Decoded::default();
    let mut assumed: Vec<String> = Vec::new();
    if let Some((typed, taken)) = &items.slip {
        assumed.push(format!("“{}” is read as “{taken}”.", shown(typed)));
    }
    let mut unused = false;
    let mut before: Option<Family> = None;
    for (place, draft) in drafts.staves.iter().enumerate() {
        let resolved = resolve::resolve(draft, options, before);
        before = resolved.staff.as_ref().map(|staff| staff.instrument.family);
        unused |= resolved.unused;
        out.problem = out.problem.or(resolved.problem);
        assumed.extend(resolved.assumed);
        out.about_valves = out.about_valves.or(resolved.about_valves);
        // Where the first names none, its crooks are offered all the same.
        if resolved.staff.is_some() || place == 0 {
            let of = out.staves.len();
            let others = resolved.alternatives.into_iter();
            out.alternatives.extend(others.map(|other| Alternative { of, ..other }));
        }
        out.staves.extend(resolved.staff);
    }
    for draft in &drafts.changes {
        let resolved = resolve::resolve(draft, options, before);
        assumed.extend(resolved.assumed);
        out.problem = out.problem.or(resolved.problem);
        out.changes.extend(resolved.staff);
    }
    if let Some(word) = drafts.unread_key.and_then(|place| tokens.get(place)) {
        return (unread_key(shown_word(text, word), out), items.choices);
    }
    let odd = || unused.then(|| odd_word(&items.list, &drafts.staves)).flatten();
    let unknown = drafts.unknown.first().copied().or_else(odd);
    let no_staff = out.staves.is_empty() && (out.problem.is_none() || !drafts.unknown.is_empty());
    // What is only guessed does not outweigh a word that is not understood.
    let known = drafts.known.saturating_sub(usize::from(items.slip.is_some()));
    let weak =
        !drafts.unknown.is_empty() && drafts.unknown.len() >= known && only_letters(tokens, &items.list);
    if drafts.unknown.len() > known || weak || no_staff {
        let problem = Some(no_instrument(text, tokens, &items.list, unknown));
        return (Decoded { problem, ..Decoded::default() }, items.choices);
    }
    if let Some(token) = unknown.and_then(|place| tokens.get(place)) {
        let (word, nearest) = word_and_nearest(text, token, &items.list);
        out.problem = out.problem.or(Some(LabelProblem::UnknownWord { word, nearest }));
    }
    let assumed = each_once(assumed);
    if !assumed.is_empty() {
        out.assumed = Some(assumed.join(" "));
    }
    (out, items.choices)
}

/// A lone letter such as "V." or "B." abbreviates an instrument only where the label has no other noun.
fn letters_alone(tokens: &[Token], items: &mut [Item]) {
    if items.iter().any(|item| matches!(item.what, What::Noun(_))) {
        return;
    }
    let words: Vec<usize> = items
        .iter()
        .enumerate()
        .filter(|(_, item)| matches!(item.what, What::Key(_) | What::Unknown | What::Role(_)))
        .map(|(place, _)| place)
        .collect();
    // "V. 1", "E♭ B.": the only word, or the last one after a key.
    let last = match words[..] {
        [only] => Some(only),
        [first, last] if items.get(first).is_some_and(|item| matches!(item.what, What::Key(_))) => Some(last),
        _ => None,
    };
    let Some(item) = last.and_then(|last| items.get_mut(last)) else { return };
    // "B" without its dot is a key.
    let bare_key = matches!(item.what, What::Key(_));
    let Some(token) = tokens.get(item.token).filter(|token| token.dot || (words.len() == 1 && !bare_key))
    else {
        return;
    };
    if let Some(lemma) = Lexicon::get().letter(&token.text) {
        item.what = What::Noun(lemma);
    }
}

/// The token of a kind of instrument that its noun does not have.
fn odd_word(items: &[Item], staves: &[Draft]) -> Option<usize> {
    let head = staves.iter().find_map(Draft::head)?;
    items.iter().find(|item| matches!(item.what, What::Noun(lemma) if lemma != head)).map(|item| item.token)
}

/// Nothing is taken for a key that cannot be read: the crooks are offered instead.
fn unread_key(word: String, read: Decoded) -> Decoded {
    let Some(first) = read.staves.into_iter().next() else {
        return Decoded {
            problem: Some(LabelProblem::NoInstrument { word, nearest: None }),
            ..Decoded::default()
        };
    };
    let problem = LabelProblem::UnreadKey { word, instrument: first.instrument.english };
    let usual = Alternative { staff: first, of: 0, reason: "a usual key".to_owned() };
    let alternatives =
        core::iter::once(usual).chain(read.alternatives.into_iter().filter(|other| other.of == 0)).collect();
    Decoded { alternatives, problem: Some(problem), ..Decoded::default() }
}

/// Whether the only nouns are abbreviations of two letters without a dot, which might be anything.
fn only_letters(tokens: &[Token], items: &[Item]) -> bool {
    let nouns = items.iter().filter(|item| matches!(item.what, What::Noun(_)));
    let mut nouns = nouns.filter_map(|item| tokens.get(item.token));
    nouns.all(|token| token.text.chars().count() <= 2 && !token.dot)
}

fn no_instrument(text: &str, tokens: &[Token], items: &[Item], unknown: Option<usize>) -> LabelProblem {
    let first_word = tokens.iter().find(|token| token.kind == Kind::Word);
    let token = unknown.and_then(|place| tokens.get(place)).or(first_word).or(tokens.first());
    let (word, nearest) = token.map(|token| word_and_nearest(text, token, items)).unwrap_or_default();
    LabelProblem::NoInstrument { word, nearest }
}

/// A word that is not understood, and the nearest one that would say something new.
fn word_and_nearest(text: &str, token: &Token, items: &[Item]) -> (String, Option<String>) {
    let understood: Vec<Lemma> = items.iter().filter_map(Item::lemma).collect();
    let word = token.kind == Kind::Word;
    let nearest = word.then(|| Lexicon::get().nearest(&token.text, &understood)).flatten();
    (shown_word(text, token), nearest)
}

fn shown_word(text: &str, token: &Token) -> String {
    shown(text.get(token.start..token.end).unwrap_or(&token.text))
}

/// A word of the label as a sentence may show it: short, and without marks that turn the text around.
fn shown(word: &str) -> String {
    let clean = word.chars().filter(|ch| {
        !ch.is_control()
            && !matches!(ch, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}')
    });
    let mut out: String = clean.clone().take(30).collect();
    if clean.count() > 30 {
        out.push('…');
    }
    out
}

/// Each sentence once, in order.
fn each_once(sentences: Vec<String>) -> Vec<String> {
    let mut seen: Vec<String> = Vec::new();
    for sentence in sentences {
        if !seen.contains(&sentence) {
            seen.push(sentence);
        }
    }
    seen
}
