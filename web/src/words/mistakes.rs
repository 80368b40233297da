//! Mistakes by name: in a sentence for who made one, in a few words for tables and pictures.

use crookwise_practice::Mistake;

/// What a mistake was, in a sentence.
#[must_use]
pub const fn sentence(mistake: Mistake) -> &'static str {
    match mistake {
        Mistake::Direction => "The interval went the wrong way: up for down, or down for up.",
        Mistake::Octave => "The letter is right, the octave is another.",
        Mistake::ThirdForSixth => {
            "A third for a sixth, or a sixth for a third: the same letters, the other way round."
        }
        Mistake::Quality => "The size of the interval: minor for major, or major for minor.",
        Mistake::EForEs => "“Es” is E-flat, “E” is E natural: one was taken for the other.",
        Mistake::BForH => "German “B” is B-flat and “H” is B natural: one was taken for the other.",
        Mistake::OtherClarinet => {
            "That is the other clarinet: the one in A read like the one in B-flat, or the reverse."
        }
        Mistake::AccidentalNotShifted => {
            "The clef was right, but the printed accidental must be shifted with the signature."
        }
        Mistake::ClefSignature => "The clef was right, but its change of signature was forgotten.",
        Mistake::OldBassNotation => "Old and new bass-clef notation: they stand an octave apart.",
        Mistake::SignatureImagined => {
            "The movement's signature does not stand on this staff: its notes are as printed."
        }
        Mistake::SignatureOverlooked => "The signature at the head of the staff was overlooked.",
        Mistake::CrookChange => "The change of crook: before it the old one holds, after it the new one.",
        Mistake::TakenForHorn => "Cor anglais and basset horn are no horns, whatever their names say.",
        Mistake::Spelling => "It is that key of the keyboard, but with another letter.",
        Mistake::PartialLiterally => {
            "This partial lies between the keys; it is written as the note it stands for."
        }
        Mistake::DrumsInCAndG => {
            "Drums: as C and G they stand for the two notes the label names; otherwise they are at pitch."
        }
        Mistake::ATwo => "“a 2” is one note for both, not two.",
        Mistake::ClefMisread => "The note was read in another clef than the one that stands there.",
        Mistake::NotTransposed => "It was read as if it sounded as printed.",
        Mistake::AltoForBasso => "Alto and basso lie an octave apart.",
        Mistake::OtherPlayersCrook => "That would be so on the crook of the other player.",
        Mistake::CrookForKey => "That is the degree above the crook's own C, not in the key of the movement.",
        Mistake::OtherBass => "The chord is right, but another note lies lowest.",
        Mistake::OtherInstrument => "The key is right, the instrument is another.",
    }
}

/// A mistake in a few words, for tables and pictures.
#[must_use]
pub const fn short(mistake: Mistake) -> &'static str {
    match mistake {
        Mistake::Direction => "wrong direction",
        Mistake::Octave => "octave",
        Mistake::ThirdForSixth => "third for sixth",
        Mistake::Quality => "minor for major",
        Mistake::EForEs => "E for Es",
        Mistake::BForH => "B for H",
        Mistake::OtherClarinet => "the other clarinet",
        Mistake::AccidentalNotShifted => "accidental not shifted",
        Mistake::ClefSignature => "clef's signature",
        Mistake::OldBassNotation => "old bass notation",
        Mistake::SignatureImagined => "signature imagined",
        Mistake::SignatureOverlooked => "signature overlooked",
        Mistake::CrookChange => "change of crook",
        Mistake::TakenForHorn => "taken for a horn",
        Mistake::Spelling => "spelling",
        Mistake::PartialLiterally => "partial taken literally",
        Mistake::DrumsInCAndG => "drums in C and G",
        Mistake::ATwo => "a 2 as two notes",
        Mistake::ClefMisread => "clef misread",
        Mistake::NotTransposed => "not transposed",
        Mistake::AltoForBasso => "alto for basso",
        Mistake::OtherPlayersCrook => "the other player's crook",
        Mistake::CrookForKey => "crook for key",
        Mistake::OtherBass => "another bass",
        Mistake::OtherInstrument => "another instrument",
    }
}
