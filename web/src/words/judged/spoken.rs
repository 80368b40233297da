//! Notes, intervals and signatures read out of sentences: as letters and semitones, apart from the way they were said.

/// Letters and semitones: of a note above C0, of an interval upwards.
pub(super) type Heights = (i32, i32);

const NATURAL: [i32; 7] = [0, 2, 4, 5, 7, 9, 11];
const ORDINALS: [&str; 17] = [
    "unison",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "octave",
    "ninth",
    "tenth",
    "eleventh",
    "twelfth",
    "thirteenth",
    "fourteenth",
    "fifteenth",
    "sixteenth",
    "seventeenth",
];

/// A sentence read from left to right.
#[derive(Clone, Copy)]
pub(super) struct Said<'a>(pub(super) &'a str);

impl<'a> Said<'a> {
    /// What stands up to these words, which must be there; the rest stays.
    pub(super) fn up_to(&mut self, words: &str) -> &'a str {
        let (head, rest) = self.0.split_once(words).unwrap_or_else(|| panic!("no “{words}” in “{}”", self.0));
        self.0 = rest;
        head
    }

    /// Takes these words from the beginning.
    pub(super) fn begins(&mut self, words: &str) {
        self.0 = self.0.strip_prefix(words).unwrap_or_else(|| panic!("“{}” begins not “{words}”", self.0));
    }

    /// Whether it begins with these words, which are then taken.
    pub(super) fn may_begin(&mut self, words: &str) -> bool {
        let rest = self.0.strip_prefix(words);
        self.0 = rest.unwrap_or(self.0);
        rest.is_some()
    }
}

/// How many semitones signs after a letter are.
pub(super) fn signs(text: &str) -> i32 {
    text.chars()
        .map(|sign| match sign {
            '♯' => 1,
            '♭' => -1,
            '♮' => 0,
            '𝄪' => 2,
            '𝄫' => -2,
            other => panic!("a sign {other} in “{text}”"),
        })
        .sum()
}

/// "E♭4".
pub(super) fn note(text: &str) -> Heights {
    let letter = "CDEFGAB".find(&text[..1]).unwrap_or_else(|| panic!("no note: “{text}”")) as i32;
    let octave_at = text.find(|c: char| c.is_ascii_digit() || c == '-').unwrap_or_else(|| panic!("“{text}”"));
    let octave: i32 = text[octave_at..].parse().unwrap_or_else(|_| panic!("no octave: “{text}”"));
    (octave * 7 + letter, octave * 12 + NATURAL[letter as usize] + signs(&text[1..octave_at]))
}

/// "E♭": its letter from C and its semitones above C.
pub(super) fn name(text: &str) -> Heights {
    note(&format!("{text}0"))
}

/// "a major sixth lower", "two octaves and a perfect fifth higher".
pub(super) fn interval(text: &str) -> Heights {
    if matches!(text, "as it is printed" | "as it stands" | "as written" | "at the same pitch") {
        return (0, 0);
    }
    let (size, sign) = match text.strip_suffix(" higher") {
        Some(size) => (size, 1),
        None => (text.strip_suffix(" lower").unwrap_or_else(|| panic!("no direction: “{text}”")), -1),
    };
    let (letters, semitones) = self::size(size);
    (sign * letters, sign * semitones)
}

/// "a major sixth", "an octave".
pub(super) fn size(text: &str) -> Heights {
    let (whole, rest) = match text.split_once(" octaves") {
        Some((many, rest)) => {
            let many = ["two", "three"].iter().position(|word| *word == many).map(|at| at as i32 + 2);
            (many.unwrap_or_else(|| panic!("“{text}”")), rest.trim_start_matches(" and "))
        }
        None => (0, text),
    };
    let mut words: Vec<&str> = rest.split(' ').filter(|word| !matches!(*word, "a" | "an" | "")).collect();
    let Some(ordinal) = words.pop() else { return (whole * 7, whole * 12) };
    let letters =
        ORDINALS.iter().position(|known| *known == ordinal).unwrap_or_else(|| panic!("“{text}”")) as i32;
    let major = NATURAL[letters as usize % 7] + letters / 7 * 12;
    let perfect = matches!(letters % 7, 0 | 3 | 4);
    let altered = match (words.as_slice(), perfect) {
        ([] | ["perfect"], true) | (["major"], false) => 0,
        (["minor"], false) | (["diminished"], true) => -1,
        (["diminished"], false) | (["doubly", "diminished"], true) => -2,
        (["augmented"], _) => 1,
        (["doubly", "augmented"], _) => 2,
        _ => panic!("no such interval: “{text}”"),
    };
    (letters + whole * 7, major + altered + whole * 12)
}

/// "3 flats", "1 sharp", "one without sharps or flats": sharps, or flats as negative.
pub(super) fn signature(text: &str) -> i32 {
    if text == "one without sharps or flats" {
        return 0;
    }
    let (count, kind) = text.split_once(' ').unwrap_or_else(|| panic!("no signature: “{text}”"));
    let count: i32 = count.parse().unwrap_or_else(|_| panic!("no signature: “{text}”"));
    match kind.trim_end_matches('s') {
        "sharp" => count,
        "flat" => -count,
        _ => panic!("no signature: “{text}”"),
    }
}

/// Letters above C0 of the lowest line of a clef, and whether its name goes with its sign and line: "alto" and "C3".
pub(super) fn bottom_line(name: &str, sign: &str) -> i32 {
    let (known, bottom) = match sign {
        "G2" => ("treble", (4, 'E')),
        "G1" => ("French violin", (4, 'G')),
        "F4" => ("bass", (2, 'G')),
        "F3" => ("baritone", (2, 'B')),
        "C1" => ("soprano", (4, 'C')),
        "C2" => ("mezzo-soprano", (3, 'A')),
        "C3" => ("alto", (3, 'F')),
        "C4" => ("tenor", (3, 'D')),
        other => panic!("no clef {other}"),
    };
    assert_eq!(name, known, "{sign}");
    bottom.0 * 7 + "CDEFGAB".find(bottom.1).unwrap_or_default() as i32
}

/// What a signature of so many sharps or flats makes of a letter.
pub(super) fn signed(sharps: i32, letter: i32) -> i32 {
    let letter = "CDEFGAB".chars().nth(letter.rem_euclid(7) as usize).unwrap_or('C');
    let place = "FCGDAEB".find(letter).unwrap_or_default() as i32;
    (sharps + 6 - place).div_euclid(7)
}

/// How many semitones a note is from the natural note of its letter.
pub(super) fn alter(note: Heights) -> i32 {
    note.1 - note.0.div_euclid(7) * 12 - NATURAL[note.0.rem_euclid(7) as usize]
}

/// The place of an interval on the line of fifths.
pub(super) fn fifths(by: Heights) -> i32 {
    by.1 * 7 - by.0 * 12
}
