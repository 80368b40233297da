//! An exercise in a few bytes, for a link: its edition, flags, numbers and texts. A passage travels beside it.
//!
//! The bytes of every edition must be read for ever: a new thing gets a new edition or a flag that is still free.

use crate::bytes::{Reader, Writer};
use crate::edition::Edition;
use crate::exercise::{AskedStaff, Exercise, Helps, Marking, Material, NoteRange, Style, Time};
use crate::kind::Kind;
use core::fmt;
use crookwise_score::{Choice, Passage, Settings, SignatureSource};
use crookwise_theory::label::Mechanism;
use crookwise_theory::{
    BassNotation, Clef, ClefSign, Instrument, Interval, Key, Mode, Scheme, Signature, Tonic, Transposition,
};

/// Why bytes are no exercise.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PackError {
    /// An edition this program does not know.
    Version,
    /// Something is missing, too much or in disorder.
    Damaged,
    /// The exercise is about a passage, which was not handed in.
    NoPassage,
}

impl fmt::Display for PackError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Version => "The exercise was made by another version",
            Self::Damaged => "The exercise is damaged: perhaps a piece of its link is missing",
            Self::NoPassage => "The exercise is about a passage that is missing",
        })
    }
}

impl core::error::Error for PackError {}

impl Exercise {
    /// The exercise in a few bytes. Of a passage it only says that there is one: it must travel beside. So must its title.
    ///
    /// ```
    /// use crookwise_practice::{AskedStaff, Exercise};
    ///
    /// let exercise = Exercise { staves: vec![AskedStaff::of("Corni in Es")], ..Exercise::default() };
    /// let bytes = exercise.pack();
    /// assert!(bytes.len() < 24);
    /// assert_eq!(Exercise::unpack(&bytes, None), Ok(exercise));
    /// ```
    #[must_use]
    pub fn pack(&self) -> Vec<u8> {
        let mut out = Writer::default();
        out.0.push(self.edition.code());
        out.number(self.flags().0);
        out.0.push(self.questions);
        out.number(self.seed.into());
        match self.time {
            Time::Free => {}
            Time::Each(seconds) | Time::All(seconds) => out.number(seconds.into()),
        }
        match self.range {
            NoteRange::Usual => {}
            NoteRange::Partials(low, high) | NoteRange::Written(low, high) => out.0.extend([low, high]),
        }
        out.count(self.kinds.len());
        out.0.extend(self.kinds.iter().map(|kind| kind.code()));
        out.count(self.staves.len());
        self.staves.iter().for_each(|staff| pack_staff(&mut out, staff));
        if let Material::Phrases(styles) = &self.material {
            out.count(styles.len());
            out.0.extend(styles.iter().map(|style| *style as u8));
        }
        if !self.keys.is_empty() {
            out.count(self.keys.len());
            self.keys.iter().for_each(|key| pack_key(&mut out, *key));
        }
        if let Some(label) = &self.in_hand {
            out.text(label);
        }
        out.0
    }

    /// The exercise that was packed, and the passage it is about where it is about one; another is left aside.
    ///
    /// # Errors
    /// Where the bytes are not what [`Exercise::pack`] writes, or the passage is missing: [`PackError`] says which.
    pub fn unpack(bytes: &[u8], passage: Option<Passage>) -> Result<Self, PackError> {
        let mut from = Reader(bytes);
        let edition = match from.byte()? {
            0 => return Err(PackError::Damaged),
            code => Edition::from_code(code).ok_or(PackError::Version)?,
        };
        let mut flags = Flags(from.number()?);
        let helps = Helps {
            interval: flags.take(),
            clef: flags.take(),
            sounding_c: flags.take(),
            series: flags.take(),
            name: flags.take(),
            label: flags.take(),
        };
        let choices = flags.take();
        let marking = Marking { enharmonics: flags.take(), octave: !flags.take() };
        let (time, range, material) = (flags.take_two(), flags.take_two(), flags.take_two());
        let (keyed, in_hand) = (flags.take(), flags.take());
        flags.done()?;
        let questions = from.byte()?;
        let seed = from.small()?;
        let time = match time {
            0 => Time::Free,
            1 => Time::Each(from.small()?),
            2 => Time::All(from.small()?),
            _ => return Err(PackError::Damaged),
        };
        let range = match range {
            0 => NoteRange::Usual,
            1 => NoteRange::Partials(from.byte()?, from.byte()?),
            2 => NoteRange::Written(from.byte()?, from.byte()?),
            _ => return Err(PackError::Damaged),
        };
        let kinds = from.list(|from| Kind::from_code(from.byte()?).ok_or(PackError::Damaged))?;
        let staves = from.list(unpack_staff)?;
        let material = match material {
            0 => Material::Notes,
            1 => Material::Phrases(from.list(|from| one_of(&Style::ALL, from.byte()?.into()))?),
            2 => Material::Passage(Box::new(passage.ok_or(PackError::NoPassage)?)),
            _ => return Err(PackError::Damaged),
        };
        let keys = if keyed { from.list(unpack_key)? } else { Vec::new() };
        let in_hand = if in_hand { Some(from.text()?.to_owned()) } else { None };
        if !from.0.is_empty() || (keyed && keys.is_empty()) {
            return Err(PackError::Damaged);
        }
        Ok(Self {
            title: String::new(),
            edition,
            kinds,
            staves,
            material,
            range,
            keys,
            in_hand,
            helps,
            choices,
            questions,
            time,
            marking,
            seed,
        })
    }

    fn flags(&self) -> Flags {
        let helps = self.helps;
        let marking = self.marking;
        let time = match self.time {
            Time::Free => 0,
            Time::Each(_) => 1,
            Time::All(_) => 2,
        };
        let range = match self.range {
            NoteRange::Usual => 0,
            NoteRange::Partials(..) => 1,
            NoteRange::Written(..) => 2,
        };
        let material = match self.material {
            Material::Notes => 0,
            Material::Phrases(_) => 1,
            Material::Passage(_) => 2,
        };
        // The first taken stands lowest, so the last is put first.
        let mut flags = Flags(0);
        flags.put(self.in_hand.is_some());
        flags.put(!self.keys.is_empty());
        flags.put_bits(material, 2);
        flags.put_bits(range, 2);
        flags.put_bits(time, 2);
        for flag in [
            !marking.octave,
            marking.enharmonics,
            self.choices,
            helps.label,
            helps.name,
            helps.series,
            helps.sounding_c,
            helps.clef,
            helps.interval,
        ] {
            flags.put(flag);
        }
        flags
    }
}

/// Flags in a number: what is put last is taken first.
struct Flags(u64);

impl Flags {
    fn put(&mut self, flag: bool) {
        self.put_bits(flag.into(), 1);
    }

    fn put_bits(&mut self, bits: u64, count: u32) {
        self.0 = self.0 << count | bits;
    }

    fn take(&mut self) -> bool {
        self.take_bits(1) == 1
    }

    fn take_two(&mut self) -> u64 {
        self.take_bits(2)
    }

    fn take_bits(&mut self, count: u32) -> u64 {
        let bits = self.0 & ((1 << count) - 1);
        self.0 >>= count;
        bits
    }

    /// No flag is left that this version does not know.
    fn done(self) -> Result<(), PackError> {
        if self.0 == 0 { Ok(()) } else { Err(PackError::Damaged) }
    }
}

/// Systems of notation by their numbers from 0.
const SCHEMES: [Scheme; 7] = [
    Scheme::French,
    Scheme::German,
    Scheme::Russian,
    Scheme::Italian,
    Scheme::Rheingold,
    Scheme::Goetterdaemmerung,
    Scheme::Alpensinfonie,
];
const MECHANISMS: [Mechanism; 2] = [Mechanism::Natural, Mechanism::Valves];
const BASSES: [BassNotation; 2] = [BassNotation::Old, BassNotation::New];
const SIGNS: [ClefSign; 3] = [ClefSign::G, ClefSign::F, ClefSign::C];

/// One of a list by its number.
fn one_of<T: Copy>(list: &[T], number: u64) -> Result<T, PackError> {
    usize::try_from(number).ok().and_then(|number| list.get(number)).copied().ok_or(PackError::Damaged)
}

/// One of a list by its number from 1; 0 for none.
fn perhaps<T: Copy>(list: &[T], number: u64) -> Result<Option<T>, PackError> {
    number.checked_sub(1).map(|number| one_of(list, number)).transpose()
}

/// The number of something in its list, from 0.
fn place<T: PartialEq>(list: &[T], one: &T) -> u64 {
    list.iter().position(|other| other == one).map_or(0, |at| at as u64)
}

/// The number of something in its list, from 1; 0 for none.
fn number<T: PartialEq>(list: &[T], one: Option<&T>) -> u64 {
    one.map_or(0, |one| place(list, one) + 1)
}

fn pack_staff(out: &mut Writer, staff: &AskedStaff) {
    let AskedStaff { label, choice, settings, muta, pair } = staff;
    let mut flags = Flags(0);
    flags.put_bits(number(&SCHEMES, settings.scheme.as_ref()), 3);
    flags.put_bits(number(&BASSES, settings.bass.as_ref()), 2);
    flags.put_bits(number(&MECHANISMS, settings.mechanism.as_ref()), 2);
    flags.put(choice.is_some());
    flags.put(settings.at_pitch);
    flags.put_bits(signature_kind(settings.signature), 2);
    flags.put(settings.clef.is_some());
    flags.put(muta.is_some());
    flags.put(*pair);
    // Most staves have nothing but their label.
    out.count(label.len() << 1 | usize::from(flags.0 != 0));
    out.0.extend_from_slice(label.as_bytes());
    if flags.0 != 0 {
        out.number(flags.0);
    }
    if let Some(label) = muta {
        out.text(label);
    }
    if let Some(clef) = settings.clef {
        out.0.push(clef_byte(clef));
    }
    if let Some(SignatureSource::Typed(signature)) = settings.signature {
        out.signed(signature.0.into());
    }
    if let Some(Choice { instrument, transposition }) = choice {
        out.text(instrument.id);
        out.signed(transposition.0.steps.into());
        out.signed(transposition.0.semitones.into());
    }
}

fn unpack_staff(from: &mut Reader<'_>) -> Result<AskedStaff, PackError> {
    let head: usize = from.small()?;
    let label = from.letters(head >> 1)?.to_owned();
    let mut flags = Flags(0);
    if head & 1 == 1 {
        flags.0 = from.number()?;
        if flags.0 == 0 {
            return Err(PackError::Damaged);
        }
    }
    let pair = flags.take();
    let muta = flags.take();
    let clef = flags.take();
    let signature = flags.take_two();
    let at_pitch = flags.take();
    let choice = flags.take();
    let mechanism = perhaps(&MECHANISMS, flags.take_two())?;
    let bass = perhaps(&BASSES, flags.take_two())?;
    let scheme = perhaps(&SCHEMES, flags.take_bits(3))?;
    flags.done()?;
    let muta = if muta { Some(from.text()?.to_owned()) } else { None };
    let clef = if clef { Some(clef_of(from.byte()?)?) } else { None };
    let signature = match signature {
        0 => None,
        1 => Some(SignatureSource::None),
        2 => Some(SignatureSource::Movement),
        _ => Some(SignatureSource::Typed(Signature(from.small_signed()?))),
    };
    let choice = if choice {
        let instrument = Instrument::by_id(from.text()?).ok_or(PackError::Damaged)?;
        let interval = Interval { steps: from.small_signed()?, semitones: from.small_signed()? };
        Some(Choice { instrument, transposition: Transposition(interval) })
    } else {
        None
    };
    let settings = Settings { mechanism, clef, bass, scheme, signature, at_pitch };
    Ok(AskedStaff { label, choice, settings, muta, pair })
}

fn signature_kind(source: Option<SignatureSource>) -> u64 {
    match source {
        None => 0,
        Some(SignatureSource::None) => 1,
        Some(SignatureSource::Movement) => 2,
        Some(SignatureSource::Typed(_)) => 3,
    }
}

/// A clef in a byte: sign, line, octave mark.
fn clef_byte(clef: Clef) -> u8 {
    let sign = match clef.sign {
        ClefSign::G => 0,
        ClefSign::F => 1,
        ClefSign::C => 2,
    };
    let octave = clef.octave().saturating_add(2).cast_unsigned();
    sign << 6 | clef.line() << 3 | octave
}

fn clef_of(byte: u8) -> Result<Clef, PackError> {
    let sign = one_of(&SIGNS, (byte >> 6).into())?;
    let octave = (byte & 7).cast_signed() - 2;
    Clef::new(sign, byte >> 3 & 7, octave).map_err(|_| PackError::Damaged)
}

/// A key as a number: its place on the line of fifths, then its mode.
fn pack_key(out: &mut Writer, key: Key) {
    let natural = i64::from(Tonic { alter: 0, ..key.tonic }.fifths());
    let fifths = i64::from(key.tonic.alter) * 7 + natural;
    out.signed(fifths * 2 + i64::from(key.mode == Mode::Minor));
}

fn unpack_key(from: &mut Reader<'_>) -> Result<Key, PackError> {
    let number = from.signed()?;
    let mode = if number.rem_euclid(2) == 1 { Mode::Minor } else { Mode::Major };
    // Counted from F, the first of the seven letters on the line of fifths.
    let place = number.div_euclid(2).checked_add(1).ok_or(PackError::Damaged)?;
    let letter = i32::try_from(place.rem_euclid(7)).map_err(|_| PackError::Damaged)?;
    let alter = i32::try_from(place.div_euclid(7)).map_err(|_| PackError::Damaged)?;
    let step = Tonic::from_fifths(letter - 1).step;
    Ok(Key { tonic: Tonic { step, alter }, mode })
}
