//! Bytes written and read: numbers in as few as they need, texts by their length. Each value has one form only.

use crate::pack::PackError;

/// Bytes being written.
#[derive(Debug, Default)]
pub(crate) struct Writer(pub(crate) Vec<u8>);

impl Writer {
    /// A number: seven bits a byte, the lowest first, the high bit where more follow.
    pub(crate) fn number(&mut self, number: u64) {
        let mut left = number;
        while left > 0x7f {
            self.0.push(left.to_le_bytes()[0] | 0x80);
            left >>= 7;
        }
        self.0.push(left.to_le_bytes()[0]);
    }

    /// A number with a sign; small ones either way are short.
    pub(crate) fn signed(&mut self, number: i64) {
        self.number(((number << 1) ^ (number >> 63)).cast_unsigned());
    }

    /// How many there are of something.
    pub(crate) fn count(&mut self, count: usize) {
        self.number(u64::try_from(count).unwrap_or(u64::MAX));
    }

    /// A text.
    pub(crate) fn text(&mut self, text: &str) {
        self.count(text.len());
        self.0.extend_from_slice(text.as_bytes());
    }
}

/// Bytes being read.
#[derive(Debug)]
pub(crate) struct Reader<'a>(pub(crate) &'a [u8]);

impl<'a> Reader<'a> {
    /// The next byte.
    pub(crate) fn byte(&mut self) -> Result<u8, PackError> {
        let (first, rest) = self.0.split_first().ok_or(PackError::Damaged)?;
        self.0 = rest;
        Ok(*first)
    }

    /// A number in its shortest form.
    pub(crate) fn number(&mut self) -> Result<u64, PackError> {
        let mut number = 0u64;
        for place in 0..10 {
            let byte = self.byte()?;
            let bits = u64::from(byte & 0x7f);
            // The tenth byte has room for one bit; a last byte of nothing is a longer form of a shorter number.
            if (place == 9 && byte > 1) || (place > 0 && byte == 0) {
                return Err(PackError::Damaged);
            }
            number |= bits << (7 * place);
            if byte < 0x80 {
                return Ok(number);
            }
        }
        Err(PackError::Damaged)
    }

    /// A number that must fit its type.
    pub(crate) fn small<T: TryFrom<u64>>(&mut self) -> Result<T, PackError> {
        T::try_from(self.number()?).map_err(|_| PackError::Damaged)
    }

    /// A number with a sign.
    pub(crate) fn signed(&mut self) -> Result<i64, PackError> {
        let number = self.number()?;
        Ok((number >> 1).cast_signed() ^ -(number & 1).cast_signed())
    }

    /// A number with a sign that must fit 32 bits.
    pub(crate) fn small_signed(&mut self) -> Result<i32, PackError> {
        i32::try_from(self.signed()?).map_err(|_| PackError::Damaged)
    }

    /// So many of something.
    pub(crate) fn list<T>(
        &mut self,
        mut each: impl FnMut(&mut Self) -> Result<T, PackError>,
    ) -> Result<Vec<T>, PackError> {
        let count: usize = self.small()?;
        // Each takes a byte at least: what promises more is damaged.
        if count > self.0.len() {
            return Err(PackError::Damaged);
        }
        (0..count).map(|_| each(self)).collect()
    }

    /// A text.
    pub(crate) fn text(&mut self) -> Result<&'a str, PackError> {
        let length = self.small()?;
        self.letters(length)
    }

    /// A text of so many bytes.
    pub(crate) fn letters(&mut self, length: usize) -> Result<&'a str, PackError> {
        let (text, rest) = self.0.split_at_checked(length).ok_or(PackError::Damaged)?;
        self.0 = rest;
        core::str::from_utf8(text).map_err(|_| PackError::Damaged)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_go_round_in_as_few_bytes_as_they_need() {
        for (number, length) in [(0, 1), (127, 1), (128, 2), (16_383, 2), (16_384, 3), (u64::MAX, 10)] {
            let mut writer = Writer::default();
            writer.number(number);
            assert_eq!(writer.0.len(), length, "{number}");
            assert_eq!(Reader(&writer.0).number(), Ok(number));
        }
        for number in [0, -1, 1, 63, -64, i64::MAX, i64::MIN] {
            let mut writer = Writer::default();
            writer.signed(number);
            assert_eq!(Reader(&writer.0).signed(), Ok(number));
        }
    }

    #[test]
    fn a_number_in_a_longer_form_is_refused() {
        assert_eq!(Reader(&[0x80, 0x00]).number(), Err(PackError::Damaged));
        assert_eq!(Reader(&[0x81, 0x80, 0x00]).number(), Err(PackError::Damaged));
        assert_eq!(Reader(&[0xff; 10]).number(), Err(PackError::Damaged));
        assert_eq!(Reader(&[0x80]).number(), Err(PackError::Damaged));
    }
}
