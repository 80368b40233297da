//! The site: the app, its glue, its style sheet, its page and its licences as plain files.

use crate::wasm::{self, Bound, Profile};
use crate::{compress, licences, minify, shell, stamp, worker};
use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};
use std::time::Instant;

const BOOT: &str = include_str!("../assets/boot.js");
const OLD: &str = include_str!("../assets/too_old.js");
const ANY_HOST: &str = include_str!("../assets/any_host.js");
const OFFLINE: &str = include_str!("../assets/offline.js");
const RELOAD: &str = include_str!("../assets/reload.js");
const SCORE: &str = include_str!("../assets/score.js");
const NO_WORKER: &str = include_str!("../assets/no_worker.js");

/// The demo movement.
const DEMO: &str = "web/demo/movement.musicxml";

/// One file of the site: its path from the page, and its bytes.
pub type File = (String, Vec<u8>);

/// Builds the release site in `dist/site`, unless it stands there already, and gives its folder.
pub fn build_release() -> Result<PathBuf> {
    let folder = shell::at("dist/site");
    let mark = shell::at("dist/site.stamp");
    let inputs = stamp::of(stamp::SITE)?;
    if folder.join("index.html").is_file() && std::fs::read_to_string(&mark).is_ok_and(|old| old == inputs) {
        println!("dist/site is up to date");
        return Ok(folder);
    }
    let start = Instant::now();
    let files = assemble(Profile::Release, false)?;
    let fresh = shell::at("dist/site.new");
    remove(&fresh)?;
    write(&fresh, &files, true)?;
    remove(&folder)?;
    std::fs::rename(&fresh, &folder).context("could not put the new site in its place")?;
    std::fs::write(&mark, inputs).context("could not write dist/site.stamp")?;
    println!("dist/site: {} files in {:.0} s", files.len(), start.elapsed().as_secs_f64());
    Ok(folder)
}

/// Builds the site for development in `dist/dev` and gives its folder. Its page reloads itself when `serve` says so, and
/// is not kept on the device.
pub fn build_dev() -> Result<PathBuf> {
    let folder = shell::at("dist/dev");
    write(&folder, &assemble(Profile::Dev, true)?, false)?;
    Ok(folder)
}

/// Builds the site for development, without the reloading, in `dist/dev-flows`: for flows that are to see the warnings
/// which Leptos gives only there.
pub fn build_dev_for_flows() -> Result<PathBuf> {
    let folder = shell::at("dist/dev-flows");
    write(&folder, &assemble(Profile::Dev, false)?, false)?;
    Ok(folder)
}

fn remove(folder: &Path) -> Result<()> {
    if folder.exists() {
        std::fs::remove_dir_all(folder).with_context(|| format!("could not remove {}", folder.display()))?;
    }
    Ok(())
}

fn write(folder: &Path, files: &[File], packed: bool) -> Result<()> {
    for (name, bytes) in files {
        let path = folder.join(name);
        let above = path.parent().context("a file has no folder")?;
        std::fs::create_dir_all(above).with_context(|| format!("could not make {}", above.display()))?;
        std::fs::write(&path, bytes).with_context(|| format!("could not write {}", path.display()))?;
        if packed && compress::is_worth_it(name) {
            let beside = folder.join(format!("{name}.br"));
            std::fs::write(&beside, compress::brotli(bytes)?).context("could not write a packed file")?;
        }
    }
    Ok(())
}

fn assemble(profile: Profile, reloading: bool) -> Result<Vec<File>> {
    let demo = std::fs::read(shell::at(DEMO)).with_context(|| format!("could not read {DEMO}"))?;
    let beside = [SCORE.as_bytes(), &demo].concat();
    let Bound { wasm, js, snippets, parts, .. } = wasm::make(wasm::APP, profile, false, &beside)?;
    let css = style_sheet()?;
    let sent = |script: &str| match profile {
        Profile::Dev => Ok(without_notes(script)),
        Profile::Release => minify::module(script),
    };
    let named = |stem: &str, ending: &str, bytes: &[u8]| match profile {
        Profile::Dev => format!("{stem}.{ending}"),
        Profile::Release => format!("{stem}-{}.{ending}", stamp::short(bytes)),
    };
    let css_name = named("style", "css", css.as_bytes());
    let wasm_name = named("app", "wasm", &wasm);
    let (names, parts) = parts.context("the app was not split")?;
    let (js_name, link_name) = (names.glue.clone(), names.link());
    let filled = |script: &str| fill(&without_notes(script), &[("js", &js_name), ("wasm", &wasm_name)]);
    // The page finds them beside the module that fetches the parts.
    let of_score = [
        (names.inside("demo.musicxml"), demo),
        (names.inside("score.js"), sent(&filled(&format!("{ANY_HOST}{SCORE}"))?)?.into_bytes()),
    ];
    let old = without_notes(OLD);
    let old_name = named("too-old", "js", old.as_bytes());
    let begin = if reloading { "start();\nimport \"./reload.js\";\n" } else { OFFLINE };
    // As it was written: it must get as far as its sentence where no other script is understood.
    let boot = filled(&format!("{ANY_HOST}{BOOT}{begin}"))?;
    let boot_name = named("boot", "js", boot.as_bytes());
    let shell = std::fs::read_to_string(shell::at("index.html")).context("could not read index.html")?;
    let names = [
        ("css", css_name.as_str()),
        ("js", &js_name),
        ("parts", &link_name),
        ("wasm", &wasm_name),
        ("boot", &boot_name),
        ("old", &old_name),
    ];
    let page = fill(&without_comments(&shell), &names)?;
    let mut files = vec![
        (css_name, css.into_bytes()),
        (wasm_name, wasm),
        (js_name, sent(&js)?.into_bytes()),
        (boot_name, boot.into_bytes()),
        (old_name, old.into_bytes()),
        ("index.html".to_owned(), page.into_bytes()),
    ];
    for (name, bytes) in parts {
        let script = name.ends_with(".js").then(|| String::from_utf8_lossy(&bytes).into_owned());
        files.push((name, script.map_or(Ok(bytes), |script| sent(&script).map(String::into_bytes))?));
    }
    files.extend(of_score);
    files.extend(snippets.into_iter().map(|(name, text)| (name, text.into_bytes())));
    files.extend(copied()?);
    files.push(("licences.txt".to_owned(), licences::text(wasm::APP.package)?.into_bytes()));
    if reloading {
        files.extend(
            [("reload.js", RELOAD), (worker::NAME, NO_WORKER)]
                .map(|(name, text)| (name.to_owned(), text.into())),
        );
    } else {
        files.push((worker::NAME.to_owned(), worker::script(&files)?.into_bytes()));
    }
    Ok(files)
}

/// Every file of `web/style`, joined in the order of their names. What stands in a folder there comes with a part.
fn style_sheet() -> Result<String> {
    let folder = shell::at("web/style");
    let mut css = String::new();
    for file in stamp::files(&["web/style"]) {
        if file.parent() == Some(&folder) && file.extension().is_some_and(|ending| ending == "css") {
            let text = std::fs::read_to_string(&file);
            css.push_str(&text.with_context(|| format!("could not read {}", file.display()))?);
            css.push('\n');
        }
    }
    Ok(without(&css, "/*", "*/"))
}

/// The files of `web/static`, under their own names.
fn copied() -> Result<Vec<File>> {
    let from = "web/static";
    let folder = shell::at(from);
    let copy = |file: &PathBuf| -> Result<File> {
        let name = file.strip_prefix(&folder).unwrap_or(file).to_string_lossy().replace('\\', "/");
        Ok((name, std::fs::read(file).with_context(|| format!("could not read {}", file.display()))?))
    };
    stamp::files(&[from]).iter().map(copy).collect()
}

/// Puts the values in the place of `{{name}}`. A name that is missing, or one that is left over, is an error.
pub fn fill(text: &str, values: &[(&str, &str)]) -> Result<String> {
    let mut filled = text.to_owned();
    for (name, value) in values {
        let place = format!("{{{{{name}}}}}");
        if !filled.contains(&place) {
            bail!("{place} does not stand where it must");
        }
        filled = filled.replace(&place, value);
    }
    if let Some(start) = filled.find("{{") {
        let rest: String = filled.chars().skip(filled[..start].chars().count()).take(30).collect();
        bail!("unknown placeholder: {rest} …");
    }
    Ok(filled)
}

/// The page without its comments, which are for us.
fn without_comments(page: &str) -> String {
    without(page, "<!--", "-->")
}

/// A text without what stands between these marks, and the marks.
fn without(text: &str, opens: &str, closes: &str) -> String {
    let mut kept = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once(opens) {
        kept.push_str(before);
        rest = after.split_once(closes).map_or("", |(_, after)| after.trim_start_matches('\n'));
    }
    kept.push_str(rest);
    kept
}

/// A script without its lines of comment, which are for us.
pub fn without_notes(script: &str) -> String {
    let lines = script.lines().filter(|line| !line.trim_start().starts_with("//"));
    lines.map(|line| format!("{line}\n")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn placeholders_are_filled_and_none_is_forgotten() {
        assert_eq!(fill("a {{x}} b {{x}}", &[("x", "1")]).unwrap(), "a 1 b 1");
        assert!(fill("a", &[("x", "1")]).is_err());
        assert!(fill("é {{x}} {{y}}", &[("x", "1")]).is_err());
    }

    #[test]
    fn comments_leave_the_page() {
        assert_eq!(without_comments("<a><!-- {{b}} -->\n<c>"), "<a><c>");
        assert_eq!(without_comments("<a><!-- open"), "<a>");
        assert_eq!(without("/* a */\na { }\n/* b\n c */ d { }", "/*", "*/"), "a { }\n d { }");
        assert_eq!(without_notes("// a\nb(); // c\n  // d\n"), "b(); // c\n");
    }

    #[test]
    fn the_page_has_every_placeholder() {
        let page = without_comments(&std::fs::read_to_string(shell::at("index.html")).unwrap());
        assert!(fill(&page, &["css", "js", "parts", "wasm", "boot", "old"].map(|name| (name, "1"))).is_ok());
    }
}
