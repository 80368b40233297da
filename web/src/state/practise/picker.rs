//! Choices by the keyboard: numbers and arrows go to one; giving it is another key.

/// Which choice the keys go to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picker {
    /// The number of the first choice.
    first: usize,
    /// How many there are.
    count: usize,
    /// The digits typed so far, as a number.
    typed: usize,
}

impl Picker {
    /// Before any key: so many choices, the first of them with this number.
    #[must_use]
    pub const fn new(first: usize, count: usize) -> Self {
        Self { first, count, typed: 0 }
    }

    /// The choice a key goes to from the one that has the focus, if any: both counted from 0.
    pub fn key(&mut self, key: &str, here: Option<usize>) -> Option<usize> {
        if let Some(digit) = key.parse().ok().filter(|digit| *digit < 10 && key.len() == 1) {
            return self.digit(digit);
        }
        self.typed = 0;
        let last = self.count.checked_sub(1)?;
        match key {
            "ArrowRight" | "ArrowDown" => Some(here.map_or(0, |at| (at + 1).min(last))),
            "ArrowLeft" | "ArrowUp" => Some(here.map_or(last, |at| at.saturating_sub(1))),
            "Home" => Some(0),
            "End" => Some(last),
            _ => None,
        }
    }

    /// A digit goes on with the number begun, where there is a choice of that number; else it begins one.
    fn digit(&mut self, digit: usize) -> Option<usize> {
        let longer = self.typed * 10 + digit;
        let (number, at) = [longer, digit]
            .into_iter()
            .find_map(|number| Some((number, self.at(number)?)))
            // A number that may become one, as 1 before 12.
            .map_or((digit, None), |(number, at)| (number, Some(at)));
        self.typed = number;
        at
    }

    fn at(&self, number: usize) -> Option<usize> {
        number.checked_sub(self.first).filter(|at| *at < self.count)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_arrows_go_to_a_choice() {
        let mut four = Picker::new(1, 4);
        assert_eq!(four.key("3", None), Some(2));
        assert_eq!(four.key("1", Some(2)), Some(0));
        assert_eq!(four.key("7", None), None);
        assert_eq!(four.key("ArrowRight", None), Some(0));
        assert_eq!(four.key("ArrowDown", Some(3)), Some(3));
        assert_eq!(four.key("ArrowLeft", None), Some(3));
        assert_eq!(four.key("ArrowUp", Some(0)), Some(0));
        assert_eq!((four.key("Home", Some(2)), four.key("End", Some(2))), (Some(0), Some(3)));
        assert_eq!((four.key("Enter", Some(1)), four.key("x", None), four.key("", None)), (None, None, None));
        assert_eq!(Picker::new(1, 0).key("ArrowRight", None), None);
    }

    #[test]
    fn a_number_may_have_two_digits() {
        let mut partials = Picker::new(2, 16);
        assert_eq!(partials.key("1", None), None);
        assert_eq!(partials.key("2", None), Some(10));
        assert_eq!(partials.key("5", Some(10)), Some(3));
        // Another key between them begins anew.
        assert_eq!(partials.key("1", None), None);
        assert_eq!(partials.key("ArrowRight", None), Some(0));
        assert_eq!(partials.key("2", None), Some(0));
        assert_eq!(partials.key("0", None), None);
    }
}
