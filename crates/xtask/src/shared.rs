//! Which of the files that several parts share go together. The splitter makes one for every set of parts that have something
//! in common: a hundred and sixty, most of a kilobyte or two, and a place asked for up to ninety of them. Each costs a question
//! to the host, a module of its own, and a head that is the same in all.

use std::collections::BTreeMap;

/// What one file more costs, in bytes that a part takes without needing them: its head and packing have some five hundred
/// (packed), the rest is what the question, and the browser's work on one module more, are worth.
const FILE: usize = 5_000;

/// Files that go together, and the parts that want some of them: each is a bit.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Group<'a> {
    files: Vec<&'a str>,
    parts: u64,
    bytes: usize,
}

impl Group<'_> {
    /// What it costs all parts that take it.
    fn cost(parts: u64, bytes: usize) -> usize {
        parts.count_ones() as usize * (bytes + FILE)
    }

    /// What it costs less to have both in one.
    fn gain(&self, other: &Self) -> Option<usize> {
        let apart = Self::cost(self.parts, self.bytes) + Self::cost(other.parts, other.bytes);
        apart
            .checked_sub(Self::cost(self.parts | other.parts, self.bytes + other.bytes))
            .filter(|gain| *gain > 0)
    }
}

/// The shared files that go together, of parts with the files that each wants, and the bytes of each file. The two whose
/// joining gains most are joined until none gains; what one part alone wants stays as it is.
pub fn together<'a>(
    parts: &'a BTreeMap<String, Vec<String>>,
    bytes: impl Fn(&str) -> usize,
) -> Vec<Vec<&'a str>> {
    let mut wanted: BTreeMap<&str, u64> = BTreeMap::new();
    for (bit, files) in parts.values().enumerate() {
        for file in files {
            *wanted.entry(file).or_default() |= 1 << bit;
        }
    }
    let shared = wanted.into_iter().filter(|(_, parts)| parts.count_ones() > 1);
    let mut groups: Vec<Group<'a>> =
        shared.map(|(file, parts)| Group { files: vec![file], parts, bytes: bytes(file) }).collect();
    while let Some((one, other)) = best(&groups) {
        let joined = groups.remove(other);
        let into = &mut groups[one];
        into.files.extend(joined.files);
        into.parts |= joined.parts;
        into.bytes += joined.bytes;
    }
    groups.into_iter().map(|group| group.files).collect()
}

/// The two groups whose joining gains most, the earlier first; of equals those that come first.
fn best(groups: &[Group<'_>]) -> Option<(usize, usize)> {
    let mut best: Option<(usize, (usize, usize))> = None;
    for (one, first) in groups.iter().enumerate() {
        for (other, second) in groups.iter().enumerate().skip(one + 1) {
            if let Some(gain) = first.gain(second)
                && best.is_none_or(|(most, _)| gain > most)
            {
                best = Some((gain, (one, other)));
            }
        }
    }
    best.map(|(_, pair)| pair)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_files_go_together_and_large_ones_to_nobody_who_does_not_want_them() {
        let parts = [
            ("read", &["a", "b", "large", "own"][..]),
            ("practise", &["a", "b", "c", "large"]),
            ("score", &["a", "c", "d"]),
            ("crooks", &["d", "a"]),
        ];
        let parts: BTreeMap<String, Vec<String>> = parts
            .into_iter()
            .map(|(part, files)| (part.to_owned(), files.iter().map(|file| (*file).to_owned()).collect()))
            .collect();
        let bytes = |file: &str| if file == "large" { 100_000 } else { 1_000 };
        let mut made = together(&parts, bytes);
        made.sort();
        // The same two want "b" and "large".
        assert_eq!(made, [vec!["a", "c", "d"], vec!["b", "large"]]);
        assert!(together(&BTreeMap::new(), bytes).is_empty());
    }
}
