//! What the page shows, derived from what the reader has made: labels decoded, notes read, names given.

use crate::state::decoding::decoded;
use crate::words::{self, Names};
use crookwise_score::{
    BarNumber, Cell, Change, ChangeTo, Event, Place, ResolvedStaff, SoundingNote, Sounds, Staff,
};
use crookwise_share::ReadPage;
use crookwise_theory::label::StaffLabel;
use crookwise_theory::{
    Clef, CrookFamily, Pitch, Printed, Reading, Signature, Sounding, StaffPosition, Tonic,
};
use std::sync::Arc;

/// Every staff of the page and each of its players.
#[derive(Clone, Debug, PartialEq)]
pub struct PageView {
    /// The staves in score order.
    pub staves: Vec<StaffView>,
    /// The selected staff.
    pub staff: usize,
    /// The selected player of it.
    pub player: usize,
    /// How notes are named.
    pub names: Names,
    /// All that sounds.
    pub sounds: Sounds,
}

/// One staff of the page.
#[derive(Clone, Debug, PartialEq)]
pub struct StaffView {
    /// As the score prints it.
    pub label: String,
    /// Its players, from the first on; there is always one.
    pub players: Vec<View>,
    /// What its players are called, one each: "Corni 1".
    pub names: Vec<String>,
    /// Columns in which all players share one note.
    pub together: Vec<bool>,
    /// What stands over the staff at each column where a crook changes: "muta in D".
    pub directions: Vec<Vec<String>>,
    /// The bar that begins at each column; the first staff has their numbers.
    pub bars: Vec<Option<BarNumber>>,
    /// A column that is left empty: nothing rests there, a note is asked for.
    pub gap: Option<usize>,
}

/// What one player of one staff reads.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct View {
    /// The staff with its labels decoded.
    pub staff: Arc<ResolvedStaff>,
    /// Which of its players it is, counted from 0.
    pub player: usize,
    /// The columns from left to right.
    pub columns: Vec<ColumnView>,
    /// The instrument in the reader's hands, where its label is understood.
    pub in_hand: Option<StaffLabel>,
    /// The selected column.
    pub selected: Option<usize>,
    /// How notes are named.
    pub names: Names,
}

/// One column of the staff.
#[derive(Clone, Debug, PartialEq)]
pub struct ColumnView {
    /// What begins, goes on or pauses.
    pub event: Event,
    /// The note that sounds, as printed.
    pub printed: Option<Printed>,
    /// All about it; `None` for rests and where the label names no staff.
    pub reading: Option<Reading>,
    /// Whether what is printed stands for a stroke of an instrument without pitch.
    pub stroke: bool,
    /// Whether the octave below sounds as well.
    pub doubled_below: bool,
    /// What it is called aloud.
    pub name: String,
}

impl ColumnView {
    /// What stands at a column before which `changes` is said to change. `stroke` is whether what is printed there
    /// stands for a stroke.
    fn of(event: Event, note: Option<&SoundingNote>, stroke: bool, changes: &str, names: Names) -> Self {
        let held = event == Event::Held;
        let name = match note {
            Some(SoundingNote { reading: Some(reading), .. }) => words::column_name(reading, held, names),
            Some(note) => words::column_unread((!stroke).then_some(note.printed), held, names),
            None => "rest".into(),
        };
        Self {
            name: if changes.is_empty() { name } else { format!("{changes}: {name}") },
            stroke,
            doubled_below: note.is_some_and(|note| note.doubled_below),
            event,
            printed: note.map(|note| note.printed),
            reading: note.and_then(|note| note.reading),
        }
    }

    /// Whether a stroke of an instrument without pitch stands here.
    #[must_use]
    pub fn is_stroke(&self) -> bool {
        self.stroke && self.printed.is_some()
    }

    /// Whether the note of the column before sounds on.
    #[must_use]
    pub fn is_held(&self) -> bool {
        self.event == Event::Held
    }
}

impl PageView {
    /// Derives the view of a page.
    #[must_use]
    pub fn of(page: &ReadPage, names: Names) -> Self {
        let in_hand = page.in_hand.as_deref().and_then(|label| decoded(label, None).staves.first().cloned());
        if page.passage.staves().is_empty() {
            // A page always has a staff; one without is read as a staff without a label.
            return Self::of(&ReadPage::of_label(""), names);
        }
        let resolve = |staff| Arc::new(resolved(page, staff));
        let resolved: Vec<Arc<ResolvedStaff>> = (0..page.passage.staves().len()).map(resolve).collect();
        let borrowed: Vec<&ResolvedStaff> = resolved.iter().map(Arc::as_ref).collect();
        let sounds = Sounds::of(&page.passage, &borrowed, page.intonation, in_hand.as_ref());
        let part = Part { page, sounds: &sounds, in_hand: in_hand.as_ref(), names };
        let staves = page.passage.staves().iter().zip(&resolved).enumerate();
        let staves: Vec<StaffView> =
            staves.map(|(at, (staff, resolved))| StaffView::of(&part, at, staff, resolved)).collect();
        let staff = page.staff.min(staves.len().saturating_sub(1));
        Self { staff, player: page.player, staves, names, sounds }
    }

    /// What the selected player of the selected staff reads.
    #[must_use]
    pub fn current(&self) -> View {
        self.voice(self.staff, self.player).cloned().unwrap_or_default()
    }

    /// What a player of a staff reads.
    #[must_use]
    pub fn voice(&self, staff: usize, player: usize) -> Option<&View> {
        let players = &self.staves.get(staff)?.players;
        players.get(player).or(players.first())
    }

    /// What a player is called in few words: "Corni in Es 1".
    #[must_use]
    pub fn short_name(&self, staff: usize, player: usize) -> String {
        let Some(view) = self.staves.get(staff) else { return String::new() };
        let number = view.players.get(player).map(|own| own.staff.number(player));
        match number.filter(|_| view.players.len() > 1) {
            Some(number) => format!("{} {number}", view.uncounted()),
            None => view.uncounted().to_owned(),
        }
    }

    /// Whether one player has the page to himself.
    #[must_use]
    pub fn is_alone(&self) -> bool {
        self.staves.len() == 1 && self.staves.iter().all(|staff| staff.players.len() == 1)
    }

    /// The number of the bar of the selected column; `None` where no bars are known, or it has none.
    #[must_use]
    pub fn selected_bar(&self) -> Option<BarNumber> {
        let selected = self.voice(self.staff, self.player)?.selected?;
        let bars = self.staves.first()?.bars.get(..=selected)?;
        bars.iter().rev().find_map(|bar| *bar).filter(|bar| *bar != BarNumber::NONE)
    }

    /// How many columns there are.
    #[must_use]
    pub fn columns(&self) -> usize {
        self.voice(0, 0).map_or(0, |view| view.columns.len())
    }
}

/// What the views of all players are made of.
struct Part<'a> {
    page: &'a ReadPage,
    sounds: &'a Sounds,
    in_hand: Option<&'a StaffLabel>,
    names: Names,
}

impl StaffView {
    /// Its label without the number of players before it.
    #[must_use]
    pub fn uncounted(&self) -> &str {
        let name = self.label.trim_start_matches(|letter: char| letter.is_ascii_digit() || letter == ' ');
        if name.is_empty() { &self.label } else { name }
    }

    fn of(part: &Part<'_>, at: usize, staff: &Staff, resolved: &Arc<ResolvedStaff>) -> Self {
        let columns = part.page.passage.columns().iter();
        let players = (0..staff.players()).map(|player| View::of_player(part, (at, player), resolved));
        let names = (0..staff.players()).map(|player| {
            if staff.players() == 1 {
                staff.label.clone()
            } else {
                words::staves::player(&staff.label, resolved.number(player))
            }
        });
        Self {
            label: staff.label.clone(),
            players: players.collect(),
            names: names.collect(),
            together: staff.cells().iter().map(Cell::is_together).collect(),
            directions: directions(staff, resolved),
            bars: columns
                .map(|column| column.bar.map(|bar| if at == 0 { bar } else { BarNumber::NONE }))
                .collect(),
            gap: None,
        }
    }
}

impl View {
    /// The view of what is selected on a page.
    #[must_use]
    pub fn of(page: &ReadPage) -> Self {
        PageView::of(page, Names::default()).current()
    }

    fn of_player(part: &Part<'_>, (at, player): (usize, usize), staff: &Arc<ResolvedStaff>) -> Self {
        let passage = &part.page.passage;
        let columns = passage.columns().iter().enumerate().filter_map(|(column, own)| {
            let event = passage.event(at, column, player)?;
            let changes = passage.staves().get(at)?.changes().iter();
            let here = |change: &&Change| {
                change.column == column && change.player.is_none_or(|other| other == player)
            };
            let said = words::changes::said(&changes.filter(here).collect::<Vec<_>>(), own, part.names);
            let note = part.sounds.note(at, column, player);
            let place = note.and_then(|note| staff.place_at(note.onset, player));
            let stroke = place.is_some_and(|place| !place.staff.is_pitched());
            Some(ColumnView::of(event, note, stroke, &said, part.names))
        });
        Self {
            columns: columns.collect(),
            player,
            in_hand: part.in_hand.cloned(),
            selected: part.page.selected,
            staff: Arc::clone(staff),
            names: part.names,
        }
    }

    /// How it is printed and read in a column; `None` where its label names no staff.
    #[must_use]
    pub fn place_at(&self, column: usize) -> Option<&Place> {
        self.staff.place_at(column, self.player)
    }

    /// How it is printed and read at its beginning.
    #[must_use]
    pub fn start(&self) -> Option<&Place> {
        self.place_at(0)
    }

    /// How it is printed and read where the reader is: in the selected column, else in the last.
    #[must_use]
    pub fn here(&self) -> Option<&Place> {
        self.place_at(self.selected.unwrap_or(self.columns.len().saturating_sub(1)))
    }

    /// Clef and signature in a column; the treble clef and none where the label names no staff.
    #[must_use]
    pub fn head_at(&self, column: usize) -> (Clef, Signature) {
        let place = self.place_at(column);
        place.map_or((Clef::TREBLE, Signature::NONE), |place| (place.habits.clef, place.signature))
    }

    /// The selected column.
    #[must_use]
    pub fn selected_column(&self) -> Option<&ColumnView> {
        self.columns.get(self.selected?)
    }

    /// The drums that the label names, where the selected note is none of them.
    #[must_use]
    pub fn other_drums(&self) -> Option<&[Tonic]> {
        let sounding = self.selected_column()?.reading.as_ref()?.sounding;
        let staff = &self.here()?.staff;
        staff.has_no_drum_for(sounding).then_some(staff.drums.as_slice())
    }

    /// Horn or trumpet, where the staff has a natural series where the reader is.
    #[must_use]
    pub fn natural_family(&self) -> Option<CrookFamily> {
        self.here()?.staff.natural_family()
    }

    /// A place on the printed staff in a column, read: what would be heard there.
    #[must_use]
    pub fn try_place(&self, page: &ReadPage, column: usize, at: StaffPosition) -> (Printed, Option<Reading>) {
        match self.place_at(column) {
            Some(place) => {
                let printed = place.printed_at(at);
                let pitched = Some(place).filter(|place| place.staff.is_pitched());
                (printed, pitched.map(|place| place.read(printed, page.intonation, self.in_hand.as_ref())))
            }
            None => (Printed(Clef::TREBLE.pitch_at(at)), None),
        }
    }

    /// What must be printed in a column for a pitch to sound, as the trade prints it; `None` where the label names no
    /// staff, or one without pitch.
    #[must_use]
    pub fn write_sounding(
        &self,
        page: &ReadPage,
        column: usize,
        sounding: Sounding,
    ) -> Option<(Printed, Reading)> {
        let place = self.place_at(column).filter(|place| place.staff.is_pitched())?;
        let writing = place.write(sounding, page.intonation, self.in_hand.as_ref());
        let printed = writing.also_printed.unwrap_or(writing.strict.printed);
        Some((printed, place.read(printed, page.intonation, self.in_hand.as_ref())))
    }

    /// The lowest and highest places a tap may mean in a column: as far as the instrument goes, and a little.
    #[must_use]
    pub fn reach(&self, column: usize) -> (StaffPosition, StaffPosition) {
        let Some(place) = self.place_at(column) else { return (StaffPosition(-8), StaffPosition(16)) };
        let (low, high) = written_range(&place.staff);
        let printed = |pitch: Pitch| place.notation().printed(crookwise_theory::Written(pitch)).0;
        let clef = place.habits.clef;
        let low = clef.position(printed(low)).0.min(-4);
        let high = clef.position(printed(high)).0.max(12);
        (StaffPosition(low.max(-24)), StaffPosition(high.min(30)))
    }
}

/// A staff of a page, its labels decoded or remembered.
#[must_use]
pub fn resolved(page: &ReadPage, staff: usize) -> ResolvedStaff {
    ResolvedStaff::with(&page.passage, staff, &mut |label| decoded(label, page.year))
}

/// What stands over a staff at each of its columns.
fn directions(staff: &Staff, resolved: &ResolvedStaff) -> Vec<Vec<String>> {
    let mut directions = vec![Vec::new(); staff.cells().len()];
    for change in staff.changes() {
        if let (ChangeTo::Label(text), Some(here)) = (&change.to, directions.get_mut(change.column)) {
            let number = change.player.map(|player| resolved.number(player));
            here.push(words::changes::direction(text, number));
        }
    }
    directions
}

/// The written range of an instrument as its table row has it, from the lowest pitch named there to the highest.
fn written_range(staff: &StaffLabel) -> (Pitch, Pitch) {
    let wide = (Pitch::natural(crookwise_theory::Step::C, 3), Pitch::natural(crookwise_theory::Step::C, 6));
    if staff.crook_family() == Some(CrookFamily::Horn) {
        // The factitious G2 of low horns (Grove 1879) up to partial 16.
        return (Pitch::natural(crookwise_theory::Step::G, 2), wide.1);
    }
    let named = || {
        staff.instrument.range.split(['–', ' ', '(', ')', '/']).filter_map(|word| word.parse::<Pitch>().ok())
    };
    match (named().min_by_key(|pitch| pitch.semitones()), named().max_by_key(|pitch| pitch.semitones())) {
        (Some(low), Some(high)) if low != high => (low, high),
        _ => wide,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_share::Link;

    fn view(link: &str) -> View {
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        View::of(&page)
    }

    #[test]
    fn columns_are_named() {
        let view = view("/read?staff=Corni+in+Es&notes=E5._.-.A4&at=1");
        let names: Vec<&str> = view.columns.iter().map(|column| column.name.as_str()).collect();
        assert_eq!(names[0], "written E5, sounds G4, partial 10, 14 cents flat");
        assert_eq!(names[1], "held: written E5, sounds G4, partial 10, 14 cents flat");
        assert_eq!(names[2], "rest");
        assert!(view.selected_column().is_some());
    }

    #[test]
    fn a_bar_is_said_before_all_else_and_known_in_every_column_of_it() {
        let link =
            "/read?staff=Corni+in+Es&notes=E5.C5.D5.-&muta=3_in+D&staff=Viola&notes=C4&bars=1_66.3.4_-";
        let whole = |at: usize| {
            let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
            PageView::of(&ReadPage { selected: Some(at), ..*page }, Names::default())
        };
        let names = |staff: usize| {
            whole(0)
                .voice(staff, 0)
                .unwrap()
                .columns
                .iter()
                .map(|column| column.name.clone())
                .collect::<Vec<_>>()
        };
        assert!(names(0)[0].starts_with("bar 66: written E5"), "{:?}", names(0));
        assert!(names(0)[1].starts_with("written C5"));
        assert!(names(0)[2].starts_with("bar 67; muta in D: written D5"), "{:?}", names(0));
        assert_eq!((names(0)[3].as_str(), names(1)[2].as_str()), ("new bar: rest", "bar 67: rest"));
        let bar = |at| whole(at).selected_bar().map(|bar| bar.to_string());
        assert_eq!(
            [bar(0), bar(1), bar(2), bar(3)],
            [Some("66".into()), Some("66".into()), Some("67".into()), None]
        );
        // Numbers stand over the first staff, lines through all.
        let numbers = |staff: usize| {
            whole(0).staves[staff].bars.iter().map(|bar| bar.map(|bar| bar.to_string())).collect::<Vec<_>>()
        };
        assert_eq!(numbers(0), [Some("66".to_owned()), None, Some("67".into()), Some(String::new())]);
        assert_eq!(numbers(1), [Some(String::new()), None, Some(String::new()), Some(String::new())]);
    }

    #[test]
    fn a_label_that_is_not_understood_keeps_the_notes() {
        let view = view("/read?staff=Xyzzyq&notes=E5");
        assert!(view.start().is_none());
        assert_eq!(view.columns[0].name, "written E5");
    }

    #[test]
    fn a_stroke_without_pitch_sounds_nothing_that_has_a_name() {
        let link = "/read?staff=Piatti&notes=E4&at=1";
        let view = view(link);
        assert!(view.start().is_some());
        assert_eq!(view.columns[0].name, "a stroke");
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        assert!(view.try_place(&page, 0, StaffPosition(0)).1.is_none());
        assert!(view.write_sounding(&page, 0, Sounding("E4".parse().unwrap())).is_none());
    }

    #[test]
    fn a_player_who_takes_up_cymbals_makes_strokes_from_there() {
        let mut page = ReadPage::of_label("Flauto");
        for column in 0..3 {
            page.passage.set(0, column, 0, Event::Note(Printed("E4".parse().unwrap()))).unwrap();
        }
        page.passage.set(0, 1, 0, Event::Held).unwrap();
        let to = ChangeTo::Label("Piatti".into());
        page.passage.set_change(0, Change { column: 2, player: None, to }).unwrap();
        let view = View::of(&page);
        assert_eq!(view.columns[1].name, "held: written E4, sounds E4");
        assert!(view.columns[2].name.ends_with(": a stroke"), "{}", view.columns[2].name);
    }

    #[test]
    fn a_tap_reaches_as_far_as_the_instrument() {
        let (low, high) = view("/read?staff=Corni+in+Es").reach(0);
        assert_eq!((low.0, high.0), (-12, 12));
        let (_, high) = view("/read?staff=Flauto").reach(0);
        assert!(high.0 >= 18);
    }
}
