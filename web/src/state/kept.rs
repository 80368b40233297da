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
pub struct Cell<T> {
    signal: RwSignal<Kept>,
    of: PhantomData<fn() -> T>,
}

/// A value that follows from others, made anew when they change and told on only when it differs.
pub struct Derived<T> {
    memo: Memo<Kept>,
    of: PhantomData<fn() -> T>,
}

impl<T: PartialEq + Send + Sync + 'static> Cell<T> {
    /// A value to begin with.
    pub fn new(value: T) -> Self {
        Self { signal: RwSignal::new(Kept::new(Arc::new(value))), of: PhantomData }
    }

    /// The value; the reader is told when it changes.
    #[must_use]
    pub fn get(self) -> Arc<T> {
        self.signal.get().look()
    }

    /// The value, for once.
    #[must_use]
    pub fn get_untracked(self) -> Arc<T> {
        self.signal.get_untracked().look()
    }

    /// Sets the value and tells who reads it, if it differs.
    pub fn set(self, value: T) {
        let kept = Kept::new(Arc::new(value));
        // What was made for a part of the page that is gone is set no more.
        if self.signal.try_get_untracked().is_some_and(|before| before != kept) {
            self.signal.set(kept);
        }
    }
}

impl<T: PartialEq + Send + Sync + 'static> Derived<T> {
    /// A value made by a function of others.
    pub fn new(make: impl Fn() -> T + Send + Sync + 'static) -> Self {
        Self { memo: memo(Box::new(move || Kept::new(Arc::new(make())))), of: PhantomData }
    }

    /// The value; the reader is told when it changes.
    #[must_use]
    pub fn get(self) -> Arc<T> {
        self.memo.get().look()
    }

    /// The value, for once.
    #[must_use]
    pub fn get_untracked(self) -> Arc<T> {
        self.memo.get_untracked().look()
    }
}

fn memo(make: Box<dyn Fn() -> Kept + Send + Sync>) -> Memo<Kept> {
    Memo::new(move |_| make())
}

impl<T> Clone for Cell<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Cell<T> {}

impl<T> Clone for Derived<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Derived<T> {}

impl<T> fmt::Debug for Cell<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Cell")
    }
}

impl<T> fmt::Debug for Derived<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Derived")
    }
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
        let number = Cell::new(3_i32);
        let even = Derived::new(move || *number.get() % 2 == 0);
        let text = Derived::new(move || {
            RUNS.fetch_add(1, Ordering::Relaxed);
            even.get().to_string()
        });
        assert_eq!(*text.get(), "false");
        number.set(5);
        assert_eq!((text.get().as_str(), RUNS.load(Ordering::Relaxed)), ("false", 1));
        number.set(6);
        assert_eq!((text.get().as_str(), RUNS.load(Ordering::Relaxed)), ("true", 2));
    }
}
