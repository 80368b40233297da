//! Where bars begin as text: `1_66.5.9_12a` is bar 66 from the first column on, 67 from the fifth, 12a from the ninth. A
//! number that follows the one before is left out, as is none at the first; where none stands after one, it is `-`.

use super::placed;
use crookwise_score::{BarNumber, Column, MOST_COLUMNS};

/// The bars; `None` where there are none.
pub(crate) fn write(columns: &[Column]) -> Option<String> {
    let mut usual = BarNumber::NONE;
    let mut words = Vec::new();
    for (column, bar) in columns.iter().enumerate().filter_map(|(at, column)| Some((at, column.bar?))) {
        words.push(match bar {
            bar if bar == usual => (column + 1).to_string(),
            BarNumber::NONE => placed::write(column, "-"),
            bar => placed::write(column, bar.as_str()),
        });
        usual = bar.next();
    }
    Some(words.join(".")).filter(|text| !text.is_empty())
}

/// The columns that begin bars; `None` where one is none or they are not in order.
pub(crate) fn read(text: &str) -> Option<Vec<(usize, BarNumber)>> {
    let mut usual = BarNumber::NONE;
    let mut bars: Vec<(usize, BarNumber)> = Vec::new();
    for word in text.split('.') {
        let (column, number) = match placed::read(word) {
            None => (placed::from_one(word, MOST_COLUMNS)?, usual),
            Some((column, "-")) => (column, BarNumber::NONE),
            Some((column, number)) => (column, BarNumber::new(number)?),
        };
        if bars.last().is_some_and(|(before, _)| *before >= column) {
            return None;
        }
        bars.push((column, number));
        usual = number.next();
    }
    Some(bars)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn columns(bars: &[(usize, &str)]) -> Vec<Column> {
        let mut columns = vec![Column::default(); 12];
        for (column, number) in bars {
            columns[*column].bar = BarNumber::new(number);
        }
        columns
    }

    /// Bars by column and number, and their text.
    type Sample = (&'static [(usize, &'static str)], Option<&'static str>);

    #[test]
    fn what_follows_is_left_out() {
        let pairs: [Sample; 6] = [
            (&[], None),
            (&[(0, "66"), (4, "67"), (8, "68")], Some("1_66.5.9")),
            (&[(2, "99"), (3, "100"), (9, "3")], Some("3_99.4.10_3")),
            (&[(0, "12"), (1, "12a"), (2, "13"), (3, "")], Some("1_12.2_12a.3_13.4_-")),
            (&[(0, ""), (5, ""), (6, "1")], Some("1.6.7_1")),
            (&[(0, "66"), (4, ""), (8, "")], Some("1_66.5_-.9")),
        ];
        for (bars, text) in pairs {
            assert_eq!(write(&columns(bars)).as_deref(), text);
            let Some(text) = text else { continue };
            let known: Vec<_> =
                bars.iter().map(|(at, number)| (*at, BarNumber::new(number).unwrap())).collect();
            assert_eq!(read(text), Some(known), "{text}");
        }
    }

    #[test]
    fn what_is_no_bar_is_refused() {
        for text in ["", "0", "65", "1_66.1", "5.4", "1_123456789", "1_6+6", "x", "1..2", "1_66_67"] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
