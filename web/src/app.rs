//! The app: makes the session, keeps address and storage in step, lays out the page.

use crate::browser::{address, measure, storage, theme};
use crate::components::header::Header;
use crate::components::label_field::LabelField;
use crate::components::ladder_panel::LadderPanel;
use crate::components::notice::Notice;
use crate::components::readout::{Glance, Readout};
use crate::components::staff_settings::StaffSettings;
use crate::components::staff_sheet::StaffSheet;
use crate::components::toolbar::Toolbar;
use crate::state::opening::{self, Opening};
use crate::state::readout;
use crate::state::score_sheet::Room;
use crate::state::session::Session;
use leptos::prelude::*;

/// Where the reader's own page is kept.
const OWN_PAGE: &str = "crookwise.page";

/// The whole page.
#[component]
pub fn App() -> impl IntoView {
    let Opening { page, notice } = opening::of(&address::hash(), storage::read(OWN_PAGE).as_deref());
    let session = Session::new(page, notice, Room { width: (measure::window_width() - 90.0).min(800.0) });
    provide_context(session);
    let dark = RwSignal::new(theme::device_is_dark());
    address::on_hash_change(move |hash| {
        if hash != session.link() {
            session.open_link(&hash);
        }
    });
    // Only what the reader did is kept: a link that was merely looked at leaves the kept page alone.
    Effect::new(move |_| {
        if session.changes() > 0 {
            let link = session.link();
            address::replace_hash(&link);
            storage::write(OWN_PAGE, &link);
        }
    });
    let shown = Memo::new(move |_| readout::Readout::of(&session.view.read(), &session.page.read()));
    view! {
        <div class="glyph-store" inner_html=crookwise_engraving::svg::glyph_defs()></div>
        <Header dark />
        <main>
            <Notice />
            <section class="card setup" aria-label="The staff">
                <LabelField />
                <StaffSettings />
            </section>
            <div class="desk" class:with-ladder=move || session.ladder.read().is_some()>
                <section class="card notes" aria-label="Notes">
                    <Glance shown />
                    <StaffSheet />
                    <Toolbar />
                    <Show when=move || session.untouched.get()>
                        <p class="quiet caption">{crate::state::start::CAPTION}</p>
                    </Show>
                </section>
                <LadderPanel />
            </div>
            <Readout shown />
        </main>
        <footer>
            <p>"Facts of the trade carry their sources; what they leave open is shown as open."</p>
            <p><a href="licences.txt">"Licences of fonts and libraries"</a></p>
        </footer>
    }
}
