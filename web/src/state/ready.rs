//! Ready margins of typical pages, in our own names. The scenario is invented: the Quarry Hill Harmony and its guests.

use crate::words;
use crookwise_share::{Link, ReadPage};

/// A ready margin.
#[derive(Clone, Copy, Debug)]
pub struct Ready {
    /// What it is called in the list.
    pub name: &'static str,
    /// The link that makes it.
    link: &'static str,
}

/// The ready margins. Which staves such pages have is common practice; each makes plain chords in the manner its name says.
pub const READY: [Ready; 6] = [
    Ready {
        name: words::pages::TWO_HORNS_WITH_STRINGS,
        link: "/read?staff=2+Corni+in+Es&players=2&notes=E5.C5.D5.C5&notes2=C5.C4.G4.E4&staff=Violino+I&notes=Eb5.Eb5.D5.Eb5&staff=Violino+II&notes=Bb4.C5.Bb4.Bb4&staff=Viola&notes=G4.Ab4.F4.G4&staff=Violoncello+e+Basso&notes=Eb3.Ab3.Bb3.Eb3&key=Eb+major&at=1",
    },
    Ready {
        name: words::pages::FOUR_HORNS_IN_TWO_CROOKS,
        link: "/read?staff=Corni+I,+II+in+G&players=2&notes=C5.D5.C5.D5.G4&notes2=G4.G4.G4.-.-&staff=Corni+III,+IV+in+B+alto&players=2&notes=C5.E5.C5.D5.E5&notes2=E4.E4.E4.G4.G4&staff=Bassi&notes=G2.F#2.G2.A2.Bb2&key=G+minor&at=1",
    },
    Ready {
        name: words::pages::CLASSICAL_BRASS_WITH_DRUMS,
        link: "/read?staff=2+Clarini+in+D&players=2&notes=E5.D5.C5.D5.E5&notes2=C5.G4.E4.G4.C5&staff=2+Corni+in+D&players=2&notes=C5.D5.C5.D5.C5&notes2=G4._._._._&staff=Timpani+in+D,+A&notes=C3.G2.C3.G2.C3&key=D+major&at=1",
    },
    Ready {
        name: words::pages::WINDS_OF_A_SYMPHONY,
        link: "/read?staff=2+Flauti&players=2&notes=Bb5.C6.D6.Eb6&notes2=G5.Ab5.Ab5.G5&staff=2+Oboi&players=2&notes=Eb5.Eb5.F5.Eb5&notes2=Bb4.C5.Bb4.Bb4&staff=2+Clarinetti+in+B&players=2&notes=A4.Bb4.C5.A4&notes2=F4.F4.G4.F4&staff=2+Fagotti&players=2&notes=G3.Ab3.F3.G3&notes2=Eb3.Ab2.Bb2.Eb2&staff=2+Corni+in+Es&players=2&notes=C5._.D5.C5&notes2=C4._.G4.E4&staff=2+Trombe+in+Es&players=2&notes=C5._.D5.C5&notes2=C4._.G4.E4&staff=Timpani+in+Es,+B&notes=C3.-.G2.C3&key=Eb+major&at=1",
    },
    Ready {
        name: words::pages::A_WHOLE_SYMPHONY,
        link: "/read?staff=2+Flauti&players=2&notes=E6.E6.D6.D6.C6&notes2=G5.A5.A5.G5.G5&staff=2+Oboi&players=2&notes=E5.E5.D5.F5.E5&notes2=C5.C5.A4.D5.C5&staff=2+Clarinetti+in+B&players=2&notes=A4.B4.B4.A4.A4&notes2=F#4.F#4.G4.G4.F#4&staff=2+Fagotti&players=2&notes=G3.A3.A3.G3.G3&notes2=C3.A2.F2.G2.C3&staff=2+Corni+in+C+basso&players=2&notes=E5._.D5.D5.C5&notes2=C5._.D5.G4.E4&staff=2+Trombe+in+C&players=2&notes=C5._.D5.D5.E5&notes2=E4._.-.G4.C5&staff=Timpani+in+C,+G&notes=C3.-.-.G2.C3&staff=Violino+I&notes=E5.E5.D5.D5.C5&staff=Violino+II&notes=G4.A4.A4.B4.C5&staff=Viola&notes=C4.C4.F4.F4.E4&staff=Violoncello+e+Basso&notes=C3.A2.F2.G2.C3&key=C+major&at=1",
    },
    Ready { name: words::pages::ONE_STAFF_EMPTY, link: "/read?staff=Corni+in+F" },
];

impl Ready {
    /// The page.
    #[must_use]
    pub fn page(&self) -> Option<ReadPage> {
        match Link::decode_readable(self.link) {
            Ok(Some(Link::Read(page))) => Some(*page),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::view::PageView;
    use crate::words::Names;
    use crookwise_score::{Harmony, HarmonyKind, ResolvedStaff, Voice, voices};
    use crookwise_theory::label::DecodeOptions;
    use crookwise_theory::{Grade, Pitch};

    #[test]
    fn every_ready_margin_opens_and_every_label_is_understood() {
        for ready in READY {
            let page = ready.page().unwrap_or_else(|| panic!("{}", ready.name));
            for staff in PageView::of(&page, Names::default()).staves {
                for view in staff.players {
                    assert!(view.start().is_some(), "{}: {}", ready.name, staff.label);
                    assert!(view.staff.decoded.problem.is_none(), "{}: {}", ready.name, staff.label);
                }
            }
        }
    }

    #[test]
    fn every_ready_margin_has_a_code_for_a_camera() {
        // At a host of thirty letters.
        let front = "https://music.school-of-winds2.example/#";
        for ready in READY {
            let link = Link::Read(Box::new(ready.page().unwrap()));
            let shared = link.share(front).unwrap();
            assert!(shared.code.is_ok(), "{}: {}", ready.name, shared.address);
            assert!(shared.address.len() <= crookwise_share::LONGEST_ADDRESS, "{}", shared.address);
            assert_eq!(Link::decode(&shared.address[front.len()..]), Ok(Some(link)), "{}", ready.name);
        }
    }

    /// The columns of a page, each with all that sounds.
    fn columns(page: &ReadPage) -> Vec<Vec<Voice>> {
        let staves = ResolvedStaff::all(&page.passage, DecodeOptions { year: page.year });
        let staves: Vec<&ResolvedStaff> = staves.iter().collect();
        let columns = 0..page.passage.columns().len();
        columns.map(|column| voices(&page.passage, &staves, column, page.intonation)).collect()
    }

    fn full() -> impl Iterator<Item = (&'static str, ReadPage)> {
        let pages = READY.into_iter().map(|ready| (ready.name, ready.page().unwrap()));
        pages.filter(|(_, page)| columns(page).iter().any(|column| !column.is_empty()))
    }

    #[test]
    fn every_column_makes_a_chord() {
        assert_eq!(full().count(), READY.len() - 1);
        for (name, page) in full() {
            let columns = columns(&page);
            assert!(columns.len() >= 4, "{name}");
            for (at, column) in columns.iter().enumerate() {
                let harmony = Harmony::of_voices(column, page.passage.movement_at(at));
                let clean = match harmony.kind {
                    HarmonyKind::Chord(chord) => chord.missing.is_none(),
                    HarmonyKind::OpenFifth { fifth_in_bass, .. } => !fifth_in_bass,
                    _ => false,
                };
                assert!(clean, "{name}, column {}: {harmony}", at + 1);
            }
        }
    }

    #[test]
    fn the_outer_voices_make_no_parallel_fifths_or_octaves() {
        for (name, page) in full() {
            let outer: Vec<(i32, i32)> = columns(&page)
                .iter()
                .map(|column| {
                    let sounding = || column.iter().map(|voice| voice.sounding.0.midi());
                    (sounding().min().unwrap(), sounding().max().unwrap())
                })
                .collect();
            for (at, pair) in outer.windows(2).enumerate() {
                let [(low, high), (next_low, next_high)] = pair else { continue };
                let (here, there) = ((high - low) % 12, (next_high - next_low) % 12);
                let move_both = low != next_low && high != next_high;
                let parallel = here == there && matches!(here, 0 | 7) && move_both;
                assert!(!parallel, "{name}, columns {} and {}", at + 1, at + 2);
            }
        }
    }

    #[test]
    fn every_note_lies_well_for_its_instrument() {
        for (name, page) in full() {
            let staves = ResolvedStaff::all(&page.passage, DecodeOptions { year: page.year });
            for voice in columns(&page).into_iter().flatten().filter(|voice| !voice.doubled_below) {
                let staff = &staves[voice.staff];
                let label = &page.passage.staves()[voice.staff].label;
                if let Some(making) = voice.reading.making {
                    assert!(
                        matches!(making.grade, Some(Grade::A | Grade::B)),
                        "{name}, {label}: {}",
                        voice.written
                    );
                }
                let drums = &staff.staff(voice.player).unwrap().drums;
                assert!(drums.is_empty() || drums.contains(&voice.sounding.0.tonic()), "{name}, {label}");
                let range = staff.staff(voice.player).unwrap().instrument.range;
                let named =
                    || range.split(['–', ' ', '(', ')', '/']).filter_map(|word| word.parse::<Pitch>().ok());
                if let (Some(low), Some(high)) =
                    (named().min_by_key(|note| note.midi()), named().max_by_key(|note| note.midi()))
                    && drums.is_empty()
                {
                    let within = (low.midi()..=high.midi()).contains(&voice.written.0.midi());
                    assert!(within, "{name}, {label}: {}", voice.written);
                }
            }
        }
    }

    #[test]
    fn there_are_as_many_players_as_the_label_says() {
        for ready in READY {
            let page = ready.page().unwrap();
            let staves = ResolvedStaff::all(&page.passage, DecodeOptions { year: page.year });
            for (own, resolved) in page.passage.staves().iter().zip(&staves) {
                let named = resolved.decoded.named_players();
                let strings = own.label.starts_with("Viol");
                assert!(
                    named == Some(own.players()) || (own.players() == 1 && (named.is_none() || strings)),
                    "{}",
                    own.label
                );
            }
        }
    }
}
