//! The steps, a file each: title and exercises; and their lessons.

mod s01;
mod s02;
mod s03;
mod s04;
mod s05;
mod s06;
mod s07;
mod s08;
mod s09;
mod s10;
mod s11;
mod s12;
mod s13;

use super::CourseStep;

pub(super) const ALL: [CourseStep; 13] = [
    s01::STEP,
    s02::STEP,
    s03::STEP,
    s04::STEP,
    s05::STEP,
    s06::STEP,
    s07::STEP,
    s08::STEP,
    s09::STEP,
    s10::STEP,
    s11::STEP,
    s12::STEP,
    s13::STEP,
];

/// The texts of the lessons, in the same order.
pub(super) const LESSONS: [&str; 13] = [
    include_str!("../../../data/course/01.txt"),
    include_str!("../../../data/course/02.txt"),
    include_str!("../../../data/course/03.txt"),
    include_str!("../../../data/course/04.txt"),
    include_str!("../../../data/course/05.txt"),
    include_str!("../../../data/course/06.txt"),
    include_str!("../../../data/course/07.txt"),
    include_str!("../../../data/course/08.txt"),
    include_str!("../../../data/course/09.txt"),
    include_str!("../../../data/course/10.txt"),
    include_str!("../../../data/course/11.txt"),
    include_str!("../../../data/course/12.txt"),
    include_str!("../../../data/course/13.txt"),
];
