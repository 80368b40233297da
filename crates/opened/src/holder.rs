//! Who holds the score: opens it, lays corrections over it, and answers.

use crate::corrected::{AsRead, CorrectedChange, Correction, lay};
use crate::protocol::{Answer, Ask, OutPitch, Progress, RowWanted, TogetherShown};
use crate::sheet::{self, OpenSheet, SheetShape, UnderRows};
use crate::{audited, crooks, followed, listed, page, part, together};
use crookwise_engraving::measured::SheetRow;
use crookwise_musicxml::export::{Corrected, ExportOptions, ExportPitch, by_file, export_corrected};
use crookwise_musicxml::midi::midi;
use crookwise_musicxml::{FileError, Import, encoding, import_text, unpack::unpack};
use crookwise_score::audit::{self, AuditOptions, StaffAudit};
use crookwise_score::harmony::{HarmonySearch, ScoreHarmony};
use crookwise_score::performance::Performance;
use crookwise_score::score::{OldBass, Part, Score, StaffId};
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use std::sync::Arc;

/// Holds at most one score.
#[derive(Debug, Default)]
pub struct ScoreHolder {
    opened: Option<Opened>,
}

/// A score that is open.
#[derive(Debug)]
pub(crate) struct Opened {
    /// The file as it came: what goes out is written from it.
    file: Vec<u8>,
    /// A name that follows from its bytes.
    pub id: String,
    /// What was read, with the corrections laid over its score.
    pub import: Import,
    /// Its staves as the file has them.
    pub as_read: Vec<AsRead>,
    pub corrections: Vec<Correction>,
    /// Old bass-clef notation that the file has as new, whether it is read so by now or not.
    pub old_bass: Vec<OldBass>,
    /// Its harmonies, once they were asked for.
    harmonies: Harmonies,
    /// Ready to be played, once that was asked for.
    performance: Option<Performance>,
    /// The rows that were wanted last, as they are engraved: they stay while only the width changes.
    pub printed: Vec<(RowWanted, Arc<[SheetRow]>)>,
    /// The sheet that is on the screen.
    sheet: Option<OpenSheet>,
}

/// The harmonies of what is open, as far as they were sought.
#[derive(Debug)]
enum Harmonies {
    Unknown,
    Sought(Box<HarmonySearch>),
    Found(Arc<Vec<ScoreHarmony>>),
}

impl ScoreHolder {
    /// Answers a question as [`ScoreHolder::answer`] does, or works for a moment on what it wants that takes long, and answers
    /// nothing yet: it is to be asked again, and others may be between.
    pub fn answer_in_pieces(
        &mut self,
        ask: Ask,
        file: Vec<u8>,
        progress: &mut dyn FnMut(Progress),
    ) -> Option<Answer> {
        let wants_harmonies = match &ask {
            Ask::Places | Ask::Harmonies => true,
            Ask::Sheet { together, .. } => *together != TogetherShown::No,
            _ => false,
        };
        if let Some(opened) = self.opened.as_mut().filter(|_| wants_harmonies)
            && opened.go_on_seeking()
        {
            return None;
        }
        Some(self.answer(ask, file, progress))
    }

    /// Answers a question; `file` is what is to be opened, and `progress` is told how far that is.
    pub fn answer(&mut self, ask: Ask, file: Vec<u8>, progress: &mut dyn FnMut(Progress)) -> Answer {
        let answer = match ask {
            Ask::Open(corrections) => self.open(file, &corrections, progress),
            other => match &mut self.opened {
                Some(opened) => opened.answer(other),
                None => Err("No score is open".to_owned()),
            },
        };
        answer.unwrap_or_else(Answer::No)
    }

    fn open(
        &mut self,
        file: Vec<u8>,
        corrections: &str,
        progress: &mut dyn FnMut(Progress),
    ) -> Result<Answer, String> {
        // The one before goes first: two movements at once are more than a small device holds.
        self.opened = None;
        let import = read(&file, progress).map_err(|error| error.to_string())?;
        progress(Progress::Listing);
        let as_read = AsRead::all(&import.score);
        let id = name_of(&file);
        let mut opened = Opened {
            file,
            id,
            import,
            as_read,
            corrections: Vec::new(),
            old_bass: Vec::new(),
            harmonies: Harmonies::Unknown,
            performance: None,
            printed: Vec::new(),
            sheet: None,
        };
        opened.correct(corrections);
        let summary = listed::summary(&opened);
        self.opened = Some(opened);
        Ok(Answer::Score(Box::new(summary)))
    }
}

/// A file's name by its length and a checksum (CRC-32/ISO-HDLC): it tells files apart that a reader has, and proves nothing.
fn name_of(file: &[u8]) -> String {
    let sum = crc::Crc::<u32>::new(&crc::CRC_32_ISO_HDLC).checksum(file);
    format!("{:x}{sum:08x}", file.len())
}

fn read(file: &[u8], progress: &mut dyn FnMut(Progress)) -> Result<Import, FileError> {
    progress(Progress::Unpacking);
    let bytes = unpack(file)?;
    progress(Progress::Reading);
    import_text(&encoding::decode(&bytes)?)
}

impl Opened {
    fn answer(&mut self, ask: Ask) -> Result<Answer, String> {
        Ok(match ask {
            Ask::Open(_) => return Err("A file is missing".to_owned()),
            Ask::Correct(corrections) => {
                self.correct(&corrections);
                Answer::Score(Box::new(listed::summary(self)))
            }
            Ask::Audit { valves_too } => Answer::Audit(audited::rows(self, &self.audit(valves_too))),
            Ask::Fit { staves, bars } => Answer::Fits(page::columns(self, &staves, bars)?),
            Ask::Page { staves, bars } => Answer::Page(page::of_read(self, &staves, bars)?),
            Ask::Note { staff, note } => Answer::Page(page::of_note(self, staff, note)?),
            Ask::Crooks { bars, title } => Answer::Crooks(crooks::wanted(self, bars, &title)?),
            Ask::Out { staves, pitch } => {
                let pitch = match pitch {
                    OutPitch::Sounding => ExportPitch::Sounding,
                    OutPitch::AsWritten => ExportPitch::AsWritten,
                    OutPitch::WrittenFor(label) => ExportPitch::WrittenFor(label),
                };
                let options = ExportOptions { pitch, parts: Some(self.parts_of(&staves)) };
                let file = export_corrected(&self.file, &options, &|read| self.corrected(read));
                Answer::File(file.map_err(|error| error.to_string())?)
            }
            Ask::Print(rows) => {
                self.print(rows);
                Answer::Printed
            }
            Ask::Sheet { rows, unseen, together, width, letters, gathered, high } => {
                self.print(rows.iter().chain(&unseen).cloned().collect());
                let harmonies = (together != TogetherShown::No).then(|| self.harmonies());
                let is_hidden = together == TogetherShown::Hidden;
                let under = harmonies.as_ref().map(|all| UnderRows { harmonies: all, is_hidden });
                let shape = SheetShape { width, letters, gathered };
                let sheet = OpenSheet::of(self, (&rows, &unseen, under), shape);
                let systems = sheet.systems_from(0, high);
                self.sheet = Some(sheet);
                Answer::Sheet(systems)
            }
            Ask::Rest(from) => {
                let from = usize::try_from(from).unwrap_or(usize::MAX);
                let rest = self.sheet.as_ref().map(|sheet| sheet.systems_from(from, None));
                Answer::Sheet(rest.unwrap_or_default())
            }
            Ask::System(number) => {
                let drawn = self.sheet.as_ref().and_then(|sheet| sheet.draw(number));
                Answer::System(Box::new(drawn.ok_or_else(|| "There is no such system".to_owned())?))
            }
            Ask::Part { row, bars, width, letters } => {
                Answer::Part(part::rows(self, &row, bars, (width, letters))?)
            }
            Ask::Signs => Answer::Signs(sheet::signs()),
            Ask::Midi { staves } => {
                let sounds = |read: &Import| {
                    self.corrected(read).map_or_else(|| by_file(read), |corrected| corrected.sounds(read))
                };
                let file = midi(&self.import, Some(&self.parts_of(&staves)), &sounds);
                Answer::File(file.map_err(|error| error.to_string())?)
            }
            Ask::Map => Answer::Map(Box::new(self.performed(followed::map))),
            Ask::Places => {
                let harmonies = self.harmonies();
                Answer::Places(followed::worth_hearing(self, &harmonies))
            }
            Ask::Harmonies => {
                let harmonies = self.harmonies();
                Answer::Harmonies(together::rows(self, &harmonies))
            }
            Ask::Play { staves, from, to } => Answer::Play(
                self.performed(|own, performance| followed::play(own, performance, &staves, (from, to)))?,
            ),
        })
    }

    /// Keeps these rows as they are engraved, and no others.
    fn print(&mut self, rows: Vec<RowWanted>) {
        let known = core::mem::take(&mut self.printed);
        let row = |wanted: RowWanted| {
            let own = known.iter().find(|(row, _)| *row == wanted).map(|(_, own)| Arc::clone(own));
            let own = own.unwrap_or_else(|| sheet::engraved(self, &wanted).into());
            (wanted, own)
        };
        self.printed = rows.into_iter().map(row).collect();
    }

    /// Something about how the score is played; it is made ready for that once.
    fn performed<T>(&mut self, answer: impl FnOnce(&Self, &Performance) -> T) -> T {
        let performance = self
            .performance
            .take()
            .unwrap_or_else(|| Performance::of(&self.import.score, &self.import.score.sounded(&mut decoder)));
        let answered = answer(self, &performance);
        self.performance = Some(performance);
        answered
    }

    /// Its harmonies; they are found once.
    fn harmonies(&mut self) -> Arc<Vec<ScoreHarmony>> {
        loop {
            if let Harmonies::Found(all) = &self.harmonies {
                return Arc::clone(all);
            }
            self.go_on_seeking();
        }
    }

    /// Goes on seeking the harmonies for a moment; whether there is more to do.
    fn go_on_seeking(&mut self) -> bool {
        let score = &self.import.score;
        self.harmonies = match core::mem::replace(&mut self.harmonies, Harmonies::Unknown) {
            Harmonies::Unknown => {
                Harmonies::Sought(Box::new(HarmonySearch::begin(score, &score.sounded(&mut decoder))))
            }
            Harmonies::Sought(mut search) => match search.go_on(score) {
                true => Harmonies::Sought(search),
                false => Harmonies::Found(Arc::new(search.found())),
            },
            found => found,
        };
        !matches!(self.harmonies, Harmonies::Found(_))
    }

    fn correct(&mut self, corrections: &str) {
        self.harmonies = Harmonies::Unknown;
        self.performance = None;
        self.printed = Vec::new();
        self.sheet = None;
        self.corrections = Correction::read(corrections);
        let as_new = self.corrections.iter().map(|one| Correction { old_bass: false, ..one.clone() });
        lay(&mut self.import.score, &self.as_read, &as_new.collect::<Vec<_>>());
        self.old_bass = self.import.score.old_bass(&mut decoder);
        lay(&mut self.import.score, &self.as_read, &self.corrections);
    }

    fn audit(&self, valves_too: bool) -> Vec<StaffAudit> {
        audit::audit(&self.import.score, AuditOptions { valves_too }, &mut decoder)
    }

    /// The staff of a number.
    pub fn staff_id(&self, staff: u32) -> Option<StaffId> {
        Some(self.as_read.get(usize::try_from(staff).ok()?)?.id)
    }

    /// The number of a staff.
    pub fn number_of(&self, id: StaffId) -> u32 {
        let at = self.as_read.iter().position(|staff| staff.id == id);
        at.and_then(|at| u32::try_from(at).ok()).unwrap_or(u32::MAX)
    }

    /// Whether a staff was corrected.
    pub fn is_corrected(&self, staff: u32) -> bool {
        self.corrections.iter().any(|one| one.staff == staff && !one.is_nothing())
    }

    /// Whether the label of a staff was corrected, or its reading.
    pub fn is_relabelled(&self, staff: u32) -> bool {
        self.corrections.iter().any(|one| one.staff == staff && one.is_of_label())
    }

    /// What was corrected of the changes of a staff.
    pub fn changes_corrected(&self, staff: u32) -> &[CorrectedChange] {
        let own = self.corrections.iter().find(|one| one.staff == staff);
        own.map(|one| one.changes.as_slice()).unwrap_or_default()
    }

    /// A part by its place in the file.
    pub fn part(&self, at: usize) -> Option<&Part> {
        part_at(&self.import, &self.import.score, at)
    }

    /// The parts of these staves, by their places in the file.
    fn parts_of(&self, staves: &[u32]) -> Vec<usize> {
        let wanted: Vec<StaffId> = staves.iter().filter_map(|staff| self.staff_id(*staff)).collect();
        let has = |at: &usize| {
            self.part(*at).is_some_and(|part| part.staves.iter().any(|staff| wanted.contains(&staff.id)))
        };
        (0..self.import.parts.len()).filter(has).collect()
    }

    /// The corrections laid over a score that was read from the same file; `None` for none.
    fn corrected(&self, read: &Import) -> Option<Corrected> {
        let mut score = read.score.clone();
        let as_read = AsRead::all(&score);
        lay(&mut score, &as_read, &self.corrections);
        let corrected = (0..).zip(&as_read).filter(|(at, _)| self.is_corrected(*at));
        let staves: Vec<StaffId> = corrected.map(|(_, staff)| staff.id).collect();
        (!staves.is_empty()).then_some(Corrected { score, staves })
    }
}

fn part_at<'a>(read: &Import, score: &'a Score, at: usize) -> Option<&'a Part> {
    score.part(read.parts.get(at)?.id)
}

pub(crate) fn decoder(text: &str) -> Arc<Decoded> {
    Arc::new(decode(text, DecodeOptions::default()))
}
