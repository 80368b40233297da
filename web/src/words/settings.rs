//! The settings of a staff and of the reader.

use crookwise_theory::label::Mechanism;

texts! {
    BRASS_TUNED_AT_C = "Brass tuned at (°C)";
    PLAYING_AT_C = "Playing at (°C)";
    A_IN_HZ = "A in Hz";
    YEAR_OF_THE_MUSIC = "Year of the music";
    UNKNOWN = "unknown";
    NO_MATTER = "no matter";
    PLAYED = "Played";
    CLEF = "Clef";
    OCTAVE_MARK_AT_THE_CLEF = "Octave mark at the clef";
    BASS_CLEF_NOTATION = "Bass-clef notation";
    WRITTEN_IN_THE_SYSTEM = "Written in the system";
    SIGNATURE_OF_THE_STAFF = "Signature of the staff";
    MOVEMENT = "Movement";
    TEMPERAMENT = "Temperament";
    TEMPERAMENT_FROM = "Temperament from";
    BRASS_TUNED_ON_ITS = "Brass tuned on its";
    THE_PAGE_IS_PRINTED = "The page is printed";
    FRENCH_LOW_PITCH = "French low pitch";
    MANY_ORCHESTRAS = "many orchestras";
    CHOIR_PITCH = "choir pitch";
    WRITTEN_C = "written C";
    WRITTEN_G = "written G";
    AS_THE_PLAYERS_READ_IT = "as the players read it";
    AT_SOUNDING_PITCH = "at sounding pitch";
    WITH_VALVES = "with valves";
    OLD_AN_OCTAVE_LOW = "old: an octave low";
    NEW_AS_IN_TREBLE = "new: as in treble";
    EIGHT_ABOVE = "8 above";
    EIGHT_BELOW = "8 below";
    NONE_PRINTED = "none printed";
    AS_THE_MOVEMENT_NEEDS = "as the movement needs";
    KEY_UNKNOWN = "key unknown";
    SETTINGS = "Settings";
    NAMES_OF_NOTES = "Names of notes";
    OCTAVES = "Octaves";
    KEPT_ON_THIS_DEVICE = "Kept on this device. A link carries the music, not your way of naming it.";
    BAROQUE = "baroque";
    CLASSICAL = "classical";
    TODAY = "today";
    NATURAL = "natural";
    NONE = "none";
}

/// Natural or with valves.
#[must_use]
pub const fn mechanism(mechanism: Mechanism) -> &'static str {
    match mechanism {
        Mechanism::Natural => NATURAL,
        Mechanism::Valves => WITH_VALVES,
    }
}
