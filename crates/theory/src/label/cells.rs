//! Cells of the table of instruments: "Flöte, -n; Hoboe" as the names they hold, plurals written out.

use super::lexicon::lang;

/// A name in a cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Name {
    /// The name, written out.
    pub text: String,
    /// It is given as a plural.
    pub plural: bool,
}

/// All names in a cell. What stands in brackets may be left out or not; in English it is a remark.
pub(super) fn expand(cell: &str, english: bool) -> Vec<Name> {
    let (mut names, mut plurals) = (Vec::new(), Vec::new());
    for part in cell.split(';').map(str::trim).filter(|part| !part.is_empty() && *part != "–") {
        if english {
            let without = without_brackets(part);
            let name = without.split(',').next().unwrap_or("");
            // "Tenor voice in treble clef", "Cellos and basses on one staff": the rest is a remark.
            let name =
                name.split(" in treble").next().unwrap_or("").split(" on ").next().unwrap_or("").trim();
            names.push(Name { text: name.to_owned(), plural: false });
            continue;
        }
        let mut forms = part.split(", ");
        let Some(first) = forms.next() else { continue };
        let singulars = both_ways(first);
        names.extend(singulars.iter().map(|text| Name { text: text.clone(), plural: false }));
        for form in forms {
            match form.strip_prefix('-') {
                Some(ending) => plurals.extend(singulars.iter().filter_map(|singular| {
                    // Of "(Grande) flûte, -s" the last word takes the ending.
                    Some(Name { text: with_ending(singular, ending)?, plural: true })
                })),
                None => names
                    .push(Name {
                        text: form.to_owned(), plural: form.contains("ör") || form.ends_with('s')
                    }),
            }
        }
    }
    names.append(&mut plurals);
    names
}

fn without_brackets(text: &str) -> String {
    let mut out = String::new();
    let mut depth = 0_u32;
    for ch in text.chars() {
        match ch {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ if depth == 0 => out.push(ch),
            _ => {}
        }
    }
    out
}

/// A name without and with what stands in brackets; an empty one is dropped.
fn both_ways(text: &str) -> Vec<String> {
    let without = without_brackets(text);
    let joined: String = text.chars().filter(|ch| !matches!(ch, '(' | ')')).collect();
    // "Piccolo(flöte)" and "(Tenor)Posaune" are one word with it.
    let mut both = vec![without.trim().to_owned()];
    if joined != without {
        both.push(joined.trim().to_owned());
    }
    both.retain(|name| !name.is_empty());
    both
}

/// A name with the plural ending that the table gives after a hyphen: -i, -e, -n, -s, -es, -ines, -bässe.
fn with_ending(name: &str, ending: &str) -> Option<String> {
    let vowel = |ch: char| "aeiou".contains(ch);
    let (first, last) = (ending.chars().next()?, name.chars().next_back()?);
    if ending.chars().count() > 2
        && let Some(place) = name.rfind(first).filter(|_| name.is_ascii())
    {
        return name.get(..place).map(|stem| format!("{stem}{ending}"));
    }
    if ending.chars().count() > 2 {
        // "Violín, -ines": the stem ends before the accented vowel.
        let stem: String = name.chars().take(name.chars().count().saturating_sub(2)).collect();
        return Some(format!("{stem}{ending}"));
    }
    if ending.chars().count() == 1 && vowel(first) && vowel(last) {
        let stem: String = name.chars().take(name.chars().count().saturating_sub(1)).collect();
        return Some(format!("{stem}{ending}"));
    }
    Some(format!("{name}{ending}"))
}

/// Regular plurals of a folded word, by the language of its column. Common practice.
pub(super) fn plural_forms(word: &str, bits: u8) -> Vec<String> {
    let mut forms = Vec::new();
    // A name of every language is told apart by its looks: only the plural in -s is regular.
    let bits = if bits == lang::ALL { lang::ENGLISH } else { bits };
    if word.chars().count() < 3 {
        return forms;
    }
    let stem = |dropped: usize| word.get(..word.len().saturating_sub(dropped)).unwrap_or("").to_owned();
    if bits & lang::ITALIAN != 0 {
        match word.chars().next_back() {
            Some('o') if word.ends_with("io") => forms.push(stem(1)),
            Some('o' | 'e') => forms.push(stem(1) + "i"),
            Some('a') => forms.push(stem(1) + "e"),
            _ => {}
        }
    }
    if bits & lang::GERMAN != 0 {
        if word.ends_with("horn") {
            forms.push(stem(3) + "orner");
        } else if word.ends_with("tuba") {
            forms.push(stem(1) + "en");
        } else if word.ends_with('e') {
            forms.push(word.to_owned() + "n");
        } else if !word.ends_with(['a', 'i', 'o', 'u']) {
            forms.extend(["e", "en", "s"].map(|ending| word.to_owned() + ending));
        }
    }
    if bits & (lang::FRENCH | lang::ENGLISH) != 0 && !word.ends_with('s') {
        forms.push(word.to_owned() + "s");
    }
    if bits & lang::SPANISH != 0 && !word.ends_with('s') {
        forms.push(word.to_owned() + if word.ends_with(['a', 'e', 'i', 'o', 'u']) { "s" } else { "es" });
    }
    forms
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(cell: &str) -> Vec<String> {
        expand(cell, false).into_iter().map(|name| name.text).collect()
    }

    #[test]
    fn cells_written_out() {
        assert_eq!(texts("Flöte, -n"), ["Flöte", "Flöten"]);
        assert_eq!(texts("Corno, -i; Corno da caccia"), ["Corno", "Corno da caccia", "Corni"]);
        assert_eq!(texts("(Grande) flûte, -s"), ["flûte", "Grande flûte", "flûtes", "Grande flûtes"]);
        assert_eq!(texts("Piccolo(flöte)"), ["Piccolo", "Piccoloflöte"]);
        assert_eq!(texts("Violín, -ines"), ["Violín", "Violines"]);
        assert_eq!(texts("Kontrabass, -bässe"), ["Kontrabass", "Kontrabässe"]);
        assert_eq!(texts("Violoncell(o), -i"), ["Violoncell", "Violoncello", "Violoncelli", "Violoncelli"]);
        assert_eq!(expand("Tenor (alto) horn in E-flat", true)[0].text, "Tenor  horn in E-flat");
    }
}
