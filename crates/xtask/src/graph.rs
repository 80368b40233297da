//! The crates of the workspace and what they stand on, as cargo tells it.

use crate::shell;
use anyhow::{Context, Result};
use cargo_metadata::{DependencyKind, Metadata, MetadataCommand, Package, PackageId};
use std::collections::{BTreeMap, BTreeSet};

/// Asks cargo about the workspace and everything it depends on.
pub fn load() -> Result<Metadata> {
    let mut command = MetadataCommand::new();
    command.manifest_path(shell::at("Cargo.toml")).other_options(vec!["--locked".to_owned()]);
    command.exec().context("cargo could not say what the workspace depends on")
}

/// Everything that ends up in a crate: the crate itself and its normal dependencies, theirs included, for any platform.
/// Build scripts, macros' own dependencies through build scripts, and test dependencies are left out.
pub fn inside<'a>(metadata: &'a Metadata, name: &str) -> Result<Vec<&'a Package>> {
    let packages: BTreeMap<&PackageId, &Package> =
        metadata.packages.iter().map(|package| (&package.id, package)).collect();
    let resolve = metadata.resolve.as_ref().context("cargo resolved no dependencies")?;
    let nodes: BTreeMap<&PackageId, _> = resolve.nodes.iter().map(|node| (&node.id, node)).collect();
    let start = metadata.workspace_packages().into_iter().find(|package| package.name.as_str() == name);
    let start = start.with_context(|| format!("there is no crate {name} in the workspace"))?;
    let (mut seen, mut open) = (BTreeSet::new(), vec![&start.id]);
    while let Some(id) = open.pop() {
        if !seen.insert(id) {
            continue;
        }
        let node = nodes.get(id).with_context(|| format!("cargo says nothing of {id}"))?;
        for dependency in &node.deps {
            if dependency.dep_kinds.iter().any(|kind| kind.kind == DependencyKind::Normal) {
                open.push(&dependency.pkg);
            }
        }
    }
    let mut found: Vec<&Package> = seen.into_iter().filter_map(|id| packages.get(id).copied()).collect();
    found.sort_by(|a, b| (a.name.as_str(), &a.version).cmp(&(b.name.as_str(), &b.version)));
    Ok(found)
}
