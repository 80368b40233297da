//! Signals and derived values of any type over one kind of signal.
//!
//! The framework makes its machinery anew for every type a signal or memo holds: some ten kilobytes each over the
//! wire. Here one kind of signal holds a shared value of any type, and thin typed handles look inside.

use core::any::Any;
use core::fmt;
use core::marker::PhantomData;
use leptos::prelude::*;
use std::sync::Arc;

/// A shared value that can be compared with another of its type.
#[derive(Clone)]
struct Kept {
    value: Arc<dyn Any + Send + Sync>,
    same: fn(&dyn Any, &dyn Any) -> bool,
}

impl Kept {
    fn new<T: PartialEq + Send + Sync + 'static>(value: Arc<T>) -> Self {
        Self { value, same: same::<T> }
    }

    /// The value; every handle puts in only what it takes out.
    fn look<T: Send + Sync + 'static>(self) -> Arc<T> {
        // The typed handle that made this value is the one that looks into it.
        self.value.downcast().expect("a handle keeps one type")
    }
}

impl PartialEq for Kept {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.value, &other.value) || (self.same)(&*self.value, &*other.value)
    }
}

fn same<T: PartialEq + 'static>(one: &dyn Any, other: &dyn Any) -> bool {
    one.downcast_ref::<T>().zip(other.downcast_ref::<T>()).is_some_and(|(one, other)| one == other)
}

/// A value that can be set; whoever reads it is told when it changes.
pub struct Watched<T> {
    signal: RwSignal<Kept>,
    of: PhantomData<fn() -> T>,
}

/// A value that follows from others, made anew when they change and told on only when it differs.
pub struct Derived<T> {
    signal: Memo<Kept>,
    of: PhantomData<fn() -> T>,
}

impl<T: PartialEq + Send + Sync + 'static> Watched<T> {
    /// A value to begin with.
    pub fn new(value: T) -> Self {
        Self { signal: RwSignal::new(Kept::new(Arc::new(value))), of: PhantomData }
    }

    /// Sets the value and tells who reads it, if it differs.
    pub fn set(self, value: T) {
        let kept = Kept::new(Arc::new(value));
        // What was made for a part of the page that is gone is set no more.
        if self.signal.try_get_untracked().is_some_and(|before| before != kept) {
            self.signal.set(kept);
        }
    }

    /// Changes the value and tells who reads it, if it differs; gives what the change gives.
    pub fn update<R>(self, change: impl FnOnce(&mut T) -> R) -> R
    where
        T: Clone,
    {
        let mut value = self.get_untracked();
        let given = change(&mut value);
        self.set(value);
        given
    }
}

impl<T: PartialEq + Send + Sync + 'static> Derived<T> {
    /// A value made by a function of others.
    pub fn new(make: impl Fn() -> T + Send + Sync + 'static) -> Self {
        Self::shared(move || Arc::new(make()))
    }

    /// The same, where the value is shared already.
    pub fn shared(make: impl Fn() -> Arc<T> + Send + Sync + 'static) -> Self {
        Self { signal: memo(Box::new(move || Kept::new(make()))), of: PhantomData }
    }
}

/// Both kinds are looked at in the same ways.
macro_rules! looked_at {
    ($kind:ident) => {
        impl<T: PartialEq + Send + Sync + 'static> $kind<T> {
            /// The value, shared; the reader is told when it changes.
            #[must_use]
            pub fn read(self) -> Arc<T> {
                self.signal.get().look()
            }

            /// The value, shared, for once.
            #[must_use]
            pub fn read_untracked(self) -> Arc<T> {
                self.signal.get_untracked().look()
            }

            /// A copy of the value; the reader is told when it changes.
            #[must_use]
            pub fn get(self) -> T
            where
                T: Clone,
            {
                T::clone(&self.read())
            }

            /// A copy of the value, for once.
            #[must_use]
            pub fn get_untracked(self) -> T
            where
                T: Clone,
            {
                T::clone(&self.read_untracked())
            }

            /// Looks at the value; the reader is told when it changes.
            pub fn with<R>(self, look: impl FnOnce(&T) -> R) -> R {
                look(&self.read())
            }

            /// Looks at the value, for once.
            pub fn with_untracked<R>(self, look: impl FnOnce(&T) -> R) -> R {
                look(&self.read_untracked())
            }
        }

        impl<T: PartialEq + Send + Sync + 'static> $kind<Option<T>> {
            /// Whether there is a value.
            #[must_use]
            pub fn is_some(self) -> bool {
                self.read().is_some()
            }

            /// Looks at the value where there is one.
            pub fn map<R>(self, look: impl FnOnce(&T) -> R) -> Option<R> {
                Option::as_ref(&self.read()).map(look)
            }

            /// Looks at the value where there is one, and gives what that gives.
            pub fn and_then<R>(self, look: impl FnOnce(&T) -> Option<R>) -> Option<R> {
                Option::as_ref(&self.read()).and_then(look)
            }
        }

        impl<T> Clone for $kind<T> {
            fn clone(&self) -> Self {
                *self
            }
        }

        impl<T> Copy for $kind<T> {}

        impl<T> fmt::Debug for $kind<T> {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(stringify!($kind))
            }
        }
    };
}

looked_at!(Watched);
looked_at!(Derived);

/// Does something now, and again whenever what it read has changed.
pub fn follow(act: impl FnMut() + 'static) {
    effect(Box::new(act));
}

fn effect(mut act: Box<dyn FnMut()>) {
    Effect::new(move |_| act());
}

fn memo(make: Box<dyn Fn() -> Kept + Send + Sync>) -> Memo<Kept> {
    Memo::new(move |_| make())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicUsize, Ordering};

    #[test]
    fn a_derived_value_is_told_on_only_when_it_differs() {
        let owner = Owner::new();
        owner.set();
        static RUNS: AtomicUsize = AtomicUsize::new(0);
        let number = Watched::new(3_i32);
        let even = Derived::new(move || number.get() % 2 == 0);
        let text = Derived::new(move || {
            RUNS.fetch_add(1, Ordering::Relaxed);
            even.get().to_string()
        });
        assert_eq!(text.get(), "false");
        number.set(5);
        assert_eq!((text.get().as_str(), RUNS.load(Ordering::Relaxed)), ("false", 1));
        number.set(6);
        assert_eq!((text.get().as_str(), RUNS.load(Ordering::Relaxed)), ("true", 2));
    }
}
