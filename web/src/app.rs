//! The app: makes the session, keeps address and storage in step, lays out the page.

use crate::browser::{address, measure, storage};
use crate::components::header::header;
use crate::components::label_field::label_field;
use crate::components::ladder_panel::ladder_panel;
use crate::components::live::{live, when};
use crate::components::new_version::new_version;
use crate::components::notice::notice;
use crate::components::readout::{glance, readout};
use crate::components::sound_bar::sound_bar;
use crate::components::staff_settings::staff_settings;
use crate::components::staff_sheet::staff_sheet;
use crate::components::together_panel::together_panel;
use crate::components::toolbar::toolbar;
use crate::components::wall_bar::{follow_keys, wall_bar};
use crate::state::kept::Derived;
use crate::state::opening::{self, Opening};
use crate::state::preferences::Preferences;
use crate::state::readout::Readout;
use crate::state::score_sheet::Room;
use crate::state::session::Session;
use crate::state::start;
use leptos::prelude::*;

/// Where the reader's own page is kept.
const OWN_PAGE: &str = "crookwise.page";

/// Where the reader's preferences are kept.
const PREFERENCES: &str = "crookwise.preferences";

/// The whole page.
#[must_use]
pub fn app() -> AnyView {
    let Opening { page, notice: sentence } =
        opening::of(&address::hash(), storage::read(OWN_PAGE).as_deref());
    let preferences = Preferences::read(&storage::read(PREFERENCES).unwrap_or_default());
    let session = Session::new(
        page,
        preferences,
        sentence,
        Room { width: (measure::window_width() - 90.0).min(800.0), wall: false },
    );
    provide_context(session);
    follow(session);
    follow_keys(session);
    let shown = Derived::new(move || Readout::of(&session.view.get(), &session.page.get()));
    let desk = live(move || match (session.whole.get().is_alone(), session.ladder.get().is_some()) {
        (false, _) => "desk with-side",
        (true, true) => "desk with-ladder",
        (true, false) => "desk",
    });
    let setup = move || {
        view! {
            <section class="card setup" aria-label="The staff">
                {label_field()}
                {staff_settings()}
            </section>
        }
        .into_any()
    };
    let caption = || view! { <p class="quiet caption">{start::CAPTION}</p> }.into_any();
    view! {
        <div class="glyph-store" inner_html=crookwise_engraving::svg::glyph_defs()></div>
        <div class=live(move || session.wall.get().class())>
        {header()}
        {when(move || session.wall.get().on, wall_bar)}
        <main>
            {notice()}
            {new_version()}
            {when(move || session.shows_setup(), setup)}
            <div class=desk>
                <section class="card notes" aria-label="Notes">
                    {glance(shown)}
                    {staff_sheet()}
                    {sound_bar()}
                    {toolbar()}
                    {when(move || *session.untouched.get(), caption)}
                </section>
                <div class="side">
                    {together_panel()}
                    {readout(shown)}
                    {ladder_panel()}
                </div>
            </div>
        </main>
        <footer>
            <p>"Facts of the trade carry their sources; what they leave open is shown as open."</p>
            <p><a href="licences.txt">"Licences of fonts and libraries"</a></p>
        </footer>
        </div>
    }
    .into_any()
}

/// Keeps the address, the storage and the session in step.
fn follow(session: Session) {
    address::on_hash_change(move |hash| {
        if hash != untrack(|| session.link()) {
            session.open_link(&hash);
        }
    });
    Effect::new(move |first: Option<()>| {
        let preferences = session.preferences();
        if first.is_some() {
            storage::write(PREFERENCES, &preferences.write());
        }
    });
    // Only what the reader did is kept: a link that was merely looked at leaves the kept page alone.
    Effect::new(move |_| {
        if session.document().changes() > 0 {
            let link = session.link();
            address::replace_hash(&link);
            storage::write(OWN_PAGE, &link);
        }
    });
}
