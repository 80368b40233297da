//! What a part of the page makes once and what then lasts as long as the app, though the part itself comes and goes.

use leptos::prelude::*;

/// Who owns what lasts.
#[derive(Clone)]
struct Lasting(Owner);

/// From here on things can be made that last; said by the app before anything else is made.
pub fn provide_owner() {
    if let Some(owner) = Owner::current() {
        provide_context(Lasting(owner));
    }
}

/// Who owns what lasts; nobody before the app has said so.
pub fn owner() -> Option<Owner> {
    use_context::<Lasting>().map(|Lasting(owner)| owner)
}

/// The thing of this type, made now if it has not been made before.
pub fn once<T: Clone + Send + Sync + 'static>(make: impl FnOnce() -> T) -> T {
    if let Some(made) = use_context::<T>() {
        return made;
    }
    let provided = || {
        let made = make();
        provide_context(made.clone());
        made
    };
    match owner() {
        Some(owner) => owner.with(provided),
        None => provided(),
    }
}
