//! What stands between the staves at each column.

use crate::state::view::PageView;
use crate::words;

/// Cents of half the gauge.
const GAUGE: f64 = 60.0;
/// Cents from which drift is far: about what a listener notices in a chord. From memory.
const FAR: f64 = 25.0;

/// What stands at a column.
#[derive(Clone, Debug, PartialEq)]
pub struct NoteCell {
    /// What it is called aloud.
    pub name: String,
    /// The number of the partial, the sign of the hand, or what sounds.
    pub mark: String,
    /// The name of what sounds, for the wall, where the mark is another.
    pub sounds: Option<String>,
    /// What the mark is.
    pub kind: CellMark,
    /// The sign of the hand beside a partial.
    pub sign: &'static str,
    /// How far it drifts.
    pub drift: Option<Drift>,
    /// Whether it is selected.
    pub selected: bool,
    /// Whether its column is selected, on whatever staff.
    pub in_selected_column: bool,
    /// Whether the tabulator key stops here.
    pub in_tab_order: bool,
    /// For whom its mark speaks.
    pub marked_for: MarkedFor,
}

/// For whom of a staff a mark speaks: where all players have one note it stands there once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum MarkedFor {
    /// For its player.
    #[default]
    Himself,
    /// For all of them.
    All,
    /// For nobody: another one does.
    Nobody,
}

impl MarkedFor {
    /// Of a player's mark at a column: where all of them have one note, and make it alike, that of the first says it.
    fn of(page: &PageView, (staff, player): (usize, usize), column: usize) -> Self {
        let Some(view) = page.staves.get(staff) else { return Self::Himself };
        let together = view.together.get(column).copied().unwrap_or_default();
        let made = |other: usize| {
            let reading = page.voice(staff, other)?.columns.get(column)?.reading.as_ref()?;
            Some(reading.making.map(|making| (making.partial, making.production)).ok_or(reading.sounding))
        };
        let players = view.players.len();
        if !together || players < 2 || (1..players).any(|other| made(other) != made(0)) {
            return Self::Himself;
        }
        if player == 0 { Self::All } else { Self::Nobody }
    }

    /// Its class in the style sheet, behind that of the mark.
    #[must_use]
    pub const fn class(self) -> &'static str {
        match self {
            Self::Himself => "",
            Self::All => " once",
            Self::Nobody => " again",
        }
    }
}

/// What a mark shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CellMark {
    /// A partial.
    Partial,
    /// A note made by hand or lip, off the series.
    Hand,
    /// A note that cannot be had.
    Missing,
    /// The name of what sounds, or the cross of a stroke.
    Name,
    /// A held note.
    Held,
    /// A rest.
    Rest,
}

impl CellMark {
    /// Its class in the style sheet.
    #[must_use]
    pub const fn class(self) -> &'static str {
        match self {
            Self::Partial => "partial",
            Self::Hand => "hand",
            Self::Missing => "missing",
            Self::Name => "name",
            Self::Held => "held",
            Self::Rest => "rest",
        }
    }
}

/// Drift as a bar on a gauge.
#[derive(Clone, Debug, PartialEq)]
pub struct Drift {
    /// Left end of the bar, in hundredths of the gauge.
    pub left: f64,
    /// Length of the bar, in hundredths of the gauge.
    pub width: f64,
    /// Whether it is far.
    pub far: bool,
    /// In cents.
    pub text: String,
}

impl Drift {
    fn of(cents: f64) -> Self {
        let share = cents.clamp(-GAUGE, GAUGE) / GAUGE * 50.0;
        Self {
            left: 50.0 + share.min(0.0),
            width: share.abs(),
            far: cents.abs() >= FAR,
            text: words::signed_cents(cents),
        }
    }
}

impl NoteCell {
    /// What stands at a column for a player of a staff; `None` behind the last one.
    #[must_use]
    pub fn of(page: &PageView, (staff, player): (usize, usize), column: usize) -> Option<Self> {
        let view = page.voice(staff, player)?;
        let shown = view.columns.get(column)?;
        let here = page.staff == staff && page.player == player;
        let selected = here && view.selected == Some(column);
        let base = Self {
            name: shown.name.clone(),
            mark: String::new(),
            sounds: None,
            kind: CellMark::Rest,
            sign: "",
            drift: None,
            selected,
            in_selected_column: view.selected == Some(column),
            // The tabulator key stops once at each player's notes.
            in_tab_order: selected || (!(here && view.selected.is_some()) && column == 0),
            marked_for: MarkedFor::of(page, (staff, player), column),
        };
        let Some(reading) = &shown.reading else {
            let stroke = Self { mark: "×".into(), kind: CellMark::Name, ..base.clone() };
            return Some(if shown.is_stroke() && !shown.is_held() { stroke } else { base });
        };
        if shown.is_held() {
            return Some(Self { mark: "held".into(), kind: CellMark::Held, ..base });
        }
        let Some(made) = &reading.making else {
            return Some(Self { mark: page.names.note(reading.sounding.0), kind: CellMark::Name, ..base });
        };
        let base = Self { sounds: Some(page.names.note(reading.sounding.0)), ..base };
        let sign = made.production.sign();
        Some(match made.partial {
            Some(partial) => Self {
                mark: partial.number().to_string(),
                kind: CellMark::Partial,
                sign,
                drift: made.drift.map(Drift::of),
                ..base
            },
            None if made.production == crookwise_theory::Production::Unavailable => {
                Self { mark: sign.into(), kind: CellMark::Missing, ..base }
            }
            None => Self { mark: sign.into(), kind: CellMark::Hand, ..base },
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stroke_has_a_mark_and_no_pitch() {
        let link = "/read?staff=Gran+cassa&notes=C4.-.C4._";
        let Some(crookwise_share::Link::Read(page)) = crookwise_share::Link::decode(link).unwrap() else {
            panic!("{link}")
        };
        let view = PageView::of(&page, words::Names::default());
        let marks: Vec<_> = (0..4)
            .filter_map(|column| NoteCell::of(&view, (0, 0), column))
            .map(|cell| (cell.mark, cell.kind))
            .collect();
        let stroke = ("×".to_owned(), CellMark::Name);
        let none = (String::new(), CellMark::Rest);
        assert_eq!(marks, [stroke.clone(), none.clone(), stroke, none]);
    }

    #[test]
    fn what_a_horn_sounds_is_named_beside_its_partial() {
        let link = "/read?staff=2+Corni+in+Es&players=2&notes=E5._&notes2=A4.-";
        let Some(crookwise_share::Link::Read(page)) = crookwise_share::Link::decode(link).unwrap() else {
            panic!("{link}")
        };
        let view = PageView::of(&page, words::Names::default());
        let sounds = |player, column| NoteCell::of(&view, (0, player), column).unwrap().sounds;
        assert_eq!([sounds(0, 0), sounds(1, 0)], [Some("G4".to_owned()), Some("C4".into())]);
        assert_eq!([sounds(0, 1), sounds(1, 1)], [None, None]);
    }

    #[test]
    fn what_all_players_have_is_marked_once() {
        let link = "/read?staff=4+Corni+in+Es&players=2&notes=E5.G4&notes2=E5.C4";
        let Some(crookwise_share::Link::Read(mut page)) = crookwise_share::Link::decode(link).unwrap() else {
            panic!("{link}")
        };
        page.passage.set_together(0, 0, crookwise_theory::Printed("E5".parse().unwrap())).unwrap();
        let view = PageView::of(&page, words::Names::default());
        let marked_for = |player, column| NoteCell::of(&view, (0, player), column).unwrap().marked_for;
        assert_eq!([marked_for(0, 0), marked_for(1, 0)], [MarkedFor::All, MarkedFor::Nobody]);
        assert_eq!([marked_for(0, 1), marked_for(1, 1)], [MarkedFor::Himself, MarkedFor::Himself]);
    }

    #[test]
    fn the_bar_goes_to_the_side_of_the_drift() {
        let flat = Drift::of(-30.0);
        assert_eq!((flat.left, flat.width, flat.far), (25.0, 25.0, true));
        let sharp = Drift::of(12.0);
        assert_eq!((sharp.left, sharp.width, sharp.far), (50.0, 10.0, false));
        let beyond = Drift::of(-400.0);
        assert_eq!((beyond.left, beyond.width), (0.0, 50.0));
    }
}
