//! Where else a mistake can be made: who takes a third for a sixth on one crook is asked on the others, too.

use super::item::Item;
use crate::mistake::Mistake;
use crookwise_theory::{ClefSign, Instrument, LikeHorn, Pitch, Step};

/// Whether the staff of an item invites a mistake. Mistakes that any staff invites concern none in particular.
pub(super) fn concerns(mistake: Mistake, item: &Item) -> bool {
    let staff = item.staff;
    let letters = i32::from(staff.steps).abs() % 7;
    let key = (Pitch::natural(Step::C, 4) + staff.transposition().0).tonic();
    let row = Instrument::by_id(staff.instrument);
    let is = |holds: fn(&Instrument) -> bool| row.is_some_and(holds);
    let family = row.and_then(|row| row.crooks);
    match mistake {
        Mistake::Direction => family.is_some() && letters != 0,
        Mistake::ThirdForSixth => matches!(letters, 2 | 5),
        Mistake::FourthForFifth => matches!(letters, 3 | 4),
        Mistake::EForEs => key.step == Step::E,
        Mistake::BForH => key.step == Step::B,
        Mistake::OtherClarinet => is(|row| row.pair.is_some()),
        Mistake::OldBassNotation => staff.clef.sign == ClefSign::F && family.is_some(),
        Mistake::TakenForHorn => is(|row| row.like_horn == LikeHorn::Often),
        Mistake::PartialLiterally => {
            item.note.is_some_and(|note| {
                matches!((note.step, note.alter), (Step::B, -1) | (Step::F, _) | (Step::A, 0))
            }) && family.is_some()
        }
        Mistake::DrumsInCAndG => is(Instrument::has_named_drums),
        Mistake::ClefMisread => staff.clef.sign == ClefSign::C,
        Mistake::AltoForBasso => family.is_some_and(|family| family.in_key(key).len() > 1),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::super::item::StaffKey;
    use super::*;
    use crate::kind::Kind;
    use crookwise_theory::label::{DecodeOptions, decode};

    #[test]
    fn mistakes_find_their_staves() {
        let of = |mistake, label: &str| {
            let staff = decode(label, DecodeOptions::default()).staves.remove(0);
            let staff = StaffKey::of(&staff, crookwise_theory::Habits::of(staff.instrument.clef)).unwrap();
            concerns(mistake, &Item { kind: Kind::Sounds, staff, note: None, second: None })
        };
        assert!(of(Mistake::ThirdForSixth, "Corni in A") && of(Mistake::ThirdForSixth, "Corni in Es"));
        assert!(!of(Mistake::ThirdForSixth, "Corni in F"));
        assert!(of(Mistake::BForH, "Hörner in H (tief)") && of(Mistake::BForH, "Clarinetti in B"));
        assert!(of(Mistake::EForEs, "Corni in E") && !of(Mistake::EForEs, "Corni in D"));
        assert!(of(Mistake::AltoForBasso, "Corni in B basso") && !of(Mistake::AltoForBasso, "Corni in F"));
        assert!(of(Mistake::Direction, "Trombe in D") && !of(Mistake::Direction, "Corni in C basso"));
    }
}
