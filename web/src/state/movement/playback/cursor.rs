//! When the system that is heard must be brought into sight.

/// Milliseconds for which the page stays where the reader has scrolled it.
pub const OWN_WAY: f64 = 4_000.0;

/// Whether a system stands in what is seen of the music, or as much of it as has room there; all in pixels.
#[must_use]
pub fn is_in_sight((top, bottom): (f64, f64), (from, to): (f64, f64)) -> bool {
    let fits = bottom - top <= to - from;
    if fits {
        top >= from - 1.0 && bottom <= to + 1.0
    } else {
        top >= from - 1.0 && top <= from + (to - from) / 3.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_system_is_in_sight_when_all_of_it_is_or_its_head_where_it_is_higher() {
        let seen = (100.0, 500.0);
        assert!(is_in_sight((120.0, 480.0), seen) && is_in_sight((100.0, 500.0), seen));
        assert!(!is_in_sight((90.0, 300.0), seen) && !is_in_sight((400.0, 600.0), seen));
        assert!(is_in_sight((110.0, 900.0), seen) && !is_in_sight((300.0, 1_100.0), seen));
        assert!(!is_in_sight((-200.0, 400.0), seen));
    }
}
