// The page on paper: every number is there with its working, in one piece, and nothing is cut off.

import { execFileSync } from 'node:child_process';

/** The least that is left white at the sides, in points: a printer cannot print to the edge. */
const MARGIN = 36;

export async function onPaper(open, told, path, expect) {
  const page = await open({ viewport: { width: 1280, height: 900 }, colorScheme: 'dark' });
  const shown = await page.evaluate(whatIsShown);
  for (const format of ['A4', 'Letter']) {
    const file = `${path}-${format}.pdf`;
    await page.pdf({ path: file, format });
    const words = (reason) => `on ${format} ${reason}`;
    const sheets = read(['-raw', file]).split('\f').slice(0, -1).map(bare);
    rows(told.lines, sheets, (holds, reason) => expect(holds, words(reason)));
    drawings(shown, sheets, (holds, reason) => expect(holds, words(reason)));
    edges(read(['-bbox', file]), (holds, reason) => expect(holds, words(reason)));
    const last = sheets.length;
    expect(sheets.every((sheet, index) => sheet.includes(`sheet${index + 1}of${last}`)), words('a sheet has no number'));
  }
  await page.context().close();
}

function read(words) {
  return execFileSync('pdftotext', [...words, '-'], { encoding: 'utf8', maxBuffer: 1 << 28 });
}

/**
 * Text as it is compared: on paper the spaces are where the lines end. The marks beside the words are left out, and
 * what steers a reader, which the page replaces.
 */
function bare(text) {
  return text.normalize('NFKC').toLowerCase().replace(/[\s✓✗○?+\u200e\u200f\u202a-\u202e\u2066-\u2069\ufffd]+/g, '');
}

/** The drawings, in the browser. */
function whatIsShown() {
  const text = (element) => element?.textContent ?? '';
  return [...document.querySelectorAll('figure')].map((figure) => ({
    id: figure.id,
    words: [...figure.querySelectorAll('svg text')].map(text),
    caption: text(figure.querySelector('figcaption')),
  }));
}

/** The heads of the columns; where no number of a table has a margin, that is left out. */
const HEADS = ['number stated needed extra (+) / short (-) result line', 'number stated needed result line'].map(bare);

/** Each number of the JSON is whole on one sheet, its working under it, and the heads of the columns above it. */
function rows(lines, sheets, expect) {
  expect(lines.length > 0, 'there are no numbers');
  let from = 0;
  for (const { size, number, stated, needed, margin, standing, working, found, at } of lines) {
    const open = ['error', 'query', 'note'].find((level) => found.some((one) => one.level === level && !one.accepted));
    const result = open && !['short', 'wrong'].includes(standing) ? `${standing}, ${open}` : standing;
    const [whole, why] = [bare([number, stated, needed, margin, result, at.line].join('')), bare(working)];
    // The rows come in order, so that a number found elsewhere does not stand for it.
    const sheet = sheets.findIndex((text, index) => index >= from && text.includes(whole));
    expect(sheet >= 0, `there is no row ${size}, ${number}, ${stated}`);
    if (sheet < 0) continue;
    from = sheet;
    const after = sheets[sheet].slice(sheets[sheet].indexOf(whole) + whole.length);
    expect(after.includes(why), `the working of ${size}, ${number} is not under it: ${working}`);
    const before = sheets[sheet].slice(0, sheets[sheet].indexOf(whole));
    expect(HEADS.some((head) => before.includes(head)), `no heads of columns above ${size}, ${number}`);
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
