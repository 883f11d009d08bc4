//! Writes what is inside the program: `inventory TARGET FOLDER [NAME=VERSION=LICENSE]...` puts `sparestrip.cdx.json` (a
//! bill of materials, CycloneDX 1.6) and `LICENSES-OF-LIBRARIES.txt` into a folder. What is named besides is inside as
//! well, and no crate.

mod bill;
mod inside;
mod licenses;

use std::path::Path;
use std::process::ExitCode;
use std::{env, error, fs};

fn main() -> ExitCode {
    let words: Vec<String> = env::args().skip(1).collect();
    let [target, folder, others @ ..] = words.as_slice() else {
        eprintln!("inventory TARGET FOLDER [NAME=VERSION=LICENSE]...");
        return ExitCode::from(2);
    };
    match write(target, Path::new(folder), others) {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("inventory: {why}");
            ExitCode::FAILURE
        }
    }
}

fn write(target: &str, folder: &Path, others: &[String]) -> Result<(), Box<dyn error::Error>> {
    let inside = inside::inside(target)?;
    let bill = serde_json::to_string_pretty(&bill::bill(&inside, others))?;
    fs::write(folder.join("sparestrip.cdx.json"), bill + "\n")?;
    fs::write(folder.join("LICENSES-OF-LIBRARIES.txt"), licenses::licenses(&inside)?)?;
    println!("{} libraries", inside.libraries.len());
    Ok(())
}
