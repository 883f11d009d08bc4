//! `sparestrip sign --revoke`

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::process::ExitCode;

use jiff::Timestamp;
use sparestrip::discover::folder_of;
use sparestrip::report::sanitize_line;
use sparestrip::sign_off::{Entry, Fingerprint, Revocation, SIGN_OFFS_FILE, append, read_records};

use super::EXIT_FAILURE;
use super::output::{print_error, show};

/// Takes back every sign-off of some manuscripts of one folder that stands: all of them, or none where one of the
/// manuscripts has none.
pub(super) fn revoke(files: &[PathBuf], by: &str, because: &str) -> ExitCode {
    let file = files[0].with_file_name(SIGN_OFFS_FILE);
    let fail = |why: &str| {
        print_error(&format!("not revoked: {}: {}", show(&file), sanitize_line(why)));
        ExitCode::from(EXIT_FAILURE)
    };
    let recorded = match read_records(folder_of(&files[0])) {
        Ok(recorded) => recorded,
        Err(why) => return fail(&why),
    };
    // Exactly, so that no two are the same.
    let when = Timestamp::now();
    let (mut entries, mut unsigned, mut lines) = (Vec::new(), Vec::new(), Vec::new());
    for path in files {
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let standing = recorded.standing(&name);
        let numbers: BTreeSet<&String> = standing.iter().map(|record| &record.fingerprint).collect();
        if standing.is_empty() {
            unsigned.push(show(path));
            continue;
        }
        for record in &standing {
            let (signer, short) = (sanitize_line(&record.by), Fingerprint::short(&record.fingerprint));
            lines.push(format!("{}: revoked what {signer} signed on {}, {short}", show(path), record.day()));
        }
        let numbers = numbers.into_iter().cloned().collect();
        entries.push(Entry::Revoked(Revocation::new(&name, numbers, by, because, when)));
    }
    if !unsigned.is_empty() {
        print_error(&format!("not revoked: no sign-off stands of {}", unsigned.join(", ")));
        return ExitCode::from(1);
    }
    if let Err(why) = append(&file, &entries) {
        return fail(&why);
    }
    for line in &lines {
        print_error(line);
    }
    print_error(&format!("wrote {}", show(&file)));
    ExitCode::SUCCESS
}
