//! The staff as it is laid on the screen: broken into systems, engraved, with places in pixels.

use crate::state::view::View;
use core::ops::Range;
use crookwise_engraving::{
    AccidentalRule, Bounds, ColumnSpec, Ink, Metrics, NoteSpec, RestSpec, RestValue, StaffSpace, StaffSpec,
    head_width, lay_out, narrowest_column, place_at, svg,
};
use crookwise_score::{Event, MOST_COLUMNS};
use crookwise_theory::{Clef, Printed, Signature, StaffPosition};

/// The narrowest column a finger can hit, in pixels.
const FINGER_COLUMN: f64 = 46.0;

/// How far below and above the top line an empty staff keeps room, in staff spaces: notes beyond make their own.
const DEEPEST: f64 = 8.0;
const HIGHEST: f64 = -4.0;

/// Sizes that follow from the room there is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Width of the sheet in pixels.
    pub width: f64,
}

impl Room {
    /// Pixels of one staff space: first the size for few notes, then the one for many.
    #[must_use]
    pub fn scales(self) -> [f64; 2] {
        match self.width {
            width if width < 480.0 => [12.0, 10.0],
            width if width < 1000.0 => [15.0, 11.0],
            width if width < 1300.0 => [18.0, 14.0],
            _ => [22.0, 16.0],
        }
    }
}

/// The whole staff in systems from top to bottom.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The systems.
    pub systems: Vec<System>,
    /// Pixels of one staff space.
    pub scale: f64,
}

/// One system: the written staff over the sounding one.
#[derive(Clone, Debug, PartialEq)]
pub struct System {
    /// Which columns it has room for; those behind the last one are empty.
    pub columns: Range<usize>,
    /// From the left end to the first column, in pixels.
    pub head: f64,
    /// Width of a column, in pixels.
    pub column: f64,
    /// The written staff.
    pub written: Picture,
    /// The sounding staff; `None` where the label names no staff.
    pub sounding: Option<Picture>,
    metrics: Metrics,
    scale: f64,
}

/// A staff as SVG.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// The text.
    pub svg: String,
    /// What it shows, in staff spaces.
    pub frame: Bounds,
}

impl Sheet {
    /// Lays out the staff in view.
    #[must_use]
    pub fn of(view: &View, room: Room) -> Self {
        let written = written_spec(view);
        let sounding = sounding_spec(view);
        let staves: Vec<&StaffSpec> = core::iter::once(&written).chain(sounding.as_ref()).collect();
        let head = staves
            .iter()
            .map(|staff| head_width(staff.clef, staff.signature))
            .fold(StaffSpace::ZERO, |widest, head| if head.0 > widest.0 { head } else { widest });
        let narrowest = staves.iter().map(|staff| narrowest_column(staff).0).fold(0.0, f64::max);
        // One more than there is, for the next note.
        let slots = (view.columns.len() + 1).min(MOST_COLUMNS);
        // Few notes stand large on one system; more of them smaller, on as many as they need.
        let fits = |scale: f64| {
            let column = narrowest.max(FINGER_COLUMN / scale);
            ((((room.width / scale).max(20.0) - head.0) / column) as usize).max(1)
        };
        let [large, small] = room.scales();
        let scale = if fits(large) >= slots { large } else { small };
        let fits = fits(scale);
        let width = StaffSpace((room.width / scale).max(20.0));
        let column = StaffSpace((width - head).0 / fits as f64);
        let rows = slots.div_ceil(fits).max(1);
        let ranges: Vec<Range<usize>> = (0..rows).map(|row| row * fits..(row + 1) * fits).collect();
        let frames = Frames::of(view, &written, sounding.as_ref(), &ranges, head, column);
        let systems = ranges
            .into_iter()
            .map(|columns| {
                let metrics = Metrics { head, column, before: vec![StaffSpace::ZERO; columns.len()] };
                let picture = |spec: &StaffSpec, frame: Bounds| Picture {
                    svg: svg::write(
                        &lay_out(spec, columns.clone(), &metrics).drawing,
                        &svg::SvgOptions { frame: Some(frame), scale: Some(scale), ..Default::default() },
                    ),
                    frame,
                };
                System {
                    head: head.0 * scale,
                    column: column.0 * scale,
                    written: picture(&written, frames.written),
                    sounding: sounding.as_ref().map(|spec| picture(spec, frames.sounding)),
                    columns,
                    metrics,
                    scale,
                }
            })
            .collect();
        Self { systems, scale }
    }
}

impl System {
    /// The column under x in pixels, as it is counted in the passage: behind the last one it is the next.
    #[must_use]
    pub fn column_at(&self, x: f64, columns: usize) -> Option<usize> {
        let at = (x - self.head) / self.column;
        (at >= 0.0)
            .then(|| (self.columns.start + at as usize).min(self.columns.end.saturating_sub(1)).min(columns))
    }

    /// The place on the written staff under y in pixels from the top of its picture.
    #[must_use]
    pub fn place_at(&self, y: f64) -> StaffPosition {
        place_at(StaffSpace(y / self.scale + self.written.frame.top.0))
    }

    /// The left edge of a column in pixels, where the system shows it.
    #[must_use]
    pub fn left(&self, column: usize) -> Option<f64> {
        let at = column.checked_sub(self.columns.start).filter(|&at| at < self.columns.len())?;
        Some(self.head + self.column * at as f64)
    }

    /// A note that is only tried, laid over the written staff.
    #[must_use]
    pub fn tried(&self, view: &View, column: usize, printed: Printed) -> String {
        let (clef, signature) = written_head(view);
        let mut spec = StaffSpec::new(clef, signature);
        spec.parts = crookwise_engraving::Parts::Notes;
        spec.ink = Ink::Ghost;
        spec.columns = vec![ColumnSpec::default(); column];
        spec.columns.push(ColumnSpec { notes: vec![NoteSpec::new(printed.0)], ..ColumnSpec::default() });
        let drawing = lay_out(&spec, self.columns.clone(), &self.metrics).drawing;
        svg::write(
            &drawing,
            &svg::SvgOptions {
                frame: Some(self.written.frame),
                scale: Some(self.scale),
                ..Default::default()
            },
        )
    }
}

/// A note enlarged on a staff of its own, to stand beside a finger; `scale` in pixels of one staff space.
#[must_use]
pub fn enlarged(view: &View, printed: Printed, scale: f64) -> String {
    let (clef, signature) = written_head(view);
    let mut spec = StaffSpec::new(clef, signature);
    spec.columns = vec![ColumnSpec { notes: vec![NoteSpec::new(printed.0)], ..ColumnSpec::default() }];
    let metrics = Metrics::fit(&[&spec], 0..1, StaffSpace(6.0));
    let layout = lay_out(&spec, 0..1, &metrics);
    svg::write(&layout.drawing, &svg::SvgOptions { scale: Some(scale), ..Default::default() })
}

/// What the pictures of all systems show alike.
struct Frames {
    written: Bounds,
    sounding: Bounds,
}

impl Frames {
    fn of(
        view: &View,
        written: &StaffSpec,
        sounding: Option<&StaffSpec>,
        ranges: &[Range<usize>],
        head: StaffSpace,
        column: StaffSpace,
    ) -> Self {
        let all = |spec: &StaffSpec, least: Bounds| {
            ranges.iter().fold(least, |frame, columns| {
                let metrics = Metrics { head, column, before: vec![StaffSpace::ZERO; columns.len()] };
                frame.union(lay_out(spec, columns.clone(), &metrics).bounds)
            })
        };
        let width = (head + column * ranges.first().map_or(1, Range::len) as f64).0;
        let (low, high) = view.reach();
        let y = |place: StaffPosition| 4.0 - f64::from(place.0) / 2.0;
        let least =
            Bounds::new(0.0, (y(high) - 1.0).clamp(HIGHEST, -2.5), width, (y(low) + 1.0).clamp(6.5, DEEPEST));
        Self {
            written: all(written, least),
            sounding: sounding
                .map_or(Bounds::default(), |spec| all(spec, Bounds::new(0.0, -2.0, width, 6.0))),
        }
    }
}

/// Clef and signature of the written staff.
fn written_head(view: &View) -> (Clef, Signature) {
    view.place.as_ref().map_or((Clef::TREBLE, Signature::NONE), |place| (place.habits.clef, place.signature))
}

fn written_spec(view: &View) -> StaffSpec {
    let (clef, signature) = written_head(view);
    let mut spec = StaffSpec::new(clef, signature);
    spec.columns = view
        .columns
        .iter()
        .map(|column| column_spec(column.event, column.printed.map(|note| note.0), Ink::Written))
        .collect();
    spec
}

fn sounding_spec(view: &View) -> Option<StaffSpec> {
    let place = view.place.as_ref()?;
    let sounding =
        |column: &crate::state::view::ColumnView| column.reading.as_ref().map(|reading| reading.sounding.0);
    let pitches: Vec<_> = view.columns.iter().filter_map(sounding).collect();
    let mut spec = StaffSpec::new(sounding_clef(&pitches, place), place.sounding_signature());
    spec.ink = Ink::Sounding;
    spec.columns = view
        .columns
        .iter()
        .map(|column| column_spec(column.event, sounding(column), Ink::Sounding))
        .collect();
    Some(spec)
}

/// The clef of treble and bass in which what sounds needs fewer ledger lines.
fn sounding_clef(pitches: &[crookwise_theory::Pitch], place: &crookwise_score::Place) -> Clef {
    let middle = place.habits.clef.pitch_at(StaffPosition(4)) + place.notation().printed_to_sounding();
    let pitches = if pitches.is_empty() { core::slice::from_ref(&middle) } else { pitches };
    let ledgers = |clef: Clef| -> i32 {
        let off = |position: i32| if position < 0 { -position } else { (position - 8).max(0) };
        pitches.iter().map(|&pitch| off(clef.position(pitch).0)).sum()
    };
    if ledgers(Clef::BASS) < ledgers(Clef::TREBLE) { Clef::BASS } else { Clef::TREBLE }
}

fn column_spec(event: Event, pitch: Option<crookwise_theory::Pitch>, ink: Ink) -> ColumnSpec {
    let Some(pitch) = pitch else {
        let rest = RestSpec { ink: Some(ink), ..RestSpec::new(RestValue::Quarter) };
        return ColumnSpec { rests: vec![rest], ..ColumnSpec::default() };
    };
    let note = NoteSpec {
        tied_from_previous: event == Event::Held,
        accidental: AccidentalRule::Auto,
        ..NoteSpec::new(pitch)
    };
    ColumnSpec { notes: vec![note], ..ColumnSpec::default() }
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
    fn columns_are_wide_enough_for_a_finger_and_fill_the_sheet() {
        let notes = ["C5"; 40].join(".");
        let view = view(&format!("/read?staff=Corni+in+Es&key=Eb+major&notes={notes}"));
        for width in [300.0, 358.0, 700.0, 788.0, 1000.0, 1500.0] {
            let sheet = Sheet::of(&view, Room { width });
            assert!(sheet.systems.iter().all(|system| system.column >= 44.0), "{width}");
            let shown: usize = sheet.systems.iter().map(|system| system.columns.len()).sum();
            assert!(shown > 40);
            let system = &sheet.systems[0];
            assert!((system.head + system.column * system.columns.len() as f64 - width).abs() < 1.0);
        }
    }

    #[test]
    fn a_place_in_pixels_is_the_place_on_the_staff() {
        let view = view("/read?staff=Corni+in+Es&notes=C5.E5");
        let sheet = Sheet::of(&view, Room { width: 700.0 });
        let system = &sheet.systems[0];
        let y = |place: i32| (4.0 - f64::from(place) / 2.0 - system.written.frame.top.0) * sheet.scale;
        for place in -12..=12 {
            assert_eq!(system.place_at(y(place)), StaffPosition(place));
        }
        assert_eq!(system.column_at(system.head - 1.0, 2), None);
        assert_eq!(system.column_at(system.head + 1.0, 2), Some(0));
        assert_eq!(system.column_at(690.0, 2), Some(2));
    }

    #[test]
    fn what_sounds_low_stands_in_the_bass_clef() {
        let clef = |link: &str| sounding_spec(&view(link)).unwrap().clef;
        assert_eq!(clef("/read?staff=Corni+in+Es&notes=C5.E5"), Clef::TREBLE);
        assert_eq!(clef("/read?staff=Corni+in+C&notes=C4.G3"), Clef::BASS);
        assert_eq!(clef("/read?staff=Contrabbasso"), Clef::BASS);
    }
}
