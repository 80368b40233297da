//! Timpani and tubas: the drums that are named, and the schemes of the Wagner tubas.

use super::Alternative;
use super::drafts::Draft;
use super::lexicon::lang;
use super::resolve::{Resolved, drum_key, is_english, no_such, push_row, staff};
use super::staff::StaffLabel;
use super::words::lemma;
use crate::crook::OctaveWord;
use crate::instrument::Instrument;
use crate::interval::Interval;
use crate::pitch::{Pitch, Step, Tonic};
use crate::transposition::Transposition;

/// Timpani with the drums their label names. Old scores print C and G whatever the drums are: that shift is given
/// where two drums other than C and G are named, and the reading at pitch beside it.
pub(super) fn timpani(draft: &Draft) -> Resolved {
    let mut out = Resolved::default();
    let Some(row) = Instrument::by_id("timp_old") else { return out };
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
    out.alternatives
        .push(Alternative { staff: at_pitch, reason: "the notes are printed as they sound".to_owned() });
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
    let f = Tonic::new(Step::F, 0);
    let (b_flat, e_flat) = (Tonic::new(Step::B, -1), Tonic::new(Step::E, -1));
    let wagner = draft.nouns.contains(&lemma::WAGNER);
    let bass =
        draft.duals.iter().any(|dual| dual.lemma == lemma::BASS && (dual.before_head || !dual.after_key));
    // An abbreviation is one word: the row tells which it is.
    let whole = !draft.nouns.contains(&lemma::TUBA);
    let bass = bass || (whole && taken.id.starts_with("wt_b"));
    let tenor = draft.nouns.contains(&lemma::TENOR)
        || (whole && taken.id.starts_with("wt_t"))
        || (wagner && !bass && key != Some(f));
    let basso = octave == Some(OctaveWord::Basso);
    let id = match (key, tenor) {
        (Some(key), true) if key == b_flat && basso => "wt_t_bbb",
        (Some(key), true) if key == e_flat => "wt_t_eb",
        (Some(key), true) if key == b_flat => "wt_t_bb",
        (None, true) => "wt_t_bb",
        (Some(key), false) if key == f && (bass || wagner) => "wt_b_f",
        (Some(key), false) if key == b_flat && (bass || wagner) => "wt_b_bb",
        (None, false) if bass && (wagner || whole || draft.plural) => "wt_b_f",
        (_, false) if !wagner => "tuba",
        (Some(key), _) => {
            out.problem = Some(no_such(taken, key));
            return;
        }
        (None, _) => "wt_b_f",
    };
    let Some(row) = Instrument::by_id(id) else { return };
    let own = super::habits::own_key(row);
    let lower = Transposition(row.transposition.unwrap_or_default().0 - Interval::OCTAVE);
    let transposition = if id == "wt_b_f" && basso { lower } else { row.transposition.unwrap_or_default() };
    let named = key.or(own);
    let mut made = staff(draft, row, transposition, named);
    if id == "wt_b_f" && basso {
        made.octave = Some(OctaveWord::Basso);
    }
    out.staff = Some(made);
    let scheme = |id: &str| match id {
        "wt_t_bb" | "wt_b_f" => "the scheme of Das Rheingold and of Bruckner's Seventh",
        "wt_t_bbb" => "as in Strauss's Alpensinfonie",
        "wt_t_eb" | "wt_b_bb" => "the scheme of Die Walküre and Götterdämmerung",
        _ => "an ordinary tuba, written as it sounds",
    };
    match id {
        "tuba" => {
            if bass {
                out.assumed.push("Taken as an ordinary tuba, written as it sounds.".to_owned());
                push_row(draft, "wt_b_f", "a Wagner tuba in F", out);
            }
        }
        _ => {
            out.assumed.push(format!(
                "Taken as a Wagner tuba: {}. The composers write them in three ways.",
                scheme(id)
            ));
            let open = wagner && !bass && !whole && !draft.nouns.contains(&lemma::TENOR);
            let others: &[&str] = match tenor {
                _ if open => &["wt_t_bb", "wt_t_bbb", "wt_t_eb", "wt_b_f", "wt_b_bb"],
                true => &["wt_t_bb", "wt_t_bbb", "wt_t_eb"],
                false => &["wt_b_f", "wt_b_bb"],
            };
            for other in others.iter().filter(|other| **other != id) {
                push_row(draft, other, scheme(other), out);
            }
            if id == "wt_b_f" && !basso {
                let staff = StaffLabel { octave: Some(OctaveWord::Basso), ..staff(draft, row, lower, named) };
                out.alternatives.push(Alternative { staff, reason: "F basso, as in Strauss".to_owned() });
            }
            if !wagner && !tenor {
                push_row(draft, "tuba", scheme("tuba"), out);
            }
            if tenor && draft.langs & lang::ENGLISH != 0 && !wagner {
                push_row(draft, "euph_t", "a euphonium, as British scores have it", out);
            }
        }
    }
}
