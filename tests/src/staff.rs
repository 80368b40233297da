//! The staff under a reader's hand: where its lines and columns are on the screen, which notes stand on it, and what it
//! shows of a note that is only tried.

use crate::input::{Extent, Place};
use crate::page::Page;
use crate::wait;
use anyhow::{Context, Result, bail};
use serde_json::{Value, json};

const STAFF: &str = include_str!("scripts/staff.js");

/// One column of the written staff, as it now stands on the screen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StaffColumn {
    /// Height of the lowest line.
    bottom_line: f64,
    /// From one line to the next, in CSS pixels.
    space: f64,
    /// Left edge of the column.
    left: f64,
    /// Width of the column in CSS pixels.
    pub width: f64,
}

impl StaffColumn {
    /// The place of a note, counted in lines and spaces from the lowest line, in the middle of the column.
    pub fn at(self, position: i32) -> Place {
        let up = f64::from(position) * self.space / 2.0;
        Place { x: self.left + self.width / 2.0, y: self.bottom_line - up }
    }

    /// The place of a note in the treble clef: "E5".
    ///
    /// # Errors
    /// On a name that is no letter with an octave.
    pub fn treble(self, name: &str) -> Result<Place> {
        Ok(self.at(letters(name)? - letters("E4")?))
    }

    /// The place of a note in the bass clef: "C3".
    ///
    /// # Errors
    /// On a name that is no letter with an octave.
    pub fn bass(self, name: &str) -> Result<Place> {
        Ok(self.at(letters(name)? - letters("G2")?))
    }
}

/// A note's letter and octave as one number, whatever its accidental: C4 is 28, D4 is 29.
///
/// # Errors
/// On a name that is no letter with an octave.
pub fn letters(name: &str) -> Result<i32> {
    let letter = name.chars().next().and_then(|letter| "CDEFGAB".find(letter));
    let octave = name.chars().next_back().and_then(|octave| octave.to_digit(10));
    let (letter, octave) = letter.zip(octave).with_context(|| format!("\"{name}\" names no note"))?;
    Ok(i32::try_from(letter)? + 7 * i32::try_from(octave)?)
}

impl Page {
    /// The column of the written staff over a note's button, counted from 0, or over "Add a note" behind the last one.
    ///
    /// # Errors
    /// When there is no such column, or its staff has not five lines.
    pub async fn staff_column(&self, column: usize) -> Result<StaffColumn> {
        self.column_at(vec![json!(column)]).await
    }

    /// The column that these arguments of the script name: a column, and a label where there are several staves.
    pub(crate) async fn column_at(&self, named: Vec<Value>) -> Result<StaffColumn> {
        let what = format!("column {} of the staff to stand still", named[0]);
        let place = wait::until(&what, async || {
            self.settled().await?;
            let first = self.eval(STAFF, named.clone()).await?;
            let second = self.eval(STAFF, named.clone()).await?;
            Ok((first == second && !first.is_null()).then_some(first))
        })
        .await?;
        let lines: Vec<f64> =
            place["lines"].as_array().into_iter().flatten().filter_map(Value::as_f64).collect();
        let [first, .., last] = lines[..] else { bail!("a staff with the lines {lines:?}") };
        if lines.len() != 5 {
            bail!("a staff with {} lines", lines.len());
        }
        let number = |name: &str| place[name].as_f64().context("the column has no size");
        Ok(StaffColumn {
            bottom_line: last,
            space: (last - first) / 4.0,
            left: number("left")?,
            width: number("width")?,
        })
    }

    /// What the notes of the staff are called aloud, from left to right.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn notes(&self) -> Result<Vec<String>> {
        let script = "const buttons = document.querySelectorAll('[role=application][aria-label=\"Notes on the staff\"] button');
            const name = (button) => button.getAttribute('aria-label')
                ?? [...button.children].filter((part) => part.ariaHidden !== 'true').map((part) => part.textContent).join('');
            return [...buttons].map(name).filter((name) => name !== 'Add a note');";
        let names = self.eval(script, vec![]).await?;
        Ok(names
            .as_array()
            .into_iter()
            .flatten()
            .map(|name| name.as_str().unwrap_or_default().to_owned())
            .collect())
    }

    /// Waits until the notes of the staff begin with these words each: "written E5, sounds G4".
    ///
    /// # Errors
    /// When they do not; with what they are instead.
    pub async fn notes_are(&self, wanted: &[&str]) -> Result<()> {
        let seen = wait::until("the notes", async || {
            let notes = self.notes().await?;
            let alike = notes.len() == wanted.len()
                && notes.iter().zip(wanted).all(|(note, wanted)| note.starts_with(wanted));
            Ok(alike.then_some(()))
        })
        .await;
        if seen.is_err() {
            bail!("the notes should be {wanted:#?}, but are {:#?}", self.notes().await?);
        }
        Ok(())
    }

    /// What is shown of a note that is only tried: "E5 → G4"; empty where none is.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn tried(&self) -> Result<String> {
        let script =
            "const shown = document.querySelector('[role=img][aria-label=\"Written staff\"] output');
            return shown ? shown.textContent : ''";
        Ok(self.eval(script, vec![]).await?.as_str().unwrap_or_default().to_owned())
    }

    /// Waits until this is shown of the note that is tried.
    ///
    /// # Errors
    /// When something else is shown.
    pub async fn tries(&self, wanted: &str) -> Result<()> {
        let seen = wait::until(wanted, async || Ok((self.tried().await? == wanted).then_some(()))).await;
        if seen.is_err() {
            bail!("it should show \"{wanted}\", but shows \"{}\"", self.tried().await?);
        }
        Ok(())
    }

    /// The box in which a tried note is shown enlarged beside a finger.
    ///
    /// # Errors
    /// Where none is shown, or no note in it.
    pub async fn enlarged(&self) -> Result<Extent> {
        let script =
            "const shown = document.querySelector('[role=img][aria-label=\"Written staff\"] output');
            const box = shown?.parentElement;
            if (!box?.querySelector('svg')) return null;
            const { x, y, width, height } = box.getBoundingClientRect();
            return [x, y, width, height];";
        let sizes = self.eval(script, vec![]).await?;
        let size = |at: usize| sizes[at].as_f64().context("no note is shown enlarged");
        Ok(Extent { corner: Place { x: size(0)?, y: size(1)? }, width: size(2)?, height: size(3)? })
    }

    /// The box of the handle by which a finger moves the selected note.
    ///
    /// # Errors
    /// Where no note has one.
    pub async fn handle(&self) -> Result<Extent> {
        let script =
            "const shown = [...document.querySelectorAll('.handle')].find((at) => at.checkVisibility());
            if (!shown) return null;
            const { x, y, width, height } = shown.getBoundingClientRect();
            return [x, y, width, height];";
        let sizes = wait::until("a handle that stands still", async || {
            self.settled().await?;
            let first = self.eval(script, vec![]).await?;
            let second = self.eval(script, vec![]).await?;
            Ok((first == second && !first.is_null()).then_some(first))
        })
        .await?;
        let size = |at: usize| sizes[at].as_f64().context("the handle has no size");
        Ok(Extent { corner: Place { x: size(0)?, y: size(1)? }, width: size(2)?, height: size(3)? })
    }

    /// How far the page has scrolled down, and the strip of the staves to the right, in CSS pixels.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn scrolled(&self) -> Result<(f64, f64)> {
        let script = "return [scrollY, document.querySelector('[role=application]').scrollLeft]";
        let both = self.eval(script, vec![]).await?;
        let number = |at: usize| both[at].as_f64().context("the page does not say how far it has scrolled");
        Ok((number(0)?, number(1)?))
    }

    /// The text in the one field of this role and name, or the words of what is chosen in the one list.
    ///
    /// # Errors
    /// When it does not come.
    pub async fn value(&self, role: &str, name: &str) -> Result<String> {
        let field = self.find(role, name).await?;
        let script = "const at = arguments[0];
            if (at.getAttribute('role') === 'radiogroup') return at.querySelector(':checked')?.labels[0].textContent ?? '';
            return at.tagName === 'SELECT' ? at.selectedOptions[0]?.text ?? '' : at.value";
        Ok(self.eval(script, vec![field.to_json()?]).await?.as_str().unwrap_or_default().to_owned())
    }

    /// Waits until the field or list of this role and name says this.
    ///
    /// # Errors
    /// When it says something else.
    pub async fn value_is(&self, role: &str, name: &str, wanted: &str) -> Result<()> {
        let seen =
            wait::until(wanted, async || Ok((self.value(role, name).await? == wanted).then_some(()))).await;
        if seen.is_err() {
            bail!(
                "{role} \"{name}\" should say \"{wanted}\", but says \"{}\"",
                self.value(role, name).await?
            );
        }
        Ok(())
    }

    /// Chooses what a list offers under these words.
    ///
    /// # Errors
    /// When the list does not come or does not offer it.
    pub async fn choose(&self, list: &str, words: &str) -> Result<()> {
        let found = self.find("combobox", list).await?;
        // With the focus, as under a reader's hand: WebKit compares with what was chosen when the list got it, and where
        // that is missing it takes a choice for none.
        let script = "const [list, words] = arguments; list.focus(); return [...list.options].find((option) => option.text === words) ?? null";
        let option = self.driver().execute(script, vec![found.to_json()?, json!(words)]).await?;
        if option.json().is_null() {
            bail!("\"{list}\" does not offer \"{words}\"");
        }
        option.element()?.click().await.with_context(|| format!("\"{words}\" could not be chosen"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_stand_on_lines_and_in_spaces() {
        let column = StaffColumn { bottom_line: 100.0, space: 10.0, left: 40.0, width: 50.0 };
        assert_eq!(column.treble("E4").unwrap(), Place { x: 65.0, y: 100.0 });
        assert_eq!(column.treble("F5").unwrap().y, 60.0);
        assert_eq!(column.treble("C4").unwrap().y, 110.0);
        assert_eq!(column.bass("A3").unwrap().y, 60.0);
        assert!(column.treble("H4").is_err());
    }
}
