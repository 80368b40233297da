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
    /// Who holds it.
    pub holders: String,
    /// Unisons and octaves, counted.
    pub count: String,
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
    let line = |member: &crookwise_score::Member| {
        let held = member.voices.iter().filter_map(|&voice| sounding.get(voice));
        let holders: Vec<String> = held
            .map(|voice| words::together::holder(&player(voice, whole), &voice.reading, voice.doubled_below))
            .collect();
        MemberLine {
            role: member.role.words(),
            note: whole.names.tonic(member.note),
            holders: holders.join("; "),
            count: words::together::how_many(member),
        }
    };
    harmony.members.iter().map(line).collect()
}

/// What a player is called: "Corni in Es 1".
fn player(voice: &Voice, whole: &PageView) -> String {
    let Some(staff) = whole.staves.get(voice.staff) else { return String::new() };
    let name = staff.label.trim_start_matches(|letter: char| letter.is_ascii_digit() || letter == ' ');
    let name = if name.is_empty() { staff.label.as_str() } else { name };
    if staff.players.len() == 1 { name.to_owned() } else { format!("{name} {}", voice.number) }
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
        assert_eq!(
            third.holders,
            "Violoncello e Basso (an octave below); Violoncello e Basso; Corni in Es 1 (partial 10, 14 cents flat)"
        );
        assert_eq!(third.count, "3 voices, in 3 octaves");
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
