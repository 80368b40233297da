//! Whole numbers in as few bytes as they need, the lowest seven bits first; and those that may be negative.

/// Reads bytes one after the other.
pub(super) struct Reader<'a> {
    pub left: &'a [u8],
}

impl Reader<'_> {
    pub fn byte(&mut self) -> Option<u8> {
        let (first, rest) = self.left.split_first()?;
        self.left = rest;
        Some(*first)
    }

    /// A number from 0 on; `None` where the bytes end, or for one that nobody writes.
    pub fn number(&mut self) -> Option<u64> {
        let mut number = 0;
        for place in 0..9 {
            let byte = self.byte()?;
            number |= u64::from(byte & 127) << (7 * place);
            if byte < 128 {
                return Some(number);
            }
        }
        None
    }

    /// One that may be negative.
    pub fn signed(&mut self) -> Option<i64> {
        let number = self.number()?;
        let half = i64::try_from(number >> 1).ok()?;
        Some(if number & 1 == 1 { -half - 1 } else { half })
    }
}

pub(super) fn write(mut number: u64, out: &mut Vec<u8>) {
    while number > 127 {
        out.push(number as u8 & 127 | 128);
        number >>= 7;
    }
    out.push(number as u8);
}

pub(super) fn write_signed(number: i64, out: &mut Vec<u8>) {
    // The sign goes to the lowest bit.
    write((number << 1 ^ number >> 63) as u64, out);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_go_back_and_forth() {
        let edge = 1 << 61;
        for number in [0, 1, -1, 63, 64, -64, -65, 1_000_000, -1_000_000, edge, -edge] {
            let mut out = Vec::new();
            write_signed(number, &mut out);
            let mut reader = Reader { left: &out };
            assert_eq!((reader.signed(), reader.left), (Some(number), &[][..]));
        }
        assert_eq!(Reader { left: &[128; 20] }.number(), None);
        assert_eq!(Reader { left: &[128] }.number(), None);
    }
}
