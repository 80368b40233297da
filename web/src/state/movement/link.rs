//! What the address says of Score: which movement is open. A file stands on one device only, so its link leads to it there; the
//! demo movement is everywhere.

use super::ComesFrom;

/// A link to Score that is not understood.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoSource;

/// The pairs of a link.
#[must_use]
pub fn pairs(source: Option<&ComesFrom>) -> String {
    match source {
        None => String::new(),
        Some(ComesFrom::Demo) => "demo=1".to_owned(),
        Some(ComesFrom::File(id)) => format!("kept={id}"),
    }
}

/// What the pairs of a link name.
///
/// # Errors
/// Where they are not understood.
pub fn read(pairs: &str) -> Result<Option<ComesFrom>, NoSource> {
    match pairs.split_once('=') {
        None if pairs.is_empty() => Ok(None),
        Some(("demo", "1")) => Ok(Some(ComesFrom::Demo)),
        Some(("kept", id)) if !id.is_empty() && id.chars().all(|letter| letter.is_ascii_alphanumeric()) => {
            Ok(Some(ComesFrom::File(id.to_owned())))
        }
        _ => Err(NoSource),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_go_round_and_rubbish_is_told() {
        for source in [None, Some(ComesFrom::Demo), Some(ComesFrom::File("1a2b".into()))] {
            assert_eq!(read(&pairs(source.as_ref())), Ok(source));
        }
        for rubbish in ["kept=", "kept=../x", "demo=2", "x", "staff=Corni"] {
            assert_eq!(read(rubbish), Err(NoSource), "{rubbish}");
        }
    }
}
