//! A question as it stands on the page, and the staff for its answer.

use crate::state::practise::asking::answer_clef;
use crate::state::score_sheet::{Room, Sheet, written_spec};
use crate::state::view::{PageView, StaffView};
use crate::words::{self, Names};
use crookwise_engraving::{
    Before, Bounds, ColumnSpec, Ink, Metrics, NoteSpec, StaffSpace, StaffSpec, head_width, lay_out, place_at,
    svg,
};
use crookwise_practice::{Answer, Kind, Question, Shown, shown_of};
use crookwise_score::{Change, ChangeTo, Choice, Passage, ResolvedStaff, Staff};
use crookwise_share::ReadPage;
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{Clef, Pitch, Signature, StaffPosition};

/// Places a note of an answer can take above and below the middle line.
const REACH: i32 = 14;

/// Pixels for the head of a staff and for each column beyond which a picture gets no wider.
const FIRST: f64 = 360.0;
const EACH: f64 = 130.0;

/// Pixels for each of two notes beside each other.
pub const COMPARED: f64 = 88.0;

/// Pixels that many staves take, so that their labels stand beside them.
const MANY: f64 = 640.0;

/// A page before it has its room: what is the same on any.
#[derive(Clone, Debug)]
pub struct UnlaidPage {
    view: PageView,
    /// Pixels that its notes need; it gets no wider.
    needed: f64,
    /// What it shows beside its music.
    pub heads: PageHeads,
}

/// What a page shows beside its music: what heads its staves, and what is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct PageHeads {
    /// What the score prints at the head of each staff.
    pub labels: Vec<String>,
    /// What is said beside each label, where it leaves something open; empty where it does not.
    pub beside: Vec<String>,
    /// What heads a staff instead at each column, where what its label names holds no longer; and what is said beside
    /// that.
    later: Vec<(Vec<Option<String>>, String)>,
    /// The staff and the column asked about.
    pub asked: (Option<usize>, Option<usize>),
    /// The player asked about, where the staff has several: his number as scores print it, and whether his stems go up.
    pub player: Option<(String, bool)>,
}

/// The staves of a question, broken into systems.
#[derive(Clone, Debug, PartialEq)]
pub struct QuestionPicture {
    /// The systems and their staves.
    pub sheet: Sheet,
    /// What stands beside them.
    pub heads: PageHeads,
}

impl QuestionPicture {
    /// The page of a question on so much room.
    #[must_use]
    pub fn of(question: &Question, names: Names, room: Room) -> Self {
        UnlaidPage::of(question, names).laid(room)
    }

    /// A passage with nothing asked.
    #[must_use]
    pub fn of_passage(passage: &Passage, names: Names, room: Room) -> Self {
        let staves = 0..passage.staves().len();
        let shown: Vec<Vec<Shown>> = staves.map(|staff| shown_of(passage, staff)).collect();
        UnlaidPage::showing(passage, &shown, names).laid(room)
    }
}

impl UnlaidPage {
    /// The page of a question.
    #[must_use]
    pub fn of(question: &Question, names: Names) -> Self {
        let staves = 0..question.passage.staves().len();
        let shown: Vec<Vec<Shown>> = staves.map(|staff| question.shown(staff)).collect();
        let mut page = Self::showing(&question.passage, &shown, names);
        page.heads.asked = match question.kind {
            Kind::Chord => (None, Some(question.at.column)),
            Kind::WrongNote | Kind::WrongStaff | Kind::Label => (None, None),
            _ => (Some(question.at.staff), Some(question.at.column)),
        };
        page.heads.keep_silent();
        if matches!(question.kind, Kind::Writes | Kind::Label)
            && let Some(staff) = page.view.staves.get_mut(question.at.staff)
        {
            staff.gap = Some(question.at.column);
        }
        page.heads.player = question.player().map(|number| {
            let players = question.passage.staves().get(question.at.staff).map_or(1, Staff::players);
            (words::practise::player_mark(number), question.at.player * 2 < players)
        });
        page
    }

    /// A passage with what is shown beside each label.
    fn showing(passage: &Passage, shown: &[Vec<Shown>], names: Names) -> Self {
        // A few notes need no more room than this.
        let needed = FIRST + EACH * passage.columns().len().max(1) as f64;
        let needed = if passage.staves().len() > 2 { needed.max(MANY) } else { needed };
        let labels = passage.staves().iter().map(|staff| staff.label.clone()).collect();
        let beside = shown.iter().map(|shown| words::practise::said_beside(shown, names)).collect();
        let later = |(staff, shown): (usize, &Vec<Shown>)| {
            let lasting: Vec<Shown> = shown.iter().filter(|one| !one.is_of_label()).cloned().collect();
            (holding(passage, staff), words::practise::said_beside(&lasting, names))
        };
        let later = shown.iter().enumerate().map(later).collect();
        let page = ReadPage { passage: passage.clone(), ..ReadPage::of_label("") };
        let mut view = PageView::of(&page, names);
        for staff in &mut view.staves {
            say_in_one(staff);
        }
        let heads = PageHeads { labels, beside, later, asked: (None, None), player: None };
        Self { view, needed, heads }
    }

    /// The page on so much room.
    #[must_use]
    pub fn laid(&self, room: Room) -> QuestionPicture {
        let width = if room.wall { room.width } else { room.width.min(self.needed) };
        let sheet = Sheet::shown(&self.view, Room { width, ..room });
        QuestionPicture { sheet, heads: self.heads.clone() }
    }

    /// The staves as the engraver takes them.
    #[must_use]
    pub fn engraver_specs(&self) -> Vec<StaffSpec> {
        self.view.staves.iter().map(written_spec).collect()
    }
}

impl PageHeads {
    /// In later systems nothing heads a staff whose crook changes, as in print: whether it has changed is for the reader to
    /// find.
    fn keep_silent(&mut self) {
        for (holds, _) in &mut self.later {
            if holds.iter().any(Option::is_some) {
                holds.iter_mut().skip(1).for_each(|holds| *holds = Some(String::new()));
            }
        }
    }

    /// What stands at the head of a staff in the system that begins with a column, and what is said beside it: its label,
    /// as long as what it names holds.
    #[must_use]
    pub fn head(&self, staff: usize, first: usize) -> (&str, &str) {
        let later = self.later.get(staff);
        if let Some((holds, beside)) =
            later.and_then(|(holds, beside)| Some((holds.get(first).or(holds.last())?.as_ref()?, beside)))
        {
            return (holds, beside);
        }
        let label = self.labels.get(staff).map_or("", String::as_str);
        (label, self.beside.get(staff).map_or("", String::as_str))
    }
}

/// What holds at each column of a staff: nothing where that is what the label names; else the change as it is printed, and
/// where players differ each by his number, who keeps his crook by the label.
fn holding(passage: &Passage, staff: usize) -> Vec<Option<String>> {
    let resolved = ResolvedStaff::of(passage, staff, DecodeOptions::default());
    let Some(own) = passage.staves().get(staff) else { return Vec::new() };
    let last = |column: usize, player: usize| {
        let is_his =
            |change: &&Change| change.column <= column && change.player.is_none_or(|other| other == player);
        let mut labels = own.changes().iter().filter(is_his).filter_map(|change| match &change.to {
            ChangeTo::Label(text) => {
                Some(words::changes::held(&words::changes::direction(text, None)).to_owned())
            }
            _ => None,
        });
        labels.next_back()
    };
    let holds = |column: usize, player: usize| {
        let (first, here) = (resolved.place_at(0, player)?, resolved.place_at(column, player)?);
        if Choice::of(&here.staff) == Choice::of(&first.staff) { None } else { last(column, player) }
    };
    let at = |column: usize| {
        let each: Vec<Option<String>> = (0..own.players()).map(|player| holds(column, player)).collect();
        let first = each.first().cloned().flatten();
        if each.iter().all(|other| *other == first) {
            return first;
        }
        let numbered = |(player, holds): (usize, &Option<String>)| {
            let number = words::practise::player_mark(resolved.number(player));
            holds.as_ref().map(|holds| format!("{number} {holds}"))
        };
        let kept = each.iter().any(Option::is_none).then(|| own.label.clone());
        let changed = each.iter().enumerate().filter_map(numbered);
        Some(kept.into_iter().chain(changed).collect::<Vec<_>>().join(", "))
    };
    (0..passage.columns().len()).map(at).collect()
}

/// Puts "a 2" over the notes that all players of a staff have, where that is new, as scores print it: one note alone may
/// be the first player's while the others rest.
fn say_in_one(staff: &mut StaffView) {
    let players = staff.players.len();
    let mut before = false;
    for (&together, over) in staff.together.iter().zip(&mut staff.directions) {
        if together && !before && players > 1 {
            over.push(words::dock::in_one(players));
        }
        before = together;
    }
}

/// An empty staff on which the notes of an answer are put.
#[derive(Clone, Debug, PartialEq)]
pub struct AnswerStaff {
    /// The text of the picture.
    pub svg: String,
    top: StaffSpace,
    scale: f64,
}

impl AnswerStaff {
    /// The staff with the notes so far, so many pixels high.
    #[must_use]
    pub fn of(clef: Clef, notes: &[Pitch], height: f64) -> Self {
        Self::reaching(clef, notes, height, f64::from(REACH) / 2.0)
    }

    /// The same with room for notes so many staff spaces above and below the middle line.
    fn reaching(clef: Clef, notes: &[Pitch], height: f64, half: f64) -> Self {
        let mut spec = StaffSpec::new(clef, Signature::NONE);
        spec.ink = Ink::Sounding;
        spec.columns = vec![ColumnSpec {
            notes: notes.iter().map(|&note| NoteSpec::new(note)).collect(),
            ..ColumnSpec::default()
        }];
        let head = head_width(clef, Signature::NONE);
        let metrics = Metrics { head, column: StaffSpace(7.0), before: vec![Before::default()] };
        let layout = lay_out(&spec, 0..1, &metrics);
        let frame = layout.bounds.union(Bounds::new(0.0, 2.0 - half, head.0 + 7.0, 2.0 + half));
        let scale = height.max(1.0) / frame.height().0;
        let options = svg::SvgOptions { frame: Some(frame), scale: Some(scale), ..Default::default() };
        Self { svg: svg::write(&layout.drawing, &options), top: frame.top, scale }
    }

    /// A note that was given and beside it the right one, on one staff.
    #[must_use]
    pub fn compared(clef: Clef, given: Pitch, right: Pitch, scale: f64) -> String {
        let mut spec = StaffSpec::new(clef, Signature::NONE);
        let column = |pitch: Pitch, ink: Ink| ColumnSpec {
            notes: vec![NoteSpec { ink: Some(ink), ..NoteSpec::new(pitch) }],
            ..ColumnSpec::default()
        };
        spec.columns = vec![column(given, Ink::Written), column(right, Ink::Sounding)];
        let head = head_width(clef, Signature::NONE);
        let column = StaffSpace(COMPARED / scale);
        let metrics = Metrics { head, column, before: vec![Before::default(); 2] };
        let drawing = lay_out(&spec, 0..2, &metrics).drawing;
        svg::write(&drawing, &svg::SvgOptions { scale: Some(scale), ..Default::default() })
    }

    /// The place under y in pixels from the top of the picture.
    #[must_use]
    pub fn place_at(&self, y: f64) -> StaffPosition {
        let place = place_at(StaffSpace(y / self.scale + self.top.0)).0;
        StaffPosition(place.clamp(4 - REACH, 4 + REACH))
    }
}

/// The notes that are the right answer, on a staff so many pixels high; `None` where the answer is no note.
#[must_use]
pub fn right_alone(question: &Question, height: f64) -> Option<String> {
    let is_note = matches!(question.right, Answer::Note(_) | Answer::Notes(_));
    is_note.then(|| right_on_staff(question, height))?
}

/// What sounds at the place asked about, or the notes that are the right answer, on a staff so many pixels high.
#[must_use]
pub fn right_on_staff(question: &Question, height: f64) -> Option<String> {
    let notes: Vec<Pitch> = match &question.right {
        Answer::Note(note) => vec![*note],
        Answer::Notes(notes) => notes.clone(),
        _ => vec![question.reading()?.sounding.0],
    };
    Some(AnswerStaff::reaching(answer_clef(question, &notes), &notes, height, 3.5).svg)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::{AskedStaff, Exercise, Material};

    #[test]
    fn a_question_shows_its_staves_and_where_it_asks() {
        let staves = vec![AskedStaff::of("Corni in Es")];
        let questions = Exercise { staves, ..Exercise::default() }.questions().unwrap();
        let picture = QuestionPicture::of(&questions[0], Names::default(), Room::wide(500.0));
        assert_eq!(picture.heads.labels, ["Corni in Es"]);
        assert_eq!(picture.heads.asked.0, Some(0));
        let column = picture.heads.asked.1.unwrap();
        assert!(picture.sheet.systems[0].left(column).is_some());
    }

    #[test]
    fn a_question_shows_all_that_decides_its_answer() {
        let picture = |exercise: &Exercise| {
            let exercise = Exercise { questions: 6, ..exercise.clone() };
            let all = exercise.questions().unwrap();
            all.iter()
                .map(|question| QuestionPicture::of(question, Names::default(), Room::wide(500.0)))
                .collect::<Vec<_>>()
        };
        // A change of crook stands over its column.
        let staff = AskedStaff { muta: Some("Es".into()), ..AskedStaff::of("Corni in C basso") };
        for one in picture(&Exercise { staves: vec![staff], ..Exercise::default() }) {
            let svg: String =
                one.sheet.systems.iter().map(|system| system.written[0].svg.to_string()).collect();
            assert!(svg.contains("muta in Es"), "{svg}");
        }
        // The player asked about has his number.
        let staff = AskedStaff { pair: true, ..AskedStaff::of("Corno III in B alto, Corno IV in G") };
        let numbers: Vec<_> = picture(&Exercise { staves: vec![staff], ..Exercise::default() })
            .into_iter()
            .filter_map(|one| one.heads.player)
            .collect();
        assert_eq!(numbers.len(), 6);
        assert!(numbers.contains(&("III.".into(), true)) && numbers.contains(&("IV.".into(), false)));
        // What a label leaves open is said beside it.
        for (label, beside) in
            [("Corni in B", "basso"), ("Corni in Es", ""), ("Clarinetti", "Clarinet in B-flat")]
        {
            let staves = vec![AskedStaff::of(label)];
            for one in picture(&Exercise { staves, ..Exercise::default() }) {
                assert_eq!(one.heads.beside, [beside], "{label}");
            }
        }
    }

    #[test]
    fn a_later_system_is_headed_by_what_holds_there() {
        let heads = |staff: &str| {
            let link = format!("/read?staff={staff}");
            let Some(crookwise_share::Link::Read(page)) = crookwise_share::Link::decode(&link).unwrap()
            else {
                panic!("{link}")
            };
            let picture = QuestionPicture::of_passage(&page.passage, Names::default(), Room::wide(300.0));
            assert!(picture.sheet.systems.len() > 1, "{link}");
            let head = |first: usize| {
                let (label, beside) = picture.heads.head(0, first);
                (label.to_owned(), beside.to_owned())
            };
            let firsts = picture.sheet.systems.iter().map(|system| system.columns.start);
            firsts.map(head).collect::<Vec<_>>()
        };
        let said =
            |heads: Vec<(String, String)>| (heads.first().cloned().unwrap(), heads.last().cloned().unwrap());
        let notes = "notes=C5.D5.E5.C5.D5.E5.C5.D5";
        let pair = |label: &str, beside: &str| (label.to_owned(), beside.to_owned());
        let (first, last) = said(heads(&format!("Corni+in+Es&{notes}&muta=2_in+F")));
        assert_eq!((first, last), (pair("Corni in Es", ""), pair("in F", "")));
        // What left the octave of the label open says nothing of the crook that came.
        let (first, last) = said(heads(&format!("Corni+in+B&{notes}&muta=2_in+F")));
        assert_eq!((first, last), (pair("Corni in B", "basso"), pair("in F", "")));
        // In the words of the score.
        let (_, last) = said(heads(&format!("Corni+in+C+basso&{notes}&muta=2_muta+in+Es")));
        assert_eq!(last, pair("in Es", ""));
        // What holds for both notations of the bass goes on.
        let (first, last) =
            said(heads("Corni+in+Es&clef=F4&bass=old&notes=C3.C3.C3.C3.C3.C3.C3.C3&muta=2_in+F"));
        assert_eq!((first, last), (pair("Corni in Es", "old notation"), pair("in F", "old notation")));
        // The first crook comes back, or nothing changes.
        let (_, last) = said(heads(&format!("Corni+in+Es&{notes}&muta=2_in+F&muta=3_in+Es")));
        assert_eq!(last, pair("Corni in Es", ""));
        // Players of one staff each by his number.
        let both = "players=2&notes=C5.D5.E5.C5.D5.E5.C5.D5&notes2=C4.C4.C4.C4.C4.C4.C4.C4&muta2=2_in+F";
        let (_, last) = said(heads(&format!("2+Corni+in+Es&{both}")));
        assert_eq!(last, pair("2 Corni in Es, II. in F", ""));
    }

    #[test]
    fn a_question_does_not_say_in_later_systems_whether_the_crook_has_changed() {
        let staff = AskedStaff { muta: Some("Es".into()), ..AskedStaff::of("Corni in C basso") };
        let material = Material::Phrases(Vec::new());
        let exercise = Exercise { staves: vec![staff], material, questions: 20, ..Exercise::default() };
        let mut later = 0;
        for question in exercise.questions().unwrap() {
            let picture = QuestionPicture::of(&question, Names::default(), Room::wide(300.0));
            for (at, system) in picture.sheet.systems.iter().enumerate() {
                let head = picture.heads.head(0, system.columns.start).0;
                assert_eq!(head, if at == 0 { "Corni in C basso" } else { "" });
                later += at;
            }
        }
        assert!(later > 0);
    }

    #[test]
    fn where_a_note_is_asked_for_nothing_rests() {
        let staves = || vec![AskedStaff::of("Corni in Es")];
        let svg = |kind, material: &Material| {
            let exercise = Exercise {
                kinds: vec![kind],
                material: material.clone(),
                staves: staves(),
                ..Exercise::default()
            };
            let question = exercise.questions().unwrap().remove(0);
            let picture = QuestionPicture::of(&question, Names::default(), Room::wide(900.0));
            let written: String =
                picture.sheet.systems.iter().map(|system| system.written[0].svg.to_string()).collect();
            (written.matches("<path").count() + written.matches("<use").count(), picture, question)
        };
        for kind in [Kind::Writes, Kind::Label] {
            let (with_gap, mut picture, question) = svg(kind, &Material::Notes);
            // The same staff with a rest has one sign more.
            let mut page = UnlaidPage::of(&question, Names::default());
            page.view.staves[0].gap = None;
            picture = QuestionPicture { sheet: page.laid(Room::wide(900.0)).sheet, ..picture };
            let rests = picture.sheet.systems[0].written[0].svg.to_string();
            assert_eq!(
                rests.matches("<path").count() + rests.matches("<use").count(),
                with_gap + 1,
                "{rests}"
            );
        }
    }

    #[test]
    fn what_must_be_written_is_revealed_in_the_clef_of_the_part() {
        let staves = vec![AskedStaff::of("Corni in B alto")];
        let writes = Exercise { kinds: vec![Kind::Writes], staves, questions: 40, ..Exercise::default() };
        let mut low = 0;
        for question in writes.questions().unwrap() {
            let Answer::Note(right) = question.right else { panic!() };
            low += usize::from(right.octave < 4);
            let clef = AnswerStaff::reaching(Clef::TREBLE, &[right], 100.0, 3.5).svg;
            assert_eq!(right_on_staff(&question, 100.0), Some(clef), "{right}");
        }
        assert!(low > 0);
    }

    #[test]
    fn what_a_label_leaves_open_is_said_where_nothing_is_asked_too() {
        for (staff, beside) in [
            ("Corni+in+F&clef=F4&bass=old&notes=C3", "old notation"),
            ("Corni+in+F&clef=F4&bass=new&notes=C4", "new notation"),
            ("Corni+in+F&notes=C4", ""),
        ] {
            let link = format!("/read?staff={staff}");
            let Some(crookwise_share::Link::Read(page)) = crookwise_share::Link::decode(&link).unwrap()
            else {
                panic!("{link}")
            };
            let picture = QuestionPicture::of_passage(&page.passage, Names::default(), Room::wide(500.0));
            assert_eq!(picture.heads.head(0, 0).1, beside, "{link}");
        }
    }

    #[test]
    fn what_two_play_in_one_is_said_where_it_begins() {
        let link = "/read?staff=2+Corni+in+Es&players=2&notes=*C5.*D5.E5.*C5&notes2=-.-.-.-";
        let Some(crookwise_share::Link::Read(page)) = crookwise_share::Link::decode(link).unwrap() else {
            panic!("{link}")
        };
        let picture = QuestionPicture::of_passage(&page.passage, Names::default(), Room::wide(900.0));
        assert_eq!(picture.sheet.systems[0].written[0].svg.matches("a 2").count(), 2);
    }

    #[test]
    fn a_tap_on_the_answer_staff_is_a_place() {
        let staff = AnswerStaff::of(Clef::TREBLE, &[], 140.0);
        // Half of the reach above the middle line is the top.
        assert_eq!(staff.place_at(0.0), StaffPosition(4 + REACH));
        assert_eq!(staff.place_at(70.0), StaffPosition(4));
        let with = AnswerStaff::of(Clef::TREBLE, &["C8".parse().unwrap()], 140.0);
        assert!(with.svg.len() > staff.svg.len());
        // A note far off makes the staff smaller, and the pad no higher.
        assert!(with.scale < staff.scale);
    }
}
