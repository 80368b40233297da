//! The list of parts: names that change, parts and groups that go.

use super::super::corrected::Correct;
use super::super::pieces::{Piece, attribute};
use super::super::{Plan, Rewrite};
use super::Walk;
use core::ops::Range;
use quick_xml::events::BytesStart;

impl Walk<'_> {
    pub(super) fn score_part(&mut self, part: usize, whole: Range<usize>, pieces: &[Piece]) {
        match self.plans.get(part) {
            Some(Plan::LeaveOut) => self.put(whole, ""),
            Some(Plan::Write(Rewrite { name, .. }) | Plan::Correct { correct: Correct { name, .. }, .. }) => {
                self.kept += 1;
                let Some(name) = name else { return };
                for piece in pieces {
                    match piece.path.as_str() {
                        "part-name" => {
                            let name = quick_xml::escape::escape(name.as_str());
                            self.put(piece.whole.clone(), format!("<part-name>{name}</part-name>"));
                        }
                        // They name what it was written for before.
                        "part-name-display" | "part-abbreviation" | "part-abbreviation-display" => {
                            self.put(piece.whole.clone(), "");
                        }
                        _ => {}
                    }
                }
            }
            _ => self.kept += 1,
        }
    }

    /// A group of which no part is left goes.
    pub(super) fn group(&mut self, tag: &BytesStart<'_>, whole: Range<usize>) {
        let number = attribute(tag, "number").unwrap_or_else(|| "1".to_owned());
        if attribute(tag, "type").as_deref() == Some("start") {
            self.groups.push((number, whole, self.kept));
        } else if let Some(begun) = self.groups.iter().rposition(|(other, ..)| *other == number) {
            let (_, begin, kept) = self.groups.remove(begun);
            if kept == self.kept {
                self.put(begin, "");
                self.put(whole, "");
            }
        }
    }
}
