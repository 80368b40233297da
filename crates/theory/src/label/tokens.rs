//! Tokens: a label cut into words, numbers and signs. Dots, spaces and apostrophes are remembered beside them.

use super::fold::{fold, is_letter};

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Letters.
    Word,
    /// Digits; the value, cut off where it is absurd.
    Number(u32),
    /// ♭.
    Flat,
    /// ♯ or #.
    Sharp,
    /// ♮.
    Natural,
    /// Comma, semicolon, colon, bar or new line.
    Comma,
    /// Hyphen or dash.
    Dash,
    /// Slash.
    Slash,
    /// & or +.
    Plus,
    /// An opening bracket.
    Open,
    /// A closing bracket.
    Close,
    /// A sign that no label has.
    Strange,
}

/// A piece of a label.
#[derive(Clone, Debug)]
pub(super) struct Token {
    /// What it is.
    pub kind: Kind,
    /// Folded text.
    pub text: String,
    /// Bytes of the label it stands for.
    pub start: usize,
    /// End of those bytes.
    pub end: usize,
    /// A dot follows at once.
    pub dot: bool,
    /// An apostrophe follows at once.
    pub apostrophe: bool,
    /// A space, or the beginning, stands before it.
    pub spaced: bool,
    /// All its letters are capitals.
    pub capital: bool,
    /// One of its letters bears an accent.
    pub accent: bool,
}

/// Cuts a label into tokens.
pub(super) fn tokenise(label: &str) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::new();
    let mut spaced = true;
    for folded in fold(label) {
        let kind = match folded.ch {
            '.' | '\'' | '°' => {
                if let Some(last) = out.last_mut().filter(|_| !spaced) {
                    last.dot |= folded.ch != '\'';
                    last.apostrophe |= folded.ch == '\'';
                }
                // What follows a dot is a new word even where the space is missing.
                spaced = true;
                continue;
            }
            ' ' | '"' | '“' | '”' | '„' | '«' | '»' | '*' | '_' | '…' | '!' | '?' => {
                spaced = true;
                continue;
            }
            ',' | ';' | ':' | '|' | '\n' => Kind::Comma,
            '-' => Kind::Dash,
            '/' => Kind::Slash,
            '&' | '+' => Kind::Plus,
            '(' | '[' | '{' | '<' => Kind::Open,
            ')' | ']' | '}' | '>' => Kind::Close,
            '♭' => Kind::Flat,
            '#' => Kind::Sharp,
            '♮' => Kind::Natural,
            digit if digit.is_ascii_digit() => Kind::Number(digit.to_digit(10).unwrap_or(0)),
            letter if is_letter(letter) => Kind::Word,
            _ => Kind::Strange,
        };
        match (out.last_mut().filter(|_| !spaced), kind) {
            (Some(last), Kind::Word) if last.kind == Kind::Word => extend(last, &folded),
            (Some(last), Kind::Strange) if last.kind == Kind::Strange => extend(last, &folded),
            (Some(last), Kind::Number(digit)) if matches!(last.kind, Kind::Number(_)) => {
                extend(last, &folded);
                if let Kind::Number(value) = &mut last.kind {
                    *value = value.saturating_mul(10).saturating_add(digit);
                }
            }
            _ => out.push(Token {
                kind,
                text: folded.ch.to_string(),
                start: folded.start,
                end: folded.end,
                dot: false,
                apostrophe: false,
                spaced,
                capital: folded.capital,
                accent: folded.accent,
            }),
        }
        spaced = false;
    }
    out
}

fn extend(last: &mut Token, folded: &super::fold::Folded) {
    last.text.push(folded.ch);
    last.end = folded.end;
    last.capital &= folded.capital;
    last.accent |= folded.accent;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dots_need_no_space() {
        let texts = |label| tokenise(label).into_iter().map(|token| token.text).collect::<Vec<_>>();
        assert_eq!(texts("Cor.1.2.in  Es"), ["cor", "1", "2", "in", "es"]);
        assert_eq!(texts("Cor. 1,2 (F)"), ["cor", "1", ",", "2", "(", "f", ")"]);
        assert_eq!(texts("1er et 2e Cors"), ["1", "er", "et", "2", "e", "cors"]);
        assert_eq!(texts("Hautbois d’amour"), ["hautbois", "d", "amour"]);
        assert_eq!(texts("Mi♭"), ["mi", "♭"]);
    }
}
