//! A table that spreadsheets open (RFC 4180).

/// What a spreadsheet knows UTF-8 by (Unicode 16.0, section 23.8): without it accents are read as two signs each.
const BYTE_ORDER_MARK: char = '\u{FEFF}';

/// The table of these lines, each of its fields, the heads first.
///
/// It begins with the mark by which spreadsheets know UTF-8. Lines end in CR LF; fields with a comma, a quotation mark or a line
/// break are quoted. A text that a spreadsheet would take for a formula gets an apostrophe in front.
///
/// ```
/// let heads = ["Part", "Note"].map(String::from).to_vec();
/// let line = ["Hörner, 1. und 2.", "-"].map(String::from).to_vec();
/// assert_eq!(crookwise_score::table::csv(&[heads, line]), "\u{feff}Part,Note\r\n\"Hörner, 1. und 2.\",'-\r\n");
/// ```
#[must_use]
pub fn csv(lines: &[Vec<String>]) -> String {
    let mut out = String::from(BYTE_ORDER_MARK);
    for fields in lines {
        let fields: Vec<String> = fields.iter().map(|text| field(text)).collect();
        out.push_str(&fields.join(","));
        out.push_str("\r\n");
    }
    out
}

fn field(text: &str) -> String {
    let formula =
        text.trim_start().starts_with(['=', '+', '-', '@', '\u{FF1D}', '\u{FF0B}', '\u{FF0D}', '\u{FF20}'])
            || text.starts_with(['\t', '\r', '\n']);
    let guard = if formula { "'" } else { "" };
    if text.contains(['"', ',', '\r', '\n']) {
        format!("\"{guard}{}\"", text.replace('"', "\"\""))
    } else {
        format!("{guard}{text}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_quotation_marks_as_the_standard_has_them() {
        assert_eq!(field("a\"b,c"), "\"a\"\"b,c\"");
        assert_eq!(field("\n=x"), "\"'\n=x\"");
        assert_eq!(csv(&[vec!["a".into(), "b".into()]]), "\u{feff}a,b\r\n");
    }
}
