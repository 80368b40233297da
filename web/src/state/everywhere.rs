//! The selected sounding note as every staff of the page would have it written.

use crate::state::view::PageView;
use crate::words;
use crookwise_share::ReadPage;

/// One line a staff: its label and its written note; empty where there is one staff only or no note selected.
#[must_use]
pub fn lines(whole: &PageView, page: &ReadPage) -> Vec<String> {
    let current = whole.current();
    let Some(sounding) = current.selected_column().and_then(|column| Some(column.reading?.sounding)) else {
        return Vec::new();
    };
    if whole.staves.len() < 2 {
        return Vec::new();
    }
    let line = |(at, staff): (usize, &crate::state::view::StaffView)| {
        let (printed, reading) = whole.voice(at, 0)?.write_sounding(page, sounding)?;
        let making = reading.making.as_ref().map(words::making);
        Some(words::on_staff(&staff.label, &whole.names.note(printed.0), making.as_deref()))
    };
    whole.staves.iter().enumerate().filter_map(line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Names;
    use crookwise_share::Link;

    #[test]
    fn one_sounding_note_is_written_for_every_staff() {
        let link = "/read?staff=Corni+in+Es&notes=E5&staff=Clarinetti+in+B&staff=Fagotti&staff=Xyzzyq&at=1";
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!() };
        let lines = lines(&PageView::of(&page, Names::default()), &page);
        assert_eq!(lines, ["Corni in Es: E5 (Partial 10, open)", "Clarinetti in B: A4", "Fagotti: G4"]);
    }
}
