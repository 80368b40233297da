//! The selected note at a glance: what is written, what sounds, how it is made.

use crate::state::view::{PageView, View};
use crate::words;

/// The shortest that is said about a note.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Glance {
    /// The printed note.
    pub written: String,
    /// What sounds.
    pub sounding: String,
    /// How it is made and how far it drifts, or how far it sounds from the page.
    pub headline: String,
}

impl Glance {
    /// The selected column; `None` where no note is selected or its staff is not understood.
    #[must_use]
    pub fn of(view: &View) -> Option<Self> {
        let selected = view.selected_column()?;
        if selected.stroke {
            return Some(Self {
                written: words::STROKE.to_owned(),
                sounding: words::NO_PITCH.to_owned(),
                headline: String::new(),
            });
        }
        let reading = selected.reading.as_ref()?;
        Some(Self {
            written: view.names.note(reading.printed.0),
            sounding: view.names.note(reading.sounding.0),
            headline: match (&reading.making, view.other_drums()) {
                (Some(made), _) => words::headline(made),
                (None, Some(drums)) => words::drums::has_no_drum(drums, view.names),
                (None, None) => words::sounds(reading.interval),
            },
        })
    }
}

/// The shortest that is said of the selected note; where several play, with the player's name before it; in bars of a
/// score with the number of its bar.
#[must_use]
pub fn headline(glance: &Glance, whole: &PageView) -> String {
    let made = if whole.is_alone() {
        glance.headline.clone()
    } else {
        words::staves::of_player(&whole.short_name(whole.staff, whole.player), &glance.headline)
    };
    whole.selected_bar().map(|bar| words::changes::beside_bar(bar, &made)).unwrap_or(made)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_share::Link;

    fn glance(link: &str) -> Option<Glance> {
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        Glance::of(&View::of(&page))
    }

    #[test]
    fn an_open_partial() {
        let shown = glance("/read?staff=Corni+in+Es&notes=E5&a4=430&at=1").unwrap();
        assert_eq!((shown.written.as_str(), shown.sounding.as_str()), ("E5", "G4"));
        assert_eq!(shown.headline, "Partial 10, open, 14 cents flat");
    }

    #[test]
    fn old_bass_notation_sounds_from_where_it_is_meant() {
        let shown = glance("/read?staff=Horn+in+F&clef=F4&notes=C3&at=1").unwrap();
        assert_eq!((shown.written.as_str(), shown.sounding.as_str()), ("C3", "F3"));
    }

    #[test]
    fn drums_have_the_notes_that_their_label_names() {
        let headline = |link: &str| glance(link).unwrap().headline;
        let other = "/read?staff=Timpani+in+D%2C+A&clef=F4&notes=D3.G2&at=2";
        assert_eq!(headline(other), "No drum of these: they are D and A");
        // Those of the label, printed by their names or as C and G, in any octave and spelling.
        for link in [
            "/read?staff=Timpani+in+D%2C+A&clef=F4&notes=D3.A2&at=2",
            "/read?staff=Timpani+in+D%2C+A&clef=F4&notes=C3.G2&at=1",
            "/read?staff=Timpani+in+Cis%2C+Gis&clef=F4&notes=Db3&at=1",
            "/read?staff=Timpani&clef=F4&notes=G2&at=1",
        ] {
            assert!(headline(link).starts_with("Sounds"), "{link}: {}", headline(link));
        }
        // Where one is tuned anew, that counts.
        let tuned = "/read?staff=Timpani+in+D%2C+A&clef=F4&notes=D3.G2.A2&muta=2_muta+A+in+G";
        assert!(
            headline(&format!("{tuned}&at=2")).starts_with("Sounds"),
            "{}",
            headline(&format!("{tuned}&at=2"))
        );
        assert!(headline(&format!("{tuned}&at=3")).starts_with("No drum of these: they are D and G"));
    }

    #[test]
    fn a_stroke_is_a_stroke_and_no_note() {
        let shown = glance("/read?staff=Gran+cassa&notes=E4&at=1").unwrap();
        assert_eq!((shown.written.as_str(), shown.sounding.as_str()), ("a stroke", "no pitch"));
        assert_eq!(glance("/read?staff=Xyzzyq&notes=E4&at=1"), None);
    }

    #[test]
    fn among_several_the_player_is_named() {
        let of = |link: &str| {
            let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
            let whole = PageView::of(&page, words::Names::default());
            headline(&Glance::of(&whole.current()).unwrap(), &whole)
        };
        let pair = "/read?staff=2+Corni+in+Es&players=2&notes=E5&notes2=C5&at=1";
        assert_eq!(of(pair), "Corni in Es 1: partial 10, open, 14 cents flat");
        assert_eq!(of(&format!("{pair}&staff=Flauto&notes=E5&on=2")), "Flauto: sounds as printed");
        assert_eq!(of("/read?staff=Corni+in+Es&notes=E5&at=1"), "Partial 10, open, 14 cents flat");
    }

    #[test]
    fn in_bars_of_a_score_the_bar_is_named_first() {
        let of = |link: &str| {
            let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
            let whole = PageView::of(&page, words::Names::default());
            headline(&Glance::of(&whole.current()).unwrap(), &whole)
        };
        let alone = "/read?staff=Corni+in+Es&notes=C5.E5&bars=1_66&at=2";
        assert_eq!(of(alone), "bar 66 · Partial 10, open, 14 cents flat");
        let pair = "/read?staff=2+Corni+in+Es&players=2&notes=C5.E5&bars=2_67&at=2";
        assert_eq!(of(pair), "bar 67 · Corni in Es 1: partial 10, open, 14 cents flat");
    }

    #[test]
    fn a_rest_has_nothing_to_say() {
        assert_eq!(glance("/read?staff=Corni+in+Es&notes=-&at=1"), None);
        assert_eq!(glance("/read?staff=Corni+in+Es&notes=C4"), None);
    }
}
