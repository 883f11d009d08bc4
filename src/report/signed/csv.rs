//! The list of sign-offs as comma-separated values: a record for each sign-off, and one for each manuscript that has none.

use super::super::sanitize_line;
use super::super::tables::{BYTE_ORDER_MARK, kept_from_running};
use super::{SignedManuscript, off_and_queries, word};
use crate::sign_off::{Change, ListedSignOff, SignOffState};

const FIELDS: [&str; 14] = [
    "file",
    "pattern",
    "edition",
    "by",
    "when",
    "note",
    "fingerprint",
    "state",
    "options",
    "rules off",
    "queries",
    "changes",
    "revoked by",
    "because",
];

/// The list as CSV.
pub fn signed_as_csv(manuscripts: &[SignedManuscript]) -> String {
    let terminator = csv::Terminator::CRLF;
    let mut writer = csv::WriterBuilder::new().terminator(terminator).from_writer(BYTE_ORDER_MARK.as_bytes().to_vec());
    let mut write = |record: [String; 14]| {
        // It writes to memory, and every record has as many fields as the first.
        let _ = writer.write_record(record.map(|field| kept_from_running(&sanitize_line(&field))));
    };
    write(FIELDS.map(String::from));
    for manuscript in manuscripts {
        if manuscript.sign_offs.is_empty() {
            let mut record = start(manuscript);
            record[7] = manuscript.state().to_string();
            write(record);
        }
        for listed in &manuscript.sign_offs {
            write(record(manuscript, listed));
        }
    }
    writer.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
}

/// The fields that every record of a manuscript begins with.
fn start(manuscript: &SignedManuscript) -> [String; 14] {
    let mut record: [String; 14] = Default::default();
    record[0] = manuscript.path.display().to_string();
    record[1].clone_from(&manuscript.pattern);
    record[2] = manuscript.edition.clone().unwrap_or_default();
    record
}

fn record(manuscript: &SignedManuscript, listed: &ListedSignOff) -> [String; 14] {
    let signed = &listed.record;
    let mut record = start(manuscript);
    record[1].clone_from(&signed.pattern);
    record[2] = signed.edition.clone().unwrap_or_default();
    record[3].clone_from(&signed.by);
    record[4] = signed.when.to_string();
    record[5] = signed.note.clone().unwrap_or_default();
    record[6].clone_from(&signed.fingerprint);
    record[7] = word(&listed.state).to_string();
    if let Some(conditions) = &signed.conditions {
        let (off, queries) = off_and_queries(conditions);
        record[8] = conditions.options.words().map(|word| word.trim_start_matches('-')).collect::<Vec<_>>().join(" ");
        record[9] = off.join(" ");
        record[10] = queries.join("; ");
    }
    match &listed.state {
        SignOffState::Counts(changes) => {
            record[11] = changes.iter().map(Change::sentence).collect::<Vec<_>>().join("; ");
        }
        SignOffState::Revoked(revocation) => {
            record[12].clone_from(&revocation.by);
            record[13].clone_from(&revocation.because);
        }
        SignOffState::Earlier | SignOffState::Missing => {}
    }
    record
}
