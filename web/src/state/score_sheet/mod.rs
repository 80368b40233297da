//! The staff as it is laid on the screen: broken into systems, engraved, with places in pixels.

mod measures;
mod picture;
mod room;
mod specs;

use crate::state::gesture::Target;
use crate::state::laying::{drawn, laid_out};
use crate::state::reducer::Reducer;
use crate::state::view::{PageView, StaffView};
use core::ops::Range;
use crookwise_engraving::{
    Bounds, ColumnSpec, Ink, Metrics, NoteSpec, StaffSpace, StaffSpec, lay_out, place_at, svg,
};
use crookwise_score::MOST_COLUMNS;
use crookwise_share::ReadPage;
use crookwise_theory::{Pitch, StaffPosition};
use measures::Measures;
pub use picture::StaffPicture;
pub use room::Room;
use room::{FAR, Tall};
use specs::sounding_spec;
pub use specs::written_spec;

/// How far below and above the top line an empty staff keeps room, in staff spaces: notes beyond make their own.
const DEEPEST: f64 = 8.0;
const HIGHEST: f64 = -4.0;

/// The same under each other with other staves: a finger may drag a note out of the picture.
const COMPACT: (f64, f64) = (-1.5, 5.5);
/// The same for what sounds.
const SOUNDING: (f64, f64) = (-2.0, 6.0);

/// Pixels that the name of a staff takes above it, and the one of what sounds.
const NAMES: f64 = 44.0;
/// Pixels under a staff for how its notes are made: with drift, and without.
const WITH_DRIFT: f64 = 92.0;
const WITHOUT_DRIFT: f64 = 56.0;
/// The same for each player of several.
const PLAYER: f64 = 46.0;
/// The same on the wall, beside the label, and a line of the label, which has room for so many letters.
const WALL_PLAYER: f64 = 28.0;
const WALL_LINE: f64 = 33.0;
const WALL_LETTERS: usize = 17;
/// Pixels between what is written and what sounds.
const OVER_SOUNDING: f64 = 16.0;
/// The least height of a staff beside its label in the margin, which a finger must hit, in pixels.
const LABEL: f64 = 44.0;
/// What is said at the edge of a strip, in pixels.
const HINT: f64 = 24.0;

/// The whole staff in systems from top to bottom.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The systems.
    pub systems: Vec<SheetSystem>,
    /// Pixels of one staff space.
    pub scale: f64,
    /// Width of the margin with the labels of the staves, in pixels; 0 where they stand over the staves.
    pub margin: f64,
    /// Which staves stand large: all but on the wall.
    pub near: Range<usize>,
    /// Whether it runs sideways under the finger, in one strip.
    pub runs: bool,
    /// Whether the heads of its staves stay in sight while it runs: where clef and signature hold to its end.
    pub heads_stay: bool,
    /// Width of what is seen of it at once, in pixels.
    pub room: f64,
}

/// One system: the written staves over what sounds.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetSystem {
    /// Which columns it has room for; those behind the last one are empty.
    pub columns: Range<usize>,
    /// From the left end to the first column, in pixels.
    pub head: f64,
    /// Width of a column, in pixels.
    pub column: f64,
    /// The written staves in score order.
    pub written: Vec<StaffPicture>,
    /// What sounds: one staff for one player, a grand staff for several, none where no label is understood.
    pub sounding: Vec<StaffPicture>,
    metrics: Metrics,
    scale: f64,
}

impl Sheet {
    /// Lays out the staves in view with what sounds: one staff for one player, a grand staff for several.
    #[must_use]
    pub fn of(view: &PageView, page: &ReadPage, room: Room, reducer: Reducer) -> Self {
        let sounding: Vec<StaffSpec> = match view.voice(0, 0).filter(|_| view.is_alone()) {
            Some(view) => sounding_spec(view).into_iter().collect(),
            None => (reducer.0)(view, page),
        };
        Self::lay(view, sounding, room, true)
    }

    /// Lays out the written staves alone.
    #[must_use]
    pub fn written(view: &PageView, room: Room) -> Self {
        Self::lay(view, Vec::new(), room, true)
    }

    /// The same only to be looked at: without room for notes that are not there.
    #[must_use]
    pub fn shown(view: &PageView, room: Room) -> Self {
        Self::lay(view, Vec::new(), room, false)
    }

    fn lay(view: &PageView, mut sounding: Vec<StaffSpec>, room: Room, entered: bool) -> Self {
        let several = view.staves.len() > 1;
        let margin = room.margin(several);
        let tall = tall(view, sounding.len(), room);
        let near = room.near(tall, view.staff);
        let mut written: Vec<StaffSpec> = view.staves.iter().map(written_spec).collect();
        for (at, spec) in written.iter_mut().enumerate() {
            if !near.contains(&at) {
                spec.size = FAR;
            }
        }
        // Where the first staff stands small, the first large one has the numbers of the bars as well.
        if let Some((first, rest)) = written.split_first_mut() {
            let large = near.start.checked_sub(1).and_then(|at| rest.get_mut(at));
            for (column, above) in large.into_iter().flat_map(|staff| &mut staff.columns).zip(&first.columns)
            {
                column.bar.clone_from(&above.bar);
            }
        }
        // Bar lines go through what sounds as well; their numbers stand over the first staff alone.
        let bars = written.first().map(|first| first.columns.as_slice()).unwrap_or_default();
        for spec in &mut sounding {
            for (column, above) in spec.columns.iter_mut().zip(bars) {
                column.bar = above.bar.as_ref().map(|_| String::new());
            }
        }
        let staves: Vec<&StaffSpec> = written.iter().chain(&sounding).collect();
        // On the wall nothing is entered either.
        let next = usize::from(entered && !room.wall || view.columns() == 0);
        let slots = (view.columns() + next).min(MOST_COLUMNS);
        let (mut largest, roomy) = room.fitting(tall);
        let (Measures { scale, systems }, written_frames, sounding_frames) = loop {
            let measures = Measures::of(&staves, slots, (tall, largest), room, room.width - margin);
            let Measures { scale, systems } = &measures;
            let beside = if margin > 0.0 && room.height.is_some() { LABEL / scale } else { 0.0 };
            let frames = Frames { systems, several, roomy: roomy && entered, beside };
            let of_staves = written.iter().zip(&view.staves);
            let written: Vec<Bounds> = of_staves.map(|(spec, staff)| frames.written(spec, staff)).collect();
            let sounding: Vec<Bounds> = sounding.iter().map(|spec| frames.sounding(spec)).collect();
            // The class sees a whole system, also where notes stand far from their staves.
            let pixels = || high(view, &near, (&written, &sounding), *scale);
            match Some(*scale).filter(|_| margin > 0.0).and_then(|scale| room.smaller(scale, pixels())) {
                Some(smaller) => largest = smaller,
                None => break (measures, written, sounding),
            }
        };
        let changes = |column: &ColumnSpec| column.clef_change.is_some() || column.signature_change.is_some();
        let heads_stay = room.runs() && !staves.iter().any(|spec| spec.columns.iter().any(changes));
        let lay = |(columns, metrics): &(Range<usize>, Metrics)| {
            let head = |spec: &StaffSpec, frame: &Bounds| {
                let frame = Bounds { right: StaffSpace(metrics.head.0 / spec.size), ..*frame };
                drawn(spec, &(0..0), metrics, frame, scale * spec.size)
            };
            let picture = |(spec, frame): (&StaffSpec, &Bounds)| StaffPicture {
                svg: drawn(spec, columns, metrics, *frame, scale * spec.size),
                head: heads_stay.then(|| head(spec, frame)),
                frame: *frame,
                rights: StaffPicture::rights(spec, columns, metrics, scale * spec.size),
                first: columns.start,
                heads: columns.clone().map(|column| spec.in_force(column)).collect(),
            };
            SheetSystem {
                head: metrics.head.0 * scale,
                column: metrics.column.0 * scale,
                written: written.iter().zip(&written_frames).map(picture).collect(),
                sounding: sounding.iter().zip(&sounding_frames).map(picture).collect(),
                columns: columns.clone(),
                metrics: metrics.clone(),
                scale,
            }
        };
        Self {
            systems: systems.iter().map(lay).collect(),
            scale,
            margin,
            near,
            runs: room.runs(),
            heads_stay,
            room: room.width,
        }
    }

    /// Width of what stays at the left while the strip runs, in pixels.
    #[must_use]
    pub fn still(&self) -> f64 {
        self.systems.first().map_or(0.0, |system| if self.heads_stay { system.head } else { 0.0 })
    }
}

impl SheetSystem {
    /// The column under x in pixels, as it is counted in the passage: behind the last one it is the next.
    #[must_use]
    pub fn column_at(&self, x: f64, columns: usize) -> Option<usize> {
        let x = StaffSpace(x / self.scale);
        if x < self.metrics.head {
            return None;
        }
        let last = self.columns.len().saturating_sub(1);
        let at = self.metrics.column_at(x, self.columns.len()).unwrap_or(last);
        Some((self.columns.start + at).min(columns))
    }

    /// A staff of the system.
    #[must_use]
    pub fn picture(&self, on: Target) -> Option<&StaffPicture> {
        match on {
            Target::Written(staff) => self.written.get(staff),
            Target::Sounding(staff) => self.sounding.get(staff),
        }
    }

    /// The place on a staff under y in pixels from the top of its picture.
    #[must_use]
    pub fn place_at(&self, on: Target, y: f64) -> StaffPosition {
        let top = self.picture(on).map_or(StaffSpace::ZERO, |picture| picture.frame.top);
        place_at(StaffSpace(y / self.scale + top.0))
    }

    /// How far a place on a staff is below the upper edge of its picture, in pixels.
    #[must_use]
    pub fn height_of(&self, on: Target, place: StaffPosition) -> f64 {
        let top = self.picture(on).map_or(0.0, |picture| picture.frame.top.0);
        (4.0 - f64::from(place.0) / 2.0 - top) * self.scale
    }

    /// How far the heads of a column reach to the right of its middle, in pixels: what stands beside them begins there.
    #[must_use]
    pub fn right_of_heads(&self, on: Target, column: usize) -> f64 {
        let at = column.checked_sub(self.columns.start);
        let right = self.picture(on).and_then(|picture| picture.rights.get(at?).copied());
        right.unwrap_or_default()
    }

    /// The left edge of a column in pixels, where the system shows it.
    #[must_use]
    pub fn left(&self, column: usize) -> Option<f64> {
        let at = column.checked_sub(self.columns.start).filter(|&at| at < self.columns.len())?;
        Some(self.metrics.left(at).0 * self.scale)
    }

    /// Room for a bar line and a change before a column, in pixels.
    #[must_use]
    pub fn room_before(&self, column: usize) -> f64 {
        let room = column.checked_sub(self.columns.start).and_then(|at| self.metrics.before.get(at));
        room.map_or(0.0, |room| room.whole().0 * self.scale)
    }

    /// Its width, in pixels.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.metrics.width(self.columns.len()).0 * self.scale
    }

    /// A note that is only tried, laid over a staff.
    #[must_use]
    pub fn tried(&self, on: Target, column: usize, pitch: Pitch) -> String {
        let Some(picture) = self.picture(on) else { return String::new() };
        let (clef, signature) = picture.head_at(column);
        let mut spec = StaffSpec::new(clef, signature);
        spec.parts = crookwise_engraving::Parts::Notes;
        spec.ink = Ink::Ghost;
        spec.columns = vec![ColumnSpec::default(); column];
        spec.columns.push(ColumnSpec { notes: vec![NoteSpec::new(pitch)], ..ColumnSpec::default() });
        let drawing = lay_out(&spec, self.columns.clone(), &self.metrics).drawing;
        svg::write(
            &drawing,
            &svg::SvgOptions { frame: Some(picture.frame), scale: Some(self.scale), ..Default::default() },
        )
    }
}

/// What stands on the page from top to bottom.
fn tall(view: &PageView, sounding: usize, room: Room) -> Tall {
    let wide = view.staves.first().map_or(COMPACT, reach_of);
    let height = |(top, bottom): (f64, f64)| bottom - top;
    // Some of many staves have notes that make their own room.
    let close = height(COMPACT) + if view.staves.len() > 1 { 0.5 } else { 0.0 };
    let players: usize = view.staves.iter().map(|staff| staff.players.len()).sum();
    let natural = view.voice(0, 0).is_some_and(|view| view.natural_family().is_some());
    let beside = room.margin(view.staves.len() > 1) > 0.0;
    let between = match (view.is_alone(), natural) {
        _ if beside => 0.0,
        (true, true) => WITH_DRIFT,
        (true, false) => WITHOUT_DRIFT,
        (false, _) => PLAYER * players as f64,
    };
    let hint = if room.runs() { HINT } else { 0.0 };
    Tall {
        written: view.staves.len(),
        sounding,
        staff: (height(wide), close),
        sounding_staff: height(SOUNDING) + 0.5,
        pixels: NAMES + between + hint,
    }
}

/// How many pixels a system of staves beside their labels takes on the wall, with what its players are told by.
fn high(
    view: &PageView,
    near: &Range<usize>,
    (written, sounding): (&[Bounds], &[Bounds]),
    scale: f64,
) -> f64 {
    let staff = |(at, (frame, staff)): (usize, (&Bounds, &StaffView))| {
        let size = if near.contains(&at) { 1.0 } else { FAR };
        let players = WALL_PLAYER * staff.players.len() as f64;
        let lines = if staff.label.chars().count() > WALL_LETTERS { 2.0 } else { 1.0 };
        (frame.height().0 * scale).max(players).max(WALL_LINE * lines).max(LABEL) * size
    };
    let written: f64 = written.iter().zip(&view.staves).enumerate().map(staff).sum();
    written + OVER_SOUNDING + sounding.iter().map(|frame| frame.height().0 * scale).sum::<f64>()
}

/// How far above and below its top line a written staff has room, in staff spaces: as far as its instrument goes.
fn reach_of(staff: &StaffView) -> (f64, f64) {
    let (low, high) =
        staff.players.first().map_or((StaffPosition(-4), StaffPosition(12)), |view| view.reach(0));
    let y = |place: StaffPosition| 4.0 - f64::from(place.0) / 2.0;
    ((y(high) - 1.0).clamp(HIGHEST, -2.5), (y(low) + 1.0).clamp(6.5, DEEPEST))
}

/// What the pictures of all systems show alike.
struct Frames<'a> {
    systems: &'a [(Range<usize>, Metrics)],
    several: bool,
    /// Whether there is room for notes that are not there yet.
    roomy: bool,
    /// The least height of a written staff, in staff spaces.
    beside: f64,
}

impl Frames<'_> {
    fn of(&self, spec: &StaffSpec, top: f64, bottom: f64) -> Bounds {
        let width = self.systems.first().map_or(0.0, |(columns, metrics)| metrics.width(columns.len()).0);
        let width = width / spec.size;
        self.systems.iter().fold(Bounds::new(0.0, top, width, bottom), |frame, (columns, metrics)| {
            frame.union(laid_out(spec, columns, metrics).bounds)
        })
    }

    /// Room for a pointer as far as the instrument goes, where there is so much.
    fn written(&self, spec: &StaffSpec, staff: &StaffView) -> Bounds {
        if !self.several && self.roomy {
            let (top, bottom) = reach_of(staff);
            return self.of(spec, top, bottom);
        }
        let more = ((self.beside - (COMPACT.1 - COMPACT.0)) / 2.0).max(0.0);
        self.of(spec, COMPACT.0 - more, COMPACT.1 + more)
    }

    fn sounding(&self, spec: &StaffSpec) -> Bounds {
        self.of(spec, SOUNDING.0, SOUNDING.1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::reduced::grand_staff;
    use crookwise_share::Link;
    use crookwise_theory::Clef;

    fn view(link: &str) -> PageView {
        PageView::of(&page(link), crate::words::Names::default())
    }

    fn page(link: &str) -> ReadPage {
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        *page
    }

    #[test]
    fn columns_are_wide_enough_for_a_finger_and_fill_the_sheet() {
        let notes = ["C5"; 40].join(".");
        let link = format!("/read?staff=Corni+in+Es&key=Eb+major&notes={notes}");
        let (view, page) = (view(&link), page(&link));
        for width in [300.0, 358.0, 700.0, 788.0, 1000.0, 1500.0] {
            let sheet = Sheet::of(&view, &page, Room::wide(width), Reducer(grand_staff));
            assert!(sheet.systems.iter().all(|system| system.column >= 44.0), "{width}");
            let shown: usize = sheet.systems.iter().map(|system| system.columns.len()).sum();
            assert!(shown > 40);
            let system = &sheet.systems[0];
            assert!((system.head + system.column * system.columns.len() as f64 - width).abs() < 1.0);
        }
    }

    #[test]
    fn nothing_moves_when_the_notes_of_what_sounds_come() {
        let link = "/read?key=Eb+major&bars=1_66.2&staff=2+Corni+in+Es&players=2&notes=C5.E5&notes2=G4.C5\
            &staff=Viola&notes=Bb3.Eb4";
        let (view, page) = (view(link), page(link));
        for (width, height) in [(358.0, 640.0), (748.0, 694.0), (1130.0, 620.0)] {
            let room = Room { height: Some(height), ..Room::wide(width) };
            let [awaited, here] = [Reducer::AWAITED, Reducer(grand_staff)]
                .map(|reducer| Sheet::of(&view, &page, room, reducer));
            assert_eq!((awaited.scale, awaited.margin, &awaited.near), (here.scale, here.margin, &here.near));
            assert_eq!(awaited.systems.len(), here.systems.len());
            for (awaited, here) in awaited.systems.iter().zip(&here.systems) {
                let frames =
                    |staves: &[StaffPicture]| staves.iter().map(|staff| staff.frame).collect::<Vec<_>>();
                assert_eq!((awaited.head, awaited.column), (here.head, here.column), "{width}");
                assert_eq!(awaited.written, here.written, "{width}");
                assert_eq!(frames(&awaited.sounding), frames(&here.sounding), "{width}");
                assert_eq!(awaited.metrics, here.metrics, "{width}");
                // The five lines and one between the bars.
                let inks =
                    awaited.sounding[0].svg.split("<g class=").filter(|ink| ink.starts_with("\"ink-staff\""));
                assert_eq!(inks.map(|ink| ink.matches("<rect").count()).sum::<usize>(), 6, "{width}");
            }
        }
    }

    #[test]
    fn what_is_only_looked_at_has_no_empty_system() {
        let view = view("/read?staff=2+Clarinetti+in+B&notes=C5.E5.G5.E5.C5");
        for width in 150..600 {
            let sheet = Sheet::shown(&view, Room::wide(f64::from(width)));
            let shown: Vec<_> = sheet.systems.iter().map(|system| system.columns.clone()).collect();
            assert!(shown.iter().all(|columns| columns.start < 5), "{width}: {shown:?}");
        }
    }

    #[test]
    fn a_page_of_twelve_staves_stands_in_one_window() {
        let notes = ["C5.E5.Fs5.D5.C5.Bb4.A4.G4", "C6.D6.E6.F6.G5.A5.Bb5.C6"];
        let staff = |at: usize| format!("staff=Corni+in+Es&notes={}", notes[at % 2]);
        let link = format!("/read?key=D+major&{}", (0..12).map(staff).collect::<Vec<_>>().join("&"));
        let room = Room { height: Some(694.0), ..Room::wide(748.0) };
        let sheet = Sheet::of(&view(&link), &page(&link), room, Reducer(grand_staff));
        assert_eq!(sheet.systems.len(), 1, "{} of {}", sheet.systems[0].columns.len(), sheet.scale);
        assert!(sheet.scale >= 5.0);
    }

    #[test]
    fn on_the_wall_eight_staves_stand_large_and_the_others_under_their_columns() {
        let link = format!("/read?key=D+major&{}", ["staff=Corni+in+Es&notes=C5.E5"; 16].join("&"));
        let room = Room { height: Some(560.0), wall: true, ..Room::wide(1200.0) };
        let mut view = view(&link);
        for (selected, near) in [(0, 0..8), (4, 0..8), (5, 1..9), (11, 7..15), (15, 8..16)] {
            view.staff = selected;
            let sheet = Sheet::written(&view, room);
            assert_eq!(sheet.near, near);
            let system = &sheet.systems[0];
            let width = |staff: usize, size: f64| system.written[staff].frame.width().0 * sheet.scale * size;
            for staff in 0..16 {
                let size = if near.contains(&staff) { 1.0 } else { FAR };
                assert!((width(staff, size) - system.width()).abs() < 0.1, "{selected} {staff}");
            }
        }
        // The numbers of bars are read from the back row: over the first large staff too.
        let barred = format!("{link}&bars=1_66");
        for (selected, numbered) in [(1, &[0][..]), (9, &[0, 5])] {
            let page = ReadPage { staff: selected, ..page(&barred) };
            let view = PageView::of(&page, crate::words::Names::default());
            let sheet = Sheet::of(&view, &page, room, Reducer(grand_staff));
            let written = sheet.systems[0].written.iter().enumerate();
            let with: Vec<usize> =
                written.filter(|(_, staff)| staff.svg.contains(">66</text>")).map(|(at, _)| at).collect();
            assert_eq!(with, numbered, "{selected} {:?}", sheet.near);
        }
        let near = |room: Room, staves: usize| {
            let link =
                format!("/read?key=D+major&{}", ["staff=Corni+in+Es&notes=C5.E5"; 16][..staves].join("&"));
            let mut page = page(&link);
            page.staff = staves - 1;
            let view = PageView::of(&page, crate::words::Names::default());
            Sheet::of(&view, &page, room, Reducer(grand_staff)).near
        };
        assert_eq!((near(room, 8), near(room, 9)), (0..8, 1..9));
        assert_eq!(near(Room { wall: false, ..room }, 16), 0..16);
        // Where all can be read all are of one size.
        let high = Room { height: Some(950.0), ..room };
        assert_eq!((near(high, 11), near(high, 16)), (0..11, 8..16));
    }

    #[test]
    fn a_place_in_pixels_is_the_place_on_the_staff() {
        let link = "/read?staff=Corni+in+Es&notes=C5.E5";
        let sheet = Sheet::of(&view(link), &page(link), Room::wide(700.0), Reducer(grand_staff));
        let system = &sheet.systems[0];
        let y = |place: i32| (4.0 - f64::from(place) / 2.0 - system.written[0].frame.top.0) * sheet.scale;
        for place in -12..=12 {
            assert_eq!(system.place_at(Target::Written(0), y(place)), StaffPosition(place));
        }
        assert_eq!(system.column_at(system.head - 1.0, 2), None);
        assert_eq!(system.column_at(system.head + 1.0, 2), Some(0));
        assert_eq!(system.column_at(690.0, 2), Some(2));
    }

    #[test]
    fn a_change_makes_room_and_stays_with_its_column() {
        let notes = ["C4"; 30].join(".");
        let link = format!(
            "/read?staff=Corni+in+Es&notes={notes}&muta=4_in+D&clef=6_F4&clef=20_G2&key=Eb+major\
            &signature=8_movement"
        );
        for width in [358.0, 700.0, 1100.0] {
            let sheet = Sheet::of(&view(&link), &page(&link), Room::wide(width), Reducer(grand_staff));
            for system in &sheet.systems {
                assert!(system.width() <= width + 1.0 && system.column >= 44.0, "{width}");
                for column in system.columns.clone() {
                    let left = system.left(column).unwrap();
                    assert_eq!(system.column_at(left + 1.0, 99), Some(column));
                    // The room of a change belongs to the column behind it.
                    let room = system.room_before(column);
                    assert_eq!(system.column_at(left - room + 1.0, 99), Some(column), "{width} {column}");
                    let clef = system.picture(Target::Written(0)).unwrap().head_at(column).0;
                    assert_eq!(clef, if (5..19).contains(&column) { Clef::BASS } else { Clef::TREBLE });
                }
            }
            let texts: usize =
                sheet.systems.iter().map(|one| one.written[0].svg.matches("muta in D").count()).sum();
            assert_eq!(texts, 1);
            let rooms = |system: &SheetSystem| system.columns.clone().any(|at| system.room_before(at) > 8.0);
            assert!(sheet.systems.iter().any(rooms));
        }
    }

    #[test]
    fn bar_lines_go_through_all_staves_and_their_numbers_stand_over_the_first() {
        let notes = ["Fs3"; 24].join(".");
        let link = format!(
            "/read?staff=Corni+in+Es&notes={notes}&clef=6_F4&staff=Viola&notes={notes}&signature=9_3&bars=1_66.6.9.13.20_67a"
        );
        let plain = link.replace("&bars=1_66.6.9.13.20_67a", "");
        for width in [358.0, 700.0, 1100.0, 1860.0] {
            let sheet =
                |link: &str| Sheet::of(&view(link), &page(link), Room::wide(width), Reducer(grand_staff));
            let numbers = |picture: &StaffPicture| {
                let all = ["66", "67", "68", "69", "67a"];
                all.iter()
                    .map(|number| picture.svg.matches(&format!(">{number}</text>")).count())
                    .sum::<usize>()
            };
            let (mut first, mut others) = (0, 0);
            for system in &sheet(&link).systems {
                assert!(system.width() <= width + 1.0 && system.column >= 44.0, "{width}");
                let pictures = system.written.iter().chain(&system.sounding);
                first += numbers(&system.written[0]);
                others += pictures.clone().skip(1).map(numbers).sum::<usize>();
                // What lies between the lines of one staff lies there on all.
                let rects = |picture: &StaffPicture| {
                    let parts = picture.svg.split("<rect ").skip(1);
                    parts
                        .filter(|part| part.contains("height=\"4\""))
                        .map(|part| part.split(' ').next().map(str::to_owned))
                        .collect::<Vec<_>>()
                };
                let lines: Vec<_> = pictures.map(rects).collect();
                assert!(lines.iter().all(|other| *other == lines[0]), "{width} {lines:?}");
                let begun = system.columns.clone().skip(1).filter(|at| [5, 8, 12, 19].contains(at)).count();
                let ends = usize::from([5, 8, 12, 19].contains(&system.columns.end));
                assert_eq!(lines[0].len(), begun + ends, "{width}");
            }
            assert_eq!((first, others), (5, 0), "{width}");
            assert!(sheet(&plain).systems.iter().all(|system| !system.written[0].svg.contains("</text>")));
        }
    }

    #[test]
    fn labels_of_several_staves_stand_in_the_margin_where_there_is_room() {
        let link = "/read?staff=Corni+in+Es&notes=C5.E5&staff=Viola&notes=C4.D4";
        for (width, margin) in [(390.0, 0.0), (760.0, 168.0), (1300.0, 224.0)] {
            let sheet = Sheet::of(&view(link), &page(link), Room::wide(width), Reducer(grand_staff));
            let system = &sheet.systems[0];
            assert!((sheet.margin - margin).abs() < 1e-9);
            let all = margin + system.head + system.column * system.columns.len() as f64;
            assert!((all - width).abs() < 1.0);
        }
    }

    #[test]
    fn what_sounds_low_stands_in_the_bass_clef() {
        let clef = |link: &str| sounding_spec(&view(link).current()).unwrap().clef;
        assert_eq!(clef("/read?staff=Corni+in+Es&notes=C5.E5"), Clef::TREBLE);
        assert_eq!(clef("/read?staff=Corni+in+C&notes=C4.G3"), Clef::BASS);
        assert_eq!(clef("/read?staff=Contrabbasso"), Clef::BASS);
    }
}
