//! The map of the movement as a picture: where a bar stands in it, and the picture itself as text. Lengths are whole pixels.

use super::map::{BAR, MapLine};
use crate::words;
use core::fmt::Write;

/// Narrower pictures have the labels over their lines.
const NARROW: u32 = 560;
/// Wider ones are seen from afar.
const WIDE: u32 = 1_500;
/// Pixels of a folded map.
const FOLDED: i32 = 44;
/// A line whose label stands over it.
const UNDER_ITS_LABEL: i32 = 30;
/// Pixels from one number of a bar to the next, at least.
const BETWEEN_NUMBERS: i32 = 46;
/// Bars from one number to the next, in the order in which they are tried.
const STEPS: [u32; 9] = [1, 2, 5, 10, 20, 50, 100, 200, 500];

/// How a picture is divided.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct MapPlan {
    /// Its width.
    pub width: i32,
    /// Its height.
    pub height: i32,
    /// Where the first bar begins; the last ends with the picture.
    pub left: i32,
    /// How many bars there are.
    pub bars: u32,
    /// How many lines there are.
    lines: i32,
    /// The height of a line; none where the map is folded.
    line: i32,
    /// The size of its letters.
    letters: i32,
    /// Whether labels stand over their lines.
    over: bool,
}

impl MapPlan {
    /// The plan of a picture of this width for these lines.
    #[must_use]
    pub fn of(width: u32, lines: &[MapLine], bars: u32, folded: bool) -> Self {
        let over = width < NARROW;
        let letters = if width >= WIDE { 17 } else { 14 };
        let longest = lines.iter().map(|line| line.label.chars().count()).max().unwrap_or(0);
        let longest = longest.max(words::map::WHOLE_PAGE.chars().count());
        let width = px(width);
        let left = if over || folded { 0 } else { (wide(longest, letters) + 14).min(width * 3 / 10) };
        let line = match lines.len() {
            _ if folded => 0,
            _ if over => UNDER_ITS_LABEL,
            0..=6 => letters * 2 - 2,
            7..=10 => letters * 8 / 5,
            _ => letters * 5 / 4,
        };
        let mut plan = Self { width, height: 0, left, bars, lines: px(lines.len()), line, letters, over };
        plan.height = if folded { FOLDED } else { plan.foot() + letters + 8 };
        plan
    }

    /// Where a time stands, in thousandths of bars.
    #[must_use]
    pub fn x(&self, time: u32) -> i32 {
        let room = i64::from(self.width - self.left);
        let all = i64::from(self.bars.max(1)) * i64::from(BAR);
        self.left + px((i64::from(time) * room / all).min(room))
    }

    /// The bar at a place; beyond the ends the first and the last.
    #[must_use]
    pub fn bar_at(&self, x: i32) -> u32 {
        let room = i64::from(self.width - self.left).max(1);
        let bar = i64::from(x - self.left).max(0) * i64::from(self.bars) / room;
        u32::try_from(bar).unwrap_or(u32::MAX).min(self.bars.saturating_sub(1))
    }

    /// The line at a height, if one is drawn there.
    #[must_use]
    pub fn line_at(&self, y: i32) -> Option<usize> {
        let line = usize::try_from(y.checked_div(self.line)?).ok()?;
        (px(line) < self.lines).then_some(line)
    }

    /// The stretch that bars take: where it begins, and how wide it is, at least as wide as can be seen.
    #[must_use]
    pub fn stretch(&self, (first, last): (u32, u32)) -> (i32, i32) {
        let from = self.x(first.saturating_mul(BAR)).min(self.width - 6);
        let to = self.x(last.saturating_add(1).saturating_mul(BAR));
        (from, (to - from).max(6))
    }

    /// Whether it leaves too little of a window to stay in it.
    #[must_use]
    pub const fn is_high(&self) -> bool {
        self.height > if self.over { 220 } else { 340 }
    }

    /// Where the blocks of a line stand: their top and their height.
    fn blocks(&self, line: usize) -> (i32, i32) {
        let top = px(line) * self.line;
        if self.over { (top + 16, self.line - 18) } else { (top + 3, self.line - 6) }
    }

    /// The foot of the loudness.
    fn foot(&self) -> i32 {
        if self.line == 0 { FOLDED - 2 } else { self.lines * self.line + self.letters * 2 + 8 }
    }

    /// How high the loudest bar stands over it.
    fn loudest(&self) -> i32 {
        if self.line == 0 { FOLDED - 8 } else { self.letters * 2 }
    }
}

/// What stands around the lines of the map.
#[derive(Clone, Copy, Debug)]
pub struct MapFrame<'a> {
    /// How loud each bar is, to 100.
    pub loudness: &'a [u8],
    /// The numbers of its bars as printed.
    pub numbers: &'a [String],
    /// Rehearsal letters with their bars.
    pub letters: &'a [(String, u32)],
}

/// The map as an SVG element.
#[must_use]
pub fn picture(plan: &MapPlan, lines: &[MapLine], frame: &MapFrame<'_>) -> String {
    let (width, height) = (plan.width, plan.height);
    let mut out = String::new();
    let sizes = [width.to_string(), height.to_string(), format!("0 0 {width} {height}")];
    tag(&mut out, "svg", [("width", &sizes[0]), ("height", &sizes[1]), ("viewBox", &sizes[2])]);
    loudness(&mut out, plan, frame.loudness);
    if plan.line > 0 {
        for (at, line) in lines.iter().enumerate() {
            self::line(&mut out, plan, at, line);
        }
        numbers(&mut out, plan, frame);
    }
    out.push_str("</svg>");
    out
}

fn loudness(out: &mut String, plan: &MapPlan, loudness: &[u8]) {
    let foot = plan.foot();
    let mut path = format!("M{} {foot}", plan.left);
    for (bar, loud) in (0_u32..).zip(loudness) {
        let y = foot - i32::from(*loud) * plan.loudest() / 100;
        let _ = write!(path, "V{y}H{}", plan.x((bar + 1).saturating_mul(BAR)));
    }
    shape(out, "loud", &format!("{path}V{foot}Z"));
    if plan.left > 0 {
        text(out, "loud", (0, foot - 4), words::map::WHOLE_PAGE);
    }
}

fn line(out: &mut String, plan: &MapPlan, at: usize, line: &MapLine) {
    let (top, high) = plan.blocks(at);
    let middle = top + high / 2;
    let block = |path: &mut String, (from, to): (u32, u32)| {
        let left = plan.x(from);
        let wide = (plan.x(to) - left).max(2);
        let _ = write!(path, "M{left},{top}h{wide}v{high}h-{wide}z");
    };
    let (mut plays, mut dark, mut enters) = (String::new(), String::new(), String::new());
    for stretch in &line.stretches {
        block(&mut plays, (stretch.from, stretch.to));
        for (from, to) in &line.dark {
            let both = (stretch.from.max(*from), stretch.to.min(*to));
            if both.0 < both.1 {
                block(&mut dark, both);
            }
        }
        if stretch.is_entry() {
            let _ = write!(enters, "M{} {}v{}", plan.x(stretch.from), top - 2, high + 4);
        }
    }
    shape(out, "rule", &format!("M{} {middle}H{}", plan.left, plan.width));
    for (class, path) in [("plays", &plays), ("dark", &dark), ("enters", &enters)] {
        shape(out, class, path);
    }
    let room = if plan.over { plan.width / 2 } else { plan.left - 6 };
    let label = cut(&line.label, room, plan.letters);
    let beneath = if plan.over { top - 4 } else { middle + plan.letters / 3 };
    text(out, "label", (0, beneath), &label);
    crooks(out, plan, (at, beneath), line, wide(label.chars().count(), plan.letters));
}

/// The changes of crook: each a line over its staff, and its label where there is room for it.
fn crooks(out: &mut String, plan: &MapPlan, (at, beneath): (usize, i32), line: &MapLine, label: i32) {
    let (top, high) = plan.blocks(at);
    let mut taken = if plan.over { label + 8 } else { plan.left };
    let mut path = String::new();
    let mut said = String::new();
    for (number, (bar, crook)) in line.crooks.iter().enumerate() {
        let x = plan.x(bar.saturating_mul(BAR));
        let above = if plan.over { high + 12 } else { high };
        let _ = write!(path, "M{x} {}v{}", top + high - above - 1, above + 2);
        let long = wide(crook.chars().count(), plan.letters) + 8;
        let next = line.crooks.get(number + 1).map_or(plan.width, |(bar, _)| plan.x(bar.saturating_mul(BAR)));
        // Behind its line, or before it where the picture ends.
        let from = if x + long <= next { x + 4 } else { x - long };
        if from >= taken {
            text(&mut said, "crook", (from, beneath), crook);
            taken = from + long;
        }
        taken = taken.max(x);
    }
    shape(out, "crook", &path);
    out.push_str(&said);
}

/// The printed numbers of bars at round steps, and rehearsal letters over them where there is room.
fn numbers(out: &mut String, plan: &MapPlan, frame: &MapFrame<'_>) {
    let foot = plan.foot();
    let step = step(plan);
    let mut free = plan.left;
    for (bar, number) in (0_u32..).zip(frame.numbers) {
        let round = number.parse::<u32>().is_ok_and(|number| number == 1 || number % step == 0 && number > 0);
        let x = plan.x(bar.saturating_mul(BAR));
        let long = wide(number.chars().count(), plan.letters);
        if round && x >= free && x + long <= plan.width {
            text(out, "number", (x, foot + plan.letters + 3), number);
            free = x + long + 10;
        }
    }
    let mut free = plan.left;
    for (letter, bar) in frame.letters {
        let x = plan.x(bar.saturating_mul(BAR));
        let long = wide(letter.chars().count(), plan.letters);
        if x >= free && x + long <= plan.width {
            text(out, "letter", (x, foot - plan.letters - 2), letter);
            free = x + long + 6;
        }
    }
}

/// Bars from one number to the next.
fn step(plan: &MapPlan) -> u32 {
    let far = |step: &&u32| plan.x(step.saturating_mul(BAR)) - plan.left >= BETWEEN_NUMBERS;
    STEPS.iter().find(far).copied().unwrap_or(1_000)
}

fn shape(out: &mut String, class: &str, path: &str) {
    if !path.is_empty() {
        tag(out, "path", [("class", class), ("d", path)]);
        out.push_str("</path>");
    }
}

fn text(out: &mut String, class: &str, (x, y): (i32, i32), said: &str) {
    let said = said.replace('&', "&amp;").replace('<', "&lt;");
    tag(out, "text", [("class", class), ("x", &x.to_string()), ("y", &y.to_string())]);
    let _ = write!(out, "{said}</text>");
}

/// An element begins.
fn tag<const N: usize>(out: &mut String, name: &str, attributes: [(&str, &str); N]) {
    let _ = write!(out, "<{name}");
    for (name, value) in attributes {
        let _ = write!(out, " {name}=\"{value}\"");
    }
    out.push('>');
}

/// A label as far as there is room.
fn cut(label: &str, room: i32, letters: i32) -> String {
    let most = usize::try_from(room * 20 / (letters * 11)).unwrap_or(0).max(4);
    if label.chars().count() <= most {
        return label.to_owned();
    }
    let kept: String = label.chars().take(most - 1).collect();
    format!("{}…", kept.trim_end())
}

/// How wide so many letters are, of this size.
fn wide(count: usize, letters: i32) -> i32 {
    px(count) * letters * 11 / 20
}

fn px(number: impl TryInto<i32>) -> i32 {
    // No picture is as large as that.
    number.try_into().unwrap_or(i32::MAX / 64).min(i32::MAX / 64)
}

#[cfg(test)]
mod tests {
    use super::super::map::MapStretch;
    use super::*;

    fn lines() -> Vec<MapLine> {
        let stretch = |from, to, rest| MapStretch { from, to, rest };
        vec![
            MapLine {
                staves: vec![4, 5],
                label: "Corno I, II in D".into(),
                stretches: vec![stretch(0, 4_000, 0), stretch(20_000, 30_500, 16)],
                dark: vec![(22_000, 24_000)],
                crooks: vec![(10, "in G".into()), (39, "in D".into())],
            },
            MapLine { label: "Timpani <&>".into(), ..MapLine::default() },
        ]
    }

    fn plan(width: u32, folded: bool) -> MapPlan {
        MapPlan::of(width, &lines(), 40, folded)
    }

    #[test]
    fn a_bar_is_found_where_it_was_drawn() {
        for (width, folded) in [(340, false), (210, true), (780, false), (1_880, false)] {
            let plan = plan(width, folded);
            for bar in 0..40 {
                let (left, wide) = plan.stretch((bar, bar));
                assert_eq!(plan.bar_at(left + wide / 2), bar, "{width}");
            }
            assert_eq!((plan.bar_at(-50), plan.bar_at(9_999)), (0, 39));
            assert_eq!(plan.x(40 * BAR), plan.width);
        }
        // More bars than pixels: what is seen of one can be seen.
        let many = MapPlan::of(340, &lines(), 940, false);
        assert_eq!(many.stretch((939, 939)), (334, 6));
        assert_eq!(many.bar_at(339), 937);
    }

    #[test]
    fn labels_stand_beside_their_lines_or_over_them() {
        assert_eq!((plan(340, false).left, plan(340, false).over), (0, true));
        assert_eq!(plan(780, false).left, 137);
        assert_eq!((plan(210, true).left, plan(210, true).height), (0, 44));
        assert!(plan(1_880, false).height > plan(780, false).height);
        // Eight lines on a telephone take the window for themselves.
        let eight = [(); 8].map(|()| MapLine::default());
        assert!(
            MapPlan::of(340, &eight, 40, false).is_high() && !MapPlan::of(780, &eight, 40, false).is_high()
        );
        assert_eq!(cut("Corno I in D", 60, 13), "Corno I…");
        assert_eq!(cut("Corno", 60, 13), "Corno");
    }

    fn drawn(width: u32, folded: bool) -> String {
        let numbers: Vec<String> = (0..40).map(|bar: u32| bar.to_string()).collect();
        let loudness = [50; 40];
        let letters = [("A".to_owned(), 12)];
        let frame = MapFrame { loudness: &loudness, numbers: &numbers, letters: &letters };
        picture(&plan(width, folded), &lines(), &frame)
    }

    #[test]
    fn the_picture_shows_playing_entries_crooks_loudness_and_numbers() {
        let svg = drawn(780, false);
        // 643 pixels for 40 bars, from 137 on: bar 20 begins at 458.
        let of = |class: &str| svg.matches(&format!("class=\"{class}\"")).count();
        assert!(svg.contains("class=\"plays\" d=\"M137,3h64v20h-64zM458,3h169v20h-169z\""), "{svg}");
        assert!(svg.contains("class=\"dark\" d=\"M490,3h32v20h-32z\""), "{svg}");
        assert!(svg.contains("class=\"enters\" d=\"M458 1v24\""), "{svg}");
        assert!(svg.contains("class=\"crook\" d=\"M297 2v22M763 2v22\""), "{svg}");
        // The last label has no room behind its line.
        assert!(
            svg.contains("x=\"301\" y=\"17\">in G<") && svg.contains("x=\"725\" y=\"17\">in D<"),
            "{svg}"
        );
        assert!(svg.contains("Timpani &lt;&amp;>"), "{svg}");
        // Every fifth bar is 80 pixels from the last; the first is told beside them.
        assert_eq!((of("number"), of("letter"), of("loud")), (8, 1, 2));
        assert!(svg.contains(">1<") && svg.contains(">35<") && !svg.contains(">0<"));
        // Folded, only the loudness stands there.
        let folded = drawn(210, true);
        assert_eq!(folded.matches("<path").count() + folded.matches("<text").count(), 1);
    }
}
