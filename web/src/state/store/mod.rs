//! What is kept of the reader's, and the rules by which none of it is lost. Plain texts; the device is handed in.
//!
//! There are two kinds of keeping. **At once**, by name, are kept the desk of each window, the exercise under way on it,
//! the reader's wishes, how scores were left, and answers until the record has them: what is written there is there when the window is closed
//! in the next moment. **In drawers** (`pages`, `record`, `lists`, `scores`, `aside`: see [`Drawers`]) is kept what all windows share: several
//! texts are changed together or not at all, whoever else changes them at the same time.
//!
//! * Every text is an entry ([`entry`]): its first line says what it is and which version wrote it.
//! * What cannot be read, damaged or of a newer version, is set aside whole ([`aside`]): it stays as it was found, is
//!   offered as a file, and is taken in again by a version that can read it. Nothing is ever written over it.
//! * A window has a desk of its own ([`desk`]). A page that makes way for another waits on the desk until it is safe among
//!   the pages ([`pages`]).
//! * Pages are entries of their own and the record is joined ([`record`]), so two windows add to each other.
//! * What earlier versions kept is taken over ([`earlier`]), and goes only when it is safe in its new place.
//!
//! [`crate::store::Store`] stands on these rules and on the browser; all of the app keeps things through it.

pub mod aside;
pub mod backup;
pub mod desk;
pub mod earlier;
pub mod entry;
pub mod left;
pub mod lists;
pub mod pages;
pub mod record;
pub mod scores;
pub mod under_way;

use crookwise_theory::ordered::Ordered;

/// What stands in the drawers: texts by their names, each name beginning with its drawer: `pages/Corni`.
pub type Drawers = Ordered<String, String>;
