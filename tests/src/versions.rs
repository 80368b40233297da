//! Versions of the site: copies of the one that was built, changed as another version would be, and as a host may spoil
//! them.

use crate::process::Folder;
use crate::site;
use anyhow::{Context, Result, bail, ensure};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::path::Path;

/// The service worker's name.
const WORKER: &str = "sw.js";
/// The page's name.
const PAGE: &str = "index.html";

/// A copy of the site, removed when this value is dropped. Its page begins with the watching script, which its service
/// worker keeps with the rest, so that it is also there without a server.
#[derive(Debug)]
pub struct Version {
    folder: Folder,
    files: BTreeMap<String, Vec<u8>>,
    names: Vec<String>,
}

impl Version {
    /// The site as it was built.
    ///
    /// # Errors
    /// Where no site has been built, or its service worker is not as this harness knows it.
    pub fn as_built() -> Result<Self> {
        Self::make(None, None)
    }

    /// The site as it was built, with this script in front of all others: a stand-in for something in the browser.
    ///
    /// # Errors
    /// As [`Version::as_built`].
    pub fn with_script(script: &str) -> Result<Self> {
        Self::make(None, Some(script))
    }

    /// Another version: each file that the page loads has other contents, and so another name. Its style sheet says so
    /// (`--crookwise-version`), and so does its page (`<meta name="crookwise-version">`).
    ///
    /// # Errors
    /// As [`Version::as_built`].
    pub fn called(name: &str) -> Result<Self> {
        Self::make(Some(name), None)
    }

    /// Another version, whose app cannot start.
    ///
    /// # Errors
    /// As [`Version::as_built`].
    pub fn broken(name: &str) -> Result<Self> {
        Self::make(Some(name), Some("window.fetch = () => Promise.reject('broken on purpose');"))
    }

    fn make(name: Option<&str>, script: Option<&str>) -> Result<Self> {
        let mut files = read(&site::folder()?)?;
        let page = text(&files, PAGE)?;
        let mut head = String::from("<head>");
        for (file, text) in [("crookwise-watch.js", Some(site::WATCH)), ("crookwise-stand-in.js", script)] {
            if let Some(text) = text {
                head.push_str(&format!("<script src=\"{file}\"></script>"));
                files.insert(file.to_owned(), text.into());
            }
        }
        if let Some(name) = name {
            head.push_str(&format!("<meta name=\"crookwise-version\" content=\"{name}\">"));
        }
        files.insert(PAGE.to_owned(), page.replacen("<head>", &head, 1).into_bytes());
        if let Some(name) = name {
            change(&mut files, name)?;
        }
        let names = mend_worker(&mut files, name)?;
        let version = Self { folder: Folder::make()?, files, names };
        for (name, bytes) in &version.files {
            version.write(name, bytes)?;
        }
        Ok(version)
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        self.folder.path()
    }

    /// What the service worker of this version keeps, by name; the page is called "./".
    pub fn names(&self) -> &[String] {
        &self.names
    }

    /// The text of a file of this version.
    ///
    /// # Errors
    /// Where there is none of this name.
    pub fn text(&self, name: &str) -> Result<String> {
        text(&self.files, name)
    }

    /// The name of its one file with this start and this ending.
    ///
    /// # Errors
    /// Where there is none, or several.
    pub fn name_of(&self, start: &str, ending: &str) -> Result<&str> {
        let mut found = self.files.keys().filter(|name| name.starts_with(start) && name.ends_with(ending));
        match (found.next(), found.next()) {
            (Some(name), None) => Ok(name),
            _ => bail!("there is not one file {start}…{ending}"),
        }
    }

    /// Puts other contents into a file and tells nobody, as a host does on which a new version has arrived in part.
    ///
    /// # Errors
    /// Where the file cannot be written.
    pub fn spoil(&self, name: &str, contents: &str) -> Result<()> {
        self.write(name, contents.as_bytes())
    }

    /// Puts the file back as it was.
    ///
    /// # Errors
    /// Where the file cannot be written.
    pub fn restore(&self, name: &str) -> Result<()> {
        self.write(name, self.files.get(name).with_context(|| format!("there is no {name}"))?)
    }

    fn write(&self, name: &str, bytes: &[u8]) -> Result<()> {
        let path = self.path().join(name);
        let above = path.parent().context("a file has no folder")?;
        std::fs::create_dir_all(above).with_context(|| format!("could not make {}", above.display()))?;
        std::fs::write(&path, bytes).with_context(|| format!("could not write {}", path.display()))
    }
}

/// Every file but the packed ones, which would not be those of a changed site.
fn read(folder: &Path) -> Result<BTreeMap<String, Vec<u8>>> {
    let mut files = BTreeMap::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(at) = open.pop() {
        for entry in std::fs::read_dir(&at).with_context(|| format!("could not read {}", at.display()))? {
            let path = entry?.path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_none_or(|ending| ending != "br") {
                let name = path.strip_prefix(folder).unwrap_or(&path).to_string_lossy().replace('\\', "/");
                files.insert(name, std::fs::read(&path)?);
            }
        }
    }
    Ok(files)
}

fn text(files: &BTreeMap<String, Vec<u8>>, name: &str) -> Result<String> {
    let bytes = files.get(name).with_context(|| format!("the site has no {name}"))?;
    String::from_utf8(bytes.clone()).with_context(|| format!("{name} is no text"))
}

/// Changes what the page loads, without changing what it does, and the names that carry a hash of it.
fn change(files: &mut BTreeMap<String, Vec<u8>>, called: &str) -> Result<()> {
    rename_parts(files, called);
    // The boot module last: it names the others. The glue and the module that fetches parts name each other; both are told
    // of every change, whatever hash they carried before.
    let order = ["style.css", "app.wasm", "app.js", "boot.js"];
    for (stem, ending) in order.iter().filter_map(|name| name.split_once('.')) {
        let starts = [format!("{stem}-"), format!("{stem}.")];
        let of_ours =
            |name: &&String| starts.iter().any(|start| name.starts_with(start)) && name.ends_with(ending);
        let old = files.keys().find(of_ours).with_context(|| format!("no {stem}.{ending}"))?.clone();
        let mut bytes = files.remove(&old).unwrap_or_default();
        match ending {
            "css" => bytes.extend(format!(":root {{ --crookwise-version: {called}; }}\n").bytes()),
            "js" => bytes.extend(format!("// {called}\n").bytes()),
            // A section of a wasm file that has a name and means nothing.
            _ => {
                let length = u8::try_from(called.len()).context("the name is too long")?;
                bytes.extend([0, length + 1, length]);
                bytes.extend(called.bytes());
            }
        }
        let hash = Sha256::digest(&bytes);
        let digits: String = hash.iter().take(8).map(|byte| format!("{byte:02x}")).collect();
        files.insert(old.clone(), bytes);
        // A folder goes with what is in it.
        let old = old.split('/').next().unwrap_or_default().to_owned();
        let new = match (old.contains('-'), old.contains('.')) {
            (true, true) => format!("{stem}-{digits}.{ending}"),
            (true, false) => format!("{stem}-{digits}"),
            (false, _) => old.clone(),
        };
        let moved: Vec<String> = files.keys().filter(|name| name.starts_with(&old)).cloned().collect();
        for name in moved {
            if let Some(bytes) = files.remove(&name) {
                files.insert(name.replace(&old, &new), bytes);
            }
        }
        let told = |name: &&String| ["boot", "app", "parts"].iter().any(|stem| name.starts_with(stem));
        let told: Vec<String> =
            files.keys().filter(told).filter(|name| name.ends_with(".js")).cloned().collect();
        for name in told.iter().map(String::as_str).chain(["index.html", WORKER]) {
            replace(files, name, &old, &new)?;
        }
    }
    Ok(())
}

/// Gives the folder of the parts another name of the same length, wherever it is named: the app itself names it too.
fn rename_parts(files: &mut BTreeMap<String, Vec<u8>>, called: &str) {
    let folder = |name: &String| Some(name.strip_prefix("parts-")?.split_once('/')?.0.to_owned());
    let Some(old) = files.keys().find_map(folder) else { return };
    let hash = Sha256::digest(format!("{old} {called}"));
    let new: String = hash.iter().map(|byte| format!("{byte:02x}")).collect();
    let new = new.get(..old.len()).unwrap_or(&new);
    let renamed = core::mem::take(files).into_iter().map(|(name, mut bytes)| {
        let places: Vec<usize> = bytes
            .windows(old.len())
            .enumerate()
            .filter(|(_, at)| *at == old.as_bytes())
            .map(|(at, _)| at)
            .collect();
        for at in places {
            bytes.splice(at..at + old.len(), new.bytes());
        }
        (name.replace(&old, new), bytes)
    });
    *files = renamed.collect();
}

fn replace(files: &mut BTreeMap<String, Vec<u8>>, name: &str, old: &str, new: &str) -> Result<()> {
    let changed = text(files, name)?.replace(old, new);
    files.insert(name.to_owned(), changed.into_bytes());
    Ok(())
}

/// Puts the hash of the files as they now are into the service worker, with the scripts of this harness, and gives the
/// names of what it keeps.
fn mend_worker(files: &mut BTreeMap<String, Vec<u8>>, called: Option<&str>) -> Result<Vec<String>> {
    let mut names = vec!["./".to_owned()];
    let mut worker = String::new();
    let mut whole = Sha256::new();
    let mut list = |name: &str, worker: &mut String| -> Result<()> {
        let bytes =
            files.get(name).with_context(|| format!("the worker keeps {name}, which is not there"))?;
        whole.update(bytes);
        names.push(name.to_owned());
        worker.push_str(&format!("  \"{name}\",\n"));
        Ok(())
    };
    let mut hash = None;
    for line in text(files, WORKER)?.lines() {
        let listed = line.strip_prefix("  \"").and_then(|rest| rest.strip_suffix("\","));
        match (listed, called) {
            (Some(name), _) => list(name, &mut worker)?,
            (None, Some(called)) if line.starts_with("const version = ") => {
                worker.push_str(&format!("const version = `${{ours}}{called}`;\n"));
            }
            _ if line.starts_with("const whole = ") => {
                hash = Some(worker.len());
            }
            _ => worker.push_str(&format!("{line}\n")),
        }
        if line == "const files = [" {
            for name in files.keys().filter(|name| name.starts_with("crookwise-")) {
                list(name, &mut worker)?;
            }
        }
    }
    let hash = hash.context("the service worker has no hash")?;
    worker.insert_str(hash, &format!("const whole = \"{}\";\n", STANDARD.encode(whole.finalize())));
    ensure!(names.len() > 5 && worker.contains("const version = "), "the service worker has another form");
    files.insert(WORKER.to_owned(), worker.into_bytes());
    Ok(names)
}
