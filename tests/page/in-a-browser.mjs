// Opens the page of every example in a real browser: what it looks like on screens of several widths, whether
// everybody can use it, and what comes out on paper. The pages' contents are tested without a browser in main.rs.
//
//     node tests/page/in-a-browser.mjs [FOLDER [NAME]]
//
// With a folder it keeps there the pages, pictures of them and the PDFs, for people to look at; with a name it looks at
// that manuscript alone.

import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

import { chromium } from 'playwright-core';

import { figures } from './figures.mjs';
import { onPaper } from './on-paper.mjs';
import { accessible, onScreen, pictures } from './on-screen.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const project = resolve(here, '../..');
const program = process.env.SPARESTRIP ?? join(project, 'target/debug/sparestrip');
const browserPath = process.env.CHROMIUM ?? '/usr/bin/chromium';

// Without the later ones the browser calls its maker at every start.
const flags = [
  '--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
  '--disable-background-networking', '--disable-component-update', '--disable-sync',
];

const faults = [];

/** Notes what is not as it should be; the run goes on, so that one run tells everything. */
function expect(holds, words) {
  if (!holds) {
    faults.push(words);
    console.error(`FAULT ${words}`);
  }
}

function manuscripts() {
  const folders = ['example-patterns', 'example-patterns/signed-off', 'example-patterns/with-faults', 'tests/page'].map((folder) => join(project, folder));
  const found = folders.flatMap((folder) => readdirSync(folder).sort().map((name) => join(folder, name)));
  return found.filter((path) => basename(path) === `${process.argv[3]}.pattern.yaml` || !process.argv[3] && path.endsWith('.pattern.yaml'));
}

/** A page in the browser, which notes whatever it says and whatever it asks for. */
async function opened(browser, name, file, options) {
  const address = pathToFileURL(file).href;
  const context = await browser.newContext(options);
  const page = await context.newPage();
  page.on('console', (message) => expect(false, `${name}: the console says ${message.text()}`));
  page.on('pageerror', (error) => expect(false, `${name}: an error in the page: ${error}`));
  page.on('request', (request) => expect(request.url() === address, `${name}: it asks for ${request.url()}`));
  await page.goto(address);
  return page;
}

async function look(browser, manuscript, folder, keep) {
  const name = basename(manuscript, '.pattern.yaml');
  const file = join(folder, `${name}.html`);
  execFileSync(program, ['worksheet', manuscript, `--html=${file}`], { stdio: ['ignore', 'inherit', 'pipe'] });
  const told = JSON.parse(execFileSync(program, ['worksheet', manuscript, '--format', 'json']));
  const expectHere = (holds, words) => expect(holds, `${name}: ${words}`);
  const open = (options) => opened(browser, name, file, options);
  await onScreen(open, expectHere);
  await figures(open, told, expectHere);
  await onPaper(open, told, join(folder, name), expectHere);
  if (keep) await pictures(open, join(folder, name));
}

/** The page of a folder: each manuscript begins on a sheet of its own, and everybody can use it. */
async function several(browser, folder) {
  const [name, file] = ['all examples', join(folder, 'all-examples.html')];
  execFileSync(program, ['worksheet', join(project, 'example-patterns'), `--html=${file}`], { stdio: ['ignore', 'inherit', 'pipe'] });
  const page = await opened(browser, name, file, { viewport: { width: 1280, height: 900 }, colorScheme: 'light' });
  const titles = await page.locator('.sheet .top h2').allTextContents();
  await accessible(page, 'wide and light', { rules: { 'color-contrast': { enabled: false } } }, (holds, words) => expect(holds, `${name}: ${words}`));
  await page.pdf({ path: join(folder, 'all-examples-A4.pdf'), format: 'A4' });
  const sheets = execFileSync('pdftotext', ['-raw', join(folder, 'all-examples-A4.pdf'), '-'], { encoding: 'utf8', maxBuffer: 1 << 28 }).split('\f');
  const plain = (text) => text.replace(/\s+/g, '');
  const begins = (title) => sheets.filter((sheet) => plain(sheet.replace(/^sheet.*\n.*\n/, '')).startsWith(plain(`Worksheet${title}`))).length;
  expect(titles.length > 10, `${name}: there are ${titles.length} worksheets`);
  for (const title of new Set(titles)) {
    const times = titles.filter((one) => one === title).length;
    expect(begins(title) === times, `${name}: ${title} begins on ${begins(title)} sheets and not on ${times}`);
  }
  await page.context().close();
  console.log(`looked at ${name}: ${titles.length} worksheets on ${sheets.length - 1} sheets`);
}

async function main() {
  const keep = process.argv[2];
  for (const [needed, what] of [[program, 'build it with: cargo build'], [browserPath, 'install it: apt-get install chromium']]) {
    if (!existsSync(needed)) throw new Error(`there is no ${needed}; ${what}`);
  }
  const folder = keep ? resolve(keep) : mkdtempSync(join(tmpdir(), 'sparestrip-page-'));
  mkdirSync(folder, { recursive: true });
  const browser = await chromium.launch({ executablePath: browserPath, args: flags });
  try {
    // Two at a time: while one page is laid out for paper, another is looked at.
    const waiting = manuscripts();
    const work = async () => {
      for (let manuscript; (manuscript = waiting.shift()); ) {
        await look(browser, manuscript, folder, keep);
        console.log(`looked at ${basename(manuscript)}`);
      }
    };
    await Promise.all([work(), work()]);
    if (!process.argv[3]) await several(browser, folder);
  } finally {
    await browser.close();
    if (!keep) rmSync(folder, { recursive: true });
  }
  console.log(faults.length === 0 ? 'all pages are as they should be' : `${faults.length} faults`);
  process.exitCode = faults.length === 0 ? 0 : 1;
}

await main();
