//! Everything the reader has made and sees, parted by what belongs together; a part of the page takes what it needs:
//!
//! ```ignore
//! let Session { desk, wall, .. } = Session::get();
//! ```

use crate::state::desk::Desk;
use crate::state::kept::Watched;
use crate::state::notices::Notices;
use crate::state::panels::Panels;
use crate::state::place::{AppPlace, CameBy, Whereabouts};
use crate::state::preferences::Preferences;
use crate::state::score_sheet::Room;
use crate::state::speaker::Speaker;
use crate::state::stand::Stand;
use crate::state::wall::Wall;
use crate::words::{self, Names};
use crookwise_share::{Link, LinkError, ReadPage};
use leptos::prelude::*;

/// Handles on the state; copy them where they are needed.
#[derive(Clone, Copy, Debug)]
pub struct Session {
    /// The page and everything it means.
    pub desk: Desk,
    /// How it is laid on the screen, and where the reader points.
    pub stand: Stand,
    /// What is heard.
    pub speaker: Speaker,
    /// What the back row sees.
    pub wall: Wall,
    /// What is open over the page.
    pub panels: Panels,
    /// What could not be done.
    pub notices: Notices,
    /// How notes are named.
    pub names: Watched<Names>,
    /// Where the reader is in the app.
    pub whereabouts: Whereabouts,
}

impl Session {
    /// A session that begins with a page. `seed` is that of the first exercise.
    #[must_use]
    pub fn new(
        page: ReadPage,
        preferences: Preferences,
        notice: Option<String>,
        room: Room,
        seed: u32,
    ) -> Self {
        let Preferences { names, way, volume } = preferences;
        let names = Watched::new(names);
        let notices = Notices::new(notice);
        let desk = Desk::new(page, names, notices);
        let wall = Wall::new();
        let whereabouts = Whereabouts::new(seed);
        Self {
            desk,
            stand: Stand::new(desk, wall, room),
            speaker: Speaker::new(way, volume),
            wall,
            panels: Panels::shut(),
            notices,
            names,
            whereabouts,
        }
    }

    /// The session of this page.
    ///
    /// # Panics
    /// Never in the app, which provides it before anything else is made.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("the app provides the session")
    }

    /// What is kept of the reader's wishes.
    #[must_use]
    pub fn preferences(self) -> Preferences {
        let Self { names, speaker, .. } = self;
        Preferences { names: names.get(), way: speaker.way.get(), volume: speaker.volume.get() }
    }

    /// Where the reader is.
    #[must_use]
    pub fn place(self) -> AppPlace {
        self.whereabouts.place.get()
    }

    /// What the address says: the place and what stands there, or where that is too long for an address, the place alone.
    #[must_use]
    pub fn address(self) -> String {
        match self.place() {
            AppPlace::Read => self.desk.address(),
            AppPlace::Practise(screen) => self.whereabouts.address(screen),
            AppPlace::Score => Link::Score(self.whereabouts.score.get()).encode(),
            AppPlace::Crooks => self.whereabouts.crooks.get(),
        }
    }

    /// What the window is called: what stands here.
    #[must_use]
    pub fn title(self) -> String {
        let here = match self.place() {
            AppPlace::Read => {
                let page = self.desk.page.read();
                let staves = page.passage.staves();
                let label = staves.first().map(|staff| staff.label.trim()).unwrap_or_default();
                match label {
                    "" => words::frame::READ.to_owned(),
                    label => words::kept::left(label, staves.len()),
                }
            }
            AppPlace::Practise(screen) => {
                let own = self.whereabouts.title(screen);
                words::frame::of_practise(own.as_deref().unwrap_or(screen.name()))
            }
            place => place.name().to_owned(),
        };
        words::frame::title(&here)
    }

    /// Opens a link: goes there and shows what it brings. Gives the name of a kept page that it asks for. One that
    /// cannot be opened becomes a sentence, and nothing is changed.
    ///
    /// # Errors
    /// Where it cannot be opened.
    pub fn open(
        self,
        link: Result<Option<Link>, LinkError>,
        came: CameBy,
    ) -> Result<Option<String>, LinkError> {
        let link = link.inspect_err(|error| self.notices.say(error.to_string()))?;
        self.notices.show(None);
        self.panels.close();
        let mut kept = None;
        // Who steps back from the wall to another place has left it.
        if matches!(link, Some(Link::Practise(_) | Link::Score(_) | Link::Crooks(_)))
            && self.wall.is_on_untracked()
        {
            self.wall.leave();
        }
        match link {
            Some(Link::Practise(link)) => {
                self.whereabouts.open(link, &self.desk.page.read_untracked().passage);
                return Ok(None);
            }
            Some(Link::Score(pairs)) => {
                self.whereabouts.open_score(pairs);
                return Ok(None);
            }
            Some(Link::Crooks(sent)) => {
                self.whereabouts.open_crooks(sent, came);
                return Ok(None);
            }
            Some(Link::Read(page)) => self.desk.show(*page),
            Some(Link::Kept(name)) => kept = Some(name),
            None => {}
        }
        self.whereabouts.place.set(AppPlace::Read);
        Ok(kept)
    }

    /// Shows what was found under the name of a kept page. Where nothing is, a sentence says so and the page on the desk
    /// stays.
    pub fn show_kept(self, name: &str, found: Option<ReadPage>) {
        let Some(page) = found else {
            self.notices.say(words::kept::no_such_page(name));
            self.desk.is_not_kept_as(name);
            return;
        };
        self.desk.show(page);
        self.desk.is_kept_as(name);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::document::Document;
    use crate::state::place::AtHand;
    use crate::state::practise::Screen;
    use crookwise_practice::{Exercise, Material};
    use crookwise_score::{MOST_STAVES, Passage};
    use crookwise_share::LONGEST;
    use crookwise_share::crooks::CrooksView;
    use crookwise_share::practise::{PractiseLink, SentExercise};

    fn session() -> (Owner, Session) {
        let owner = Owner::new();
        owner.set();
        let room = Room::wide(700.0);
        let page = ReadPage::of_label("Corni in Es");
        (owner, Session::new(page, Preferences::default(), None, room, 7))
    }

    fn open(session: Session, text: &str) -> Result<Option<String>, LinkError> {
        session.open(Link::decode(text), CameBy::Link)
    }

    #[test]
    fn an_address_goes_round_and_a_damaged_one_changes_nothing() {
        let (_owner, session) = session();
        session.desk.attempt(|document| document.enter_letter(crookwise_theory::Step::E));
        let address = session.address();
        session.desk.act(Document::clear);
        assert_eq!(open(session, &address), Ok(None));
        assert_eq!(session.address(), address);
        session.whereabouts.go(Screen::Record);
        let record = session.address();
        assert_eq!(open(session, &address[..address.len() - 3]), Err(LinkError::Damaged));
        assert!(session.notices.said.get().unwrap().contains("damaged"));
        assert_eq!(session.address(), record);
        // The page is on the desk still: opening it again is no step to undo.
        let changes = session.desk.document().can_undo();
        assert_eq!(open(session, &address), Ok(None));
        assert_eq!((session.place(), session.desk.document().can_undo()), (AppPlace::Read, changes));
    }

    #[test]
    fn every_screen_has_an_address_that_leads_to_it() {
        let (_owner, session) = session();
        let screens = [Screen::Course, Screen::Step(4), Screen::Set, Screen::Do, Screen::Wall, Screen::Paper];
        for screen in
            screens.into_iter().chain([Screen::Class, Screen::Weeks, Screen::Record, Screen::Repeat])
        {
            session.whereabouts.go(screen);
            let address = session.address();
            open(session, "/read").unwrap();
            assert_eq!(session.place(), AppPlace::Read);
            open(session, &address).unwrap();
            assert_eq!((session.place(), session.address()), (AppPlace::Practise(screen), address));
        }
        assert_eq!(open(session, "/read?kept=Mine"), Ok(Some("Mine".into())));
    }

    #[test]
    fn score_is_found_as_it_was_left() {
        let (_owner, session) = session();
        open(session, "/score?demo=1").unwrap();
        let address = session.address();
        open(session, "/read").unwrap();
        open(session, "/score").unwrap();
        assert_eq!((session.place(), session.address()), (AppPlace::Score, address));
    }

    #[test]
    fn crooks_are_found_as_they_were_left() {
        let (_owner, session) = session();
        open(session, "/crooks?keys=9_G+minor").unwrap();
        let address = session.address();
        assert!(address.ends_with("keys=9_G+minor"), "{address}");
        assert_eq!((session.place(), session.title().as_str()), (AppPlace::Crooks, "Crooks · Crookwise"));
        open(session, "/read").unwrap();
        open(session, "/crooks").unwrap();
        assert_eq!((session.place(), session.address()), (AppPlace::Crooks, address));
    }

    /// What was typed after a step was made is no older when the reader goes back; only what he looks at is.
    #[test]
    fn steps_within_crooks_change_what_is_looked_at_alone() {
        let (_owner, session) = session();
        let here = || (session.whereabouts.crooks_view(), session.address());
        open(session, "/crooks?keys=9_G+minor").unwrap();
        open(session, "/crooks?view=table&keys=9_D+minor").unwrap();
        assert_eq!(here().0, CrooksView::Table);
        session.open(Link::decode("/crooks?keys=9_G+minor"), CameBy::Step).unwrap();
        assert!(here().0 == CrooksView::Plans && here().1.ends_with("keys=9_D+minor"), "{:?}", here());
        // An address without anything is a step to the plans, and a link to what stands there.
        open(session, "/crooks?view=write").unwrap();
        assert!(here().0 == CrooksView::MayWrite && here().1.ends_with("keys=9_D+minor"), "{:?}", here());
        open(session, "/crooks").unwrap();
        assert_eq!(here().0, CrooksView::MayWrite);
        session.open(Link::decode("/crooks"), CameBy::Step).unwrap();
        assert_eq!(here().0, CrooksView::Plans);
        // From another place a step leads to what stood there, and so does a link.
        for came in [CameBy::Step, CameBy::Link] {
            open(session, "/read").unwrap();
            session.open(Link::decode("/crooks?view=table&keys=9_C+minor"), came).unwrap();
            assert!(here().0 == CrooksView::Table && here().1.ends_with("keys=9_C+minor"), "{:?}", here());
        }
        session.whereabouts.plan("what was taken".to_owned());
        assert_eq!(here().0, CrooksView::Plans);
    }

    #[test]
    fn a_kept_page_that_is_gone_is_said_and_the_page_on_the_desk_stays() {
        let (_owner, session) = session();
        let line = ["Cs4"; 64].join(".");
        let staff = format!("staff=Corni&players=2&notes={line}&notes2={line}");
        let link = format!("/read?{}", vec![staff; MOST_STAVES].join("&"));
        let Ok(Some(Link::Read(large))) = Link::decode_kept(&link) else { panic!("{link}") };
        // Kept here, and then renamed or removed in another window: its address asks for what is not there.
        session.show_kept("Mine", Some((*large).clone()));
        assert_eq!(session.notices.said.get(), None);
        let address = session.address();
        assert_eq!(open(session, &address), Ok(Some("Mine".into())));
        session.show_kept("Mine", None);
        assert!(session.notices.said.get().unwrap().contains("under the name “Mine”"));
        assert_eq!(*session.desk.page.read(), *large);
        assert_eq!(session.place(), AppPlace::Read);
        // What is not there under that name is no address of the page.
        assert_eq!(session.address(), Link::READ);
        // Another page that was kept under the name comes, and the one before is one step back.
        session.show_kept("Mine", Some(ReadPage::of_label("Fagotti")));
        assert_eq!(session.desk.page.read().passage.staves()[0].label, "Fagotti");
        session.desk.act(Document::undo);
        assert_eq!(*session.desk.page.read(), *large);
    }

    #[test]
    fn the_window_is_called_by_what_stands_there() {
        let (_owner, session) = session();
        assert_eq!(session.title(), "Corni in Es · Crookwise");
        session.desk.act(|document| document.type_label(" Fagotti "));
        assert_eq!(session.title(), "Fagotti · Crookwise");
        session.desk.attempt(|document| document.add_staff("Oboi"));
        assert_eq!(session.title(), "Fagotti and one more staff · Crookwise");
        open(session, "/read?staff=").unwrap();
        assert_eq!(session.title(), "Read · Crookwise");
        for (screen, name) in [
            (Screen::Course, "Course"),
            (Screen::Step(3), "Course"),
            (Screen::Do, "Exercise"),
            (Screen::Record, "My record"),
        ] {
            session.whereabouts.go(screen);
            assert_eq!(session.title(), format!("{name} · Practise · Crookwise"));
        }
        let exercise = Exercise { title: "For Monday".into(), ..Exercise::default() };
        session.whereabouts.open(PractiseLink::Do(Some(SentExercise::of(&exercise))), &Passage::default());
        assert_eq!(session.title(), "For Monday · Practise · Crookwise");
        session.whereabouts.go(Screen::Record);
        assert_eq!(session.title(), "My record · Practise · Crookwise");
    }

    #[test]
    fn an_exercise_about_the_page_is_about_this_page() {
        let (_owner, session) = session();
        open(session, crate::state::place::FROM_READ).unwrap();
        assert_eq!(session.place(), AppPlace::Practise(Screen::Set));
        let page = session.desk.page.get_untracked().passage;
        assert_eq!(session.whereabouts.at_hand.get_untracked(), AtHand::About(Box::new(page)));
        assert!(session.address().ends_with("&from=read"), "{}", session.address());
    }

    #[test]
    fn what_is_too_long_for_an_address_is_left_to_the_device() {
        let (_owner, session) = session();
        let line = ["Cs4"; 64].join(".");
        let staff = format!("staff=Corni&players=2&notes={line}&notes2={line}");
        let link = format!("/read?{}", vec![staff; MOST_STAVES].join("&"));
        assert!(link.len() > LONGEST);
        session.open(Link::decode_kept(&link), CameBy::Link).unwrap();
        assert_eq!(session.address(), Link::READ);
        // A link holds it, packed.
        let shared = session.desk.link().share("#").unwrap();
        assert_eq!(Link::decode(&shared.address), Ok(Some(session.desk.link())));
        let material = Material::Passage(Box::new(session.desk.page.get_untracked().passage));
        let exercise = SentExercise::of(&Exercise { material, ..Exercise::default() });
        session.whereabouts.open(PractiseLink::Do(Some(exercise.clone())), &Passage::default());
        let address = session.address();
        assert!(address.ends_with("&do="), "{address}");
        open(session, &address).unwrap();
        assert_eq!(session.whereabouts.at_hand.get_untracked(), AtHand::Sent(exercise));
    }

    #[test]
    fn a_students_code_stays_in_the_address_and_a_mail_does_not() {
        let (_owner, session) = session();
        open(session, "/practise?class=CWX1-ABC").unwrap();
        assert_eq!(session.whereabouts.pasted.get_untracked(), "CWX1-ABC");
        assert!(session.address().ends_with("class=CWX1-ABC"));
        session.whereabouts.pasted.set("Hello, here is mine: CWX1-ABC".into());
        assert!(session.address().ends_with("class="));
    }
}
