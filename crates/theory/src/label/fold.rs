//! Folding: small letters without accents, plain digits, so that one spelling stands for all ways of typing it.

/// One character of a label after folding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Folded {
    /// The folded character.
    pub ch: char,
    /// Where the character it came from begins in the label, in bytes.
    pub start: usize,
    /// Where that one ends.
    pub end: usize,
    /// It was a capital.
    pub capital: bool,
    /// It bore an accent.
    pub accent: bool,
}

/// Folds a whole label. Combining accents vanish, control characters and every kind of space become a space.
pub(super) fn fold(text: &str) -> Vec<Folded> {
    let mut out: Vec<Folded> = Vec::with_capacity(text.len());
    for (start, raw) in text.char_indices() {
        let end = start + raw.len_utf8();
        if is_combining(raw) {
            if let Some(last) = out.last_mut() {
                last.accent = true;
                last.end = end;
            }
            continue;
        }
        if is_invisible(raw) {
            continue;
        }
        let raw = full_width(raw);
        let small = lower(raw);
        let capital = small != raw;
        let pieces = match small {
            'ß' => "ss",
            'æ' => "ae",
            'œ' => "oe",
            'ﬁ' => "fi",
            'ﬂ' => "fl",
            '½' => "1/2",
            'ⅰ' => "i",
            'ⅱ' => "ii",
            'ⅲ' => "iii",
            'ⅳ' => "iv",
            'ⅴ' => "v",
            'ⅵ' => "vi",
            'ⅶ' => "vii",
            'ⅷ' => "viii",
            _ => "",
        };
        if pieces.is_empty() {
            let ch = fold_char(small);
            out.push(Folded { ch, start, end, capital, accent: ch != small && ch.is_ascii_alphabetic() });
        }
        for ch in pieces.chars() {
            out.push(Folded { ch, start, end, capital, accent: false });
        }
    }
    out
}

/// Folds a word of the tables: its letters and digits only.
pub(super) fn fold_word(text: &str) -> String {
    fold(text).iter().map(|folded| folded.ch).collect()
}

/// Accents that stand after their letter.
fn is_combining(ch: char) -> bool {
    matches!(ch, '\u{300}'..='\u{36f}')
}

/// Marks that take no room: joiners, direction marks, soft hyphen, byte order mark, variation selectors.
fn is_invisible(ch: char) -> bool {
    matches!(ch, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}'
        | '\u{feff}' | '\u{fe00}'..='\u{fe0f}')
}

/// Letters and digits of East Asian type as plain ones.
fn full_width(ch: char) -> char {
    match ch {
        '\u{ff01}'..='\u{ff5e}' => char::from_u32(u32::from(ch) - 0xff01 + u32::from('!')).unwrap_or(ch),
        _ => ch,
    }
}

/// The small letter of a Latin capital, and of a Roman numeral written as one sign. Other scripts stay as they are: no
/// label that can be read has them, and the tables for all of them are large.
fn lower(ch: char) -> char {
    let step = match ch {
        'A'..='Z' | 'À'..='Ö' | 'Ø'..='Þ' => 32,
        'Ÿ' => return 'ÿ',
        'ẞ' => return 'ß',
        'Ⅰ'..='Ⅿ' => 16,
        'Ĺ'..='ň' | 'Ź'..='ž' => u32::from(ch) % 2,
        'Ā'..='ķ' | 'Ŋ'..='ŷ' => 1 - u32::from(ch) % 2,
        _ => 0,
    };
    char::from_u32(u32::from(ch) + step).unwrap_or(ch)
}

/// Whether a character is a letter, as far as labels go: of any script, but no sign, space or picture.
pub(super) fn is_letter(ch: char) -> bool {
    let sign = matches!(ch, ..'À' | '×' | '÷' | '\u{2000}'..='\u{2bff}' | '\u{3000}'..='\u{303f}')
        // Private use, presentation forms, pictures and musical signs.
        || matches!(ch, '\u{e000}'..='\u{f8ff}' | '\u{fd00}'..='\u{fdff}' | '\u{fff0}'..='\u{1ffff}');
    ch.is_ascii_alphabetic() || !sign
}

/// A small letter without its accent, and one sign for all of a kind.
fn fold_char(ch: char) -> char {
    match ch {
        'à'..='å' | 'ā' | 'ă' | 'ą' | 'ª' => 'a',
        'ç' | 'ć' | 'č' => 'c',
        'è'..='ë' | 'ē' | 'ĕ' | 'ė' | 'ę' | 'ě' => 'e',
        'ì'..='ï' | 'ĩ' | 'ī' | 'ı' => 'i',
        'ĺ' | 'ľ' | 'ł' => 'l',
        'ñ' | 'ń' | 'ň' => 'n',
        'ò'..='ö' | 'ø' | 'ō' | 'ŏ' | 'ő' | 'º' => 'o',
        'ù'..='ü' | 'ũ' | 'ū' | 'ů' | 'ű' => 'u',
        'ý' | 'ÿ' => 'y',
        'ſ' | 'ś' | 'š' => 's',
        'ź' | 'ż' | 'ž' => 'z',
        '¹' => '1',
        '²' => '2',
        '³' => '3',
        '⁴' => '4',
        '‘' | '’' | '‛' | '´' | '`' | 'ʼ' | '′' => '\'',
        '‐'..='―' | '−' | '﹘' => '-',
        '♯' | '＃' => '#',
        '․' | '‧' => '.',
        '⁄' | '∕' => '/',
        '，' | '、' => ',',
        '\u{a0}'
        | '\u{1680}'
        | '\u{2000}'..='\u{200a}'
        | '\u{2028}'
        | '\u{2029}'
        | '\u{202f}'
        | '\u{205f}'
        | '\u{3000}' => ' ',
        '\n' => '\n',
        _ if ch.is_control() => ' ',
        _ => ch,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_spelling_for_all() {
        for (typed, folded) in [
            ("HÖRNER", "horner"),
            ("Ho\u{308}rner", "horner"),
            ("Baßtuba", "basstuba"),
            ("Delasolrè", "delasolre"),
            ("Cor\u{a0}in\u{2009}Es", "cor in es"),
            ("Ｃｏｒ．", "cor."),
            ("1º", "1o"),
            ("d’amour", "d'amour"),
            ("D–A", "d-a"),
            ("Cor\u{200b}ni\u{0}", "corni "),
            ("ŒUVRE Ÿ İ ŠĹŻ", "oeuvre y i slz"),
            ("Ⅷ", "viii"),
        ] {
            assert_eq!(fold_word(typed), folded);
        }
        assert!(['a', 'É', 'ß', 'я', 'م', '日'].into_iter().all(is_letter));
        assert!(!['1', '.', '♭', '–', '🎺', '𝄞', '×', '\u{a0}'].into_iter().any(is_letter));
    }
}
