//! Timpani and tubas: the drums that are named, and the schemes of the Wagner tubas.

use super::Alternative;
use super::drafts::{Draft, Dual};
use super::habits::octave_lower;
use super::readings::{push_row, table_readings};
use super::resolve::{Resolved, drum_key, is_english, no_such, staff};
use super::staff::StaffLabel;
use super::words::lemma;
use crate::crook::OctaveWord;
use crate::instrument::{Instrument, InstrumentKind};
use crate::interval::Interval;
use crate::notation::{Scheme, Systems};
use crate::pitch::{Pitch, Step, Tonic};
use crate::tables::INSTRUMENTS;
use crate::transposition::Transposition;

/// Timpani with the drums their label names. Old scores print C and G whatever the drums are: that shift is given
/// where two drums other than C and G are named, and the reading at pitch beside it.
pub(super) fn timpani(draft: &Draft) -> Resolved {
    let mut out = Resolved::default();
    let Some(row) = INSTRUMENTS.iter().find(|row| row.has_named_drums()) else { return out };
    let mut names = draft.drums.clone();
    if names.is_empty() {
        names.extend(draft.key);
    }
    let english = is_english(draft);
    let drums: Vec<Tonic> = names.iter().map(|key| drum_key(*key, &names, english)).collect();
    if names.iter().any(|key| key.bare_b) {
        let b = drums.iter().find(|drum| drum.step == Step::B);
        out.assumed.push(match b {
            Some(drum) if drum.alter == 0 => "B is taken as B natural.".to_owned(),
            _ => "B is taken as B-flat, as in German and Italian print.".to_owned(),
        });
    }
    let shift = match drums[..] {
        // The habit is for tonic and dominant.
        [first, second] if (first.fifths() - second.fifths()).abs() != 1 => Transposition::NONE,
        [first, second] => shift(tonic_of(first, second)),
        [only] => shift(only),
        _ => Transposition::NONE,
    };
    let at_pitch = StaffLabel { drums: drums.clone(), ..staff(draft, row, Transposition::NONE, None) };
    if shift == Transposition::NONE {
        out.staff = Some(at_pitch);
        return out;
    }
    out.assumed.push(
        "Where the notes printed are only C and G, they stand for the two drums named (the habit until about 1800); \
         any other notes are taken as they sound."
            .to_owned(),
    );
    out.staff = Some(StaffLabel { transposition: shift, ..at_pitch.clone() });
    out.alternatives.push(Alternative {
        staff: at_pitch,
        of: 0,
        reason: "the notes are printed as they sound".to_owned(),
    });
    out
}

/// Which of two drums is the tonic: the one whose fifth the other is, else the first named.
fn tonic_of(first: Tonic, second: Tonic) -> Tonic {
    if first.fifths() == second.fifths().saturating_add(1) { second } else { first }
}

/// From printed C to the tonic drum: as near as the drums' range from F2 to F3 allows. Common practice.
fn shift(tonic: Tonic) -> Transposition {
    let c3 = Pitch::natural(Step::C, 3);
    let top = Pitch::natural(Step::F, 3).semitones();
    let up = Interval::between(c3, Pitch { step: tonic.step, alter: tonic.alter, octave: 3 });
    let fits = (c3 + up).semitones() <= top;
    Transposition(if fits { up } else { up - Interval::OCTAVE })
}

/// Tubas: ordinary ones sound as written, whatever key they are built in; Wagner tubas have three schemes.
pub(super) fn tuba(
    draft: &Draft,
    taken: &'static Instrument,
    key: Option<Tonic>,
    octave: Option<OctaveWord>,
    out: &mut Resolved,
) {
    let words = TubaWords::of(draft, taken, key);
    let basso = octave == Some(OctaveWord::Basso);
    let row = match words.row(key, basso) {
        TubaRow::Ordinary => INSTRUMENTS.iter().find(|row| is_plain_tuba(row)),
        TubaRow::Wagner(size, scheme) => wagner_tuba(size, scheme),
        TubaRow::NotBuilt(key) => {
            out.problem = Some(no_such(taken, key));
            return;
        }
    };
    let Some(row) = row else { return };
    let named = key.or(row.key());
    let lower = octave_lower(row);
    let usual = staff(draft, row, row.transposition.unwrap_or_default(), named);
    let low =
        lower.map(|lower| StaffLabel { octave: Some(OctaveWord::Basso), ..staff(draft, row, lower, named) });
    out.staff = Some(low.clone().filter(|_| basso).unwrap_or(usual));
    let (Some(size), Some(scheme)) = (row.systems, row.scheme) else {
        if words.bass {
            out.assumed.push("Taken as an ordinary tuba, written as it sounds.".to_owned());
            push_wagner(draft, Systems::BassWagnerTuba, Scheme::Rheingold, "a Wagner tuba in F", out);
        }
        return;
    };
    out.assumed.push(format!(
        "Taken as a Wagner tuba: {}. The composers write them in three ways.",
        scheme_words(scheme)
    ));
    for row in INSTRUMENTS.iter().filter(|other| *other != row) {
        if let (Some(other), Some(scheme)) = (row.systems, row.scheme)
            && (other == size || (words.is_open() && other != Systems::BassClarinet))
        {
            push_wagner(draft, other, scheme, scheme_words(scheme), out);
        }
    }
    if let Some(staff) = low.filter(|_| !basso) {
        out.alternatives.push(Alternative { staff, of: 0, reason: "F basso, as in Strauss".to_owned() });
    }
    if !words.wagner && !words.tenor {
        let ordinary = INSTRUMENTS.iter().find(|row| is_plain_tuba(row));
        push_row(draft, ordinary, "an ordinary tuba, written as it sounds", out);
    }
    table_readings(draft, row, key, None, out);
}

/// Whether the row is the ordinary tuba.
pub(super) fn is_plain_tuba(row: &Instrument) -> bool {
    row.kind == Some(InstrumentKind::Tuba) && row.teaches_kind
}

/// Whether the row is a Wagner tuba.
pub(super) fn is_wagner_tuba(row: &Instrument) -> bool {
    matches!(row.systems, Some(Systems::TenorWagnerTuba | Systems::BassWagnerTuba))
}

fn wagner_tuba(size: Systems, scheme: Scheme) -> Option<&'static Instrument> {
    INSTRUMENTS.iter().find(|row| row.systems == Some(size) && row.scheme == Some(scheme))
}

fn push_wagner(draft: &Draft, size: Systems, scheme: Scheme, reason: &str, out: &mut Resolved) {
    push_row(draft, wagner_tuba(size, scheme), reason, out);
}

const fn scheme_words(scheme: Scheme) -> &'static str {
    match scheme {
        Scheme::Goetterdaemmerung => "the scheme of Die Walküre and Götterdämmerung",
        Scheme::Alpensinfonie => "as in Strauss's Alpensinfonie",
        _ => "the scheme of Das Rheingold and of Bruckner's Seventh",
    }
}

/// What the words say of a tuba.
struct TubaWords {
    wagner: bool,
    bass: bool,
    tenor: bool,
    /// An abbreviation is one word: the row tells which it is.
    whole: bool,
    several: bool,
    says_tenor: bool,
}

enum TubaRow {
    Ordinary,
    Wagner(Systems, Scheme),
    NotBuilt(Tonic),
}

impl TubaWords {
    fn of(draft: &Draft, taken: &Instrument, key: Option<Tonic>) -> Self {
        let wagner = draft.nouns.contains(&lemma::WAGNER);
        let whole = !draft.nouns.contains(&lemma::TUBA);
        let is = |size| whole && taken.systems == Some(size);
        let bass_word = |dual: &Dual| dual.lemma == lemma::BASS && (dual.before_head || !dual.after_key);
        let bass = draft.duals.iter().any(bass_word) || is(Systems::BassWagnerTuba);
        let says_tenor = draft.nouns.contains(&lemma::TENOR);
        let f = Tonic::new(Step::F, 0);
        let tenor = says_tenor || is(Systems::TenorWagnerTuba) || (wagner && !bass && key != Some(f));
        Self { wagner, bass, tenor, whole, several: draft.plural, says_tenor }
    }

    /// "Wagnertuben": nothing says which size.
    const fn is_open(&self) -> bool {
        self.wagner && !self.bass && !self.whole && !self.says_tenor
    }

    fn row(&self, key: Option<Tonic>, basso: bool) -> TubaRow {
        use Scheme::{Alpensinfonie, Goetterdaemmerung, Rheingold};
        use Systems::{BassWagnerTuba, TenorWagnerTuba};
        let of = |step, alter| key == Some(Tonic::new(step, alter));
        let (f, b_flat, e_flat) = (of(Step::F, 0), of(Step::B, -1), of(Step::E, -1));
        let low = self.bass || self.wagner;
        match key {
            Some(_) if self.tenor && b_flat && basso => TubaRow::Wagner(TenorWagnerTuba, Alpensinfonie),
            Some(_) if self.tenor && e_flat => TubaRow::Wagner(TenorWagnerTuba, Goetterdaemmerung),
            Some(_) if self.tenor && b_flat => TubaRow::Wagner(TenorWagnerTuba, Rheingold),
            None if self.tenor => TubaRow::Wagner(TenorWagnerTuba, Rheingold),
            Some(_) if !self.tenor && f && low => TubaRow::Wagner(BassWagnerTuba, Rheingold),
            Some(_) if !self.tenor && b_flat && low => TubaRow::Wagner(BassWagnerTuba, Goetterdaemmerung),
            None if self.bass && (self.wagner || self.whole || self.several) => {
                TubaRow::Wagner(BassWagnerTuba, Rheingold)
            }
            _ if !self.tenor && !self.wagner => TubaRow::Ordinary,
            Some(key) => TubaRow::NotBuilt(key),
            None => TubaRow::Wagner(BassWagnerTuba, Rheingold),
        }
    }
}
