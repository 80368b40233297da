//! Scripts as they are sent: without notes and room, and with short names. 2 kB of a first visit, most of them of the glue.

use anyhow::{Result, bail};
use oxc_allocator::Allocator;
use oxc_codegen::{Codegen, CodegenOptions};
use oxc_minifier::{Minifier, MinifierOptions};
use oxc_parser::Parser;
use oxc_span::SourceType;

/// A module of JavaScript that does the same in fewer letters.
pub fn module(script: &str) -> Result<String> {
    let allocator = Allocator::default();
    let read = Parser::new(&allocator, script, SourceType::mjs()).parse();
    if let Some(problem) = read.diagnostics.first() {
        bail!("a script cannot be read: {problem}");
    }
    let mut program = read.program;
    let scoping = Minifier::new(MinifierOptions::default()).minify(&allocator, &mut program).scoping;
    Ok(Codegen::new().with_options(CodegenOptions::minify()).with_scoping(scoping).build(&program).code)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_others_take_keeps_its_name_and_what_nobody_takes_gets_a_short_one() {
        let script = "// a note\nconst counted = 1 + Number(globalThis.told);\nexport function answer(question) { return question + counted; }\n";
        let short = module(script).unwrap();
        assert!(short.contains("answer") && short.contains("told"), "{short}");
        assert!(
            !short.contains("note") && !short.contains("counted") && !short.contains("question"),
            "{short}"
        );
    }

    #[test]
    fn what_is_no_script_is_said() {
        assert!(module("const = {").is_err());
    }
}
