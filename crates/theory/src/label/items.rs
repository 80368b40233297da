//! Items: each token of a label with what it does, numbers and keys put together.

use super::keys::{KeyName, Wording};
use super::lexicon::{Entry, Lexicon, lang, lemmas};
use super::tokens::{Kind, Token};
use super::words::{Lemma, Role, lemma};

/// Numbers that stand together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Numbers {
    /// Each number, ranges written out.
    pub values: Vec<u32>,
    /// They number players: ordinals, Roman numbers, or with a dot.
    pub ordinal: bool,
    /// They may as well be a count that a dot follows ("2. Corni").
    pub dotted: bool,
}

/// What an item is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum What {
    /// Names an instrument or its kind.
    Noun(Lemma),
    /// Any other known word.
    Role(Role),
    /// A key.
    Key(KeyName),
    /// Numbers.
    Numbers(Numbers),
    /// Comma, slash or plus.
    Break {
        /// It is a comma.
        comma: bool,
    },
    /// Hyphen or dash.
    Dash,
    /// An opening bracket.
    Open,
    /// A closing bracket.
    Close,
    /// Not understood.
    Unknown,
}

/// One item of a label.
#[derive(Clone, Debug)]
pub(super) struct Item {
    /// What it is.
    pub what: What,
    /// The token it comes from.
    pub token: usize,
    /// Languages in which the word is known.
    pub langs: u8,
    /// It is a plural.
    pub plural: bool,
    /// The word as the lexicon spells it.
    pub word: String,
}

/// The items of a label, and whether a slip was forgiven: the word typed and the word taken.
#[derive(Debug, Default)]
pub(super) struct Items {
    /// In order.
    pub list: Vec<Item>,
    /// The slip forgiven, if there was one.
    pub slip: Option<(String, String)>,
    /// How many meanings the word with the slip may have.
    pub choices: usize,
}

/// Numbers above this are no players.
const MOST: u32 = 64;

struct Reader<'a> {
    book: &'static Lexicon,
    label: &'a str,
    tokens: &'a [Token],
    out: Items,
    mixed_case: bool,
    has_noun: bool,
    has_key: bool,
    choice: usize,
}

/// Says what each token does. A word with a slip is taken in the meaning of that number, as far as there are so many.
pub(super) fn classify(label: &str, tokens: &[Token], choice: usize) -> Items {
    let book = Lexicon::get();
    let is_noun = |entry: &Entry| lemmas(&entry.roles).iter().any(|lemma| lemma.is_head());
    let words = || tokens.iter().filter(|token| token.kind == Kind::Word);
    let mut reader = Reader {
        book,
        label,
        tokens,
        choice,
        out: Items::default(),
        mixed_case: words().any(|token| !token.capital),
        has_key: (1..tokens.len()).any(|at| {
            let before = tokens.get(at - 1);
            let opens = before.is_some_and(|token| {
                token.kind == Kind::Open || matches!(token.text.as_str(), "in" | "en" | "ex")
            });
            opens && book.keys.read(tokens, at).is_some()
        }),
        has_noun: words().any(|token| book.find(&token.text).is_some_and(is_noun)),
    };
    let mut at = 0;
    while at < tokens.len() {
        at += reader.read(at).max(1);
    }
    reader.out
}

impl Reader<'_> {
    fn push(&mut self, what: What, token: usize) {
        let word = self.tokens.get(token).map(|token| token.text.clone()).unwrap_or_default();
        self.out.list.push(Item { what, token, langs: lang::ALL, plural: false, word });
    }

    fn push_entry(&mut self, entry: &Entry, word: &str, token: usize) {
        for role in &entry.roles {
            let what = match role {
                Role::Noun(lemma) => What::Noun(*lemma),
                Role::Ordinal(number) => {
                    What::Numbers(Numbers { values: vec![*number], ordinal: true, dotted: false })
                }
                Role::Cardinal(number) => {
                    What::Numbers(Numbers { values: vec![*number], ordinal: false, dotted: false })
                }
                Role::Other => What::Unknown,
                other => What::Role(*other),
            };
            self.out.list.push(Item {
                what,
                token,
                langs: entry.langs,
                plural: entry.plural,
                word: word.to_owned(),
            });
        }
    }

    /// Reads what begins at a token; gives back how many tokens it took.
    fn read(&mut self, at: usize) -> usize {
        let Some(token) = self.tokens.get(at) else { return 1 };
        let what = match token.kind {
            Kind::Word => return self.read_word(at),
            Kind::Number(_) => return self.read_numbers(at),
            Kind::Comma | Kind::Slash | Kind::Plus => What::Break { comma: token.kind == Kind::Comma },
            Kind::Dash => What::Dash,
            Kind::Open => What::Open,
            Kind::Close => What::Close,
            Kind::Natural | Kind::Flat | Kind::Sharp | Kind::Strange => What::Unknown,
        };
        self.push(what, at);
        1
    }

    fn read_word(&mut self, at: usize) -> usize {
        let Some(token) = self.tokens.get(at) else { return 1 };
        if self.roman(at).is_some() && !self.is_lone_letter(at) {
            return self.read_numbers(at);
        }
        if let Some((lemma, langs, used)) = self.book.phrase(self.tokens, at) {
            self.push(What::Noun(lemma), at);
            if let Some(last) = self.out.list.last_mut() {
                last.langs = langs;
            }
            return used;
        }
        if self.is_a_due(at) {
            self.push(What::Role(Role::Ignored), at);
            return 2;
        }
        if self.joins(at) {
            let role = if token.text == "a" { Role::Link } else { Role::And };
            self.push(What::Role(role), at);
            return 1;
        }
        let wanted_noun = token.text == "cb" && !self.after_in();
        if !wanted_noun && let Some((key, used)) = self.read_key(at) {
            self.push(What::Key(key), at);
            return used;
        }
        // "Cori" is a choir, but "Cori in Re" are horns with a slip.
        let other = |entry: &Entry| self.has_key && entry.roles.contains(&Role::Other);
        if let Some(entry) = self.book.find(&token.text).filter(|entry| !other(entry)) {
            self.push_entry(&entry.clone(), &token.text.clone(), at);
            return 1;
        }
        if let Some(entry) = self.book.find_spelled_otherwise(&token.text) {
            self.push_entry(&entry, &token.text.clone(), at);
            return 1;
        }
        self.read_with_slip(at);
        1
    }

    /// A key, its "bemolle" perhaps with a slip.
    fn read_key(&mut self, at: usize) -> Option<(KeyName, usize)> {
        let (key, used) = self.book.keys.read(self.tokens, at)?;
        let plain =
            used == 1 && key.tonic.alter == if key.bare_b { -1 } else { 0 } && key.wording != Wording::Old;
        let next = self.tokens.get(at + used).filter(|next| next.kind == Kind::Word);
        if let Some(next) =
            next.filter(|next| plain && self.out.slip.is_none() && self.book.find(&next.text).is_none())
        {
            let typed: Vec<char> = next.text.chars().collect();
            if let Some(alter) = self.book.keys.alteration_with_slip(&typed) {
                self.out.slip = Some((self.shown(next), "flat or sharp".to_owned()));
                let tonic = crate::pitch::Tonic::new(key.tonic.step, alter);
                return Some((KeyName { tonic, bare_b: false, ..key }, used + 1));
            }
        }
        Some((key, used))
    }

    fn read_with_slip(&mut self, at: usize) {
        let Some(token) = self.tokens.get(at) else { return };
        let typed: Vec<char> = token.text.chars().collect();
        if self.out.slip.is_some() || typed.len() > 40 {
            self.push(What::Unknown, at);
            return;
        }
        let near = self.book.find_with_slip(&token.text);
        let old = self.book.keys.old_with_slip(&typed);
        let opened = self.out.list.last().is_some_and(|item| item.what == What::Open);
        let before_key = self.after_in() || (opened && self.has_noun);
        if let Some((key, name)) = old.filter(|_| before_key || near.is_empty()) {
            self.out.slip = Some((self.shown(token), name.to_owned()));
            self.push(What::Key(key), at);
            return;
        }
        self.out.choices = near.len();
        if let Some((word, entry)) = near.get(self.choice) {
            self.out.slip = Some((self.shown(token), entry.shown.clone()));
            self.push_entry(entry, word, at);
            return;
        }
        self.push(What::Unknown, at);
    }

    fn shown(&self, token: &Token) -> String {
        self.label.get(token.start..token.end).unwrap_or("").to_owned()
    }

    fn after_in(&self) -> bool {
        self.out.list.last().is_some_and(|item| item.what == What::Role(Role::In))
    }

    /// "a 2", "à 2", "zu 2": both players at once, not a key.
    fn is_a_due(&self, at: usize) -> bool {
        let Some(token) = self.tokens.get(at) else { return false };
        let two = self.tokens.get(at + 1).is_some_and(|next| {
            matches!(next.kind, Kind::Number(2..=4))
                || matches!(next.text.as_str(), "due" | "deux" | "zwei" | "dos")
        });
        let last = self.out.list.last().map(|item| &item.what);
        let has_key = self.out.list.iter().any(|item| matches!(item.what, What::Key(_)));
        let small = !token.capital || token.accent || has_key;
        two && (token.text == "zu" || (token.text == "a" && small && !self.after_in() && last.is_some()))
    }

    /// "e" or "a" that joins two and is no key.
    fn joins(&self, at: usize) -> bool {
        let Some(token) = self.tokens.get(at) else { return false };
        let (Some(last), Some(next)) = (self.out.list.last(), self.tokens.get(at + 1)) else { return false };
        let no_key_before = |text: &str| {
            self.book.find(text).is_some_and(|entry| {
                let nouns = lemmas(&entry.roles);
                entry.roles.iter().any(|role| matches!(role, Role::Mechanism(_)))
                    || nouns.contains(&lemma::PISTONS)
                    || nouns.contains(&lemma::RETUNED)
            })
        };
        match token.text.as_str() {
            _ if token.dot => false,
            "e" => {
                let between =
                    !matches!(last.what, What::Role(Role::In) | What::Break { .. } | What::Open | What::Dash);
                let more = matches!(next.kind, Kind::Word | Kind::Number(_));
                // "Clarinet E flat", "E la mi": more than the bare letter.
                let longer = self.book.keys.read(self.tokens, at).is_some_and(|(_, used)| used > 1);
                let key_by_case = token.capital && self.mixed_case && !matches!(last.what, What::Noun(_));
                let player = matches!(last.what, What::Noun(_))
                    && token.capital
                    && matches!(next.kind, Kind::Number(_));
                // "2 e horn": nothing to join yet.
                let something =
                    self.out.list.iter().any(|item| matches!(item.what, What::Noun(_) | What::Key(_)))
                        || matches!(next.kind, Kind::Number(_));
                something && between && more && !longer && !key_by_case && !player
            }
            "a" => {
                let change = matches!(last.what, What::Role(Role::Change));
                let next_key = self.book.keys.read(self.tokens, at + 1).is_some();
                (token.accent || no_key_before(&next.text) || (change && next_key)) && !self.after_in()
            }
            _ => false,
        }
    }

    /// Whether the token is the label's only word, so that "V. 1" is a violin and not a number.
    fn is_lone_letter(&self, at: usize) -> bool {
        let only = self.tokens.iter().filter(|token| token.kind == Kind::Word).count() == 1;
        only && self.tokens.get(at).is_some_and(|token| token.text == "v")
    }

    fn roman(&self, at: usize) -> Option<u32> {
        let token = self.tokens.get(at).filter(|token| token.kind == Kind::Word && !token.accent)?;
        let numbers = ["i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"];
        let place = numbers.iter().position(|number| *number == token.text)?;
        u32::try_from(place + 1).ok()
    }

    /// Number at a token: its value, whether it is an ordinal, how many tokens it takes.
    fn one_number(&self, at: usize) -> Option<(u32, bool, usize)> {
        let token = self.tokens.get(at)?;
        if let Some(value) = self.roman(at) {
            return Some((value, true, 1));
        }
        let Kind::Number(value) = token.kind else { return None };
        let suffix = self.tokens.get(at + 1).filter(|next| next.kind == Kind::Word && !next.spaced);
        let is_suffix = |text: &str| {
            matches!(
                text,
                "er" | "ere"
                    | "re"
                    | "e"
                    | "eme"
                    | "me"
                    | "nd"
                    | "nde"
                    | "st"
                    | "rd"
                    | "th"
                    | "o"
                    | "a"
                    | "mo"
                    | "do"
                    | "ro"
                    | "ra"
                    | "da"
                    | "to"
                    | "ta"
                    | "ter"
                    | "te"
                    | "ten"
                    | "ster"
                    | "ste"
                    | "os"
                    | "as"
            )
        };
        match suffix {
            Some(next) if is_suffix(&next.text) => Some((value, true, 2)),
            _ => Some((value, false, 1)),
        }
    }

    fn read_numbers(&mut self, at: usize) -> usize {
        let Some((first, ordinal, mut used)) = self.one_number(at) else { return 1 };
        let dot = |place: usize| self.tokens.get(place).is_some_and(|token| token.dot);
        let roman = self.roman(at).is_some();
        let mut numbers = Numbers { values: vec![first], ordinal, dotted: dot(at + used - 1) };
        loop {
            let place = at + used;
            let joint = match self.tokens.get(place) {
                Some(token) if matches!(token.kind, Kind::Comma | Kind::Slash | Kind::Plus | Kind::Dash) => 1,
                Some(token)
                    if token.kind == Kind::Word
                        && matches!(token.text.as_str(), "e" | "et" | "u" | "und" | "y" | "and") =>
                {
                    1
                }
                _ => 0,
            };
            let range = self.tokens.get(place).is_some_and(|token| token.kind == Kind::Dash);
            let Some((value, is_ordinal, taken)) = self.one_number(place + joint) else { break };
            // "Corno I, 2 Trombe" are two staves: Roman and Arabic do not mix.
            if roman != self.roman(place + joint).is_some() || value > MOST {
                break;
            }
            let last = numbers.values.last().copied().unwrap_or(0);
            if range && last < value && value <= MOST {
                numbers.values.extend(last + 1..=value);
            } else {
                numbers.values.push(value);
            }
            numbers.ordinal |= is_ordinal;
            used += joint + taken;
            numbers.dotted |= dot(at + used - 1);
        }
        let absurd =
            numbers.values.iter().any(|value| !(1..=MOST).contains(value)) || numbers.values.len() > 32;
        self.push(if absurd { What::Unknown } else { What::Numbers(numbers) }, at);
        used
    }
}
