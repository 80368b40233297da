//! How a window begins: which desk is its own, and what could not be read.

use super::{PREFERENCES, set_aside};
use crate::browser::clock;
use crate::browser::store::{local, windows};
use crate::state::preferences::Preferences;
use crate::state::store::aside::SetAside;
use crate::state::store::desk::{self, KeptDesk};
use crate::state::store::earlier;
use crate::state::store::entry::What;
use crookwise_theory::ordered::Ordered;

/// What a window begins with.
#[derive(Clone, Debug, Default)]
pub struct Begun {
    /// The name of its desk.
    pub name: String,
    /// What stands on it.
    pub desk: KeptDesk,
    /// The reader's wishes.
    pub preferences: Preferences,
    /// What could not be read and was set aside.
    pub found: SetAside,
}

/// Finds the desk of this window, and claims it.
pub async fn begin() -> Begun {
    let mut found = SetAside::default();
    let preferences = local::read(PREFERENCES).map(|text| Preferences::read(&text));
    let preferences = preferences.unwrap_or(Ok(Preferences::default())).unwrap_or_else(|why| {
        set_aside(What::Preferences, PREFERENCES);
        found.add(why);
        Preferences::default()
    });
    take_over_page(&mut found);
    let desks = readable(&mut found).await;
    let (name, desk) = claimed(&desks).await;
    local::set_desk(&name);
    let name = name.strip_prefix(desk::NAMES).unwrap_or(&name).to_owned();
    Begun { name, desk, preferences, found }
}

/// All desks that can be read, by name. The others are set aside, except where another window has one: that is perhaps of
/// a newer version.
async fn readable(found: &mut SetAside) -> Ordered<String, KeptDesk> {
    let mut desks = Ordered::default();
    for name in local::names(desk::NAMES) {
        let Some(text) = local::read(&name) else { continue };
        match KeptDesk::read(&text) {
            Ok(desk) => desks.insert(name, desk),
            Err(why) => {
                if windows::claim(std::slice::from_ref(&name)).await.is_some() {
                    set_aside(What::Desk, &name);
                    found.add(why);
                }
            }
        }
    }
    desks
}

/// The name of the desk that is claimed, and what stands on it.
async fn claimed(desks: &Ordered<String, KeptDesk>) -> (String, KeptDesk) {
    let read = |name: &String| desks.get(name).cloned().unwrap_or_default();
    let own = local::desk().filter(|name| name.starts_with(desk::NAMES));
    let wanted = own.as_ref().map_or_else(|| desk::wanted(desks), |own| vec![own.clone()]);
    if let Some(name) = windows::claim(&wanted).await {
        let desk = read(&name);
        return (name, desk);
    }
    // This window is a copy of another, or all desks have their windows: it takes a new one.
    let name = format!("{}{:08x}", desk::NAMES, clock::chance());
    let _ = windows::claim(std::slice::from_ref(&name)).await;
    let copy = KeptDesk { before: Vec::new(), ..own.as_ref().map(read).unwrap_or_default() };
    if copy.page.is_some() {
        local::write(&name, &copy.write());
    }
    (name, copy)
}

/// The page that earlier versions kept for all windows becomes a desk; where it cannot be read it is set aside.
fn take_over_page(found: &mut SetAside) {
    let Some(link) = local::read(earlier::PAGE) else { return };
    match earlier::desk_of_page(&link, clock::stamp()) {
        Ok(desk) => {
            let name = format!("{}{:08x}", desk::NAMES, clock::chance());
            if local::write(&name, &desk.write()) {
                local::remove(earlier::PAGE);
            }
        }
        Err(why) => {
            set_aside(What::Desk, earlier::PAGE);
            found.add(why);
        }
    }
}
