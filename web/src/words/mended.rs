//! What was unjust in the questions of an exercise that was sent by an earlier version, and is no longer.

use crookwise_practice::Mended;

texts! {
    ANSWERED_BEFORE = "Who had answered before answered the questions of then.";
}

/// Said where an exercise was sent before its questions were mended: that they are others now, and why; `None` where
/// they are what they were.
#[must_use]
pub fn mended(reasons: &[Mended]) -> Option<String> {
    let why: Vec<&str> = reasons.iter().map(|reason| because(*reason)).collect();
    (!why.is_empty()).then(|| {
        format!("Some questions of this exercise were mended since its link was sent: {}.", why.join("; "))
    })
}

const fn because(reason: Mended) -> &'static str {
    match reason {
        Mended::Chords => "chords are voiced as scores have them",
        Mended::Misread => "the staff that is played wrong is misread by one mistake throughout",
        Mended::Copies => "a copy has all that its players have",
        Mended::Changes => "a change of crook is printed where it stands",
        Mended::Making => "where sources make a note in two ways, both are right",
        Mended::InHand => "for the instrument in hand the choices come of mistakes on the way to it",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_reason_is_said_and_nothing_where_there_is_none() {
        assert_eq!(mended(&[]), None);
        assert_eq!(
            mended(&[Mended::Chords, Mended::Changes]).as_deref(),
            Some(
                "Some questions of this exercise were mended since its link was sent: chords are voiced as scores have \
                 them; a change of crook is printed where it stands."
            )
        );
        let said: Vec<String> = Mended::ALL.iter().filter_map(|one| mended(&[*one])).collect();
        assert!(said.iter().enumerate().all(|(at, one)| !said[..at].contains(one)), "{said:?}");
        assert_eq!(said.len(), Mended::ALL.len());
    }
}
