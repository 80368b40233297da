//! A style sheet that comes with a part of the page says nothing of what was there before it: whoever has been at that part and
//! comes back finds the page as it was.

use crate::shell;
use anyhow::{Context, Result};

/// The sheets of the first visit, and those that come later.
const FIRST: &str = "web/style";
const LATER: &str = "web/style/later";

/// Every rule of a later sheet that is told by nothing but classes of the first ones.
pub fn check() -> Result<Vec<String>> {
    let mut known: Vec<String> = Vec::new();
    for (_, text) in sheets(FIRST)? {
        known.extend(selectors(&text).iter().flat_map(|one| classes(one)));
    }
    let mut problems = Vec::new();
    for (name, text) in sheets(LATER)? {
        for selector in selectors(&text) {
            let own = classes(&selector);
            if !own.is_empty() && own.iter().all(|class| known.contains(class)) {
                problems.push(format!("{name}: \"{selector}\" changes what stands without this sheet"));
            }
        }
    }
    Ok(problems)
}

/// The sheets of a folder by name, without their comments.
fn sheets(folder: &str) -> Result<Vec<(String, String)>> {
    let mut all = Vec::new();
    for entry in std::fs::read_dir(shell::at(folder)).with_context(|| format!("no {folder}"))? {
        let path = entry?.path();
        if path.extension().is_some_and(|ending| ending == "css") {
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            let text = std::fs::read_to_string(&path).with_context(|| format!("could not read {name}"))?;
            all.push((format!("{folder}/{name}"), without_comments(&text)));
        }
    }
    all.sort();
    Ok(all)
}

fn without_comments(text: &str) -> String {
    let mut parts = text.split("/*");
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |all, part| all + part.split_once("*/").map_or("", |(_, after)| after))
}

/// What rules are told by, each selector of a list by itself.
fn selectors(text: &str) -> Vec<String> {
    let heads = text.split('{').filter_map(|part| part.rsplit(['}', ';']).next());
    let lists = heads.map(str::trim).filter(|head| !head.is_empty() && !head.starts_with('@'));
    lists.flat_map(apart).collect()
}

/// A list of selectors apart; commas within brackets part nothing.
fn apart(list: &str) -> Vec<String> {
    let (mut all, mut depth) = (vec![String::new()], 0_u32);
    for sign in list.chars() {
        match sign {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            ',' if depth == 0 => {
                all.push(String::new());
                continue;
            }
            _ => {}
        }
        if let Some(last) = all.last_mut() {
            last.push(sign);
        }
    }
    all.iter().map(|one| one.trim().to_owned()).collect()
}

/// The classes that a selector names.
fn classes(selector: &str) -> Vec<String> {
    let names = selector.split('.').skip(1);
    let is_name = |sign: &char| sign.is_alphanumeric() || *sign == '-' || *sign == '_';
    names
        .map(|rest| rest.chars().take_while(is_name).collect::<String>())
        .filter(|name| name.starts_with(char::is_alphabetic))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn selectors_and_their_classes_are_found() {
        let text = "/* .no { } */ .a, .b:is(.c, .d) > p { width: 0.5rem; } @media (max-width: 620px) { .e { color: red; } }";
        let all = selectors(&without_comments(text));
        assert_eq!(all, [".a", ".b:is(.c, .d) > p", ".e"]);
        assert_eq!(classes(&all[1]), ["b", "c", "d"]);
        assert_eq!(classes("main > p"), Vec::<String>::new());
    }
}
