//! The rules of this repository that no compiler knows. Each gives the places where it is broken.

mod arrows;
mod instruments;
mod layers;
mod map;
mod names;
mod sentences;
mod sheets;
mod source;

use anyhow::{Result, bail};

/// Fails, naming every place, if a rule is broken.
pub fn check() -> Result<()> {
    let mut problems = source::check()?;
    problems.extend(arrows::check()?);
    problems.extend(layers::check()?);
    problems.extend(instruments::check()?);
    problems.extend(names::check()?);
    problems.extend(sentences::check()?);
    problems.extend(sheets::check()?);
    problems.extend(map::check()?);
    if !problems.is_empty() {
        bail!("{} places are not as they should be:\n{}", problems.len(), problems.join("\n"));
    }
    println!("heads, sizes, places, names, arrows and the map are as they should be");
    Ok(())
}
