//! The place Crooks: keys that are wanted, players, plans, what is missing and how it is mended.

use super::names::{Letters, Names, decimal};
use crookwise_theory::{Crook, CrookFamily, Key, Mode, Step};

texts! {
    FIRST_KEYS = "G minor 1-32, B-flat major 33-58, D minor 59-74, E-flat major 75-96, G minor 97-120";
    KEYS_AND_BARS = "Keys and their bars";
    SUCH_AS = "G minor 1-32, B-flat major 33-58";
    HOW_KEYS_ARE_TYPED = "Also Gm, g-Moll or sol mineur; so many bars, or from bar to bar.";
    NO_KEY_YET = "Type a key and its bars, such as G minor 1-32.";
    KEYS_AS_ROWS = "Keys as rows, or notes from Read";
    ADD_A_KEY = "Add a key";
    KEY = "Key";
    NUMBER_OF_BARS = "Bars";
    NOTES_OF_READ = "The notes of the page in Read";
    PLAN_KEYS_AGAIN = "Plan keys again";
    NOT_KEPT = "These are too many notes for an address, and this device refuses to keep them: they are gone when the page is.";
    NO_BRASS_IN_READ = "The page in Read has no notes of horns or trumpets.";
    PLANS_ARE_SOUGHT = "Plans are sought …";
    STOP = "Stop";
    THE_PLAN = "The plan over its bars";
    THIS_PLAN = "This plan";
    KEYS_WANTED = "keys wanted";
    LEFT_OUT = "left out";
    WHAT_IS_LEFT_OUT = "What is left out";
    NOTHING_LEFT_OUT = "Nothing that is wanted is left out.";
    BEST_PROVED = "best, proved";
    WITHOUT_WHAT_WAS_TAKEN = "without a note for which a crook was to be changed";
    PLAN_BEFORE = "Plan before";
    NEXT_PLAN = "Next plan";
    DASHED = "Dashed: wanted and left out; tap it to see why, and to mend it. Crooks are changed in the rests.";
    OF_BEFORE = "The plan below is for what stood there before.";
    A_GUIDE = "A guide by the weights shown; of keys it takes the chords on 1, 4 and 5, and crooks change with the key. It knows no colour and no player.";
    WHAT_HOLDS = "What holds";
    PLAYERS = "players";
    HORNS = "Horns";
    TRUMPETS = "Trumpets";
    PAIRS = "The two of a pair";
    PAIRS_SHARE = "Share their crook";
    PAIRS_DIFFER = "May differ";
    CROOKS_OWNED = "crooks owned";
    NONE_OF_THEM = "None of them";
    THE_USUAL_ONES = "The usual ones";
    ALL_BUILT = "All built";
    HAND = "hand";
    HOW_FAR_THE_HAND = "How far the hand may go";
    TOP = "top";
    HIGHEST_PARTIAL = "Highest partial";
    REST_FOR_A_CHANGE = "rest for a change";
    BARS_OF_REST = "Bars of rest for a change of crook";
    WEIGHTS = "weights";
    WHAT_COUNTS = "What each way of making a note counts, and a change of crook costs, in hundredths of an open note";
    A_CHANGE_COSTS = "A change costs each player";
    UNDO = "Undo";
    REDO = "Redo";
    WAY_BACK = "The way back";
    HEAR_IT = "Hear it";
    HEAR_THE_PLAN = "Hear this plan";
    REMEDIES = "What can be done";
    LEAVE_THIS_GAP = "Leave this gap";
    NO_REMEDY = "No other crook that is owned helps: another instrument must.";
    PLAN_FILE = "plan-of-crooks.musicxml";
    TAKE_IT = "Take this plan";
    OPEN_IN_READ = "Open in Read";
    FROM_BAR = "From bar";
    AS_A_SCORE = "As a score";
    SAVE_MUSICXML = "Save MusicXML";
    NOT_SAVED = "This browser saves no files.";
    SHARE_THIS_PLAN = "Share";
    A_LINK_TO_THIS_PLAN = "A link to exactly this plan";
}

/// So many notes were taken from the page in Read, or from a movement of this title in Score.
#[must_use]
pub fn wanted_notes(notes: usize, title: &str) -> String {
    let notes = plural(notes, "note");
    match title {
        "" => format!("Wanted: {notes} of horns and trumpets, as they stood in Read."),
        title => format!("Wanted: {notes}, what the horns and trumpets of “{title}” sound."),
    }
}

/// A row of the keys, from the first.
#[must_use]
pub fn key_number(at: usize) -> String {
    format!("Key {}", at + 1)
}

/// What takes a row out.
#[must_use]
pub fn remove_key(at: usize) -> String {
    format!("Remove key {}", at + 1)
}

/// A piece of what was typed that is no key.
#[must_use]
pub fn no_key(piece: &str) -> String {
    format!("“{piece}” is no key that is known here: try G minor 1-32.")
}

/// Bars that cannot be.
#[must_use]
pub fn no_bars(piece: &str) -> String {
    format!(
        "The bars of “{piece}” cannot be: they go up from bar 1 and begin behind those of the key before."
    )
}

/// How a B without a sign or a word beside it is read.
#[must_use]
pub const fn bare_b(letters: Letters) -> &'static str {
    match letters {
        Letters::German => "B alone is B-flat here, as German names have it; B natural is H.",
        _ => "B alone is B natural here; B-flat is Bb.",
    }
}

/// More keys than are planned.
#[must_use]
pub fn too_many_keys(many: usize, most: usize) -> String {
    format!("These are {many} keys; {most} are planned at most.")
}

/// More bars than are planned.
#[must_use]
pub fn too_many_bars(bars: u32, most: u32) -> String {
    format!("These are {bars} bars; {most} are planned at most.")
}

/// A movement by its first key.
#[must_use]
pub fn movement_in(key: Key, names: Names) -> String {
    format!("a movement in {}", names.key(key))
}

/// A movement by its title, and which bars of it: "“Sinfonia”, bars 1 to 96".
#[must_use]
pub fn movement_called(title: &str, bars: (&str, &str)) -> String {
    format!("“{title}”, {}", from_to(bars))
}

/// What the page is about: "Four horns and two trumpets for a movement in G minor".
#[must_use]
pub fn about(horns: usize, trumpets: usize, what: Option<&str>) -> String {
    let who = match (horns, trumpets) {
        (0, 0) => "Nobody yet".to_owned(),
        (horns, 0) => count(horns, "horn"),
        (0, trumpets) => count(trumpets, "trumpet"),
        (horns, trumpets) => format!("{} and {}", count(horns, "horn"), count(trumpets, "trumpet")),
    };
    let who = super::capital(&who);
    what.map_or_else(|| who.clone(), |what| format!("{who} for {what}"))
}

fn count(many: usize, name: &str) -> String {
    let word = match many {
        1 => "one",
        2 => "two",
        3 => "three",
        4 => "four",
        _ => return format!("{many} {name}s"),
    };
    format!("{word} {name}{}", if many == 1 { "" } else { "s" })
}

/// So many of a family on a chip: "4 horns, 2 trumpets".
#[must_use]
pub fn players(horns: usize, trumpets: usize) -> String {
    let some = |many: usize, name: &str| (many > 0).then(|| plural(many, name));
    let all: Vec<String> = [some(horns, "horn"), some(trumpets, "trumpet")].into_iter().flatten().collect();
    if all.is_empty() { "none".to_owned() } else { all.join(", ") }
}

/// So many of something.
#[must_use]
pub fn plural(many: usize, name: &str) -> String {
    if many == 1 { format!("1 {name}") } else { format!("{many} {name}s") }
}

/// Which crooks are owned, on a chip.
#[must_use]
pub fn owned(is_classical: bool, is_all: bool, many: usize) -> String {
    match (is_classical, is_all) {
        _ if many == 0 => "none".to_owned(),
        (true, _) => "usual".to_owned(),
        (_, true) => "all".to_owned(),
        _ => plural(many, "crook"),
    }
}

/// How far the hand goes, on a chip: in all ways, half at most, not at all; nothing of these where the weights say so.
#[must_use]
pub const fn hand(place: Option<usize>) -> &'static str {
    match place {
        Some(0) => "all ways",
        Some(1) => "½ at most",
        Some(_) => "open only",
        None => "by weights",
    }
}

/// The same in a list.
pub const HANDS: [&str; 3] = ["All ways of the tables", "Half stopped at most", "Open notes only"];

/// Whether the weights are the usual ones.
#[must_use]
pub const fn weights(are_usual: bool) -> &'static str {
    if are_usual { "usual" } else { "changed" }
}

/// What is said where the players of a family own no crook.
#[must_use]
pub const fn no_crook_of(family: CrookFamily) -> &'static str {
    match family {
        CrookFamily::Horn => "The horns have no crook yet: tick those they own.",
        CrookFamily::Trumpet => "The trumpets have no crook yet: tick those they own.",
    }
}

/// The crooks of a family, to be ticked.
#[must_use]
pub const fn one_by_one(family: CrookFamily) -> &'static str {
    match family {
        CrookFamily::Horn => "Those that your horns have",
        CrookFamily::Trumpet => "Those that your trumpets have",
    }
}

/// A partial as the highest.
#[must_use]
pub fn partial(number: u8) -> String {
    format!("partial {number}")
}

/// So many bars.
#[must_use]
pub fn bars(many: u32) -> String {
    if many == 1 { "1 bar".to_owned() } else { format!("{many} bars") }
}

/// From bar to bar, by their numbers in print.
#[must_use]
pub fn from_to((first, last): (&str, &str)) -> String {
    if first == last { format!("bar {first}") } else { format!("bars {first} to {last}") }
}

/// A row: "Corno 1, 2".
#[must_use]
pub fn row(family: CrookFamily, numbers: &[usize]) -> String {
    let name = match family {
        CrookFamily::Horn => "Corno",
        CrookFamily::Trumpet => "Tromba",
    };
    let numbers: Vec<String> = numbers.iter().map(usize::to_string).collect();
    format!("{name} {}", numbers.join(", "))
}

/// A crook as it stands on its stretch: "in B♭ alto".
#[must_use]
pub fn crook(crook: &Crook, names: Names) -> String {
    format!("in {}", key_of(crook, names))
}

/// The key of a crook, with its octave where it has two. B natural is said to be it, since B alone is B-flat to a German reader.
fn key_of(crook: &Crook, names: Names) -> String {
    let octave = crook.octave.map(|octave| format!(" {}", octave.word())).unwrap_or_default();
    let is_b = (crook.tonic.step, crook.tonic.alter) == (Step::B, 0);
    let tonic = if is_b { names.key_word(crook.tonic) } else { names.tonic(crook.tonic) };
    format!("{tonic}{octave}")
}

/// A crook over its bars, for who hears the page.
#[must_use]
pub fn crook_from_to(own: &Crook, bars: (&str, &str), names: Names) -> String {
    format!("{}, {}", crook(own, names), from_to(bars))
}

/// The same, shorter and shorter.
#[must_use]
pub fn shorter_crook(own: &Crook, names: Names) -> [String; 3] {
    [crook(own, names), key_of(own, names), names.tonic(own.tonic)]
}

/// A key, shorter and shorter.
#[must_use]
pub fn shorter_key(key: Key, names: Names) -> [String; 3] {
    let tonic = names.tonic(key.tonic);
    let mode = if key.mode == Mode::Major { "maj" } else { "min" };
    [names.key(key), format!("{tonic} {mode}"), tonic]
}

/// A key over its bars, for who hears the page.
#[must_use]
pub fn key_from_to(key: Key, bars: (&str, &str), names: Names) -> String {
    format!("{}, {}", names.key(key), from_to(bars))
}

/// Which bars go to Read, whose page holds so many columns.
#[must_use]
pub fn bars_to_read(bars: (&str, &str)) -> String {
    format!("Read takes {}.", from_to(bars))
}

/// Which plan is looked at.
#[must_use]
pub fn plan_of(at: usize, all: usize) -> String {
    format!("Plan {} of {all}", at + 1)
}

/// Hundredths.
#[must_use]
pub fn hundredths(many: usize) -> String {
    format!("{many} %")
}

/// How many of the notes are held.
#[must_use]
pub fn of_what_is_wanted(held: usize, wanted: usize, of_chords: bool) -> String {
    let of_chords = if of_chords { " of chords, each counted once, whoever doubles it" } else { "" };
    format!("of what is wanted: {held} of {wanted} notes{of_chords}")
}

/// How they are made.
#[must_use]
pub fn made(open: usize, hand: usize, lip: usize) -> String {
    format!("{open} open, {hand} by hand, {lip} by lip.")
}

/// Why the others are left out.
#[must_use]
pub fn left_out(missing: usize, changing: usize, busy: usize) -> Option<String> {
    let some = |many: usize, why: &str| (many > 0).then(|| format!("{many} {why}"));
    let all: Vec<String> = [
        some(missing, "that nobody has as asked"),
        some(changing, "while a crook is changed"),
        some(busy, "since all who have it are busy"),
    ]
    .into_iter()
    .flatten()
    .collect();
    (!all.is_empty()).then(|| format!("Left out: {}.", all.join(", ")))
}

/// How many changes of crook there are.
#[must_use]
pub fn changes(many: usize) -> String {
    match many {
        0 => "Nobody changes his crook.".to_owned(),
        1 => "One change of crook.".to_owned(),
        many => format!("{many} changes of crook."),
    }
}

/// What the next plan costs or gains against the one that is looked at: in notes, in those of them that are open, and in
/// changes.
#[must_use]
pub fn next_best(notes: i64, open: i64, changes: i64) -> String {
    let count =
        |many: i64, name: &str| plural(usize::try_from(many.unsigned_abs()).unwrap_or(usize::MAX), name);
    let more = |many: i64| if many > 0 { "more" } else { "fewer" };
    let notes = (notes != 0).then(|| format!("holds {} {}", count(notes, "note"), more(notes)));
    let open = (open != 0).then(|| format!("has {} {}", count(open, "open note"), more(open)));
    let changes = match changes {
        0 => None,
        1.. => Some(format!("takes {} more", count(changes, "change"))),
        _ => Some(format!("saves {}", count(changes, "change"))),
    };
    let mut all: Vec<String> = [notes, open, changes].into_iter().flatten().collect();
    let what = match (all.pop(), all.is_empty()) {
        (None, _) => "holds as much with other crooks".to_owned(),
        (Some(last), true) => last,
        (Some(last), false) => format!("{} and {last}", all.join(", ")),
    };
    format!("The next plan {what}.")
}

/// How much less than the best a plan is worth.
#[must_use]
pub fn worth_less(less: f64) -> String {
    format!("worth {} open notes less than the best", decimal(less))
}

/// How much more than a plan there could be.
#[must_use]
pub fn at_most(more: f64) -> String {
    format!("no plan is worth {} open notes more", decimal(more))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_next_plan_says_why_it_is_not_the_best() {
        let said = "The next plan holds 8 notes more, has 21 open notes fewer and saves 4 changes.";
        assert_eq!(next_best(8, -21, -4), said);
        assert_eq!(next_best(0, -1, 0), "The next plan has 1 open note fewer.");
        assert_eq!(next_best(-2, 0, 1), "The next plan holds 2 notes fewer and takes 1 change more.");
        assert_eq!(next_best(0, 0, 0), "The next plan holds as much with other crooks.");
    }

    #[test]
    fn crooks_have_the_names_that_the_reader_has_chosen() {
        let named = |word| crookwise_planner::NamedCrook::named(CrookFamily::Horn, word).unwrap().crook;
        let of = |letters| Names { letters, ..Names::default() };
        let said = |letters| ["Eb", "Bb alto", "H alto"].map(|word| crook(named(word), of(letters)));
        assert_eq!(said(Letters::English), ["in E♭", "in B♭ alto", "in B natural alto"]);
        assert_eq!(said(Letters::German), ["in Es", "in B alto", "in H alto"]);
        assert_eq!(said(Letters::Syllables)[1], "in Si♭ alto");
        assert_eq!(shorter_crook(named("Bb alto"), of(Letters::German)), ["in B alto", "B alto", "B"]);
    }
}
