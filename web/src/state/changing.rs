//! What changes before the selected column, as a form with a few lists.

use crate::state::document::Document;
use crate::state::list_item::ListItem;
use crate::state::settings_form::{movements, signature_id, signature_of, signatures};
use crate::state::view::PageView;
use crate::words::{self, Names};
use crookwise_score::{Change, ChangeKind, ChangeTo, PassageError, Place, Staff};
use crookwise_share::ReadPage;
use crookwise_theory::label::LONGEST;
use crookwise_theory::{Clef, CrookFamily, OctaveWord, Step, Tonic};

/// The changes before the selected column as they stand.
#[derive(Clone, Debug, PartialEq)]
pub struct ChangeForm {
    /// Where: "Before column 3".
    pub place: String,
    /// For whom a crook changes; empty where one player has the staff.
    pub players: Vec<ListItem>,
    /// The change of crook as the score prints it; empty where it stays.
    pub crook: String,
    /// What that means, or that it is not understood.
    pub meaning: String,
    /// Crooks to choose from, as scores print the change.
    pub crooks: Vec<ListItem>,
    /// Which of them it is read as, however it is printed; empty where the crook stays.
    pub listed: String,
    /// The new clef; empty where it stays.
    pub clef: String,
    /// The new signature; empty where it stays.
    pub signature: String,
    /// The new key of the movement; empty where it stays.
    pub movement: String,
    /// Whether anything changes here.
    pub any: bool,
}

impl ChangeForm {
    /// The form for the selected column, the crook for one player or for all; `None` where no column is selected.
    #[must_use]
    pub fn of(whole: &PageView, page: &ReadPage, player: Option<usize>) -> Option<Self> {
        let column = page.selected.filter(|&column| column < whole.columns())?;
        let staff = page.passage.staves().get(whole.staff)?;
        let player = player.filter(|player| staff.players() > 1 && *player < staff.players());
        let here: Vec<&Change> = staff.changes().iter().filter(|change| change.column == column).collect();
        let of = |kind: ChangeKind, player: Option<usize>| {
            here.iter().find(|change| change.to.kind() == kind && change.player == player).map(|it| &it.to)
        };
        let crook = match of(ChangeKind::Label, player) {
            Some(ChangeTo::Label(text)) => text.clone(),
            _ => String::new(),
        };
        let clef = match of(ChangeKind::Clef, None) {
            Some(ChangeTo::Clef(clef)) => clef.to_string(),
            _ => String::new(),
        };
        let signature = match of(ChangeKind::Signature, None) {
            Some(ChangeTo::Signature(source)) => signature_id(*source),
            _ => String::new(),
        };
        let movement = page.passage.columns().get(column).and_then(|column| column.movement);
        let crooks = crooks(whole, column, player.unwrap_or(0));
        Some(Self {
            place: words::changes::before_column(column),
            players: players(whole, staff),
            listed: listed(whole, (column, player), &crook, &crooks),
            meaning: meaning(whole, (column, player), &crook),
            crooks,
            any: !here.is_empty() || movement.is_some(),
            movement: movement.map(|key| key.to_string()).unwrap_or_default(),
            crook,
            clef,
            signature,
        })
    }

    /// The clefs to choose from.
    #[must_use]
    pub fn clefs() -> Vec<ListItem> {
        let clefs = Clef::ALL.into_iter();
        let named = clefs
            .map(|clef| ListItem::new(clef.to_string(), words::capital(&format!("{} {clef}", clef.name()))));
        core::iter::once(ListItem::new("", words::changes::STAYS)).chain(named).collect()
    }

    /// The signatures to choose from.
    #[must_use]
    pub fn signatures() -> Vec<ListItem> {
        core::iter::once(ListItem::new("", words::changes::STAYS)).chain(signatures()).collect()
    }

    /// The keys to choose from.
    #[must_use]
    pub fn movements(names: Names) -> Vec<ListItem> {
        let keys = movements(names).into_iter().filter(|item| !item.value.is_empty());
        core::iter::once(ListItem::new("", words::changes::STAYS)).chain(keys).collect()
    }
}

fn players(whole: &PageView, staff: &Staff) -> Vec<ListItem> {
    if staff.players() < 2 {
        return Vec::new();
    }
    let resolved = whole.voice(whole.staff, 0).map(|view| &view.staff);
    let one = |player: usize| {
        let number = resolved.map_or(0, |staff| staff.number(player));
        ListItem::new(player.to_string(), words::changes::player(number))
    };
    let all = core::iter::once(ListItem::new("", words::changes::ALL_PLAYERS));
    all.chain((0..staff.players()).map(one)).collect()
}

/// What holds for the player where a change of crook is typed; `None` where it is not understood.
fn changed(whole: &PageView, (column, player): (usize, Option<usize>)) -> Option<&Place> {
    let view = whole.voice(whole.staff, player.unwrap_or(0))?;
    let understood = !view.staff.misunderstood().contains(&(column, player));
    view.place_at(column).filter(|_| understood)
}

/// What the change of crook means for the player; empty where nothing is typed.
fn meaning(whole: &PageView, at: (usize, Option<usize>), text: &str) -> String {
    match changed(whole, at) {
        _ if text.is_empty() => String::new(),
        Some(place) => place.words_by(&|key| whole.names.key_word(key)),
        None => words::changes::not_understood(text),
    }
}

/// The crook of the list that the change is read as: scores print "muta in C" for one that the list calls C basso.
fn listed(whole: &PageView, at: (usize, Option<usize>), text: &str, crooks: &[ListItem]) -> String {
    let place = changed(whole, at).filter(|_| !text.is_empty());
    let read = place.and_then(|place| {
        let crook = place.staff.crook()?;
        place.staff.crook_family()?.crooks().iter().position(|one| one == crook)
    });
    read.and_then(|read| crooks.get(read)).map(|item| item.value.clone()).unwrap_or_default()
}

/// The crooks of horn or trumpet as a change to them is printed.
fn crooks(whole: &PageView, column: usize, player: usize) -> Vec<ListItem> {
    let place = whole.voice(whole.staff, player).and_then(|view| view.place_at(column));
    let family = place.and_then(|place| place.staff.crook_family());
    family.map_or_else(Vec::new, |family| printed_crooks(family, whole.names))
}

/// The crooks of a family as a change to them is printed.
#[must_use]
pub fn printed_crooks(family: CrookFamily, names: Names) -> Vec<ListItem> {
    let item = |crook: &crookwise_theory::Crook| {
        let octave = match crook.octave {
            Some(OctaveWord::Alto) => " alto",
            Some(OctaveWord::Basso) => " basso",
            None => "",
        };
        // B alone would be read as B-flat, as German and Italian print has it.
        let printed = match crook.tonic {
            Tonic { step: Step::B, alter: 0 } => "H".to_owned(),
            tonic => tonic.to_string().replace('#', "♯").replace('b', "♭"),
        };
        ListItem::new(
            words::changes::direction(&format!("{printed}{octave}"), None),
            format!("{}{octave}", names.tonic(crook.tonic)),
        )
    };
    family.crooks().iter().map(item).collect()
}

/// Changes the crook, or lets it be where the text is empty.
///
/// # Errors
/// Where nothing is selected.
pub fn set_crook(document: &mut Document, player: Option<usize>, text: &str) -> Result<(), PassageError> {
    let text: String = text.trim().chars().take(LONGEST).collect();
    if text.is_empty() {
        document.keep_here(player, ChangeKind::Label);
        return Ok(());
    }
    document.change_here(player, ChangeTo::Label(text))
}

/// Changes the clef to one of the list, or lets it be.
///
/// # Errors
/// Where nothing is selected.
pub fn set_clef(document: &mut Document, value: &str) -> Result<(), PassageError> {
    match value.parse() {
        Ok(clef) => document.change_here(None, ChangeTo::Clef(clef)),
        Err(_) => {
            document.keep_here(None, ChangeKind::Clef);
            Ok(())
        }
    }
}

/// Changes the signature to one of the list, or lets it be.
///
/// # Errors
/// Where nothing is selected.
pub fn set_signature(document: &mut Document, value: &str) -> Result<(), PassageError> {
    match signature_of(value) {
        Some(source) => document.change_here(None, ChangeTo::Signature(source)),
        None => {
            document.keep_here(None, ChangeKind::Signature);
            Ok(())
        }
    }
}

/// Changes the key of the movement to one of the list, or lets it be.
///
/// # Errors
/// Where nothing is selected.
pub fn set_movement(document: &mut Document, value: &str) -> Result<(), PassageError> {
    document.change_movement_here(value.parse().ok())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_share::Link;

    fn document(link: &str) -> Document {
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        Document::new(*page)
    }

    fn form(document: &Document, player: Option<usize>) -> ChangeForm {
        ChangeForm::of(&PageView::of(document.page(), Names::default()), document.page(), player).unwrap()
    }

    #[test]
    fn every_crook_of_the_list_is_understood_as_itself() {
        for label in ["Corni+in+Es", "Trombe+in+D"] {
            let document = document(&format!("/read?staff={label}&notes=C5.C5&at=2"));
            let crooks = form(&document, None).crooks;
            assert!(crooks.len() > 8);
            for crook in crooks {
                let mut changed = document.clone();
                set_crook(&mut changed, None, &crook.value).unwrap();
                let view = crate::state::view::View::of(changed.page());
                let read = view.place_at(1).and_then(|place| place.staff.crook()).unwrap();
                let family = view.place_at(1).and_then(|place| place.staff.crook_family()).unwrap();
                let at = form(&document, None).crooks.iter().position(|one| *one == crook).unwrap();
                assert_eq!(read, &family.crooks()[at], "{label}: {}", crook.value);
                assert_eq!(form(&changed, None).crook, crook.value);
            }
        }
    }

    #[test]
    fn every_value_of_every_list_is_chosen_and_let_be() {
        let mut document = document("/read?staff=Corni+in+Es&notes=C5.C5&at=2");
        for item in ChangeForm::clefs() {
            set_clef(&mut document, &item.value).unwrap();
            assert_eq!(form(&document, None).clef, item.value);
        }
        for item in ChangeForm::signatures() {
            set_signature(&mut document, &item.value).unwrap();
            assert_eq!(form(&document, None).signature, item.value);
        }
        for item in ChangeForm::movements(Names::default()) {
            set_movement(&mut document, &item.value).unwrap();
            assert_eq!(form(&document, None).movement, item.value);
        }
        assert!(form(&document, None).any);
        for set in [set_clef, set_signature, set_movement] {
            set(&mut document, "").unwrap();
        }
        assert!(!form(&document, None).any);
    }

    #[test]
    fn one_player_of_a_pair_changes_and_what_is_not_understood_is_said() {
        let mut document =
            document("/read?staff=Corno+III.+IV.+in+Es&players=2&notes=C5.C5&notes2=C5.C5&at=2");
        let players: Vec<String> = form(&document, None).players.into_iter().map(|item| item.text).collect();
        assert_eq!(players, ["all players", "player 3 alone", "player 4 alone"]);
        set_crook(&mut document, Some(1), "muta in D").unwrap();
        assert_eq!(form(&document, None).crook, "");
        assert!(form(&document, Some(1)).meaning.contains("Horn in D"));
        let whole = PageView::of(document.page(), Names::default());
        assert_eq!(whole.staves[0].directions[1], ["IV muta in D"]);
        assert_eq!(
            whole.staves[0].players[0].columns[1].name,
            "written C5, sounds E-flat 4, partial 8, in tune"
        );
        assert!(whole.staves[0].players[1].columns[1].name.starts_with("muta in D: written C5, sounds D4"));
        set_crook(&mut document, Some(1), "xyzzyq").unwrap();
        assert!(form(&document, Some(1)).meaning.contains("not understood"));
        set_crook(&mut document, Some(1), " ").unwrap();
        assert!(!form(&document, Some(1)).any);
    }

    #[test]
    fn the_list_shows_the_crook_that_was_read_however_it_is_printed() {
        let mut document = document("/read?staff=Corni+in+Es&notes=C5.C5&at=2");
        let listed = |document: &Document| {
            let form = form(document, None);
            form.crooks.into_iter().find(|item| item.value == form.listed).map(|item| item.text)
        };
        assert_eq!(listed(&document), None);
        for (printed, text) in [("muta in C", "C basso"), ("muta in D", "D"), ("in La", "A alto")] {
            set_crook(&mut document, None, printed).unwrap();
            assert_eq!(listed(&document).as_deref(), Some(text), "{printed}");
        }
        // What is not understood leaves the crook as it is, and so says the list.
        set_crook(&mut document, None, "xyzzyq").unwrap();
        assert_eq!(form(&document, None).listed, "");
    }

    #[test]
    fn without_a_column_there_is_nothing_to_change() {
        let document = document("/read?staff=Corni+in+Es&notes=C5.C5");
        let whole = PageView::of(document.page(), Names::default());
        assert_eq!(ChangeForm::of(&whole, document.page(), None), None);
    }
}
