//! Checking many files: in parallel, told in order.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use rayon::prelude::*;

use crate::audit::{AuditedNumber, Line, Status, account_loading, counted_once, numbers as numbers_of};
use crate::check::{Corrections, Outcome, Tally, add_sign_off, check_loading, house_findings};
use crate::discover::{Discovered, Problem, folder_of, reason};
use crate::finding::Finding;
use crate::house_rules::HouseRules;
use crate::manuscript::{Source, Span};
use crate::rule_book::{Settings, read_house_rules};
use crate::rules::TELL_WHAT_IS_UNREAD;
use crate::sign_off::{CheckOptions, Conditions, Fingerprint, Recorded, SIGN_OFFS_FILE, SignOff, read_records};
use crate::text::{Load, Share, TextOutcome, TextPlace, beside};

/// What came of checking some files.
#[derive(Debug, Default)]
pub struct Run {
    /// The files, in order; house rules among them where something is wrong with them.
    pub files: Vec<Checked>,
    /// How many manuscripts were checked.
    pub manuscripts: usize,
    /// What could not be read.
    pub problems: Vec<Problem>,
}

/// One file that was checked.
#[derive(Clone, Debug)]
pub struct Checked {
    /// The file's path.
    pub path: PathBuf,
    /// Its text, where there is something to show in it.
    pub source: Source,
    /// What was found.
    pub outcome: Outcome,
    /// The stated numbers that nothing checks, where an account of them was asked for.
    pub unaccounted: Vec<Line>,
    /// Every stated number, where a format tells each of them.
    pub numbers: Vec<AuditedNumber>,
    /// For a printed text: its manuscript, and what was matched.
    pub text: Option<CheckedText>,
}

/// A printed text that was checked against its manuscript.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CheckedText {
    /// The manuscript that names it.
    pub manuscript: PathBuf,
    /// How many of its numbers were matched.
    pub share: Share,
    /// The page or the paragraph of each place that is told, where its file is no text.
    pub places: Vec<(Span, TextPlace)>,
}

impl Checked {
    /// The page or the paragraph of a place in a printed text whose file is no text: `page 3`.
    pub fn page_of(&self, at: Span) -> Option<TextPlace> {
        self.text.as_ref()?.places.iter().find(|(own, _)| *own == at).map(|(_, place)| *place)
    }

    /// What could not be read in it.
    pub fn unread(&self) -> impl Iterator<Item = &Finding> {
        self.outcome.findings.iter().filter(|finding| TELL_WHAT_IS_UNREAD.contains(&finding.rule))
    }

    /// How many of its findings follow from another.
    pub fn following(&self) -> usize {
        self.outcome.findings.iter().filter(|finding| finding.cause.is_some()).count()
    }
}

/// Whether every stated number is to be accounted for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum AuditScope {
    /// Findings are enough.
    #[default]
    Off,
    /// Numbers that nothing checks are told too.
    On,
    /// Every number is kept, for a format that tells each of them.
    Each {
        /// Whether those that nothing checks are told as well, as with [`AuditScope::On`].
        unchecked: bool,
    },
}

/// What a check is asked for beside the findings of the rules.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Asked {
    /// Whether every stated number is to be accounted for.
    pub accounting: AuditScope,
    /// Whether every manuscript must be signed off.
    pub signed: bool,
    /// The fingerprint on a paper: the manuscript that it belongs to is compared with what was signed then.
    pub signed_as: Option<Fingerprint>,
    /// The options that a sign-off must have been made with.
    pub options: CheckOptions,
    /// Whether the findings come with their corrections.
    pub corrections: Corrections,
}

/// What a run comes to.
#[derive(Clone, Copy, Debug, Default)]
pub struct Total<'r> {
    /// How many manuscripts were checked.
    pub manuscripts: usize,
    /// How many findings of each level there are.
    pub tally: Tally,
    /// How many findings follow from another.
    pub following: usize,
    /// How many stated numbers nothing checks; nought where no account was asked for.
    pub unaccounted: usize,
    /// What could not be read.
    pub problems: &'r [Problem],
}

impl Total<'_> {
    /// Counts what was found in a file.
    pub fn add(&mut self, file: &Checked) {
        self.tally.add(Tally::of(&file.outcome));
        self.following += file.following();
        self.unaccounted += file.unaccounted.len();
    }
}

impl Run {
    /// What it comes to.
    pub fn total(&self) -> Total<'_> {
        let mut total = Total { manuscripts: self.manuscripts, problems: &self.problems, ..Total::default() };
        self.files.iter().for_each(|file| total.add(file));
        total
    }

    /// How many stated numbers nothing checks; nought where no account was asked for.
    pub fn unaccounted(&self) -> usize {
        self.files.iter().map(|file| file.unaccounted.len()).sum()
    }

    /// How many findings there are.
    pub fn tally(&self) -> Tally {
        let mut tally = Tally::default();
        for file in &self.files {
            tally.add(Tally::of(&file.outcome));
        }
        tally
    }
}

/// One house-rules file, read.
#[derive(Debug, Default)]
pub(crate) struct House {
    /// The settings that it makes; those of the rule book where it could not be read.
    pub(crate) settings: Settings,
    /// What is wrong with the file itself, where something is.
    pub(crate) checked: Option<Checked>,
}

impl House {
    pub(crate) fn new(source: Source) -> House {
        let house = read_house_rules(&source);
        let findings = house_findings(&source, house.mistakes, &house.settings);
        let path = source.path.clone();
        let checked = (!findings.is_empty()).then(|| Checked {
            path,
            source,
            outcome: Outcome { findings, ..Outcome::default() },
            unaccounted: Vec::new(),
            numbers: Vec::new(),
            text: None,
        });
        House { settings: house.settings, checked }
    }
}

/// The house rules of the folders that files are in.
#[derive(Debug, Default)]
struct Houses {
    rules: HouseRules<House>,
    standard: Settings,
}

impl Houses {
    /// Finds and reads the house rules of folders. A house-rules file that cannot be read is a problem.
    fn of<'p>(folders: impl Iterator<Item = &'p Path>, problems: &mut Vec<Problem>) -> Houses {
        let read = |path: &Path| match Source::open(path) {
            Ok(source) => House::new(source),
            Err(error) => {
                problems.push(Problem { path: path.to_path_buf(), why: reason(&error) });
                House::default()
            }
        };
        Houses { rules: HouseRules::of(folders, read), standard: Settings::default() }
    }

    /// The settings for the files in a folder.
    fn settings(&self, folder: &Path) -> &Settings {
        self.rules.of_folder(folder).map_or(&self.standard, |house| &house.settings)
    }
}

/// The sign-offs of some folders, each folder's read once.
#[derive(Debug, Default)]
struct SignOffs(BTreeMap<PathBuf, Option<Recorded>>);

impl SignOffs {
    /// Reads the sign-offs of folders, and forgets those of others. A file of them that cannot be read is a problem, and
    /// nothing is said of the manuscripts beside it.
    fn turn_to<'p>(&mut self, folders: impl Iterator<Item = &'p Path>, problems: &mut Vec<Problem>) {
        let mut before = std::mem::take(&mut self.0);
        for folder in folders {
            if self.0.contains_key(folder) {
                continue;
            }
            if let Some((folder, records)) = before.remove_entry(folder) {
                self.0.insert(folder, records);
                continue;
            }
            let records = read_records(folder);
            if let Err(why) = &records {
                problems.push(Problem { path: folder.join(SIGN_OFFS_FILE), why: why.clone() });
            }
            self.0.insert(folder.to_path_buf(), records.ok());
        }
    }

    /// How a manuscript with these findings stands to the sign-offs of its folder.
    fn sign_off(
        &self,
        source: &Source,
        settings: &Settings,
        asked: Asked,
        (outcome, unchecked): (&Outcome, usize),
    ) -> SignOff {
        let Some(Some(recorded)) = self.0.get(folder_of(&source.path)) else { return SignOff::NotAsked };
        let found = (outcome.findings.as_slice(), outcome.texts.as_slice());
        let conditions = Conditions::new(settings, asked.options, found).with_unchecked(unchecked);
        let found = (&conditions, outcome.texts.as_slice());
        if let Some(paper) = asked.signed_as
            && recorded.is_of(source, paper)
        {
            return SignOff::by(source, settings, recorded, found, |record| paper.is_start_of(&record.fingerprint));
        }
        SignOff::under(source, settings, recorded, found)
    }
}

/// How many files are checked before the next are begun: what is found in these is in memory at once.
const AT_ONCE: usize = 256;

/// Checks the files that were gathered. `progress` hears of each file that is done, from any thread.
pub fn run(gathered: Discovered, asked: Asked, progress: impl Fn() + Sync) -> Run {
    let mut files = Vec::new();
    let told = run_each(gathered, asked, progress, |file| {
        files.push(file);
        Ok::<(), std::convert::Infallible>(())
    });
    let (manuscripts, problems) = told.unwrap_or_default();
    Run { files, manuscripts, problems }
}

/// Checks the files that were gathered, and hands each on in the order of the paths, house rules with something wrong in
/// them among them, so that none is kept until the last is checked. How many manuscripts were checked, and what could not
/// be read.
///
/// # Errors
/// The first that `each` gives: no more files are checked then.
pub fn run_each<E>(
    gathered: Discovered,
    asked: Asked,
    progress: impl Fn() + Sync,
    mut each: impl FnMut(Checked) -> Result<(), E>,
) -> Result<(usize, Vec<Problem>), E> {
    let Discovered { mut files, mut problems } = gathered;
    files.sort();
    let houses = Houses::of(files.iter().map(|file| folder_of(file)), &mut problems);
    let mut sign_offs = SignOffs::default();
    let (mut manuscripts, mut not_read) = (0, Vec::new());
    let mut faulty: Vec<&Checked> = houses.rules.files().filter_map(|(_, house)| house.checked.as_ref()).collect();
    faulty.sort_by(|a, b| b.path.cmp(&a.path));
    for some in files.chunks(AT_ONCE) {
        if asked.signed {
            sign_offs.turn_to(some.iter().map(|file| folder_of(file)), &mut problems);
        }
        // A text is forgotten as soon as it is checked.
        let check_one = |path: &PathBuf| {
            let folder = folder_of(path);
            let settings = houses.settings(folder);
            let sign_off =
                |source: &Source, found: (&Outcome, usize)| sign_offs.sign_off(source, settings, asked, found);
            let result = check_file(path, settings, asked, sign_off).map(with_texts);
            progress();
            result
        };
        // Starting the threads takes longer than checking one small manuscript.
        let results: Vec<Result<Vec<Checked>, Problem>> = match some {
            [path] => vec![check_one(path)],
            paths => paths.par_iter().map(check_one).collect(),
        };
        for result in results {
            match result {
                Ok(checked) => {
                    while let Some(house) = faulty.pop_if(|house| house.path < checked[0].path) {
                        each(house.clone())?;
                    }
                    manuscripts += 1;
                    checked.into_iter().try_for_each(&mut each)?;
                }
                Err(problem) => not_read.push(problem),
            }
        }
    }
    while let Some(house) = faulty.pop() {
        each(house.clone())?;
    }
    problems.extend(not_read);
    Ok((manuscripts, problems))
}

/// Checks one text that is at hand, under the house rules of the folder that it is taken to be in.
pub fn run_on(source: Source, folder: &Path, asked: Asked) -> Run {
    run_to_sign(source, folder, asked).run
}

/// A text that was checked to be signed.
#[derive(Debug)]
pub struct RunToSign {
    /// What came of it.
    pub run: Run,
    /// What was found in it, with its printed texts.
    pub outcome: Outcome,
    /// The settings that it was checked under.
    pub settings: Settings,
    /// The names of the values that the check asked them for.
    pub asked: BTreeSet<Cow<'static, str>>,
}

/// The same for a text that is to be signed.
pub fn run_to_sign(source: Source, folder: &Path, asked: Asked) -> RunToSign {
    let mut problems = Vec::new();
    let houses = Houses::of(std::iter::once(folder), &mut problems);
    let settings = houses.settings(folder).clone();
    let load = beside(&source.path);
    let check = |settings: &Settings| check_source(source, settings, asked, &load, |_, _| SignOff::NotAsked);
    let (checked, asked) = settings.with_what_is_asked(check);
    let outcome = checked.outcome.clone();
    let mut files = with_texts(checked);
    files.extend(houses.rules.into_files().filter_map(|house| house.checked));
    files.sort_by(|a, b| a.path.cmp(&b.path));
    RunToSign { run: Run { files, manuscripts: 1, problems }, outcome, settings, asked }
}

/// The settings that govern files in a folder, whatever is wrong with the house rules.
pub fn settings_for(folder: &Path) -> Settings {
    Houses::of(std::iter::once(folder), &mut Vec::new()).settings(folder).clone()
}

/// The settings that govern files in a folder, for whoever writes by them.
///
/// # Errors
/// Where the house rules cannot be read or something is wrong in them: their numbers would not be those that are meant.
pub fn settings_for_fixing(folder: &Path) -> Result<Settings, Problem> {
    let mut problems = Vec::new();
    let houses = Houses::of(std::iter::once(folder), &mut problems);
    if let Some(problem) = problems.pop() {
        return Err(problem);
    }
    let checked = houses.rules.of_folder(folder).and_then(|house| house.checked.as_ref());
    match checked.filter(|checked| Tally::of(&checked.outcome).errors > 0) {
        Some(checked) => {
            Err(Problem { path: checked.path.clone(), why: "there are errors in it: check them first".into() })
        }
        None => Ok(houses.settings(folder).clone()),
    }
}

fn check_file(
    path: &Path,
    settings: &Settings,
    asked: Asked,
    sign_off: impl FnOnce(&Source, (&Outcome, usize)) -> SignOff,
) -> Result<Checked, Problem> {
    match Source::open(path) {
        Ok(source) => Ok(check_source(source, settings, asked, &beside(path), sign_off)),
        Err(error) => Err(Problem { path: path.to_path_buf(), why: reason(&error) }),
    }
}

pub(crate) fn check_source(
    source: Source,
    settings: &Settings,
    asked: Asked,
    load: &Load<'_>,
    sign_off: impl FnOnce(&Source, (&Outcome, usize)) -> SignOff,
) -> Checked {
    let Asked { accounting, corrections, .. } = asked;
    let (mut unaccounted, mut numbers) = (Vec::new(), Vec::new());
    let mut outcome = if accounting == AuditScope::Off {
        check_loading(&source, settings, corrections, load)
    } else {
        let account = account_loading(&source, settings, corrections, load);
        if let AuditScope::Each { .. } = accounting {
            numbers = numbers_of(&account.lines, &source);
        }
        if accounting != (AuditScope::Each { unchecked: false }) {
            let once = counted_once(&account.lines).into_iter();
            unaccounted = once.filter(|line| line.status == Status::NotChecked).cloned().collect();
        }
        account.outcome
    };
    let sign_off = sign_off(&source, (&outcome, unaccounted.len()));
    add_sign_off(&source, settings, &sign_off, &mut outcome);
    let path = source.path.clone();
    // The text is kept only where there is something to show in it, so that memory does not grow with the folder.
    let to_show = !(outcome.findings.is_empty() && outcome.accepted.is_empty() && unaccounted.is_empty());
    let source = if to_show { source } else { Source::from_text(&path, "") };
    Checked { path, source, outcome, unaccounted, numbers, text: None }
}

/// A manuscript, and after it each of its printed texts as a file of its own.
pub(crate) fn with_texts(mut checked: Checked) -> Vec<Checked> {
    let texts = std::mem::take(&mut checked.outcome.texts);
    let path = checked.path.clone();
    std::iter::once(checked).chain(texts.into_iter().map(|text| checked_text(&path, text))).collect()
}

/// A printed text as a file of its own.
fn checked_text(manuscript: &Path, text: TextOutcome) -> Checked {
    let TextOutcome { file, findings, accepted, share, .. } = text;
    let told = findings.iter().chain(accepted.iter().map(|accepted| &accepted.finding)).map(|finding| finding.at.at);
    let places = told.filter_map(|at| Some((at, file.place(at)?))).collect();
    let path = file.path.clone();
    let to_show = !(findings.is_empty() && accepted.is_empty());
    let source = if to_show { file.source.clone() } else { Source::from_text(&path, "") };
    let outcome = Outcome { findings, accepted, ..Outcome::default() };
    let text = Some(CheckedText { manuscript: manuscript.to_path_buf(), share, places });
    Checked { path, source, outcome, unaccounted: Vec::new(), numbers: Vec::new(), text }
}
