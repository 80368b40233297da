//! A sound that is told while it goes on is the same as one that is told at once.

use crookwise_sound::{Colour, Mix, Queue, Synth, Tone, Touch, note, render};

const RATE: u32 = 48_000;

fn tones() -> Vec<Tone> {
    let touch = Touch { level: 0.5, colour: Colour::Brass };
    let tone =
        |at: u32| Tone { start: f64::from(at) * 0.25, ..note(200.0 + 20.0 * f64::from(at), 0.4, touch) };
    (0..12).map(tone).collect()
}

#[test]
fn told_piece_by_piece_it_is_the_same() {
    let mix = Mix::new(tones()).unwrap();
    let whole = render(&mix, RATE, 0.6).unwrap();
    // Two are heard at once.
    let mut synth = Synth::open(2, RATE, 0.6).unwrap();
    let mut queue = Queue::open(RATE.into());
    let (mut now, mut out): (f64, Vec<f32>) = (3.0, Vec::new());
    let mut told = tones().into_iter();
    for known in 1..=7_u32 {
        // Half a second more each time.
        synth.add(told.by_ref().take(2).collect());
        queue.know(f64::from(known) * 0.5, known == 7);
        while let Some(samples) = queue.wanted(now) {
            let mut piece = vec![0.0; samples];
            synth.fill(&mut piece);
            out.extend(piece);
            queue.begins(samples, now);
        }
        now += 0.5;
    }
    assert!(!queue.is_over(now - 1.0) && queue.is_over(now + 1.0));
    let same = whole.iter().zip(&out).all(|(one, other)| one.to_bits() == other.to_bits());
    assert!(same && out.len() >= whole.len(), "{} of {}", out.len(), whole.len());
}

#[test]
fn what_is_heard_is_known_by_the_clock() {
    let mut queue = Queue::open(48_000.0);
    assert_eq!((queue.wanted(5.0), queue.heard(5.0)), (None, 0.0));
    queue.know(10.0, false);
    while let Some(samples) = queue.wanted(5.0) {
        queue.begins(samples, 5.0);
    }
    // It begins a little after it was handed over.
    assert!((queue.heard(6.03) - 1.0).abs() < 1e-9, "{}", queue.heard(6.03));
    assert!((queue.heard(5.0), queue.ahead(5.0) >= 1.5) == (0.0, true));
    // Nothing was handed over for long: it stands where it ended.
    let end = queue.heard(100.0);
    assert!(end > 1.4 && (queue.heard(200.0) - end).abs() < 1e-9);
    let samples = queue.wanted(200.0).unwrap();
    queue.begins(samples, 200.0);
    assert!((queue.heard(200.13) - end - 0.1).abs() < 1e-9);
    assert!(!queue.is_over(1e9));
}

#[test]
fn a_tone_that_swells_ends_louder_than_it_begins() {
    let touch = Touch { level: 0.2, colour: Colour::Plain };
    let swell = |swell: f64| {
        let mix = Mix::new(vec![Tone { swell, ..note(300.0, 2.0, touch) }]).unwrap();
        let samples = render(&mix, RATE, 1.0).unwrap();
        let loud =
            |from: usize| samples[from..from + 4_800].iter().fold(0.0_f32, |most, one| most.max(one.abs()));
        f64::from(loud(80_000) / loud(14_400))
    };
    assert!((swell(1.0) - 1.0).abs() < 0.02);
    // From about 1.5 times as loud as at first to about 2.7 times, of 3 in all; and the way back.
    assert!((1.6..2.2).contains(&swell(3.0)), "{}", swell(3.0));
    assert!((0.35..0.6).contains(&swell(0.33)), "{}", swell(0.33));
    // Beyond the loudest there is nothing.
    assert!(Mix::new(vec![Tone { swell: 5.1, ..note(300.0, 2.0, touch) }]).is_err());
}
