// The page on paper: every number is there with its working, in one piece, nothing is cut off, no row stands alone, and
// no more sheets are taken than must be.

import { execFileSync } from 'node:child_process';

import { alone, lines } from './paper-lines.mjs';

/** The least that is left white at the sides, in points: a printer cannot print to the edge. */
const MARGIN = 36;

/** How much of a sheet is printed on at least, but of the last. */
const FILLED = 0.5;

/** How many sheets the examples in five sizes take at most: all of it, and without the drawings. */
const MOST = {
  'osprey-landing': [12, 12],
  'cormorant-stair': [13, 12],
  'plover-strand': [14, 12],
  'kelp-forest': [6, 6],
};

/** How many sheets the numbers by size take at most, and what is found. */
const GLANCE = 2;

export async function onPaper(open, told, path, expect) {
  const page = await open({ viewport: { width: 1280, height: 900 }, colorScheme: 'dark' });
  const shown = await page.evaluate(whatIsShown);
  const [whole, bare_of_drawings] = MOST[path.split('/').pop()] ?? [Infinity, Infinity];
  for (const format of ['A4', 'Letter']) {
    const file = `${path}-${format}.pdf`;
    await page.pdf({ path: file, format });
    const here = (holds, reason) => expect(holds, `on ${format} ${reason}`);
    const raw = read(['-raw', file]).split('\f').slice(0, -1);
    const sheets = raw.map((sheet) => bare(sheet.replace(/(^|\n)sheet \d+ of \d+\n[^\n]*(\n|$)/, '\n')));
    rows(told.lines, sheets, here);
    drawings(shown.figures, sheets, here);
    edges(read(['-bbox', file]), here);
    const numbered = raw.every((sheet, index) => sheet.includes(`sheet ${index + 1} of ${raw.length}`));
    here(numbered, 'a sheet has no number');
    here(!told.signing || raw.every((sheet) => sheet.includes(told.signing.short)), 'a sheet lacks the fingerprint');
    const on = lines(read(['-bbox-layout', file]));
    on.slice(0, -1).forEach((sheet, index) => here(sheet.filled >= FILLED, `sheet ${index + 1} is filled to ${sheet.filled.toFixed(2)}`));
    for (const fault of alone(on, told, shown)) here(false, fault);
    here(raw.length <= whole, `it takes ${raw.length} sheets`);
    const glance = on.findIndex((sheet) => sheet.lines.some((line) => line.text === 'The workings'));
    const ends = glance > 0 && on[glance].lines[0].text === 'The workings' ? glance : glance + 1;
    here(whole === Infinity || glance < 0 || ends <= GLANCE, `the numbers by size and what is found take ${ends} sheets`);
    if (whole === Infinity) continue;
    await page.locator('.no-drawings').check();
    await page.pdf({ path: file.replace('.pdf', '-bare.pdf'), format });
    await page.locator('.no-drawings').uncheck();
    const count = read([file.replace('.pdf', '-bare.pdf')]).split('\f').length - 1;
    here(count <= bare_of_drawings, `without drawings it takes ${count} sheets`);
    console.log(`${path.split('/').pop()} on ${format}: ${raw.length} sheets, ${count} without drawings, filled ${on.map((sheet) => sheet.filled.toFixed(2)).join(' ')}`);
  }
  await page.context().close();
}

function read(words) {
  return execFileSync('pdftotext', [...words, '-'], { encoding: 'utf8', maxBuffer: 1 << 28 });
}

/**
 * Text as it is compared: on paper the spaces are where the lines end, and commas stand between what are cells on the
 * screen. The marks beside the words are left out, and what steers a reader, which the page replaces.
 */
function bare(text) {
  return text.normalize('NFKC').toLowerCase().replace(/[\s,✓✗○?+\u200e\u200f\u202a-\u202e\u2066-\u2069\ufffd]+/g, '');
}

/** The drawings, and the numbers that stand on one line with their name, in the browser. */
function whatIsShown() {
  const text = (element) => element?.textContent ?? '';
  const figures = [...document.querySelectorAll('figure')].map((figure) => ({
    id: figure.querySelector('svg').id,
    words: [...figure.querySelectorAll('svg text')].map(text),
    caption: text(figure.querySelector('figcaption')),
  }));
  const names = (selector) => [...document.querySelectorAll(selector)].map(text);
  return { figures, numbers: names('.number:not(.single) .name th'), parts: names('.group > h3'), sizes: names('.matrix thead th.s') };
}

/** A quantity without its units; what is needed is left out where it says no more than what is stated. */
function plain(quantity) {
  const words = quantity.split(/\s+/).filter((word) => !['in', 'cm', 'square'].includes(word)).join(' ');
  const [width, length] = words.split(' x ');
  return width === length ? width : words;
}

/** Each number of the JSON is whole on one sheet with its working; a long working may go on on the next. */
function rows(numbers, sheets, expect) {
  expect(numbers.length > 0, 'there are no numbers');
  const all = sheets.join('');
  const times = new Map();
  for (const { size, number, stated, needed, margin, standing, working, found, at } of numbers) {
    const open = ['error', 'query', 'note'].find((level) => found.some((one) => one.level === level && !one.accepted));
    const result = open && !['short', 'wrong'].includes(standing) ? `${standing}, ${open}` : standing;
    const even = /^0( [a-z]+)?( \(0 [a-z]+\))?$/.test(margin);
    const same = needed === '' || standing === 'ok' && (even || plain(stated) === plain(needed));
    const links = '(see(accepted)?finding\\d+)*';
    const row = [stated, same ? '' : `needed${needed}`, even ? '' : margin, result, `line${at.line}.`].join('');
    const escaped = (text) => bare(text).replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
    const [long, name] = [working.length > 420, size ?? number];
    const whole = escaped(name + row) + links + escaped(working);
    const count = times.get(whole) ?? 0;
    times.set(whole, count + 1);
    // For all sizes there may be several numbers of one name.
    const either = size === null ? `(${whole}|${escaped(`all sizes${row}`)}${links}${escaped(working)})` : whole;
    const there = (long ? [all] : sheets).reduce((sum, text) => sum + (text.match(new RegExp(either, 'g')) ?? []).length, 0);
    expect(there > count, `there is no row ${size}, ${number}, ${stated} with its working: ${working.slice(0, 60)}`);
  }
}

/** Each drawing is on one sheet with what stands under it. */
function drawings(shown, sheets, expect) {
  for (const { id, words, caption } of shown) {
    const whole = (sheet) => [caption, ...words].every((text) => sheet.includes(bare(text)));
    expect(sheets.some(whole), `the drawing ${id} is not whole on a sheet: ${caption}`);
  }
}

/** No word comes near the edge of the sheet. */
function edges(boxes, expect) {
  let [wide, high] = [0, 0];
  for (const line of boxes.split('\n')) {
    const numbers = [...line.matchAll(/="([\d.-]+)"/g)].map((match) => Number(match[1]));
    if (line.includes('<page ')) [wide, high] = numbers;
    if (!line.includes('<word ')) continue;
    const [left, top, right, bottom] = numbers;
    const inside = left >= MARGIN && right <= wide - MARGIN && top >= MARGIN / 2 && bottom <= high - MARGIN / 2;
    expect(inside, `a word is too near the edge: ${line.trim()}`);
  }
}
