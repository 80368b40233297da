//! The notes of a column sorted onto stems, and every head on its side of its stem.

use crate::glyph::Anchor;
use crate::spec::{ColumnSpec, Head, NoteSpec, StemRule, place};
use crate::units::{Bounds, Point, StaffSpace};
use crookwise_theory::Clef;
use crookwise_theory::order::in_order;

/// Thickness of a stem (engraving default of the font).
pub(crate) const STEM: StaffSpace = StaffSpace(0.12);
/// Between the heads of two voices that cross.
const VOICE_GAP: StaffSpace = StaffSpace(0.2);

/// Where a place of the staff stands: the top line is place 8 and y = 0.
pub(crate) fn y_of(place: i32) -> StaffSpace {
    StaffSpace(f64::from(8 - place) / 2.0)
}

/// A note with its place and its side of the stem.
#[derive(Debug)]
pub(crate) struct Member<'a> {
    pub(crate) note: &'a NoteSpec,
    /// 0 is the bottom line.
    pub(crate) place: i32,
    /// 0 is the usual side of the stem, 1 the other one; more only for the same place three times.
    slot: i32,
}

/// Notes that share a stem.
#[derive(Debug)]
pub(crate) struct Voice<'a> {
    pub(crate) up: bool,
    /// Whether the direction was asked for.
    pub(crate) forced: bool,
    /// From low to high; at least one.
    pub(crate) members: Vec<Member<'a>>,
    /// The left edge of the heads on the usual side, from the middle of the column.
    x: StaffSpace,
}

impl Voice<'_> {
    pub(crate) fn lowest(&self) -> i32 {
        self.members.iter().map(|member| member.place).min().unwrap_or(4)
    }

    pub(crate) fn highest(&self) -> i32 {
        self.members.iter().map(|member| member.place).max().unwrap_or(4)
    }

    fn head_width(&self) -> StaffSpace {
        let width = |member: &Member<'_>| member.note.head.glyph().bounds().width();
        self.members.iter().map(width).fold(StaffSpace::ZERO, StaffSpace::max)
    }

    /// The origin of a head.
    pub(crate) fn head(&self, member: &Member<'_>) -> Point {
        let step = self.head_width() - STEM;
        let side = if self.up { 1.0 } else { -1.0 };
        // A narrower head still touches the stem.
        let spare = self.head_width() - member.note.head.glyph().bounds().width();
        let inset = if self.up == (member.slot == 0) { spare } else { StaffSpace::ZERO };
        let x = self.x + step * (side * f64::from(member.slot)) + inset;
        Point { x, y: y_of(member.place) }
    }

    /// The rectangle of a head.
    pub(crate) fn head_bounds(&self, member: &Member<'_>) -> Bounds {
        let at = self.head(member);
        member.note.head.glyph().bounds().shifted(at.x, at.y)
    }

    /// The left edge of the stem.
    pub(crate) fn stem_x(&self) -> StaffSpace {
        if self.up { self.x + self.head_width() - STEM } else { self.x }
    }

    fn extent(&self) -> Bounds {
        let heads = self.members.iter().map(|member| self.head_bounds(member));
        heads.reduce(Bounds::union).unwrap_or_default()
    }

    /// The members that take part in the stem.
    pub(crate) fn stemmed(&self) -> impl Iterator<Item = &Member<'_>> {
        self.members
            .iter()
            .filter(|member| member.note.head != Head::Whole && member.note.stem != StemRule::None)
    }

    /// Where the stem begins at the head farthest from its tip, and its tip.
    pub(crate) fn stem(&self) -> Option<(StaffSpace, StaffSpace)> {
        let low = self.stemmed().map(|member| member.place).min()?;
        let high = self.stemmed().map(|member| member.place).max()?;
        let head = self.stemmed().next()?.note.head.glyph();
        let (root, near, anchor) =
            if self.up { (low, high, Anchor::StemUpSe) } else { (high, low, Anchor::StemDownNw) };
        let start = y_of(root) + head.anchor(anchor).map_or(StaffSpace::ZERO, |at| at.y);
        // An octave long; to the middle line from beyond an octave; a stem forced away from the staff is shorter
        // (common practice).
        let outward = if self.up { near - 4 } else { 4 - near };
        let length = if self.forced && outward > 0 {
            StaffSpace(3.5 - 0.125 * f64::from(outward)).max(StaffSpace(2.5))
        } else {
            StaffSpace(3.5)
        };
        let tip = if self.up {
            (y_of(near) - length).min(StaffSpace(2.0))
        } else {
            (y_of(near) + length).max(StaffSpace(2.0))
        };
        Some((start, tip))
    }
}

/// Sorts the notes of a column onto one or two stems.
///
/// A single stem goes down from the middle line on and where the farthest notes are equally far (common practice).
pub(crate) fn voices(column: &ColumnSpec, clef: Clef) -> Vec<Voice<'_>> {
    let named = |rule| column.notes.iter().any(|note| note.stem == rule);
    let (any_up, any_down) = (named(StemRule::Up), named(StemRule::Down));
    let places = || column.notes.iter().map(|note| place(note.pitch, clef).0);
    let balance = places().min().unwrap_or(4) + places().max().unwrap_or(4);
    let free = match (any_up, any_down) {
        (false, false) => balance < 8,
        (true, false) => false,
        (false | true, true) => true,
    };
    let mut voices: Vec<Voice<'_>> = [true, false]
        .into_iter()
        .filter_map(|up| {
            let belongs = |note: &&NoteSpec| match note.stem {
                StemRule::Up => up,
                StemRule::Down => !up,
                StemRule::Auto | StemRule::None => up == free,
            };
            let members = column.notes.iter().filter(belongs);
            let members = members.map(|note| Member { note, place: place(note.pitch, clef).0, slot: 0 });
            let mut members = in_order(members, |member| (member.place, member.note.pitch.alter));
            take_sides(&mut members, up);
            let forced = any_up || any_down;
            (!members.is_empty()).then_some(Voice { up, forced, members, x: StaffSpace::ZERO })
        })
        .collect();
    if let [upper, lower] = voices.as_mut_slice() {
        part(upper, lower);
    }
    // The first voice's heads stand in the middle of the column.
    if let Some(half) = voices.first().map(|voice| voice.head_width() / 2.0) {
        for voice in &mut voices {
            voice.x = voice.x - half;
        }
    }
    voices
}

/// Beginning at the root of the stem, every head goes to the first side where no neighbour is in its way.
fn take_sides(members: &mut [Member<'_>], up: bool) {
    let count = members.len();
    let order = |at: usize| if up { at } else { count - 1 - at };
    for at in 0..count {
        let taken = |slot: i32| {
            (0..at).map(order).any(|other| {
                members[other].slot == slot && (members[other].place - members[order(at)].place).abs() < 2
            })
        };
        let free = (0..=at as i32).find(|&slot| !taken(slot)).unwrap_or(0);
        members[order(at)].slot = free;
    }
}

/// Sets two voices beside each other where their heads would meet.
fn part(upper: &mut Voice<'_>, lower: &mut Voice<'_>) {
    let distance = upper.lowest() - lower.highest();
    if distance >= 2 {
        return;
    }
    let root = |voice: &Voice<'_>| {
        if voice.up { voice.members.first() } else { voice.members.last() }
            .map(|member| (member.note.pitch, member.note.head, member.slot))
    };
    // A unison of two like heads is one head with two stems.
    if distance == 0 && root(upper) == root(lower) && meets_once(upper, lower) {
        return;
    }
    if distance == 1 {
        // The second: both stems in one line.
        lower.x = upper.head_width() - STEM;
    }
    if distance < 0 {
        // Voices that cross: the one with the stem upwards stands to the right.
        upper.x = lower.extent().right - upper.extent().left + VOICE_GAP;
    } else if crowded(upper, lower) {
        lower.x = StaffSpace::ZERO;
        lower.x = upper.extent().right - lower.extent().left + VOICE_GAP;
    }
}

fn crowded(upper: &Voice<'_>, lower: &Voice<'_>) -> bool {
    let lower_heads: Vec<Bounds> = lower.members.iter().map(|member| lower.head_bounds(member)).collect();
    upper.members.iter().any(|member| {
        let head = upper.head_bounds(member);
        lower_heads.iter().any(|other| {
            let touch = StaffSpace(1e-6);
            head.grown(-touch).grown(-STEM).overlaps(*other)
        })
    })
}

/// Whether two voices at the unison have one head in common and no others in each other's way.
fn meets_once(upper: &Voice<'_>, lower: &Voice<'_>) -> bool {
    let heads = |voice: &Voice<'_>| -> Vec<Bounds> {
        voice.members.iter().map(|member| voice.head_bounds(member)).collect()
    };
    let below = heads(lower);
    let meetings: Vec<(Bounds, Bounds)> = heads(upper)
        .into_iter()
        .flat_map(|head| {
            below.iter().filter(move |other| head.overlaps(**other)).map(move |other| (head, *other))
        })
        .collect();
    matches!(meetings.as_slice(), [(one, two)] if one == two)
}
