//! What the generated labels are made of: nouns, keys and octave words read from the tables, and a seeded chance.
//! Nothing here asks the decoder.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// Rows of a table, by the names in its head.
pub fn table(name: &str) -> Vec<BTreeMap<String, String>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data").join(name);
    let mut reader = csv::Reader::from_path(path).expect("a table");
    let head = reader.headers().expect("a head").clone();
    let row = |record: csv::StringRecord| {
        head.iter().map(str::to_owned).zip(record.iter().map(str::to_owned)).collect()
    };
    reader.records().map(|record| row(record.expect("a row"))).collect()
}

/// A chance that is the same every time (xorshift).
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Self(seed.max(1))
    }

    pub fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 >> 16).unwrap_or(0) % limit.max(1)
    }
}

/// The language of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Language {
    English,
    Italian,
    German,
    French,
    Spanish,
}

impl Language {
    pub const ALL: [Self; 5] = [Self::English, Self::Italian, Self::German, Self::French, Self::Spanish];

    pub fn column(self) -> &'static str {
        match self {
            Self::English => "english",
            Self::Italian => "italian",
            Self::German => "german",
            Self::French => "french",
            Self::Spanish => "spanish",
        }
    }

    /// The word before a key.
    pub fn within(self) -> &'static str {
        if matches!(self, Self::French | Self::Spanish) { "en" } else { "in" }
    }

    /// High and low.
    pub fn octave_words(self) -> [&'static [&'static str]; 2] {
        match self {
            Self::English => [&["alto", "high"], &["basso", "low"]],
            Self::Italian => [&["alto", "acuto"], &["basso", "grave"]],
            Self::German => [&["hoch", "alto"], &["tief", "basso"]],
            Self::French => [&["aigu", "haut"], &["grave", "bas"]],
            Self::Spanish => [&["agudo", "alto"], &["grave", "bajo"]],
        }
    }
}

/// A noun of the table.
#[derive(Clone, Debug)]
pub struct Noun {
    pub text: String,
    pub id: String,
    pub language: Language,
}

/// Every name of every instrument in every language, plurals of the table written out.
pub fn nouns() -> Vec<Noun> {
    let mut out = Vec::new();
    for row in table("instruments.csv") {
        for language in Language::ALL {
            for text in names(&row[language.column()], language) {
                out.push(Noun { text, id: row["id"].clone(), language });
            }
        }
    }
    out
}

/// The names in a cell: parts by semicolons, a plural after a comma, brackets left out or filled.
fn names(cell: &str, language: Language) -> Vec<String> {
    let mut out = Vec::new();
    for part in cell.split(';').map(str::trim) {
        let mut pieces = part.split(',').map(str::trim);
        let first = pieces.next().unwrap_or("");
        if first.is_empty() || first == "–" || first.contains('…') {
            continue;
        }
        let bare = outside(first);
        // "Cellos and basses on one staff": the rest tells what the table means by it.
        let bare = bare.split(" on one").next().unwrap_or("").to_owned();
        let mut singular = vec![bare.clone()];
        // "(Tenor)Posaune", "Cor(net) de poste": joined to a letter, the bracket is part of the word.
        let joined = first.contains(['(', ')'])
            && language != Language::English
            && !first.contains(" in ")
            && !first.contains("(in ")
            && !first.starts_with("Englischhorn");
        if joined {
            singular.push(first.replace(['(', ')'], ""));
        }
        singular.retain(|name| !name.is_empty());
        if language != Language::English {
            for piece in pieces {
                match piece.strip_prefix('-') {
                    Some(ending) => out.push(plural(&bare, ending)),
                    None => out.push(piece.to_owned()),
                }
            }
        }
        out.extend(singular);
    }
    out
}

fn outside(text: &str) -> String {
    let mut depth = 0;
    let kept: String = text
        .chars()
        .filter(|ch| {
            depth += i32::from(*ch == '(');
            let keep = depth == 0;
            depth -= i32::from(*ch == ')');
            keep
        })
        .collect();
    kept.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn plural(name: &str, ending: &str) -> String {
    let cut = |count: usize| name.chars().take(name.chars().count() - count).collect::<String>();
    match ending {
        "i" if name.ends_with(['o', 'a', 'e']) => cut(1) + "i",
        "e" if name.ends_with('a') => cut(1) + "e",
        "ines" => cut(2) + "ines",
        "bässe" => cut(4) + "bässe",
        other => name.to_owned() + other,
    }
}

/// The ways to write a key in a language, by the table of key names. The key is as its first column has it.
pub fn key_names(language: Language) -> BTreeMap<String, Vec<String>> {
    let mut out = BTreeMap::new();
    for row in table("key_names.csv") {
        let mut forms: Vec<String> = Vec::new();
        for piece in row[language.column()].split(';').map(str::trim) {
            let name = outside(piece);
            let bracket = piece.split(['(', ')']).nth(1).unwrap_or("");
            match bracket {
                "" => forms.push(name.clone()),
                natural if natural.starts_with("natur") => {
                    // A bare English B is open; with "natural" it is not.
                    if language != Language::English {
                        forms.push(name.clone());
                    }
                    forms.push(format!("{name} {natural}"));
                }
                also if also.starts_with("18th") => forms.extend([name.clone(), "Dis".to_owned()]),
                others => {
                    forms.push(name.clone());
                    forms.extend(others.split(',').map(|form| form.trim().to_owned()));
                }
            }
            for (word, sign) in [
                (" flat", "♭"),
                (" flat", "b"),
                (" flat", "-flat"),
                (" sharp", "♯"),
                (" sharp", "#"),
                (" bemolle", "♭"),
                (" bémol", "♭"),
                (" bémol", " b"),
                (" bemol", "♭"),
                (" diesis", "♯"),
                (" dièse", "♯"),
                (" sostenido", "♯"),
            ] {
                if let Some(root) = name.strip_suffix(word) {
                    forms.push(format!("{root}{sign}"));
                }
            }
        }
        if language == Language::Italian {
            forms.extend(row["old_solmisation"].split(';').map(|form| form.trim().to_owned()));
        }
        forms.retain(|form| !form.is_empty());
        out.insert(row["key"].clone(), forms);
    }
    out
}

/// Folded for comparison: small, without accents.
pub fn folded(text: &str) -> String {
    let mut out = String::new();
    for ch in text.to_lowercase().chars() {
        match ch {
            'à' | 'á' | 'â' | 'ä' => out.push('a'),
            'è' | 'é' | 'ê' | 'ë' => out.push('e'),
            'ì' | 'í' => out.push('i'),
            'ñ' => out.push('n'),
            'ò' | 'ó' | 'ô' | 'ö' => out.push('o'),
            'ù' | 'ú' | 'û' | 'ü' => out.push('u'),
            'ß' => out.push_str("ss"),
            'œ' => out.push_str("oe"),
            other => out.push(other),
        }
    }
    out
}

/// Words and what they belong to: instruments by id, or "key" and "octave".
pub struct Vocabulary(Vec<(Vec<char>, BTreeSet<String>)>);

impl Vocabulary {
    pub fn from_tables() -> Self {
        let mut words: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        let mut add = |text: &str, class: &str| {
            for word in folded(text).split(|ch: char| !ch.is_alphabetic()).filter(|word| !word.is_empty()) {
                words.entry(word.to_owned()).or_default().insert(class.to_owned());
            }
        };
        for noun in nouns() {
            add(&noun.text, &noun.id);
        }
        // Abbreviations, and words in brackets too, which a name may leave out.
        for row in table("instruments.csv") {
            add(&row["abbreviations"], &row["id"]);
            add(&row["also"], &row["id"]);
            for language in Language::ALL.into_iter().filter(|language| *language != Language::English) {
                add(&row[language.column()].replace(" -", " "), &row["id"]);
            }
        }
        for language in Language::ALL {
            for (key, forms) in key_names(language) {
                for form in forms {
                    add(&form, &format!("key {key}"));
                }
            }
            for list in language.octave_words() {
                for word in list {
                    add(word, "octave");
                }
            }
        }
        // Words that every reader of scores knows and no table has.
        for (word, class) in [
            ("tromb", "tromb_t"),
            ("tercer", "number"),
            ("primer", "number"),
            ("cornetto", "zink"),
            ("cornos", "cor_ang"),
            ("clarinett", "cl_bb"),
            ("soloratsche", "ratchet"),
        ] {
            words.entry(word.to_owned()).or_default().insert(class.to_owned());
        }
        Self(words.into_iter().map(|(word, classes)| (word.chars().collect(), classes)).collect())
    }

    fn classes(&self, word: &[char]) -> BTreeSet<String> {
        self.0.iter().find(|(known, _)| known == word).map(|(_, classes)| classes.clone()).unwrap_or_default()
    }

    /// Whether a word with a slip might as well be another word: one that has nothing to do with this instrument.
    pub fn is_ambiguous(&self, original: &[char], typed: &[char], id: &str) -> bool {
        let own = self.classes(original);
        let meant: Vec<&str> =
            [id, "key", "octave"].into_iter().filter(|class| own.contains(*class)).collect();
        self.0.iter().any(|(known, classes)| {
            known != original
                && known.len() > 2
                && !meant.iter().any(|class| classes.contains(*class))
                && one_apart(known, typed)
        })
    }
}

/// At most one letter put in, left out, replaced, or changed over with its neighbour.
pub fn one_apart(a: &[char], b: &[char]) -> bool {
    let same = a.iter().zip(b).take_while(|(x, y)| x == y).count();
    let rest = |word: &[char], from: usize| word[(same + from).min(word.len())..].to_vec();
    match a.len().abs_diff(b.len()) {
        0 => {
            let swapped = same + 1 < a.len()
                && a[same] == b[same + 1]
                && a[same + 1] == b[same]
                && rest(a, 2) == rest(b, 2);
            rest(a, 1) == rest(b, 1) || swapped
        }
        1 if a.len() > b.len() => rest(a, 1) == rest(b, 0),
        1 => rest(a, 0) == rest(b, 1),
        _ => false,
    }
}

/// Letters that a pen or finger puts for one another.
const LETTERS: &[char] = &['a', 'e', 'i', 'n', 'o', 'r', 's', 't', 'm', 'q', 'x', 'z'];

/// The label with one slip in a word of at least five letters; `None` where there is no such word or where the slip
/// makes it look like another instrument.
pub fn with_slip(label: &str, id: &str, words: &Vocabulary, chance: &mut Chance) -> Option<String> {
    let letters: Vec<char> = label.chars().collect();
    let mut runs: Vec<(usize, usize)> = Vec::new();
    let mut start = None;
    for place in 0..=letters.len() {
        match (letters.get(place).is_some_and(|ch| ch.is_alphabetic()), start) {
            (true, None) => start = Some(place),
            (false, Some(from)) => {
                if place - from >= 5 {
                    runs.push((from, place));
                }
                start = None;
            }
            _ => {}
        }
    }
    let (from, to) = *runs.get(chance.below(runs.len()))?;
    let original = letters[from..to].to_vec();
    let mut typed = original.clone();
    let place = chance.below(typed.len());
    match chance.below(4) {
        0 => {
            typed.remove(place);
        }
        1 => typed.insert(place, typed[place]),
        2 => typed[place] = LETTERS[chance.below(LETTERS.len())],
        _ => {
            let next = (place + 1).min(typed.len() - 1);
            typed.swap(place, next);
        }
    }
    let fold = |word: &[char]| folded(&word.iter().collect::<String>()).chars().collect::<Vec<char>>();
    let (plain, slipped) = (fold(&original), fold(&typed));
    if plain == slipped || !one_apart(&plain, &slipped) || words.is_ambiguous(&plain, &slipped, id) {
        return None;
    }
    let changed: String = letters[..from].iter().chain(&typed).chain(&letters[to..]).collect();
    Some(changed)
}

/// The label in another case and with odd spacing.
pub fn disguised(label: &str, chance: &mut Chance) -> String {
    let cased = match chance.below(4) {
        0 => label.to_uppercase(),
        1 => label.to_lowercase(),
        _ => label.to_owned(),
    };
    match chance.below(6) {
        0 => cased.replace(' ', "  "),
        1 => cased.replace(' ', "\u{a0}"),
        2 => cased.replace(". ", "."),
        3 => format!("  {cased}\t"),
        4 => cased.replace(' ', " \u{2009}"),
        _ => cased,
    }
}
