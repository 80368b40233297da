//! A part of a movement on paper.

texts! {
    PRINT_A_PART = "Print a part";
    PART = "Part";
    PITCH = "Pitch";
    AS_WRITTEN = "as written";
    AS_IT_SOUNDS = "as it sounds";
    BOTH = "both, with the partials between";
    WHICH_BARS = "Bars";
    WHOLE_MOVEMENT = "the whole movement";
    PAPER = "Paper";
    PRINT = "Print";
    BACK_TO_SCORE = "Back to the score";
    PART_AS_PRINTED = "Part as printed";
    IS_LAID_OUT = "The part is laid out …";
}

/// The name of a part at the head of its page: its label, the crook that holds where it begins, and that it stands as it sounds.
#[must_use]
pub fn headed(label: &str, crook: Option<&str>, sounding: bool) -> String {
    let crook = crook.map(|crook| format!(" (here {crook})")).unwrap_or_default();
    let sounding = if sounding { format!(", {AS_IT_SOUNDS}") } else { String::new() };
    format!("{label}{crook}{sounding}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_is_named() {
        assert_eq!(headed("Corno I in D", None, false), "Corno I in D");
        assert_eq!(headed("Corno III in F", Some("muta in G"), false), "Corno III in F (here muta in G)");
        assert_eq!(headed("Corno I in D", None, true), "Corno I in D, as it sounds");
    }
}
