//! The words after the command, checked.

use anyhow::{Context, Result, bail};

/// What was asked for besides the command itself.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// Serve the release build.
    pub release: bool,
    /// Run flows on the site for development.
    pub dev: bool,
    /// The port to serve on, where one was named.
    pub port: Option<u16>,
    /// How long to search for trouble, in seconds.
    pub seconds: Option<u64>,
    /// Words without dashes.
    pub words: Vec<String>,
}

impl Options {
    /// Reads the words after the command. An unknown option is an error, not a guess.
    pub fn read(words: impl Iterator<Item = String>) -> Result<Self> {
        let mut options = Self::default();
        let mut words = words;
        while let Some(word) = words.next() {
            let mut number = || words.next().with_context(|| format!("{word} needs a number after it"));
            match word.as_str() {
                "--release" => options.release = true,
                "--dev" => options.dev = true,
                "--port" => {
                    options.port = Some(number()?.parse().context("--port needs a number from 0 to 65535")?);
                }
                "--seconds" => {
                    options.seconds = Some(number()?.parse().context("--seconds needs a whole number")?);
                }
                dashed if dashed.starts_with('-') => bail!("there is no option \"{dashed}\""),
                _ => options.words.push(word),
            }
        }
        Ok(options)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Options> {
        Options::read(text.split_whitespace().map(String::from))
    }

    #[test]
    fn options_are_read_and_unknown_ones_refused() {
        let options = read("--release --dev --port 4000 labels --seconds 5").unwrap();
        assert_eq!(
            options,
            Options {
                release: true,
                dev: true,
                port: Some(4000),
                seconds: Some(5),
                words: vec!["labels".into()]
            }
        );
        assert!(read("--port").is_err());
        assert!(read("--port 70000").is_err());
        assert!(read("--fast").is_err());
    }
}
