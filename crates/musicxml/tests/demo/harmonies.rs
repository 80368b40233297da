//! The harmonies as they were composed, and the phrases they close.

use crate::{decoder, repaired};
use crookwise_score::harmony::harmonies;
use crookwise_score::score::{Quarters, Score};

/// Bar, eighth notes from its beginning, the chord, its degree in the movement's key. The fifth column says what ends there.
const COMPOSED: &str = "
0 0 D minor|1
1 0 D minor|1
2 4 E diminished, third in the bass|2
2 6 E half-diminished seventh, third in the bass|2
3 0 A major|5|half cadence
4 0 A dominant seventh, third in the bass|5
4 4 D minor|1|imperfect cadence
5 0 D minor|1
6 0 A dominant seventh|5
7 0 D minor, third in the bass|1
7 4 G minor, third in the bass|4
8 0 D minor, fifth in the bass|1
8 4 A major|5|half cadence
9 0 D minor|1
9 4 D dominant seventh, third in the bass|1
10 0 G minor|4
10 4 German sixth on B-flat|6
11 0 D minor, fifth in the bass|1
11 4 A major|5
12 0 A dominant seventh|5|halt
13 0 D major|1
14 0 A dominant seventh, fifth in the bass|5
15 0 D major|1
15 3 G major|4
16 0 D major, fifth in the bass|1
16 3 A major|5|half cadence
17 0 D major|1
18 0 A dominant seventh, fifth in the bass|5
19 0 D major|1
19 3 E minor, third in the bass|2
20 0 D major, fifth in the bass|1
22 0 B minor|6
23 0 E dominant seventh, third in the bass|2
24 0 A major|5
25 0 D dominant seventh, third in the bass|1
26 0 G major|4
27 0 E dominant seventh, third in the bass|2
28 0 A major|5|half cadence
29 0 A dominant seventh|5
30 0 D major|1
31 0 A dominant seventh, fifth in the bass|5
32 0 D major|1
32 3 G major|4
33 0 D major, fifth in the bass|1
33 3 A major|5|half cadence
34 0 D major|1
35 0 A dominant seventh, fifth in the bass|5
36 0 D major|1
36 3 E minor, third in the bass|2
37 0 D major, fifth in the bass|1
38 0 G major|4
40 0 G major|4
41 0 C major|b7
41 3 G major|4
42 0 A minor, third in the bass|5
43 0 D dominant seventh|1|half cadence in G
44 0 G major|4
45 0 E minor|2
45 3 C major|b7
46 0 G major, fifth in the bass|4
46 3 D dominant seventh|1
47 0 G major|4|full cadence in G
49 0 D major|1
49 3 G major|4
51 0 D major|1
51 3 G major|4|full cadence in G
52 0 E minor|2
53 0 E dominant seventh, third in the bass|2
54 0 A major|5|half cadence
55 0 D minor, fifth in the bass|1
56 0 A dominant seventh|5
57 0 D minor, fifth in the bass|1
58 0 German sixth on B-flat|b6
59 0 D major, fifth in the bass|1
60 0 A dominant seventh|5
61 0 A dominant seventh|5
62 0 D major|1
63 0 A dominant seventh, fifth in the bass|5
64 0 D major|1
64 3 G major|4
65 0 D major, fifth in the bass|1
65 3 A major|5|half cadence
66 0 D major|1
67 0 A dominant seventh, fifth in the bass|5
68 0 D major|1
68 3 E minor, third in the bass|2
69 0 D major, fifth in the bass|1
69 3 A dominant seventh|5
70 0 B minor|6|deceptive cadence
71 0 G major|4
71 3 E dominant seventh, third in the bass|2
72 0 D major, fifth in the bass|1
72 3 A dominant seventh|5
73 0 D major|1|full cadence
74 3 A dominant seventh|5
75 0 D major|1
76 3 A dominant seventh|5
77 0 G minor, third in the bass|4
77 3 D minor, fifth in the bass|1
78 0 A dominant seventh|5|halt
79 0 D major|1
79 3 A dominant seventh|5
80 0 D major|1|full cadence
";

struct Row {
    bar: usize,
    eighths: i64,
    chord: &'static str,
    degree: &'static str,
    ends: bool,
}

impl Row {
    fn at(&self, score: &Score) -> Quarters {
        score.bars()[self.bar].start.plus(Quarters::new(self.eighths, 2).unwrap()).unwrap()
    }
}

fn composed() -> Vec<Row> {
    let row = |line: &'static str| {
        let (place, told) = line.split_once('|').unwrap();
        let mut place = place.splitn(3, ' ');
        let mut told = told.split('|');
        Row {
            bar: place.next().unwrap().parse().unwrap(),
            eighths: place.next().unwrap().parse().unwrap(),
            chord: place.next().unwrap(),
            degree: told.next().unwrap(),
            ends: told.next().is_some(),
        }
    };
    COMPOSED.lines().filter(|line| !line.is_empty()).map(row).collect()
}

#[test]
fn chords_are_named_as_composed() {
    let score = repaired();
    let found = harmonies(&score, &score.sounded(&mut decoder));
    let mut wrong = Vec::new();
    for row in composed() {
        let at = row.at(&score);
        let own = found.iter().find(|one| one.from <= at && at < one.to).unwrap();
        let degree = own.harmony.degree.map_or_else(|| "-".to_owned(), |degree| degree.to_string());
        if own.harmony.to_string() != row.chord || degree != row.degree {
            wrong.push(format!("{} {}: {}, {degree}", row.bar, row.eighths, own.harmony));
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
    let ends = composed().iter().filter(|row| row.ends).count();
    assert!(composed().len() >= 100 && ends >= 16, "{} chords, {ends} ends", composed().len());
}

/// Nothing that passes by is taken for a chord: every harmony that is found begins where one was composed.
#[test]
fn nothing_else_is_found() {
    let score = repaired();
    let found = harmonies(&score, &score.sounded(&mut decoder));
    let composed: Vec<Quarters> = composed().iter().map(|row| row.at(&score)).collect();
    let beside: Vec<String> = found
        .iter()
        .filter(|one| !composed.contains(&one.from))
        .map(|one| format!("{} in bar {}", one.harmony, one.bar))
        .collect();
    assert_eq!(beside, Vec::<String>::new());
}
