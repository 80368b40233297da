//! What an exercise is about, in a sentence.

use crookwise_practice::{AskedStaff, Exercise, Kind, Material, Time};
use crookwise_theory::label::{DecodeOptions, StaffLabel, decode};
use crookwise_theory::{BassNotation, Clef, ClefSign, Scheme};

/// What is asked, on which staves: "Say what sounds on Corni in F, in the bass clef by old notation."
#[must_use]
pub fn title(exercise: &Exercise) -> String {
    let kinds: Vec<String> = exercise.kinds.iter().map(|kind| asked(*kind, exercise)).collect();
    let staves = staves(exercise);
    let on = if staves.is_empty() { String::new() } else { format!(" on {staves}") };
    format!("Say {}{on}.", listed(&kinds))
}

/// What an exercise is called where there is room for all that is asked: its own title, else that.
#[must_use]
pub fn called(exercise: &Exercise) -> String {
    exercise.own_title().map_or_else(|| title(exercise), str::to_owned)
}

/// What is asked, and how many questions there are in which time.
#[must_use]
pub fn about(exercise: &Exercise) -> String {
    let time = match exercise.time {
        Time::Free => "in your own time".to_owned(),
        Time::Each(seconds) => format!("{seconds} seconds for each"),
        Time::All(seconds) => format!("{seconds} seconds for all"),
    };
    let plural = if exercise.questions == 1 { "question" } else { "questions" };
    format!("{} {} {plural}, {time}.", title(exercise), exercise.questions)
}

/// A kind of question within the sentence.
fn asked(kind: Kind, exercise: &Exercise) -> String {
    match kind {
        Kind::Sounds => "what sounds",
        Kind::Writes => "what must be written",
        Kind::InHand => return format!("what {} plays there", hand(exercise)),
        Kind::Label => "what the label means",
        Kind::Partial => "which partial it is",
        Kind::Made => "how it is made",
        Kind::Degree => "which degree of the key it is",
        Kind::Clef => "which clef to imagine",
        Kind::Chord => "which chord sounds",
        Kind::WrongNote => return format!("which note of a copy for {} is wrong", hand(exercise)),
        Kind::WrongStaff => "which staff is heard wrong",
        Kind::Natural => "which of two is the natural partial",
        Kind::Players => "what two players sound",
    }
    .to_owned()
}

fn hand(exercise: &Exercise) -> &str {
    exercise.in_hand.as_deref().filter(|label| !label.is_empty()).unwrap_or("another instrument")
}

/// Each label once, with the ways it is printed in where they are told apart.
fn staves(exercise: &Exercise) -> String {
    let staves: Vec<AskedStaff> = match &exercise.material {
        Material::Passage(passage) => passage
            .staves()
            .iter()
            .map(|staff| AskedStaff { settings: staff.settings, ..AskedStaff::of(&staff.label) })
            .collect(),
        _ => exercise.staves.clone(),
    };
    let mut labels: Vec<(&str, Vec<String>)> = Vec::new();
    for staff in &staves {
        let others = staves.iter().filter(|other| other.label == staff.label);
        let clefs_differ = others.clone().any(|other| clef(other) != clef(staff));
        let way = way(staff, clefs_differ);
        match labels.iter_mut().find(|(label, _)| *label == staff.label) {
            Some((_, ways)) if !ways.contains(&way) => ways.push(way),
            Some(_) => {}
            None => labels.push((&staff.label, vec![way])),
        }
    }
    let printed = |ways: &[String]| {
        let said: Vec<String> = ways.iter().filter(|way| !way.is_empty()).cloned().collect();
        if said.is_empty() { String::new() } else { format!(" {}", listed(&said)) }
    };
    // What holds for all of them is said once.
    let first = labels.first().map(|(_, ways)| ways.clone()).unwrap_or_default();
    let alike = labels.len() > 1 && labels.iter().all(|(_, ways)| *ways == first);
    let named: Vec<String> = labels
        .iter()
        .map(|(label, ways)| if alike { (*label).to_owned() } else { format!("{label}{}", printed(ways)) })
        .collect();
    let all = if alike { printed(&first) } else { String::new() };
    let comma = if all.is_empty() { "" } else { "," };
    format!("{}{comma}{all}", listed(&named))
}

/// The clef of a staff, chosen or usual.
fn clef(staff: &AskedStaff) -> Option<Clef> {
    staff.settings.clef.or_else(|| usual_clef(staff))
}

fn usual_clef(staff: &AskedStaff) -> Option<Clef> {
    own(staff).map(|own| own.instrument.clef)
}

fn own(staff: &AskedStaff) -> Option<StaffLabel> {
    decode(&staff.label, DecodeOptions::default()).staves.into_iter().next()
}

/// How a staff is printed, where that is not usual or tells it from another; and its change of crook.
fn way(staff: &AskedStaff, clefs_differ: bool) -> String {
    let told = clef(staff).filter(|clef| clefs_differ || Some(*clef) != usual_clef(staff));
    let mut said = Vec::new();
    said.extend(told.map(|clef| format!("in the {} clef", clef.name())));
    // It is a matter of horns in the bass clef alone, whatever a staff is set to.
    let in_bass = clef(staff).is_some_and(|clef| clef.sign == ClefSign::F && clef.octave() == 0);
    let matters = in_bass && own(staff).is_some_and(|own| own.instrument.old_bass);
    said.extend(staff.settings.bass.filter(|_| matters).map(|bass| match bass {
        BassNotation::Old => "by old notation".to_owned(),
        BassNotation::New => "by new notation".to_owned(),
    }));
    said.extend(staff.settings.scheme.map(scheme));
    said.extend(staff.muta.as_deref().map(|label| format!("changing to {label}")));
    said.join(" ")
}

fn scheme(scheme: Scheme) -> String {
    match scheme {
        Scheme::French => "in the French way",
        Scheme::German => "in the German way",
        Scheme::Russian => "in the Russian way",
        Scheme::Italian => "in the Italian way",
        Scheme::Rheingold => "as in Rheingold",
        Scheme::Goetterdaemmerung => "as in Götterdämmerung",
        Scheme::Alpensinfonie => "as in the Alpensinfonie",
    }
    .to_owned()
}

/// "One", "one and another", "one, another and a third".
fn listed(things: &[String]) -> String {
    match things {
        [] => String::new(),
        [one] => one.clone(),
        [all @ .., last] => format!("{} and {last}", all.join(", ")),
    }
}

/// What an exercise is called where there is one line for it: its own title, else what is asked on which staves.
#[must_use]
pub fn heading(exercise: &Exercise) -> String {
    if let Some(title) = exercise.own_title() {
        return title.to_owned();
    }
    let staves = match &exercise.material {
        Material::Passage(passage) => passage.staves().iter().map(|staff| staff.label.as_str()).collect(),
        _ => exercise.staves.iter().map(|staff| staff.label.as_str()).collect::<Vec<_>>(),
    };
    let asked = match exercise.kinds.as_slice() {
        [one] => super::practise::kind(*one),
        _ => "Mixed questions",
    };
    match staves.as_slice() {
        [one] => format!("{asked}, {one}"),
        [first, rest @ ..] if rest.iter().all(|one| one == first) => format!("{asked}, {first}"),
        [one, other] => format!("{asked}, {one} and {other}"),
        staves => format!("{asked}, {} staves", staves.len()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::course::CourseStep;

    #[test]
    fn a_notation_of_the_bass_clef_is_said_of_horns_in_that_clef_alone() {
        let staff = |label: &str, clef: Option<Clef>| {
            let mut staff = AskedStaff::of(label);
            staff.settings.bass = Some(BassNotation::New);
            staff.settings.clef = clef;
            staff
        };
        let of = |staves: Vec<AskedStaff>| self::staves(&Exercise { staves, ..Exercise::default() });
        let timpani = staff("Timpani", Some(Clef::BASS));
        assert_eq!(of(vec![staff("D Trumpet 1", None), timpani]), "D Trumpet 1 and Timpani");
        let horn = staff("Corni in F", Some(Clef::BASS));
        assert_eq!(of(vec![horn]), "Corni in F in the bass clef by new notation");
    }

    #[test]
    fn titles_of_the_course_are_sentences() {
        let titles: Vec<String> =
            CourseStep::ALL.iter().flat_map(CourseStep::exercises).map(|exercise| title(&exercise)).collect();
        for said in &titles {
            assert!(said.starts_with("Say ") && said.ends_with('.'), "{said}");
            assert!(!said.contains(';') && !said.contains("  ") && said.len() < 200, "{said}");
        }
        for said in [
            "Say what sounds on Ottavino and Contrabasso.",
            "Say what sounds and what must be written on Corni in D, Corni in Es and Corni in A, in the bass clef by old \
             notation.",
            "Say what sounds and what must be written on Corni in F in the bass clef by new notation, in the bass clef by \
             old notation and in the treble clef.",
            "Say what sounds on Corni in Es changing to Corni in F and Corni in C basso changing to Corni in Es.",
            "Say what sounds and what Clarinetto in B plays there on Clarinetti in A.",
        ] {
            assert!(titles.contains(&said.to_owned()), "{said}\n{titles:#?}");
        }
    }

    #[test]
    fn the_number_of_questions_and_the_time_come_behind() {
        let staves = vec![AskedStaff::of("Corni in F")];
        let exercise = Exercise { staves, questions: 1, time: Time::Each(20), ..Exercise::default() };
        assert_eq!(about(&exercise), "Say what sounds on Corni in F. 1 question, 20 seconds for each.");
        assert_eq!(title(&Exercise::default()), "Say what sounds.");
    }

    #[test]
    fn a_title_of_its_own_stands_in_the_line_for_it() {
        let staves = vec![AskedStaff::of("Corni in F")];
        let exercise = Exercise { staves, ..Exercise::default() };
        assert_eq!(heading(&exercise), "What sounds, Corni in F");
        assert_eq!(called(&exercise), "Say what sounds on Corni in F.");
        assert_eq!(heading(&Exercise { title: " For Monday ".into(), ..exercise.clone() }), "For Monday");
        assert_eq!(called(&Exercise { title: " For Monday ".into(), ..exercise.clone() }), "For Monday");
        assert_eq!(heading(&Exercise { title: "  ".into(), ..exercise.clone() }), heading(&exercise));
    }
}
