//! The bill of materials as CycloneDX 1.6 writes it (ECMA-424). It has no time and no number of its own, so that the same
//! source gives the same bill.

use serde_json::{Value, json};

use crate::inside::{Inside, Library, name_of};

/// The bill, with what else is inside: its name, version and licence with `=` between them.
pub(crate) fn bill(inside: &Inside, others: &[String]) -> Value {
    let all = || std::iter::once(&inside.program).chain(&inside.libraries);
    let libraries = inside.libraries.iter().map(|library| component(library, "library"));
    let components: Vec<Value> = libraries.chain(others.iter().map(|other| no_crate(other))).collect();
    json!({
        "$schema": "http://cyclonedx.org/schema/bom-1.6.schema.json",
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": { "component": component(&inside.program, "application") },
        "components": components,
        "dependencies": all().map(uses).collect::<Vec<_>>(),
    })
}

fn component(library: &Library, kind: &str) -> Value {
    let (name, version) = name_of(&library.package);
    let mut component = json!({
        "type": kind,
        "bom-ref": address(&name, &version),
        "name": name,
        "version": version,
        "purl": address(&name, &version),
        "licenses": [{ "expression": library.license() }],
    });
    if let Some(words) = &library.package.description {
        component["description"] = json!(words.trim());
    }
    if let Some(checksum) = &library.checksum {
        component["hashes"] = json!([{ "alg": "SHA-256", "content": checksum }]);
    }
    if let Some(url) = library.package.repository.as_ref().filter(|url| url.starts_with("https://")) {
        component["externalReferences"] = json!([{ "type": "vcs", "url": url }]);
    }
    component
}

fn no_crate(other: &str) -> Value {
    let mut parts = other.splitn(3, '=').map(str::to_string);
    let mut next = || parts.next().unwrap_or_default();
    let (name, version, license) = (next(), next(), next());
    let address = format!("pkg:generic/{name}@{version}");
    json!({
        "type": "library",
        "bom-ref": address,
        "name": name,
        "version": version,
        "purl": address,
        "licenses": [{ "expression": license }],
    })
}

fn uses(library: &Library) -> Value {
    let (name, version) = name_of(&library.package);
    let used: Vec<String> = library.uses.iter().map(|(name, version)| address(name, version)).collect();
    json!({ "ref": address(&name, &version), "dependsOn": used })
}

/// A package URL. The plus sign of a version's build is written as the standard for them has it.
fn address(name: &str, version: &str) -> String {
    format!("pkg:cargo/{name}@{}", version.replace('+', "%2B"))
}
