//! What a linked program offers to JavaScript and nothing takes: the classes of streams that Leptos brings along
//! (wasm-streams) and the app never makes. The linker keeps whatever is offered, and wasm-bindgen writes a class for it: five
//! kilobytes of a first visit. Taken off before the program is split, which then leaves out what only they reach.
//! Every other section stays to the byte: the linker's relocations, by which the splitter goes, count from the beginnings of
//! sections, and walrus would write them anew.
//!
//! A section of a wasm file is its kind, its length and its content; numbers are LEB128 (WebAssembly Core Specification,
//! 5.5). wasm-bindgen's notes are pieces, each a version and a description with four bytes of length before each.

use anyhow::{Context, Result};

/// How the names of the functions of these classes have it, and how wasm-bindgen's notes have it.
const CLASSES: [&str; 2] = ["intounderlying", "IntoUnderlying"];
/// The section with wasm-bindgen's notes.
const NOTES: &[u8] = b"__wasm_bindgen_unstable";
const CUSTOM: u8 = 0;
const EXPORTS: u8 = 7;

/// The program without these classes.
pub fn without_classes(linked: &[u8]) -> Result<Vec<u8>> {
    let mut rest = Bytes(linked);
    let mut out = rest.take(8)?.to_vec();
    while !rest.0.is_empty() {
        let kind = rest.take(1)?[0];
        let length = rest.number()?;
        let content = rest.take(length)?;
        let content = match kind {
            CUSTOM => notes(content)?,
            EXPORTS => exports(content)?,
            _ => content.to_vec(),
        };
        out.push(kind);
        write_number(&mut out, content.len());
        out.extend(content);
    }
    Ok(out)
}

/// The exports without the functions of the classes.
fn exports(content: &[u8]) -> Result<Vec<u8>> {
    let mut rest = Bytes(content);
    let mut kept = Vec::new();
    for _ in 0..rest.number()? {
        let start = rest.0;
        let length = rest.number()?;
        let name = rest.take(length)?;
        // What kind of thing it is, and its number.
        rest.take(1)?;
        rest.number()?;
        if !is_of_classes(name) {
            kept.push(&start[..start.len() - rest.0.len()]);
        }
    }
    let mut out = Vec::new();
    write_number(&mut out, kept.len());
    Ok([out, kept.concat()].concat())
}

/// A section of notes; in wasm-bindgen's, without the pieces about the classes.
fn notes(content: &[u8]) -> Result<Vec<u8>> {
    let mut rest = Bytes(content);
    let length = rest.number()?;
    if rest.take(length)? != NOTES {
        return Ok(content.to_vec());
    }
    let mut out = content[..content.len() - rest.0.len()].to_vec();
    while !rest.0.is_empty() {
        let start = rest.0;
        rest.piece()?;
        let description = rest.piece()?;
        if !is_of_classes(description) {
            out.extend(&start[..start.len() - rest.0.len()]);
        }
    }
    Ok(out)
}

fn is_of_classes(text: &[u8]) -> bool {
    CLASSES.iter().any(|name| text.windows(name.len()).any(|part| part == name.as_bytes()))
}

/// What has not been read yet.
struct Bytes<'a>(&'a [u8]);

impl<'a> Bytes<'a> {
    fn take(&mut self, count: usize) -> Result<&'a [u8]> {
        let (taken, rest) = self.0.split_at_checked(count).context("a wasm file ends too soon")?;
        self.0 = rest;
        Ok(taken)
    }

    /// A number of up to 32 bits.
    fn number(&mut self) -> Result<usize> {
        let mut number = 0;
        for at in 0..5 {
            let byte = self.take(1)?[0];
            number |= usize::from(byte & 0x7f) << (7 * at);
            if byte & 0x80 == 0 {
                break;
            }
        }
        Ok(number)
    }

    /// A piece with its length in four bytes before it.
    fn piece(&mut self) -> Result<&'a [u8]> {
        let length: [u8; 4] = self.take(4)?.try_into()?;
        self.take(usize::try_from(u32::from_le_bytes(length))?)
    }
}

fn write_number(out: &mut Vec<u8>, mut number: usize) {
    while number >= 0x80 {
        out.push((number & 0x7f) as u8 | 0x80);
        number >>= 7;
    }
    out.push((number & 0x7f) as u8);
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &[u8] = b"\0asm\x01\0\0\0";

    fn section(kind: u8, content: &[u8]) -> Vec<u8> {
        let mut out = vec![kind];
        write_number(&mut out, content.len());
        [out, content.to_vec()].concat()
    }

    fn piece(text: &str) -> Vec<u8> {
        [&(text.len() as u32).to_le_bytes(), text.as_bytes()].concat()
    }

    fn export(name: &str) -> Vec<u8> {
        [&[name.len() as u8], name.as_bytes(), &[0, 0x83, 0x01]].concat()
    }

    fn program(exported: &[&str], described: &[&str]) -> Vec<u8> {
        let exports: Vec<u8> = exported.iter().flat_map(|name| export(name)).collect();
        let notes: Vec<u8> = described.iter().flat_map(|text| [piece("{}"), piece(text)].concat()).collect();
        let notes = [&[NOTES.len() as u8], NOTES, &notes].concat();
        [
            HEAD,
            &section(1, &[7; 200]),
            &section(EXPORTS, &[vec![exported.len() as u8], exports].concat()),
            &section(CUSTOM, &notes),
            &section(CUSTOM, b"\x04nameIntoUnderlying"),
        ]
        .concat()
    }

    #[test]
    fn the_classes_go_and_all_else_stays() {
        let whole = program(
            &["main", "intounderlyingsink_write_12", "__wbg_intounderlyingsink_free_12", "memory"],
            &["a window", "\x01IntoUnderlyingSink\x02", "an event"],
        );
        let wanted = program(&["main", "memory"], &["a window", "an event"]);
        assert_eq!(without_classes(&whole).unwrap(), wanted);
        assert_eq!(without_classes(&wanted).unwrap(), wanted);
    }

    #[test]
    fn a_file_that_was_cut_is_said() {
        let whole = program(&["main"], &["a window"]);
        assert!(without_classes(&whole[..whole.len() - 1]).is_err());
        assert!(without_classes(b"\0asm").is_err());
    }
}
