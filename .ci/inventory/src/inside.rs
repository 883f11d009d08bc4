//! The program and the libraries that are compiled into it: no tests, and nothing that is only used while building.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::{error, fs};

use cargo_metadata::{CargoOpt, DependencyKind, Metadata, MetadataCommand, Package, PackageId};

/// What is inside.
pub(crate) struct Inside {
    /// The program.
    pub(crate) program: Library,
    /// Its libraries, by name and version.
    pub(crate) libraries: Vec<Library>,
}

/// A package that is compiled in.
pub(crate) struct Library {
    /// What it is.
    pub(crate) package: Package,
    /// The names and versions of what it uses itself.
    pub(crate) uses: BTreeSet<(String, String)>,
    /// The SHA-256 of its archive in the registry.
    pub(crate) checksum: Option<String>,
}

impl Library {
    /// Its licence as SPDX writes it.
    pub(crate) fn license(&self) -> String {
        self.package.license.clone().unwrap_or_default().replace(" / ", " OR ").replace('/', " OR ")
    }
}

/// Gathers it for a target.
pub(crate) fn inside(target: &str) -> Result<Inside, Box<dyn error::Error>> {
    let project = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let options = ["--locked", "--filter-platform", target].map(str::to_string).to_vec();
    let mut command = MetadataCommand::new();
    command.manifest_path(project.join("Cargo.toml")).features(CargoOpt::SomeFeatures(Vec::new()));
    let metadata = command.other_options(options).exec()?;
    let checksums = checksums(&fs::read_to_string(project.join("Cargo.lock"))?);
    let uses = uses(&metadata)?;
    let root = metadata.root_package().ok_or("no package")?.id.clone();
    let mut reached = BTreeSet::new();
    let mut open = vec![root.clone()];
    while let Some(id) = open.pop() {
        if reached.insert(id.clone()) {
            open.extend(uses.get(&id).into_iter().flatten().cloned());
        }
    }
    let library = |package: &Package| Library {
        uses: uses.get(&package.id).into_iter().flatten().map(|used| name_of(&metadata[used])).collect(),
        checksum: checksums.get(&name_of(package)).cloned(),
        package: package.clone(),
    };
    let mut libraries: Vec<Library> = metadata
        .packages
        .iter()
        .filter(|package| package.id != root && reached.contains(&package.id))
        .map(library)
        .collect();
    libraries.sort_by_key(|library| name_of(&library.package));
    Ok(Inside { program: library(&metadata[&root]), libraries })
}

/// The name and version of a package.
pub(crate) fn name_of(package: &Package) -> (String, String) {
    (package.name.to_string(), package.version.to_string())
}

/// What each package uses when it runs.
fn uses(metadata: &Metadata) -> Result<BTreeMap<PackageId, Vec<PackageId>>, Box<dyn error::Error>> {
    let graph = metadata.resolve.as_ref().ok_or("no libraries were resolved")?;
    let is_inside = |dependency: &&cargo_metadata::NodeDep| {
        dependency.dep_kinds.iter().any(|kind| kind.kind == DependencyKind::Normal)
    };
    let uses = graph.nodes.iter().map(|node| {
        (node.id.clone(), node.deps.iter().filter(is_inside).map(|dependency| dependency.pkg.clone()).collect())
    });
    Ok(uses.collect())
}

/// The checksums of a lock file, by name and version.
fn checksums(lock: &str) -> BTreeMap<(String, String), String> {
    let entry = |part: &str| {
        let value = |name: &str| {
            let line = part.lines().find_map(|line| line.strip_prefix(name)?.strip_prefix(" = \""))?;
            Some(line.trim_end_matches('"').to_string())
        };
        Some(((value("name")?, value("version")?), value("checksum")?))
    };
    lock.split("[[package]]").filter_map(entry).collect()
}
