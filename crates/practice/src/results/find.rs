//! Finds the codes in whatever a teacher pastes: a mail, a thread with quotations, a chat.

use super::code::{self, MARK, Trouble};
use super::outcome::{Fingerprint, Outcome};
use super::symbols;

/// Characters of the longest excerpt of a damaged code.
const LONGEST_EXCERPT: usize = 80;
/// Symbols that must stand together behind the mark before a text counts as a damaged code, and among which a digit stands
/// in nearly every code: in seventy of seventy-one.
const TELLING: core::ops::RangeInclusive<usize> = 4..=12;

/// Everything found in a text.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Found {
    /// The codes in the order of the text, each once.
    pub codes: Vec<FoundCode>,
    /// How many times a code, sound or damaged, stood there again.
    pub doubles: usize,
    /// What looks like a code and is none.
    pub damaged: Vec<Damaged>,
}

/// A code with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FoundCode {
    /// What it says.
    pub outcome: Outcome,
    /// Where it stands first.
    pub at: TextPlace,
}

/// Where something stands in the text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TextPlace {
    /// The first byte.
    pub from: usize,
    /// The byte behind the last.
    pub to: usize,
    /// The line it begins on, counted from 1.
    pub line: usize,
}

/// What looks like a code and is none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Damaged {
    /// Where it stands first.
    pub at: TextPlace,
    /// What is wrong with it.
    pub trouble: Trouble,
    /// Its beginning as it stands in the text, to the end of its line, at most eighty characters.
    pub text: String,
}

impl Found {
    /// The exercise most codes belong to; of equally many the one that comes first.
    #[must_use]
    pub fn commonest(&self) -> Option<Fingerprint> {
        let mut counted: Vec<(Fingerprint, usize)> = Vec::new();
        for code in &self.codes {
            let exercise = code.outcome.exercise();
            match counted.iter_mut().find(|(known, _)| *known == exercise) {
                Some((_, count)) => *count += 1,
                None => counted.push((exercise, 1)),
            }
        }
        // `max_by_key` takes the last of equals, so the list is turned round.
        counted.into_iter().rev().max_by_key(|(_, count)| *count).map(|(exercise, _)| exercise)
    }
}

/// Finds every code in a text.
///
/// Codes may be in small letters, in groups, broken over lines, quoted with `>` or `|`, glued to words or punctuation,
/// or inside a link. A code that stands there again in any of these dresses is a double and dropped: two codes are
/// the same if all they say is the same, the tag of the run included. So a mail with its quotation counts once, two
/// students with equal results count twice, and a student who worked the exercise again has two codes.
///
/// A mark at the beginning of a word that is followed by at least four symbols, a digit among the first, but by no sound
/// code is a damaged one. A code whose mark itself is damaged is not found.
#[must_use]
pub fn find_all(text: &str) -> Found {
    let signs: Vec<(usize, char)> = text.char_indices().collect();
    let text = Text { text, signs: &signs };
    let mut found = Found::default();
    let (mut at, mut line) = (0, 1);
    while let Some((_, sign)) = signs.get(at) {
        if *sign == '\n' {
            line += 1;
        }
        let Some(behind) = text.mark(at) else {
            at += 1;
            continue;
        };
        let mut end = behind;
        match code::read(&mut || text.next_symbol(&mut end)) {
            Ok(outcome) => {
                let place = TextPlace { from: text.byte(at), to: text.byte(end), line };
                if found.codes.iter().any(|known| known.outcome == outcome) {
                    found.doubles += 1;
                } else {
                    found.codes.push(FoundCode { outcome, at: place });
                }
            }
            Err(trouble) => {
                if text.looks_like_a_code(at, behind) {
                    let trouble = text.told_apart(trouble, end);
                    let (to, excerpt) = text.excerpt(at);
                    if found.damaged.iter().any(|known| known.text == excerpt) {
                        found.doubles += 1;
                    } else {
                        let at = TextPlace { from: text.byte(at), to, line };
                        found.damaged.push(Damaged { at, trouble, text: excerpt });
                    }
                }
                end = at + 1;
            }
        }
        line += text.lines_between(at + 1, end);
        at = end;
    }
    found
}

struct Text<'a> {
    text: &'a str,
    signs: &'a [(usize, char)],
}

impl Text<'_> {
    fn sign(&self, at: usize) -> Option<char> {
        self.signs.get(at).map(|(_, sign)| *sign)
    }

    fn byte(&self, at: usize) -> usize {
        self.signs.get(at).map_or(self.text.len(), |(byte, _)| *byte)
    }

    fn lines_between(&self, from: usize, to: usize) -> usize {
        self.signs.get(from..to).unwrap_or_default().iter().filter(|(_, sign)| *sign == '\n').count()
    }

    /// The place behind the mark, if it stands here.
    fn mark(&self, at: usize) -> Option<usize> {
        let mut place = at;
        for (number, letter) in MARK.chars().enumerate() {
            if number > 0 {
                place = self.behind_gap(place);
            }
            if self.sign(place)?.to_ascii_uppercase() != letter {
                return None;
            }
            place += 1;
        }
        Some(place)
    }

    /// The next symbol, whatever mail has put before it.
    fn next_symbol(&self, at: &mut usize) -> Option<u8> {
        let place = self.behind_gap(*at);
        let value = symbols::value(self.sign(place)?)?;
        *at = place + 1;
        Some(value)
    }

    /// The place behind everything that may stand between two symbols: white space, hyphens, marks of quotation at the
    /// beginning of a line, and what mail and links make of a space or a broken line.
    fn behind_gap(&self, mut at: usize) -> usize {
        let mut at_line_start = false;
        while let Some(sign) = self.sign(at) {
            let next = self.sign(at + 1);
            match sign {
                '\n' | '\r' => at_line_start = true,
                '>' | '|' if at_line_start => {}
                '=' if matches!(next, Some('\n' | '\r')) => {}
                '%' if next == Some('2') && self.sign(at + 2) == Some('0') => at += 2,
                _ if is_gap(sign) => {}
                _ => break,
            }
            at += 1;
        }
        at
    }

    /// Whether what stands here was meant as a code: the mark in one piece at the beginning of a word, then symbols together,
    /// a digit among them. Words that begin like the mark have none.
    fn looks_like_a_code(&self, at: usize, behind: usize) -> bool {
        let before = at.checked_sub(1).and_then(|before| self.sign(before));
        let in_one_piece = behind - at == MARK.len();
        let start = self.behind_gap(behind);
        let together: Vec<char> = (start..)
            .map_while(|place| self.sign(place).filter(|sign| symbols::value(*sign).is_some()))
            .take(if start == behind { *TELLING.end() } else { *TELLING.start() })
            .collect();
        let telling = TELLING.contains(&together.len()) && together.iter().any(char::is_ascii_digit);
        in_one_piece && !before.is_some_and(is_letter) && telling
    }

    /// A letter that is no symbol is a slip, not an end.
    fn told_apart(&self, trouble: Trouble, end: usize) -> Trouble {
        let stopped_by = self.sign(self.behind_gap(end));
        if trouble == Trouble::CutShort && stopped_by.is_some_and(is_letter) {
            Trouble::Slip
        } else {
            trouble
        }
    }

    fn excerpt(&self, at: usize) -> (usize, String) {
        let signs = self.signs.get(at..).unwrap_or_default().iter();
        let shown = signs.take(LONGEST_EXCERPT).take_while(|(_, sign)| !matches!(sign, '\n' | '\r'));
        let text: String = shown.map(|(_, sign)| *sign).collect();
        let text = text.trim_end();
        (self.byte(at) + text.len(), text.to_owned())
    }
}

/// A Latin letter or a digit. The tables of all letters of the world would cost the app some kilobytes.
fn is_letter(sign: char) -> bool {
    sign.is_ascii_alphanumeric() || ('\u{C0}'..='\u{24F}').contains(&sign)
}

/// White space and hyphens of all kinds, what joins words invisibly, and a space in a link.
fn is_gap(sign: char) -> bool {
    let joins = ['-', '+', '\u{AD}', '\u{200B}', '\u{200C}', '\u{200D}', '\u{2060}', '\u{FEFF}', '\u{2212}'];
    sign.is_whitespace() || joins.contains(&sign) || ('\u{2010}'..='\u{2015}').contains(&sign)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mistake::Mistake;
    use crate::pace::Pace;
    use crate::results::Given;
    use proptest::prelude::*;

    fn outcome(tag: u32, name: &str) -> Outcome {
        let mut given = vec![Given::Right(Pace::Fluent); 7];
        given.push(Given::wrong(Pace::Steady, &[Mistake::ThirdForSixth]));
        given.push(Given::LeftOut);
        Outcome::new(Fingerprint::of(b"one"), tag, given, name).unwrap()
    }

    /// The code with something put in after so many characters.
    fn broken(code: &str, every: usize, by: &str) -> String {
        let signs: Vec<char> = code.chars().collect();
        signs.chunks(every).map(|chunk| chunk.iter().collect::<String>()).collect::<Vec<_>>().join(by)
    }

    #[test]
    fn a_word_that_begins_like_a_code_is_none() {
        for prose in
            ["what is a CWXCODE?", "CWX CODE", "cwxcodes are short", "CWXabcdefgh", "CWX and CWX-name"]
        {
            assert_eq!(find_all(prose), Found::default(), "{prose}");
        }
        let code = outcome(5, "").code();
        assert_eq!(find_all(&code[..code.len() - 3]).damaged.len(), 1);
        assert_eq!(find_all("CWX8R2K").damaged.len(), 1);
    }

    #[test]
    fn a_code_is_found_in_every_dress() {
        let outcome = outcome(5, "");
        let code = outcome.code();
        let looking_alike: String = code
            .chars()
            .map(|c| {
                if c == '0' {
                    'o'
                } else if c == '1' {
                    'l'
                } else {
                    c
                }
            })
            .collect();
        let dresses = [
            code.clone(),
            code.to_lowercase(),
            looking_alike,
            outcome.code_in_groups(),
            format!("({code})"),
            format!("Here it is:{code}."),
            format!("mycode{code}and more"),
            format!("**{code}**"),
            format!("https://example.org/#/results?code={code}&x=1"),
            format!("https://example.org/?c={}", outcome.code_in_groups().replace(' ', "%20")),
            format!("https://example.org/?c={}", outcome.code_in_groups().replace(' ', "+")),
            broken(&code, 9, "\r\n"),
            format!("> {}", broken(&code, 9, "\n> ")),
            format!("> > {}", broken(&code, 11, "\r\n> > ")),
            format!("| {}", broken(&code, 7, "\n|")),
            broken(&code, 12, "=\r\n"),
            broken(&code, 2, "\n"),
            broken(&code, 5, "-"),
            broken(&code, 5, "\u{2011}"),
            broken(&code, 6, "-\n"),
            broken(&code, 1, " "),
            broken(&code, 8, "\u{200B}"),
            format!("{code}\n{code}"),
        ];
        for dress in &dresses {
            let found = find_all(dress);
            assert_eq!(found.codes.len(), 1, "{dress}");
            assert_eq!(found.codes[0].outcome, outcome, "{dress}");
            assert_eq!(found.damaged, [], "{dress}");
        }
        let all = find_all(&dresses.join("\n\n"));
        assert_eq!((all.codes.len(), all.doubles, all.damaged.len()), (1, dresses.len(), 0));
    }

    #[test]
    fn equal_results_of_two_runs_are_two() {
        let [one, other] = [1, 2].map(|tag| outcome(tag, "").code());
        let found = find_all(&format!("{one} {other} {one}"));
        assert_eq!((found.codes.len(), found.doubles), (2, 1));
    }

    #[test]
    fn damaged_codes_are_told_with_their_place() {
        let code = outcome(9, "").code();
        let last = code.len() - 1;
        let slip = format!("{}{}", &code[..last], if code.ends_with('7') { '8' } else { '7' });
        let text = format!("first\nlook: {slip}\nthen {}!\n\nand {code}", &code[..last - 3]);
        let found = find_all(&text);
        assert_eq!(found.codes.len(), 1);
        assert_eq!(found.codes[0].at, TextPlace { from: text.len() - code.len(), to: text.len(), line: 5 });
        let [slipped, cut] = &found.damaged[..] else { panic!("{found:?}") };
        assert_eq!((slipped.trouble, slipped.at.line, &slipped.text), (Trouble::Slip, 2, &slip));
        assert_eq!(&text[slipped.at.from..slipped.at.to], slip);
        assert_eq!((cut.trouble, cut.at.line), (Trouble::CutShort, 3));
        let newer = find_all("CWXC4KM2P");
        assert_eq!(newer.damaged[0].trouble, Trouble::Version);
        let letter = format!("{}ü{}", &code[..12], &code[13..]);
        assert_eq!(find_all(&letter).damaged[0].trouble, Trouble::Slip);
    }

    #[test]
    fn a_cut_code_does_not_swallow_the_next() {
        let [one, other] = [1, 2].map(|tag| outcome(tag, "").code());
        let found = find_all(&format!("{}\n{other}", &one[..20]));
        assert_eq!((found.codes.len(), found.damaged.len()), (1, 1));
        assert_eq!(found.codes[0].outcome, outcome(2, ""));
        assert_eq!(found.codes[0].at.line, 2);
    }

    #[test]
    fn words_are_no_damaged_codes() {
        let words = [
            "Codes begin with CWX and end with a checksum",
            "cwx",
            "CWX?",
            "the CWX code of 20 questions",
            "axcwx1234567",
            "C W X 12345678",
        ];
        for word in words {
            assert_eq!(find_all(word), Found::default(), "{word}");
        }
    }

    #[test]
    fn the_commonest_exercise() {
        let of = |exercise: &[u8], tag| {
            Outcome::new(Fingerprint::of(exercise), tag, vec![Given::LeftOut], "").unwrap().code()
        };
        let text = [of(b"a", 1), of(b"b", 1), of(b"b", 2), of(b"a", 1)].join("\n");
        assert_eq!(find_all(&text).commonest(), Some(Fingerprint::of(b"b")));
        let tie = [of(b"a", 1), of(b"b", 1)].join("\n");
        assert_eq!(find_all(&tie).commonest(), Some(Fingerprint::of(b"a")));
        assert_eq!(find_all("").commonest(), None);
    }

    proptest! {
        #[test]
        fn any_text_is_searched(text in "(CWX|cwx|[0-9a-zA-Z]{0,9}|\\PC|[>=%\\n -]){0,60}") {
            let found = find_all(&text);
            for damaged in &found.damaged {
                prop_assert!(text.get(damaged.at.from..damaged.at.to).is_some());
            }
        }
    }
}
