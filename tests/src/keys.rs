//! Keys by the names that the web gives them, as the WebDriver standard numbers them.

use anyhow::{Context, Result};

/// The keys of "Control+Shift+z", held ones first, each as the character that WebDriver sends for it.
///
/// # Errors
/// On a name that is no key.
pub fn chord(text: &str) -> Result<Vec<char>> {
    // "+" is itself a key, alone or last in a chord.
    let (held, last) = match text.strip_suffix('+') {
        Some(held) => (held.trim_end_matches('+'), "+"),
        None => text.rsplit_once('+').unwrap_or(("", text)),
    };
    let held = held.split('+').filter(|name| !name.is_empty());
    held.chain([last]).map(|name| key(name).with_context(|| format!("there is no key \"{name}\""))).collect()
}

fn key(name: &str) -> Option<char> {
    let mut letters = name.chars();
    if let (Some(letter), None) = (letters.next(), letters.next()) {
        return Some(letter);
    }
    Some(match name {
        "Backspace" => '\u{e003}',
        "Tab" => '\u{e004}',
        "Enter" => '\u{e007}',
        "Shift" => '\u{e008}',
        "Control" => '\u{e009}',
        "Alt" => '\u{e00a}',
        "Escape" => '\u{e00c}',
        "Space" => ' ',
        "PageUp" => '\u{e00e}',
        "PageDown" => '\u{e00f}',
        "End" => '\u{e010}',
        "Home" => '\u{e011}',
        "ArrowLeft" => '\u{e012}',
        "ArrowUp" => '\u{e013}',
        "ArrowRight" => '\u{e014}',
        "ArrowDown" => '\u{e015}',
        "Insert" => '\u{e016}',
        "Delete" => '\u{e017}',
        "Meta" => '\u{e03d}',
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chords_are_read_plus_itself_included() {
        assert_eq!(chord("a").unwrap(), ['a']);
        assert_eq!(chord("+").unwrap(), ['+']);
        assert_eq!(chord("Control++").unwrap(), ['\u{e009}', '+']);
        assert_eq!(chord("Control+Shift+z").unwrap(), ['\u{e009}', '\u{e008}', 'z']);
        assert_eq!(chord("ArrowUp").unwrap(), ['\u{e013}']);
        assert!(chord("Kontrol+z").is_err());
    }
}
