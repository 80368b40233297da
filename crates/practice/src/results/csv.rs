//! The class as a table for a spreadsheet (RFC 4180).

use super::class::Class;
use super::given::{Explained, Given};
use crate::mistake::Mistake;
use crate::off::Off;
use crate::pace::Pace;
use crookwise_score::table;

/// The words of the table.
#[derive(Clone, Copy, Debug)]
pub struct CsvWords {
    /// Head of the first column.
    pub name: &'static str,
    /// Head of the number of right answers, and what stands for one.
    pub right: &'static str,
    /// Head of the number of wrong answers, and what stands for one; mistakes follow.
    pub wrong: &'static str,
    /// Head of the number of questions left out, and what stands for one.
    pub left_out: &'static str,
    /// Head of the pace in the middle.
    pub pace: &'static str,
    /// Head of a question; its number follows.
    pub question: &'static str,
    /// The four classes of pace, from quick to slow.
    pub paces: [&'static str; 4],
    /// The name of a mistake.
    pub mistake: fn(Mistake) -> &'static str,
    /// How far an answer is off that no mistake explains; empty where there are no words for it.
    pub off: fn(&Off) -> String,
}

impl Default for CsvWords {
    fn default() -> Self {
        Self {
            name: "name",
            right: "right",
            wrong: "wrong",
            left_out: "not answered",
            pace: "pace in the middle",
            question: "question",
            paces: ["fluent", "steady", "slow", "very slow"],
            mistake: Mistake::id,
            off: |_| String::new(),
        }
    }
}

impl Class {
    /// A line for each student, in the order of [`Class::students`], below a line of heads: name, numbers of right and
    /// wrong answers and of questions left out, pace in the middle, then each question.
    ///
    /// Spreadsheets open it as it is ([`table::csv`]).
    #[must_use]
    pub fn csv(&self, words: &CsvWords) -> String {
        let heads = [words.name, words.right, words.wrong, words.left_out, words.pace].map(str::to_owned);
        let questions = (1..=self.questions.len()).map(|number| format!("{} {number}", words.question));
        let mut lines: Vec<Vec<String>> = vec![heads.into_iter().chain(questions).collect()];
        for student in &self.students {
            let mut fields = vec![
                student.name.clone().unwrap_or_default(),
                student.tally.right.to_string(),
                student.tally.wrong.to_string(),
                student.tally.left_out.to_string(),
                student.tally.pace.map_or("", |pace| words.pace(pace)).to_owned(),
            ];
            fields.extend(student.given.iter().map(|given| words.given(given)));
            lines.push(fields);
        }
        table::csv(&lines)
    }
}

impl CsvWords {
    fn pace(&self, pace: Pace) -> &'static str {
        self.paces.get(pace as usize).copied().unwrap_or_default()
    }

    fn given(&self, given: &Given) -> String {
        let missed = match given {
            Given::LeftOut => return self.left_out.to_owned(),
            Given::Right(_) => return self.right.to_owned(),
            Given::Wrong(_, missed) => missed,
        };
        let named: Vec<&str> = missed.named.mistakes().map(self.mistake).collect();
        let join = if matches!(missed.named, Explained::Both(..)) { " + " } else { " / " };
        let off = missed.off.as_ref().filter(|_| named.is_empty()).map(self.off).unwrap_or_default();
        match named.join(join) + &off {
            nothing if nothing.is_empty() => self.wrong.to_owned(),
            why => format!("{}: {why}", self.wrong),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::results::{Fingerprint, Outcome, find_all};

    #[test]
    fn an_outside_reader_gets_every_field_back() {
        let exercise = Fingerprint::of(b"x");
        let given = vec![
            Given::Right(Pace::Fluent),
            Given::wrong(Pace::VerySlow, &[Mistake::EForEs, Mistake::Octave]),
            Given::LeftOut,
            Given::wrong(Pace::VerySlow, &[]),
        ];
        let names = ["=1+1", " @home", "-Tal, \"Mira\"", "+49", "Rü, B.", "plain", "\u{FF1D}A1"];
        let codes = names
            .iter()
            .zip(0..)
            .map(|(name, tag)| Outcome::new(exercise, tag, given.clone(), name).unwrap().code());
        let text = codes.collect::<Vec<_>>().join("\n");
        let csv = Class::of(exercise, &find_all(&text)).csv(&CsvWords::default());
        let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(csv.as_bytes());
        let rows: Vec<Vec<String>> =
            reader.records().map(|row| row.unwrap().iter().map(String::from).collect()).collect();
        assert_eq!(
            rows[0][..6],
            ["name", "right", "wrong", "not answered", "pace in the middle", "question 1"]
        );
        let mut read: Vec<&str> = rows[1..].iter().map(|row| row[0].as_str()).collect();
        read.sort_unstable();
        let mut wanted = vec!["'=1+1", "'@home", "'-Tal, \"Mira\"", "'+49", "Rü, B.", "plain", "'\u{FF1D}A1"];
        wanted.sort_unstable();
        assert_eq!(read, wanted);
        let tail = ["1", "2", "1", "very slow", "right", "wrong: octave / eForEs", "not answered", "wrong"];
        assert!(rows[1..].iter().all(|row| row[1..] == tail));
    }

    #[test]
    fn the_bytes_are_what_a_spreadsheet_knows_accents_by() {
        let exercise = Fingerprint::of(b"x");
        let code = Outcome::new(exercise, 1, vec![Given::Right(Pace::Fluent)], "Zoë, B.").unwrap().code();
        let csv = Class::of(exercise, &find_all(&code)).csv(&CsvWords::default());
        let wanted = b"\xEF\xBB\xBFname,right,wrong,not answered,pace in the middle,question 1\r\n\
            \"Zo\xC3\xAB, B.\",1,0,0,fluent,right\r\n";
        assert_eq!(csv.as_bytes(), wanted);
    }
}
