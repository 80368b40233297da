//! What a tone is made of: its partials, and one period of their sum as a table.

use crate::tone::Colour;

/// Places in a period. With 32 partials, what lies between two places is right to half a percent of the highest.
const PLACES: usize = 1 << BITS;
const BITS: u32 = 10;
/// Sine and cosine of the angle from one place to the next, a turn divided by 1024.
const STEP: (f64, f64) = (0.006_135_884_649_154_475, 0.999_981_175_282_601_1);
/// The most partials a tone has.
const MOST_PARTIALS: u16 = 32;
/// No partial above this share of the sample rate: nine tenths of the half that samples can carry.
const HIGHEST: f64 = 0.45;

/// One period of a sine, from which every table is made.
#[derive(Clone, Debug)]
pub struct Sine(Vec<f32>);

impl Sine {
    pub fn new() -> Self {
        // One place further is one small turn further: no trigonometry in the app, and right to 13 digits.
        let (mut sine, mut cosine) = (0.0, 1.0);
        let waves = (0..PLACES).map(|_| {
            let wave = sine;
            (sine, cosine) = (sine * STEP.1 + cosine * STEP.0, cosine * STEP.1 - sine * STEP.0);
            wave as f32
        });
        Self(waves.collect())
    }

    fn at(&self, place: usize) -> f32 {
        self.0.get(place % PLACES).copied().unwrap_or(0.0)
    }
}

/// One period of a tone: soft, and what has to be added for loud. Both have the effective value of a full sine.
#[derive(Clone, Debug)]
pub struct Period(Vec<[f32; 2]>);

impl Period {
    /// The period of a tone of so many Hz at so many samples a second. Empty, and so silent, if not even the
    /// fundamental may sound at that rate.
    ///
    /// All its partials begin so much of a turn later. Two players on the same note who began alike would be twice as loud
    /// as one, which two players never are; a quarter of a turn apart they have together the power of both.
    pub fn new(sine: &Sine, colour: Colour, hz: f64, rate: f64, later: f64) -> Self {
        let mut partials: Vec<[f64; 2]> = (1..=MOST_PARTIALS)
            .map(f64::from)
            .take_while(|number| number * hz <= rate * HIGHEST)
            .map(|number| amplitudes(colour, number, hz))
            .collect();
        if partials.is_empty() {
            return Self(Vec::new());
        }
        for loudness in 0..2 {
            let power: f64 = partials.iter().map(|pair| pair[loudness] * pair[loudness]).sum();
            partials.iter_mut().for_each(|pair| pair[loudness] /= libm::sqrt(power));
        }
        let mut places = vec![[0.0; 2]; PLACES];
        // The phases run so that no two partials peak together: a smooth wave needs less room under the limiter.
        // Source: M. R. Schroeder 1970, "Synthesis of low-peak-factor signals and binary sequences with low
        // autocorrelation", from memory.
        let (mut phase, mut slope) = (0.0, 0.0);
        for (number, [soft, loud]) in (1..).zip(&partials) {
            let begin = ((phase + later) * PLACES as f64) as usize;
            let change = [*soft as f32, (loud - soft) as f32];
            for (place, sum) in places.iter_mut().enumerate() {
                let wave = sine.at(place * number + begin);
                sum[0] += change[0] * wave;
                sum[1] += change[1] * wave;
            }
            slope += loud * loud;
            phase += slope;
        }
        Self(places)
    }

    /// The wave at a phase, where 2⁶⁴ is a whole turn, with so much of the loud wave in it (0 to about 1).
    pub fn at(&self, phase: u64, loud: f32) -> f32 {
        let place = (phase >> (64 - BITS)) as usize;
        let between = ((phase << BITS) >> 40) as f32 * (1.0 / (1 << 24) as f32);
        let wave =
            |place: usize| self.0.get(place % PLACES).map_or(0.0, |[soft, change]| soft + loud * change);
        let here = wave(place);
        here + between * (wave(place + 1) - here)
    }
}

/// Amplitudes of a partial, soft and loud, not yet made to fit one another. Shaped by ear after what acoustics teaches of
/// each family; the numbers round what is named here are from memory.
fn amplitudes(colour: Colour, number: f64, hz: f64) -> [f64; 2] {
    let at = number * hz;
    // Falls beside a height, so wide.
    let near = |height: f64, wide: f64| 1.0 / (1.0 + square((at - height) / wide));
    let falls = |from: f64| near(0.0, from);
    match colour {
        // Partials equal or growing up to a resonance of the bell and falling fast above it, which happens higher the louder
        // the tone is (common practice).
        Colour::Brass => [falls(500.0) / number, falls(1500.0) / libm::sqrt(number)],
        Colour::Plain if number <= 8.0 => [1.0 / (number * libm::sqrt(number)); 2],
        // The first partials, and the higher ones only when blown harder (A. H. Benade 1976, "Fundamentals of Musical
        // Acoustics").
        Colour::Flute => [1.0 / (number * square(number)), 1.0 / square(number)],
        // A cylinder closed by the reed has the odd partials alone, up to where open holes let all through, at some 1500 Hz
        // (Benade, as above).
        Colour::Clarinet => {
            let held = if number % 2.0 == 0.0 { 1.0 - falls(1500.0) } else { 1.0 };
            [held * falls(1200.0) / number, held * falls(3000.0) / number]
        }
        // All partials, strongest about a height that hardly follows the note: 500 Hz of bassoons, 1100 Hz of oboes (J. Meyer,
        // "Acoustics and the Performance of Music"); here it goes with the note from the one to the other.
        Colour::Reed => {
            let height = 350.0 + 1.4 * hz;
            let strong = (0.25 + near(height, height / 3.0)) / libm::sqrt(number);
            [strong * falls(1500.0), strong * falls(4000.0)]
        }
        // The bowed string runs to and fro between two slopes, a sawtooth: each partial as its number says (H. von Helmholtz
        // 1863); the body dulls what is high.
        Colour::String => [falls(3000.0) / number, falls(6000.0) / number],
        // The formants of an open a (G. E. Peterson, H. L. Barney 1952): 730, 1090 and 2440 Hz.
        Colour::Voice => {
            let vowel = near(730.0, 150.0) + 0.6 * near(1090.0, 150.0) + 0.2 * near(2440.0, 200.0);
            [(0.1 + vowel) / number; 2]
        }
        // Each partial is a tone of its own.
        Colour::Drum | Colour::Bar if number < 2.0 => [1.0; 2],
        _ => [0.0; 2],
    }
}

fn square(number: f64) -> f64 {
    number * number
}

/// What a stroke wakes: how many times as high as the note, and how strong.
pub type Overtone = (f64, f64);

/// The parts of a tone that are not whole multiples of one another; of all that is blown, bowed or sung there is one.
pub fn overtones(colour: Colour) -> &'static [Overtone] {
    match colour {
        // The air in the kettle brings the modes that last near 2 : 3 : 4 : 5 (T. D. Rossing 1982, "The Physics of
        // Kettledrums").
        Colour::Drum => &[(1.0, 0.8), (1.5, 0.48), (1.98, 0.3), (2.44, 0.16), (2.89, 0.1)],
        // A bar that is free at both ends (Rayleigh 1877, "The Theory of Sound").
        Colour::Bar => &[(1.0, 0.92), (2.756, 0.35), (5.404, 0.18)],
        _ => &[(1.0, 1.0)],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stroke_has_the_power_of_a_tone() {
        for colour in Colour::ALL {
            let power: f64 = overtones(colour).iter().map(|(_, part)| part * part).sum();
            assert!((power - 1.0).abs() < 0.02, "{colour:?}: {power}");
        }
    }

    #[test]
    fn two_of_one_note_have_the_power_of_both() {
        let sine = Sine::new();
        for colour in Colour::ALL {
            let [one, other] = [0.0, 0.25].map(|later| Period::new(&sine, colour, 233.0, 48_000.0, later));
            let both = (0..4096_u64)
                .map(|place| square(f64::from(one.at(place << 52, 0.5) + other.at(place << 52, 0.5))));
            let alone = (0..4096_u64).map(|place| square(f64::from(one.at(place << 52, 0.5))));
            let times = both.sum::<f64>() / alone.sum::<f64>();
            assert!((times - 2.0).abs() < 0.01, "{colour:?}: {times}");
        }
    }

    /// Effective value and highest value of a period, soft or loud.
    fn measure(period: &Period, loud: f32) -> (f64, f64) {
        let waves: Vec<f64> = (0..4096_u64).map(|place| f64::from(period.at(place << 52, loud))).collect();
        let power = waves.iter().map(|wave| wave * wave).sum::<f64>() / 4096.0;
        (libm::sqrt(power), waves.iter().fold(0.0, |most, wave| f64::max(most, wave.abs())))
    }

    #[test]
    fn soft_and_loud_are_equally_strong_and_never_peaky() {
        let sine = Sine::new();
        for hz in [30.0, 58.3, 116.5, 233.0, 466.0, 932.0, 1500.0] {
            for colour in Colour::ALL {
                let period = Period::new(&sine, colour, hz, 48_000.0, 0.0);
                for loud in [0.0, 1.0] {
                    let (effective, peak) = measure(&period, loud);
                    assert!((effective - core::f64::consts::FRAC_1_SQRT_2).abs() < 2e-3, "{hz}: {effective}");
                    assert!(peak < 1.75, "{colour:?} {hz} {loud}: {peak}");
                }
            }
        }
    }

    #[test]
    fn the_sine_is_one() {
        for (place, wave) in Sine::new().0.iter().enumerate() {
            let right = libm::sin(core::f64::consts::TAU * place as f64 / PLACES as f64);
            assert!((f64::from(*wave) - right).abs() < 1e-7, "{place}");
        }
        // Right around the last place too, where rounding has added up most.
        let turn = STEP.0.hypot(STEP.1);
        assert!((turn - 1.0).abs() < 1e-15);
    }

    #[test]
    fn too_high_for_the_rate_is_silent() {
        let period = Period::new(&Sine::new(), Colour::Brass, 4000.0, 8000.0, 0.0);
        assert_eq!(measure(&period, 1.0), (0.0, 0.0));
    }
}
