//! What the selected column makes together: its name, who holds which member, how two players beat.

use crate::state::view::PageView;
use crate::words::{self, Names};
use crookwise_score::{Harmony, HarmonyKind, Voice};
use crookwise_share::ReadPage;
use crookwise_sound::{Manner, beats, hz};
use crookwise_theory::order::in_order;

/// Pairs of players whose beats are listed.
const MOST_PAIRS: usize = 6;

/// The selected column as a whole, in words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Together {
    /// Which column in which key.
    pub place: String,
    /// The name of what sounds.
    pub name: String,
    /// Position, degree, other ways to hear it.
    pub remarks: Vec<String>,
    /// Its members from the root on.
    pub members: Vec<MemberLine>,
    /// Notes that are spelled otherwise in the chord than on their staves.
    pub respelled: Vec<String>,
    /// How the selected player's note beats with the others, as the instruments give them.
    pub beats: Vec<String>,
}

/// A member of a chord and who holds it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MemberLine {
    /// What it is: "third".
    pub role: &'static str,
    /// Its note.
    pub note: String,
    /// Who holds it, staff by staff.
    pub holders: Vec<Holder>,
    /// In how many octaves it sounds; empty for one.
    pub octaves: String,
}

/// The players of a staff who hold a member.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Holder {
    /// What they are called: "Corni in Es 1".
    pub name: String,
    /// On natural brass, which partial it is for each of them and how far it drifts: "10, −14".
    pub made: String,
}

impl Together {
    /// The selected column of a page on which several play; `None` where one plays alone or nothing is selected.
    #[must_use]
    pub fn of(whole: &PageView, page: &ReadPage) -> Option<Self> {
        let column = page.selected.filter(|&column| column < whole.columns())?;
        if whole.is_alone() {
            return None;
        }
        let sounding = whole.sounds.voices(column);
        let key = page.passage.movement_at(column);
        let harmony = Harmony::of_voices(&sounding, key);
        let names = whole.names;
        let (name, position) = words::together::harmony(&harmony, names);
        let degree = words::together::harmony_degree(&harmony);
        let remarks = [Some(position), degree, words::together::also(&harmony, names)];
        let members = match harmony.kind {
            HarmonyKind::Silence => Vec::new(),
            _ => members(&harmony, &sounding, whole),
        };
        Some(Self {
            place: words::together::column_place(column, whole.columns(), key, names),
            name,
            remarks: remarks.into_iter().flatten().filter(|remark| !remark.is_empty()).collect(),
            members,
            respelled: respelled(&harmony, &sounding, whole, names),
            beats: beating(&sounding, whole),
        })
    }
}

fn members(harmony: &Harmony, sounding: &[Voice], whole: &PageView) -> Vec<MemberLine> {
    let line = |member: &crookwise_score::Member| MemberLine {
        role: member.role.words(),
        note: whole.names.tonic(member.note),
        holders: holders(member.voices.iter().filter_map(|&voice| sounding.get(voice)), whole),
        octaves: words::together::in_octaves(member),
    };
    harmony.members.iter().map(line).collect()
}

/// Who holds a member: each staff once, in the order of the voices, however many of its players do and in however many
/// octaves.
fn holders<'a>(voices: impl Iterator<Item = &'a Voice>, whole: &PageView) -> Vec<Holder> {
    let mut staves: Vec<Vec<&Voice>> = Vec::new();
    for voice in voices {
        let own = staves.iter_mut().find(|own| own.first().is_some_and(|first| first.staff == voice.staff));
        match own {
            Some(own) if own.iter().any(|other| other.player == voice.player) => {}
            Some(own) => own.push(voice),
            None => staves.push(vec![voice]),
        }
    }
    let holder = |voices: Vec<&Voice>| {
        let voices = in_order(voices, |voice| voice.player);
        let mut made: Vec<String> = Vec::new();
        for said in voices.iter().map(|voice| words::together::made(&voice.reading)) {
            if !said.is_empty() && !made.contains(&said) {
                made.push(said);
            }
        }
        Holder { name: players(&voices, whole), made: made.join("; ") }
    };
    staves.into_iter().map(holder).collect()
}

/// What some players of a staff are called together: "Corni in Es" for all of them, else with their numbers.
fn players(voices: &[&Voice], whole: &PageView) -> String {
    let Some(staff) = voices.first().and_then(|voice| whole.staves.get(voice.staff)) else {
        return String::new();
    };
    if voices.len() == staff.players.len() {
        return staff.uncounted().to_owned();
    }
    let numbers: Vec<String> = voices.iter().map(|voice| voice.number.to_string()).collect();
    format!("{} {}", staff.uncounted(), numbers.join(", "))
}

/// What a player is called: "Corni in Es 1".
fn player(voice: &Voice, whole: &PageView) -> String {
    whole.short_name(voice.staff, voice.player)
}

fn respelled(harmony: &Harmony, sounding: &[Voice], whole: &PageView, names: Names) -> Vec<String> {
    let changed = sounding.iter().zip(&harmony.letters).filter(|(_, letter)| letter.respelled);
    changed
        .map(|(voice, letter)| {
            words::together::respelled(&player(voice, whole), voice.sounding.0, letter.pitch, names)
        })
        .collect()
}

/// The selected player against every other who sounds another staff or note, by how much they beat.
fn beating(sounding: &[Voice], whole: &PageView) -> Vec<String> {
    let here =
        |voice: &&Voice| voice.staff == whole.staff && voice.player == whole.player && !voice.doubled_below;
    let Some(own) = sounding.iter().find(here) else { return Vec::new() };
    let pitch = |voice: &Voice| hz(&voice.reading, Manner::Tube);
    let pairs = sounding
        .iter()
        .filter(|other| !here(other) && !other.doubled_below)
        .filter_map(|other| Some((other, beats(pitch(own), pitch(other))?)));
    in_order(pairs, |(_, beats)| -beats.cents.abs())
        .iter()
        .take(MOST_PAIRS)
        .map(|(other, beats)| words::together::beating(&player(own, whole), &player(other, whole), beats))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Letters;
    use crookwise_share::Link;

    fn together(link: &str, names: Names) -> Option<Together> {
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        Together::of(&PageView::of(&page, names), &page)
    }

    const BRASS: &str = "/read?staff=2+Corni+in+Es&players=2&notes=E5&notes2=C5&staff=Violino+I&notes=Bb4\
        &staff=Violoncello+e+Basso&notes=G2&key=Eb+major&at=1";

    #[test]
    fn who_has_the_third_is_answered() {
        let shown = together(BRASS, Names::default()).unwrap();
        assert_eq!(shown.place, "Column 1 of 1, in E♭ major");
        assert_eq!(shown.name, "E♭ major");
        assert_eq!(shown.remarks, ["third in the bass", "on the first degree of the key"]);
        let third = shown.members.iter().find(|member| member.role == "third").unwrap();
        assert_eq!(third.note, "G");
        let said: Vec<String> =
            third.holders.iter().map(|holder| format!("{} ({})", holder.name, holder.made)).collect();
        assert_eq!(said, ["Violoncello e Basso ()", "Corni in Es 1 (10, −14)"]);
        assert_eq!(third.octaves, "in three octaves");
    }

    #[test]
    fn the_players_of_a_staff_stand_together() {
        let link = "/read?staff=2+Corni+in+Es&players=2&notes=*C5&staff=Corni+III,+IV+in+Es&players=2&notes=G5\
            &notes2=C4&staff=Oboi&notes=Eb5&at=1";
        let shown = together(link, Names::default()).unwrap();
        let root: Vec<(&str, &str)> = shown.members[0]
            .holders
            .iter()
            .map(|holder| (holder.name.as_str(), holder.made.as_str()))
            .collect();
        assert_eq!(root, [("Corni III, IV in Es 4", "4"), ("Corni in Es", "8"), ("Oboi", "")]);
    }

    #[test]
    fn the_selected_player_beats_with_the_others() {
        let shown = together(BRASS, Names::default()).unwrap();
        assert_eq!(shown.beats.len(), 3);
        assert_eq!(
            shown.beats[0],
            "Corni in Es 1 with Violoncello e Basso: 2 octaves, 14 cents narrow, 3.1 Hz"
        );
    }

    #[test]
    fn names_follow_the_settings() {
        let german = Names { letters: Letters::German, ..Names::default() };
        assert_eq!(together(BRASS, german).unwrap().name, "Es major");
    }

    #[test]
    fn one_player_alone_makes_no_chord() {
        assert_eq!(together("/read?staff=Corni+in+Es&notes=E5&at=1", Names::default()), None);
        assert_eq!(together(&BRASS.replace("&at=1", ""), Names::default()), None);
        let silent = "/read?staff=Violino&notes=-&staff=Viola&notes=-&at=1";
        let shown = together(silent, Names::default()).unwrap();
        assert_eq!((shown.name.as_str(), shown.members.len()), ("Silence", 0));
    }

    #[test]
    fn a_respelled_note_is_said() {
        let link = "/read?staff=Corni+in+E&notes=C5&staff=Violino&notes=B4&staff=Viola&notes=G4\
            &key=Ab+minor&at=1";
        let shown = together(link, Names::default()).unwrap();
        assert!(!shown.respelled.is_empty(), "{shown:?}");
    }
}
