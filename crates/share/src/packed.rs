//! A text in few letters, for the code of a camera and for mail.
//!
//! A text is written bit by bit: how likely the next bit is a one is guessed from the one to three letters before it, as they
//! went on in a list of words and in the text so far, and an arithmetic coder spends little on what was likely. What it
//! gives out are digits to the base of 36, since a code for a camera holds capitals and digits at 5.5 bits each (ISO/IEC
//! 18004), and nothing in mail or chat changes them or takes them for the end of a sentence.
//!
//! The list of words and every number in this file are the form itself: not one of them may change. A better list gets
//! another file and the next number of a stamp; links made with this one open for ever. The arithmetic is of whole numbers,
//! the same on every machine.

/// Pieces of links as they are usually made, an end behind each line.
const WORDS: &str = include_str!("../data/words_1.txt");

/// The end of a text: no letter of an address.
const END: u8 = b'\n';

/// Letters of the longest text that is unpacked, so that nobody can send a few letters that fill the memory.
pub(crate) const LONGEST_TEXT: usize = 100_000;

/// A text of the letters that an address may have, packed.
pub(crate) fn pack(text: &str) -> String {
    let mut model = Model::new();
    let mut coder = Coder::new("");
    for letter in text.bytes().chain([END]) {
        model.code(&mut coder, Some(letter));
    }
    coder.end()
}

/// The text that was packed; `None` where these letters are none that [`pack`] writes.
pub(crate) fn unpack(letters: &str) -> Option<String> {
    let mut model = Model::new();
    let mut coder = Coder::new(letters);
    let mut text = String::new();
    while text.len() < LONGEST_TEXT {
        match model.code(&mut coder, None) {
            END => return Some(text),
            letter => text.push(char::from(letter)),
        }
    }
    None
}

/// So many letters before a letter say what it may be, at most.
const ORDER: u32 = 3;
/// Places in the table of what was counted, as a power of two.
const TABLE: u32 = 20;
/// A count that is halved, with the other of its pair, before it grows further.
const FULL: u8 = 255;
/// Certainty: never seen is not impossible.
const CERTAIN: u32 = 1 << 16;

/// How often a bit was nought and one, behind some letters and the bits of the same letter before it.
struct Model {
    counts: Vec<[u8; 2]>,
    /// The letters before, the last one lowest.
    before: u32,
}

impl Model {
    /// Knows the list of words, as if they had been written already.
    fn new() -> Self {
        let mut model = Self { counts: vec![[0; 2]; 1 << TABLE], before: 0 };
        let mut nowhere = Coder::new("");
        for letter in WORDS.bytes() {
            model.code(&mut nowhere, Some(letter));
        }
        model
    }

    /// Writes a letter, or reads one, bit by bit, and learns it.
    fn code(&mut self, coder: &mut Coder<'_>, letter: Option<u8>) -> u8 {
        // A one, and behind it the bits that are known.
        let mut bits = 1;
        for place in (0..7).rev() {
            let places: [usize; ORDER as usize + 1] =
                core::array::from_fn(|order| place_of(order as u32, self.before, bits));
            let mut likely = CERTAIN / 2;
            for at in places {
                // What fewer letters say counts as one case more.
                let [noughts, ones] = self.counts.get(at).map_or([0; 2], |pair| pair.map(u32::from));
                likely = (ones * CERTAIN + likely) / (noughts + ones + 1);
            }
            let wanted = letter.map(|letter| letter >> place & 1 == 1);
            let one = coder.code(likely.clamp(1, CERTAIN - 1), wanted);
            for at in places {
                if let Some(pair) = self.counts.get_mut(at) {
                    if pair[usize::from(one)] == FULL {
                        *pair = pair.map(|count| count / 2);
                    }
                    pair[usize::from(one)] += 1;
                }
            }
            bits = bits << 1 | u32::from(one);
        }
        self.before = self.before << 8 | bits & 127;
        (bits & 127) as u8
    }
}

/// Where the counts stand behind so many letters before and these bits: scattered, so that two seldom meet.
fn place_of(order: u32, before: u32, bits: u32) -> usize {
    let letters = before & ((1 << (8 * order)) - 1);
    let sum = letters
        .wrapping_mul(0x2545_f491)
        .wrapping_add(order.wrapping_mul(0x3c6e_f372))
        .wrapping_add(bits.wrapping_mul(0x9e37_79b1));
    ((sum ^ sum >> 15).wrapping_mul(0x85eb_ca6b) >> (32 - TABLE)) as usize
}

/// The base of the digits, and how much the first of those at hand is worth.
const BASE: u64 = 36;
const FIRST: u64 = BASE.pow(10);

/// Narrows a range of numbers with each bit; the digits that both ends share are written, or have been read.
struct Coder<'a> {
    low: u64,
    high: u64,
    /// The number that is read, as far as the range goes; nothing is behind its end but noughts.
    number: u64,
    left: core::str::Chars<'a>,
    written: String,
}

impl<'a> Coder<'a> {
    /// Reads these letters, or writes.
    fn new(letters: &'a str) -> Self {
        let mut coder =
            Self { low: 0, high: FIRST * BASE - 1, number: 0, left: letters.chars(), written: String::new() };
        for _ in 0..11 {
            coder.number = coder.number * BASE + coder.digit();
        }
        coder
    }

    fn digit(&mut self) -> u64 {
        self.left.next().and_then(|letter| letter.to_digit(36)).map_or(0, u64::from)
    }

    /// Writes the bit that is wanted, or reads one where none is, which is a one in so many cases of [`CERTAIN`].
    fn code(&mut self, likely: u32, wanted: Option<bool>) -> bool {
        let middle = self.low + (self.high - self.low) / u64::from(CERTAIN) * u64::from(likely);
        let one = wanted.unwrap_or(self.number <= middle);
        if one {
            self.high = middle;
        } else {
            self.low = middle + 1;
        }
        while self.low / FIRST == self.high / FIRST {
            self.write(self.low / FIRST);
            self.low = self.low % FIRST * BASE;
            self.high = self.high % FIRST * BASE + BASE - 1;
            self.number = self.number % FIRST * BASE + self.digit();
        }
        one
    }

    fn write(&mut self, digit: u64) {
        let letter = char::from_digit(digit as u32, 36).unwrap_or('0');
        self.written.push(letter.to_ascii_uppercase());
    }

    /// What was written, with as much behind it as tells the range from all others.
    fn end(mut self) -> String {
        if self.low > 0 {
            self.write(self.low / FIRST + 1);
        }
        self.written
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_list_of_words_is_the_one_that_links_were_made_with() {
        // The sum as another library reckons it (zlib's crc32). Never change it: a better list is another file.
        let sum = crc::Crc::<u32>::new(&crc::CRC_32_ISO_HDLC).checksum(WORDS.as_bytes());
        assert_eq!((WORDS.len(), format!("{sum:08x}")), (2479, "5396a43e".to_owned()));
        assert!(WORDS.is_ascii() && WORDS.ends_with('\n'));
    }

    #[test]
    fn what_is_packed_is_unpacked() {
        let long = "staff=%F0%9D%84%A2.".repeat(1_000);
        for text in ["", "0", "staff=Corni+in+Es&notes=C4.E4.G4", "~~~~", &long] {
            let letters = pack(text);
            assert_eq!(unpack(&letters).as_deref(), Some(text));
            assert!(letters.bytes().all(|letter| letter.is_ascii_digit() || letter.is_ascii_uppercase()));
        }
    }

    #[test]
    fn these_letters_mean_this_text_for_ever() {
        let text = "staff=2+Corni+in+Es&players=2&notes=E5.C5&notes2=C5.C4&key=Eb+major";
        assert_eq!(pack(text), "OBM8FZAMSCDXETZME");
        assert_eq!(unpack("OBM8FZAMSCDXETZME").as_deref(), Some(text));
    }

    #[test]
    fn no_letters_break_it_or_fill_the_memory() {
        let mut seed = 1_u32;
        for length in 0..60 {
            let letters: String = (0..length)
                .filter_map(|_| {
                    seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    char::from_digit(seed >> 8 & 31, 36)
                })
                .collect();
            if let Some(text) = unpack(&letters) {
                assert!(text.len() < LONGEST_TEXT && text.is_ascii());
            }
        }
    }
}
