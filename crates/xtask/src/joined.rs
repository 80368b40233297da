//! Several parts of the splitter's in one file. Each has the same types, takes the same things from what started, and calls
//! what stands elsewhere through the table: so their functions, elements and data are put behind each other, and nothing
//! changes but the numbers of the functions.

use anyhow::{Context, Result, anyhow, bail};
use std::convert::Infallible;
use std::mem::discriminant;
use wasm_encoder::reencode::{Error, Reencode};
use wasm_encoder::{
    CodeSection, DataSection, ElementSection, FunctionSection, ImportSection, Module, RawSection, SectionId,
};
use wasmparser::{DataKind, Import, Parser, Payload, TypeRef};

/// One file that holds what these hold.
pub fn joined(files: &[&[u8]]) -> Result<Vec<u8>> {
    let mut made = Joined::default();
    for file in files {
        made.add(file)?;
    }
    made.finish()
}

/// What a part takes from what started, by name.
pub fn taken(file: &[u8]) -> Result<Vec<String>> {
    let mut made = Joined::default();
    made.add(file)?;
    Ok(made.imports.iter().map(|import| import.name.to_owned()).collect())
}

#[derive(Default)]
struct Joined<'a> {
    /// The types, as they stand in every file.
    types: Option<&'a [u8]>,
    /// What is taken from elsewhere, each once.
    imports: Vec<Import<'a>>,
    functions: FunctionSection,
    elements: ElementSection,
    code: CodeSection,
    data: DataSection,
}

impl<'a> Joined<'a> {
    fn add(&mut self, file: &'a [u8]) -> Result<()> {
        let mut behind = Behind { by: self.functions.len() };
        for payload in Parser::new(0).parse_all(file) {
            let payload = payload?;
            match payload {
                Payload::Version { .. } | Payload::CodeSectionStart { .. } | Payload::End(_) => {}
                Payload::TypeSection(ref types) => {
                    let (from, to) = (types.range().start, types.range().end);
                    let types = file.get(usize::try_from(from)?..usize::try_from(to)?);
                    let types = types.context("a part ends too soon")?;
                    if *self.types.get_or_insert(types) != types {
                        bail!("parts have other types");
                    }
                }
                Payload::ImportSection(imports) => {
                    for import in imports.into_imports() {
                        self.take(import?)?;
                    }
                }
                Payload::FunctionSection(functions) => {
                    behind.parse_function_section(&mut self.functions, functions).map_err(unreadable)?;
                }
                Payload::ElementSection(elements) => {
                    behind.parse_element_section(&mut self.elements, elements).map_err(unreadable)?;
                }
                Payload::CodeSectionEntry(body) => {
                    behind.parse_function_body(&mut self.code, body).map_err(unreadable)?;
                }
                Payload::DataSection(data) => {
                    for data in data {
                        let data = data?;
                        if matches!(data.kind, DataKind::Passive) {
                            bail!("a part asks for data by their number");
                        }
                        behind.parse_data(&mut self.data, data).map_err(unreadable)?;
                    }
                }
                other => bail!("a part has a section that is not looked for: {other:?}"),
            }
        }
        Ok(())
    }

    /// Takes something from elsewhere. Of each kind there is one at most, so that it has the same number in every file; a
    /// function would move the numbers of all others.
    fn take(&mut self, import: Import<'a>) -> Result<()> {
        if self.imports.contains(&import) {
            return Ok(());
        }
        let is_of_kind = |other: &Import<'_>| discriminant(&other.ty) == discriminant(&import.ty);
        if matches!(import.ty, TypeRef::Func(_) | TypeRef::FuncExact(_))
            || self.imports.iter().any(is_of_kind)
        {
            bail!("a part takes \"{}\" from elsewhere, which is not looked for", import.name);
        }
        self.imports.push(import);
        Ok(())
    }

    fn finish(self) -> Result<Vec<u8>> {
        let mut imports = ImportSection::new();
        for import in self.imports {
            Behind { by: 0 }.parse_import(&mut imports, import).map_err(unreadable)?;
        }
        let types = RawSection { id: SectionId::Type as u8, data: self.types.unwrap_or(&[0]) };
        let mut module = Module::new();
        module.section(&types).section(&imports);
        if !self.functions.is_empty() {
            module.section(&self.functions);
        }
        if !self.elements.is_empty() {
            module.section(&self.elements);
        }
        if !self.code.is_empty() {
            module.section(&self.code);
        }
        if !self.data.is_empty() {
            module.section(&self.data);
        }
        Ok(module.finish())
    }
}

#[allow(clippy::needless_pass_by_value, reason = "as it is handed over where it is told")]
fn unreadable(problem: Error<Infallible>) -> anyhow::Error {
    anyhow!("a part cannot be joined with others: {problem}")
}

/// Functions that stand behind those of other files.
struct Behind {
    /// How many stand before them.
    by: u32,
}

impl Reencode for Behind {
    type Error = Infallible;

    fn function_index(&mut self, function: u32) -> Result<u32, Error<Infallible>> {
        Ok(function + self.by)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_encoder::{
        ConstExpr, Elements, EntityType, Function, GlobalType, MemoryType, RefType, TableType, TypeSection,
        ValType,
    };

    const TABLE: TableType = TableType {
        element_type: RefType::FUNCREF,
        table64: false,
        minimum: 8,
        maximum: None,
        shared: false,
    };
    const MEMORY: MemoryType =
        MemoryType { minimum: 1, maximum: None, memory64: false, shared: false, page_size_log2: None };
    const STACK: GlobalType = GlobalType { val_type: ValType::I32, mutable: true, shared: false };

    /// A part with a function that gives this number and one that calls it, which stands in the table at this place.
    fn part(number: i32, place: i32, more: &[(&str, EntityType)]) -> Vec<u8> {
        let mut types = TypeSection::new();
        types.ty().function([], [ValType::I32]);
        let mut imports = ImportSection::new();
        for (name, kind) in more {
            imports.import("shared", name, *kind);
        }
        imports.import("shared", "table", EntityType::Table(TABLE));
        imports.import("shared", "memory", EntityType::Memory(MEMORY));
        let mut functions = FunctionSection::new();
        functions.function(0).function(0);
        let mut elements = ElementSection::new();
        elements.active(Some(0), &ConstExpr::i32_const(place), Elements::Functions((&[1][..]).into()));
        let (mut gives, mut calls) = (Function::new([]), Function::new([]));
        gives.instructions().i32_const(number).end();
        calls.instructions().call(0).end();
        let mut code = CodeSection::new();
        code.function(&gives).function(&calls);
        let mut data = DataSection::new();
        data.active(0, &ConstExpr::i32_const(place), [number as u8]);
        let mut module = Module::new();
        module.section(&types).section(&imports).section(&functions).section(&elements).section(&code);
        module.section(&data);
        module.finish()
    }

    #[test]
    fn what_calls_and_what_stands_in_the_table_follows_the_functions() {
        let stack = ("stack", EntityType::Global(STACK));
        let (one, two) = (part(7, 3, &[]), part(9, 5, &[stack]));
        let whole = joined(&[&one, &two]).unwrap();
        let (mut bodies, mut placed, mut data) = (Vec::new(), Vec::new(), Vec::new());
        for payload in Parser::new(0).parse_all(&whole) {
            match payload.unwrap() {
                Payload::CodeSectionEntry(body) => bodies.push(body.as_bytes()),
                Payload::ElementSection(elements) => {
                    for element in elements {
                        let wasmparser::ElementItems::Functions(functions) = element.unwrap().items else {
                            panic!("functions are placed")
                        };
                        placed.extend(functions.into_iter().map(Result::unwrap));
                    }
                }
                Payload::DataSection(all) => data.extend(all.into_iter().map(|one| one.unwrap().data[0])),
                _ => {}
            }
        }
        let gives = |number: u8| vec![0, 0x41, number, 0x0b];
        let calls = |function: u8| vec![0, 0x10, function, 0x0b];
        assert_eq!(bodies, [gives(7), calls(0), gives(9), calls(2)]);
        assert_eq!((placed, data), (vec![1, 3], vec![7, 9]));
        assert_eq!(taken(&whole).unwrap(), ["table", "memory", "stack"]);
        assert_eq!(joined(&[&whole]).unwrap(), whole);
    }

    #[test]
    fn parts_that_are_made_otherwise_are_said() {
        let (one, told) = (part(7, 3, &[]), part(7, 3, &[("told", EntityType::Function(0))]));
        assert!(joined(&[&told]).is_err());
        assert!(joined(&[&one, &part(7, 3, &[("two", EntityType::Memory(MEMORY))])]).is_err());
        assert!(joined(&[&one[..one.len() - 1]]).is_err() && joined(&[b"\0asm"]).is_err());
    }
}
