//! A sound in pieces, on a clock that runs on while they are made.

use crookwise_sound::Queue;

const RATE: f64 = 48_000.0;

/// Plays it all: each piece takes so long to be made as `work` says by its number, and every 0.2 s it is looked whether
/// more is wanted. Gives when each piece begins and ends, and when it was ready.
fn play(seconds: f64, work: impl Fn(usize) -> f64) -> Vec<(f64, f64, f64)> {
    let mut queue = Queue::new(seconds, RATE);
    let (mut now, mut pieces) = (5.0, Vec::new());
    while !queue.is_over(now) {
        while let Some(samples) = queue.wanted(now) {
            now += work(pieces.len());
            let begin = queue.begins(samples, now);
            pieces.push((begin, begin + samples as f64 / RATE, now));
        }
        now += 0.2;
        assert!(now < 100.0, "it never ends");
    }
    pieces
}

fn length(pieces: &[(f64, f64, f64)]) -> f64 {
    pieces.iter().map(|(begin, end, _)| end - begin).sum()
}

#[test]
fn pieces_follow_each_other_without_a_gap() {
    let pieces = play(4.03, |_| 0.01);
    assert!(pieces.windows(2).all(|pair| (pair[1].0 - pair[0].1).abs() < 1e-9), "{pieces:?}");
    assert!((pieces[0].0 - 5.04).abs() < 1e-9, "{pieces:?}");
    assert!((length(&pieces) - 4.03).abs() < 1e-9);
}

#[test]
fn no_piece_begins_before_it_was_made_or_beside_another() {
    // A busy machine: the first piece takes longer than its wait, a later one longer than what is ready.
    for late in [0, 1, 4, 6] {
        let pieces = play(6.0, |number| if number == late { 2.5 } else { 0.02 });
        assert!(pieces.iter().all(|(begin, _, made)| begin >= made), "late is {late}: {pieces:?}");
        assert!(pieces.windows(2).all(|pair| pair[1].0 >= pair[0].1 - 1e-9), "late is {late}: {pieces:?}");
        assert!((length(&pieces) - 6.0).abs() < 1e-9);
    }
}

#[test]
fn nothing_is_over_at_once() {
    let queue = Queue::new(0.0, RATE);
    assert!(queue.is_over(0.0) && queue.wanted(0.0).is_none());
}
