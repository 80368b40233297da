//! The frame of the page: its head, its places, the wall.

texts! {
    FACTS_CARRY_SOURCES = "Facts of the trade carry their sources; what they leave open is shown as open.";
    LICENCES_OF_FONTS_AND_LIBRARIES = "Licences of fonts and libraries";
    CROOKWISE = "Crookwise";
    PAGES = "Pages";
    SHARE = "Share";
    ON_THE_WALL = "On the wall";
    SETTINGS = "Settings";
    DARK = "Dark";
    PLACES = "Places";
    READ = "Read";
    PRACTISE = "Practise";
    SCORE = "Score";
    CROOKS = "Crooks";
    TRY_AGAIN = "Try again";
    ALL_RIGHT = "All right";
    STEP_BACK = "Step back";
    STEP_ON = "Step on";
    LEAVE_THE_WALL = "Leave the wall";
    SOUNDING_STAFF = "Sounding staff";
    PARTIALS = "Partials";
    NAMES = "Names";
    CHORD = "Chord";
    EXERCISE = "Exercise";
    WORKSHEET = "Worksheet";
}

/// What a screen of Practise is called where it does not stand in its bar.
#[must_use]
pub fn of_practise(screen: &str) -> String {
    format!("{screen} · {PRACTISE}")
}

/// What the window is called.
#[must_use]
pub fn title(here: &str) -> String {
    format!("{here} · {CROOKWISE}")
}
