// The page on paper: every number is there with its working, in one piece, and nothing is cut off.

import { execFileSync } from 'node:child_process';

/** The least that is left white at the sides, in points: a printer cannot print to the edge. */
const MARGIN = 36;

export async function onPaper(open, path, expect) {
  const page = await open({ viewport: { width: 1280, height: 900 }, colorScheme: 'dark' });
  const told = await page.evaluate(whatIsTold);
  for (const format of ['A4', 'Letter']) {
    const file = `${path}-${format}.pdf`;
    await page.pdf({ path: file, format });
    const words = (reason) => `on ${format} ${reason}`;
    const sheets = read(['-raw', file]).split('\f').slice(0, -1).map(bare);
    rows(told, sheets, (holds, reason) => expect(holds, words(reason)));
    drawings(told, sheets, (holds, reason) => expect(holds, words(reason)));
    edges(read(['-bbox', file]), (holds, reason) => expect(holds, words(reason)));
    const last = sheets.length;
    expect(sheets.every((sheet, index) => sheet.includes(`sheet${index + 1}of${last}`)), words('a sheet has no number'));
  }
  await page.context().close();
}

function read(words) {
  return execFileSync('pdftotext', [...words, '-'], { encoding: 'utf8', maxBuffer: 1 << 28 });
}

/** Text as it is compared: on paper the spaces are where the lines end. */
function bare(text) {
  return text.normalize('NFKC').replace(/\s+/g, '');
}

/** The rows of all tables and the drawings, in the browser. */
function whatIsTold() {
  const text = (element) => element?.textContent ?? '';
  const rows = [...document.querySelectorAll('tbody')].map((body) => ({
    size: text(body.closest('section').querySelector('h2')),
    number: text(body.querySelector('th')),
    stated: text(body.querySelector('.stated')),
    values: [...body.querySelectorAll('.values > *')].map(text).join(''),
    working: text(body.querySelector('.why p')),
  }));
  const drawings = [...document.querySelectorAll('figure')].map((figure) => ({
    id: figure.id,
    words: [...figure.querySelectorAll('svg text')].map(text),
    caption: text(figure.querySelector('figcaption')),
  }));
  const heads = [...document.querySelectorAll('table')].map((table) => text(table.querySelector('thead')));
  return { rows, drawings, heads };
}

/** Each row is whole on one sheet, its working under it, and the heads of the columns above it. */
function rows(told, sheets, expect) {
  expect(told.rows.length > 0, 'there are no rows');
  let from = 0;
  for (const { size, number, stated, values, working } of told.rows) {
    const [whole, why] = [bare(values), bare(working)];
    // The rows come in order, so that a number found elsewhere does not stand for it.
    const sheet = sheets.findIndex((text, index) => index >= from && text.includes(whole));
    expect(sheet >= 0, `there is no row ${size}, ${number}, ${stated}`);
    if (sheet < 0) continue;
    from = sheet;
    const after = sheets[sheet].slice(sheets[sheet].indexOf(whole) + whole.length);
    expect(after.includes(why), `the working of ${size}, ${number} is not under it: ${working}`);
    const before = sheets[sheet].slice(0, sheets[sheet].indexOf(whole));
    expect(told.heads.some((head) => before.includes(bare(head))), `no heads of columns above ${size}, ${number}`);
  }
}

/** Each drawing is on one sheet with what stands under it. */
function drawings(told, sheets, expect) {
  for (const { id, words, caption } of told.drawings) {
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
