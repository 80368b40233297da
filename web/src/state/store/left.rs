//! How scores were left: which one is open, and of each what was chosen, so that a reload or a look elsewhere takes nothing
//! away. Kept at once, one text for all windows; the corrections of the demo movement stand here too, since it has no entry
//! among the scores that are kept.

use super::entry::{self, Unread, What};

/// The name of the text.
pub const LEFT: &str = "crookwise.left";
/// The name of the demo movement in it.
pub const DEMO: &str = "demo";
/// How many scores are remembered.
const MOST: usize = 40;

/// How a score was left.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LeftScore {
    /// The staves that were chosen, by number.
    pub chosen: Vec<u32>,
    /// The first bar, as typed.
    pub from: String,
    /// The last.
    pub to: String,
    /// Corrections as text, where they are kept nowhere else.
    pub corrections: String,
    /// The bar that was looked at, counted from 0; nothing where the music was seen from its top.
    pub at: Option<u32>,
}

/// How all of them were left.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LeftScores {
    /// What is open, as the pairs of a link; empty where nothing is.
    pub open: String,
    /// Each by its name, the last first.
    scores: Vec<(String, LeftScore)>,
}

impl LeftScores {
    /// How a score was left, if it is remembered.
    #[must_use]
    pub fn of(&self, id: &str) -> Option<&LeftScore> {
        self.scores.iter().find(|(other, _)| other == id).map(|(_, left)| left)
    }

    /// Remembers how a score was left.
    pub fn leave(&mut self, id: &str, left: LeftScore) {
        self.forget(id);
        self.scores.insert(0, (id.to_owned(), left));
        self.scores.truncate(MOST);
    }

    /// Forgets a score.
    pub fn forget(&mut self, id: &str) {
        self.scores.retain(|(other, _)| other != id);
    }

    /// As an entry: what is open, then a line for each.
    #[must_use]
    pub fn write(&self) -> String {
        let line = |(id, left): &(String, LeftScore)| {
            let staves: Vec<String> = left.chosen.iter().map(u32::to_string).collect();
            let at = left.at.map(|bar| bar.to_string()).unwrap_or_default();
            let cells = [id, &staves.join("."), &left.from, &left.to, &left.corrections, &at];
            cells.map(|text| text.replace(['\n', '\r', '\t'], " ")).join("\t")
        };
        let lines: Vec<String> = core::iter::once(self.open.replace(['\n', '\r'], " "))
            .chain(self.scores.iter().map(line))
            .collect();
        entry::write(What::Left, &lines.join("\n"))
    }

    /// Reads an entry.
    ///
    /// # Errors
    /// Where it is damaged, or a newer version wrote it.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let mut lines = entry::read(What::Left, text)?.split('\n');
        let open = lines.next().unwrap_or_default().to_owned();
        let scores: Option<Vec<(String, LeftScore)>> = lines.map(score).collect();
        Ok(Self { open, scores: scores.ok_or(Unread::Damaged)? })
    }
}

fn score(line: &str) -> Option<(String, LeftScore)> {
    let mut cells = line.split('\t');
    let mut cell = || cells.next().map(str::to_owned);
    let (id, staves) = (cell()?, cell()?);
    let (from, to, corrections) = (cell()?, cell()?, cell()?);
    let staves = staves.split('.').filter(|staff| !staff.is_empty());
    let chosen: Option<Vec<u32>> = staves.map(|staff| staff.parse().ok()).collect();
    // Who wrote none knew of none; who knows of none passes it over. So it needs no version of its own.
    let at = cell().filter(|at| !at.is_empty());
    let at = at.map(|at| at.parse().ok()).map_or(Some(None), |at| at.map(Some))?;
    Some((id, LeftScore { chosen: chosen?, from, to, corrections, at }))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn left(from: &str) -> LeftScore {
        let corrections = "staff=3&label=Corni+in+Es".to_owned();
        LeftScore { chosen: vec![1, 3], from: from.into(), to: "B".into(), corrections, at: Some(40) }
    }

    #[test]
    fn what_was_left_before_bars_were_looked_at_is_read() {
        let text = "crookwise left 1\ndemo=1\ndemo\t1.3\t9\tB\tstaff=3&label=Corni+in+Es";
        let all = LeftScores::read(text).unwrap();
        assert_eq!(all.of(DEMO), Some(&LeftScore { at: None, ..left("9") }));
    }

    #[test]
    fn how_scores_were_left_goes_round() {
        let mut all = LeftScores { open: "kept=1a2b".into(), ..LeftScores::default() };
        all.leave("1a2b", left("9"));
        all.leave(DEMO, LeftScore::default());
        assert_eq!(LeftScores::read(&all.write()), Ok(all.clone()));
        assert_eq!(all.of("1a2b"), Some(&left("9")));
        all.leave("1a2b", left("10"));
        assert_eq!(all.of("1a2b"), Some(&left("10")));
        all.forget("1a2b");
        assert_eq!((all.of("1a2b"), all.of(DEMO)), (None, Some(&LeftScore::default())));
        // What is typed cannot break the lines.
        all.leave("c", left("1\t2\n3"));
        assert_eq!(LeftScores::read(&all.write()).unwrap().of("c").unwrap().from, "1 2 3");
        assert_eq!(LeftScores::read(&LeftScores::default().write()), Ok(LeftScores::default()));
    }

    #[test]
    fn the_oldest_go_first_and_damage_is_told() {
        let mut all = LeftScores::default();
        for number in 0..=MOST {
            all.leave(&number.to_string(), LeftScore::default());
        }
        assert_eq!((all.of("0"), all.of("1").is_some()), (None, true));
        assert_eq!(LeftScores::read("crookwise left 2\n"), Err(Unread::Newer));
        for damaged in [
            "",
            "crookwise left 1\n\na\t1",
            "crookwise left 1\n\na\tx\t1\t4\t",
            "crookwise left 1\n\na\t1\t1\t4\t\t-1",
        ] {
            assert_eq!(LeftScores::read(damaged), Err(Unread::Damaged), "{damaged}");
        }
    }
}
