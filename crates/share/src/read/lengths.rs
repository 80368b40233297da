//! Lengths of columns in quarter notes as text: `1.3_2.-`, a fraction as `3_2`, an unknown length as `-`.

use crookwise_score::{Column, Length, MOST_COLUMNS};

/// The lengths of all columns up to the last that is known; `None` where none is.
pub(crate) fn write(columns: &[Column]) -> Option<String> {
    let known = columns.iter().rposition(|column| column.length.is_some())? + 1;
    let word = |column: &Column| match column.length.map(Length::quarters) {
        None => "-".to_owned(),
        Some((quarters, 1)) => quarters.to_string(),
        Some((above, below)) => format!("{above}_{below}"),
    };
    Some(columns.iter().take(known).map(word).collect::<Vec<_>>().join("."))
}

/// The lengths, one a column; `None` where one is no such fraction or there are too many.
pub(crate) fn read(text: &str) -> Option<Vec<Option<Length>>> {
    let words: Vec<&str> = text.split('.').collect();
    let word = |word: &&str| match *word {
        "-" => Some(None),
        word => {
            let (above, below) = word.split_once('_').unwrap_or((word, "1"));
            Length::new(above.parse().ok()?, below.parse().ok()?).map(Some)
        }
    };
    if words.len() > MOST_COLUMNS { None } else { words.iter().map(word).collect() }
}
