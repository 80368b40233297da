//! Items: each token of a label with what it does, numbers and keys put together.

use super::keys::{KeyName, Wording};
use super::lexicon::{Entry, Lexicon, lang, lemmas};
use super::numbers::Numbers;
use super::tokens::{Kind, Token};
use super::words::{Lemma, Role, lemma};

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

impl Item {
    /// What it names, where it is a noun.
    pub(super) const fn lemma(&self) -> Option<Lemma> {
        if let What::Noun(lemma) = self.what { Some(lemma) } else { None }
    }
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

pub(super) struct Reader<'a> {
    book: &'static Lexicon,
    label: &'a str,
    /// All tokens.
    pub(super) tokens: &'a [Token],
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
    pub(super) fn push(&mut self, what: What, token: usize) {
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
        if self.roman(at).is_some() && !self.is_lone_letter(at) && !self.after_in() {
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
        let other = |entry: &Entry| self.has_key && entry.roles == [Role::Noun(lemma::CHOIR)];
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
        let after_key = self.out.list.last().is_some_and(|item| matches!(item.what, What::Key(_)));
        let near = self.book.find_with_slip(&token.text, after_key);
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
}
