//! Five bits a symbol: the alphabet of codes, bits into symbols and back.
//!
//! A code ends where its contents say, in the middle of a byte and perhaps of a line, so symbols are read one by one.

/// The symbols of 0 to 31: digits and letters without I, L, O and U (Crockford's choice, common practice).
const ALPHABET: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/// The number of a symbol, however it was written down.
pub(crate) fn value(sign: char) -> Option<u8> {
    let sign = match sign.to_ascii_uppercase() {
        'O' => '0',
        'I' | 'L' => '1',
        other => other,
    };
    let at = ALPHABET.iter().position(|symbol| char::from(*symbol) == sign)?;
    u8::try_from(at).ok()
}

/// The symbol of a number below 32.
pub(crate) fn symbol(value: u8) -> char {
    char::from(ALPHABET.get(usize::from(value)).copied().unwrap_or(b'0'))
}

/// Bits to be written, the most significant first.
#[derive(Debug, Default)]
pub(crate) struct Writer {
    bits: Vec<bool>,
}

impl Writer {
    /// Appends the lowest `count` bits.
    pub(crate) fn put(&mut self, value: u32, count: u32) {
        self.bits.extend((0..count).rev().map(|bit| value >> bit & 1 == 1));
    }

    /// All bits so far as bytes, the last one filled with zeros.
    pub(crate) fn bytes(&self) -> Vec<u8> {
        self.bits.chunks(8).map(|chunk| gathered(chunk, 8)).collect()
    }

    /// All bits as symbols, the last one filled with zeros.
    pub(crate) fn symbols(&self) -> String {
        self.bits.chunks(5).map(|chunk| symbol(gathered(chunk, 5))).collect()
    }
}

fn gathered(chunk: &[bool], width: usize) -> u8 {
    let bits = chunk.iter().copied().chain(core::iter::repeat(false)).take(width);
    bits.fold(0, |sum, bit| sum << 1 | u8::from(bit))
}

/// Reads bits from symbols, asking for each symbol only when it is needed.
pub(crate) struct Reader<'a> {
    more: &'a mut dyn FnMut() -> Option<u8>,
    /// What was read so far.
    seen: Writer,
    at: usize,
}

impl<'a> Reader<'a> {
    pub(crate) fn new(more: &'a mut dyn FnMut() -> Option<u8>) -> Self {
        Self { more, seen: Writer::default(), at: 0 }
    }

    /// The next `count` bits; `None` where the symbols end.
    pub(crate) fn take(&mut self, count: u32) -> Option<u32> {
        let mut value = 0;
        for _ in 0..count {
            if self.at == self.seen.bits.len() {
                self.seen.put(u32::from((self.more)()?), 5);
            }
            value = value << 1 | u32::from(*self.seen.bits.get(self.at)?);
            self.at += 1;
        }
        Some(value)
    }

    /// The bits taken so far as bytes, the last one filled with zeros.
    pub(crate) fn taken(&self) -> Vec<u8> {
        self.seen.bits.get(..self.at).unwrap_or_default().chunks(8).map(|chunk| gathered(chunk, 8)).collect()
    }

    /// Whether what is left of the last symbol is zeros.
    pub(crate) fn ends_in_zeros(&self) -> bool {
        self.seen.bits.get(self.at..).unwrap_or_default().iter().all(|bit| !bit)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn look_alikes_are_the_same_symbol() {
        for (number, symbol) in ALPHABET.iter().enumerate() {
            let symbol = char::from(*symbol);
            assert_eq!(value(symbol), u8::try_from(number).ok());
            assert_eq!(value(symbol.to_ascii_lowercase()), value(symbol));
        }
        assert_eq!([value('o'), value('O')], [Some(0); 2]);
        assert_eq!(['i', 'I', 'l', 'L'].map(value), [Some(1); 4]);
        assert_eq!(['u', '-', 'ä', ' '].map(value), [None; 4]);
    }

    #[test]
    fn bits_go_round() {
        let mut writer = Writer::default();
        writer.put(5, 3);
        writer.put(0x7FF, 11);
        writer.put(0, 1);
        writer.put(0xAB_CDEF, 24);
        let text = writer.symbols();
        assert_eq!(text.len(), 8);
        let mut signs = text.chars();
        let mut more = || signs.next().and_then(value);
        let mut reader = Reader::new(&mut more);
        assert_eq!(reader.take(3), Some(5));
        assert_eq!(reader.take(11), Some(0x7FF));
        assert_eq!(reader.take(1), Some(0));
        assert_eq!(reader.take(24), Some(0xAB_CDEF));
        assert_eq!(reader.taken(), writer.bytes());
        assert!(reader.ends_in_zeros());
        assert_eq!(reader.take(2), None);
    }
}
