//! The map of an opened score, and what of it is played.

use crate::following::{
    BarSpot, CrookRow, LegRow, MovementRows, PlaceRow, PlayedRow, PlayedRows, RoadSpot, StaffMapRow,
    StretchRow, TempoFrom, TempoRow, TurnRow,
};
use crate::holder::{Opened, decoder};
use crookwise_score::harmony::ScoreHarmony;
use crookwise_score::map::{MapCrook, MapRow, MovementMap, PlayedStretch};
use crookwise_score::performance::{Performance, PlayedNote};
use crookwise_score::places::{ScorePlace, places};
use crookwise_score::score::{Moment, Quarters, Score, StaffCourse, StaffId};
use crookwise_score::tempo::{TempoSource, TempoStep};
use crookwise_theory::Family;

/// The whole movement.
pub(crate) fn map(opened: &Opened, performance: &Performance) -> MovementRows {
    let score = &opened.import.score;
    let map = MovementMap::of(score, &mut decoder);
    let (road, clock) = (performance.road(), performance.clock());
    let begins = (0..=road.count()).filter_map(|place| road.begins(score, place));
    MovementRows {
        staves: map.rows.iter().map(|row| staff(opened, row)).collect(),
        loudness: map.loudness,
        lengths: score.bars().iter().map(|bar| bar.length.fraction()).collect(),
        legs: road
            .legs()
            .iter()
            .map(|leg| LegRow { bars: (small(leg.bars.0), small(leg.bars.1)), pass: leg.pass })
            .collect(),
        begins: begins.map(|at| millionths(clock.seconds(at))).collect(),
        turns: clock.turns().filter_map(|at| turn(score, performance, at)).collect(),
        tempi: performance.tempi().steps().iter().map(|step| tempo(score, step)).collect(),
        faults: road.faults().iter().map(|fault| (small(fault.bar), fault.kind.to_string())).collect(),
    }
}

/// A turn of the clock within a bar; those at the beginning of one need no telling.
fn turn(score: &Score, performance: &Performance, at: Quarters) -> Option<TurnRow> {
    let (_, leg) = performance.road().leg_at(at)?;
    let time = leg.in_score(at)?;
    let bar = score.bar_at(time).clamp(leg.bars.0, leg.bars.1);
    let within = time.minus(score.bars().get(bar)?.start).filter(|within| *within > Quarters::ZERO)?;
    let place = small(leg.before.saturating_add(bar - leg.bars.0));
    let at = millionths(performance.clock().seconds(at));
    Some(TurnRow { at, spot: RoadSpot { place, quarters: within.fraction() } })
}

fn staff(opened: &Opened, row: &MapRow) -> StaffMapRow {
    let score = &opened.import.score;
    let instrument = score.staff(row.staff).and_then(|staff| {
        let course = StaffCourse::of(score, staff, &mut decoder);
        course.place_at(Moment::measured(Quarters::ZERO), 0).map(|place| place.staff.instrument)
    });
    StaffMapRow {
        staff: opened.number_of(row.staff),
        instrument: instrument.map(|own| own.id.to_owned()),
        stands_out: instrument.is_some_and(|own| {
            own.family == Family::Brass || (own.family == Family::Percussion && own.is_pitched())
        }),
        stretches: row.stretches.iter().map(|stretch| stretch_row(score, stretch)).collect(),
        crooks: row.crooks.iter().map(crook).collect(),
    }
}

fn stretch_row(score: &Score, stretch: &PlayedStretch) -> StretchRow {
    StretchRow {
        from: spot(score, stretch.bars.0, stretch.from),
        to: spot(score, stretch.bars.1, stretch.to),
        first: stretch.first.number(),
        rest: small(stretch.rest),
    }
}

fn crook(change: &MapCrook) -> CrookRow {
    CrookRow {
        bar: small(change.bar),
        player: change.player.and_then(|player| u8::try_from(player).ok()),
        label: change.label.clone(),
        name: change.name.clone(),
    }
}

/// Its places worth hearing, by its harmonies.
pub(crate) fn worth_hearing(opened: &Opened, harmonies: &[ScoreHarmony]) -> Vec<PlaceRow> {
    let score = &opened.import.score;
    let found = places(score, &score.sounded(&mut decoder), harmonies);
    found.iter().map(|place| place_row(opened, place)).collect()
}

fn place_row(opened: &Opened, place: &ScorePlace) -> PlaceRow {
    PlaceRow {
        kind: place.kind.into(),
        staves: place.staves.iter().map(|staff| opened.number_of(*staff)).collect(),
        bars: (small(place.bars.0), small(place.bars.1)),
        first: place.first.number(),
    }
}

fn tempo(score: &Score, step: &TempoStep) -> TempoRow {
    let source = match &step.source {
        TempoSource::Told => TempoFrom::Told,
        TempoSource::Words(words) => TempoFrom::Words(words.as_ref().to_owned()),
        TempoSource::Usual => TempoFrom::Usual,
    };
    TempoRow { from: spot(score, score.bar_at(step.at), step.at), tempo: step.tempo, source }
}

/// What these staves play between two times of the road.
pub(crate) fn play(
    opened: &Opened,
    performance: &Performance,
    staves: &[u32],
    (from, to): (RoadSpot, RoadSpot),
) -> Result<PlayedRows, String> {
    let score = &opened.import.score;
    let ids: Option<Vec<StaffId>> = staves.iter().map(|staff| opened.staff_id(*staff)).collect();
    let times = road_time(score, performance, from).zip(road_time(score, performance, to));
    let Some((ids, (from, to))) = ids.zip(times).filter(|(_, (from, to))| from < to) else {
        return Err("This place is not in the score any more".to_owned());
    };
    let clock = performance.clock();
    let length = millionths(clock.seconds(to) - clock.seconds(from));
    let row = |note: PlayedNote| PlayedRow {
        staff: opened.number_of(note.staff),
        note: note.note.number(),
        onset: millionths(note.onset),
        length: millionths(note.length).max(1),
        sound: note.sound.into(),
        strength: (note.strength, note.strength_end),
        held: note.held,
        stroke: note.stroke,
    };
    Ok(PlayedRows { length, notes: performance.between(&ids, from, to).into_iter().map(row).collect() })
}

/// A time of the road in quarter notes; `None` where it has none.
fn road_time(score: &Score, performance: &Performance, spot: RoadSpot) -> Option<Quarters> {
    let begins = performance.road().begins(score, usize::try_from(spot.place).ok()?)?;
    let within =
        Quarters::new(spot.quarters.0, spot.quarters.1).filter(|within| *within >= Quarters::ZERO)?;
    begins.plus(within).filter(|at| *at <= performance.road().end())
}

pub(crate) fn spot(score: &Score, bar: usize, at: Quarters) -> BarSpot {
    let begins = score.bars().get(bar).map_or(Quarters::ZERO, |bar| bar.start);
    let within = at.minus(begins).unwrap_or(Quarters::ZERO);
    BarSpot { bar: small(bar), quarters: within.fraction() }
}

fn small(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

fn millionths(seconds: f64) -> u64 {
    (seconds * 1e6).round().max(0.0) as u64
}
