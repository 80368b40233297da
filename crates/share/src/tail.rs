//! What a sentence leaves behind a link that was pasted out of it: `(see …/#/read?v=2.….)`.

/// The marks that may stand behind a link, in the languages of our scores.
const MARKS: &str = ".,;:!)]}>*'\"’”‘“›»‹«…";

/// So many of them are taken off, at most.
const MOST: usize = 6;

/// Opens a text as it stands, and where that fails without the marks behind it, one after the other. A mark of its own stays:
/// the link is whole with it, as its checksum says. Where nothing opens, the reason is that of the whole text.
pub(crate) fn open_without_marks<T, E>(text: &str, open: impl Fn(&str) -> Result<T, E>) -> Result<T, E> {
    open(text).or_else(|problem| {
        let less = core::iter::successors(without_mark(text), |rest| without_mark(rest));
        less.take(MOST).find_map(|rest| open(rest).ok()).ok_or(problem)
    })
}

/// Without the mark at the end, as it stands or as an address escapes it; `None` where no mark stands there.
fn without_mark(text: &str) -> Option<&str> {
    let without = |mark: char| {
        let escaped = || mark.to_string().bytes().map(|byte| format!("%{byte:02X}")).collect::<String>();
        text.strip_suffix(mark).or_else(|| text.strip_suffix(&escaped()))
    };
    // The question mark of the link itself is no mark behind it: such a link was cut.
    MARKS.chars().find_map(without).or_else(|| without('?').filter(|rest| rest.contains('?')))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_go_one_by_one() {
        let left = |text| without_mark(text);
        assert_eq!(left("C4."), Some("C4"));
        assert_eq!(left("C4)."), Some("C4)"));
        assert_eq!(left("C4%22"), Some("C4"));
        assert_eq!(left("C4%E2%80%9D"), Some("C4"));
        assert_eq!(left("C4”"), Some("C4"));
        assert_eq!(left("/read?v=2?"), Some("/read?v=2"));
        for whole in ["/read?", "C4", "C4._", "C4.-", "", "%2", "C4%20"] {
            assert_eq!(left(whole), None, "{whole}");
        }
    }

    #[test]
    fn the_reason_is_that_of_the_whole_text_and_not_every_mark_is_tried() {
        let tried = core::cell::Cell::new(0);
        let never = |text: &str| {
            tried.set(tried.get() + 1);
            Err::<(), usize>(text.len())
        };
        assert_eq!(open_without_marks(&".".repeat(8_000), never), Err(8_000));
        assert_eq!(tried.get(), 1 + MOST);
    }
}
