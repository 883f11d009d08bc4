// The lines of text on sheets of paper, and whether a row of a table or a heading stands alone at an end of one.

/** How far from the foot of a sheet its number stands, in points. */
const FOOT = 40;

/** The height of a sheet that is printed on, margins left out, in points. */
const MARGINS = 79;

/** A row of so many lines may be broken, and then does not stand alone. */
const LONG = 6;

/** The lines of each sheet with their places, from the boxes of the words. */
export function lines(boxes) {
  return boxes.split('<page ').slice(1).map((page) => {
    const [wide, high] = [...page.matchAll(/(?:width|height)="([\d.]+)"/g)].map((match) => Number(match[1]));
    const found = [...page.matchAll(/<line xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([\s\S]*?)<\/line>/g)];
    const all = found.map(([, left, top, right, bottom, words]) => ({
      left: Number(left), top: Number(top), right: Number(right), bottom: Number(bottom),
      text: [...words.matchAll(/>([^<]*)<\/word>/g)].map((match) => entities(match[1])).join(' '),
    }));
    const own = all.filter((line) => line.bottom < high - FOOT).sort((one, other) => one.top - other.top);
    const last = Math.max(0, ...own.map((line) => line.bottom));
    const first = MARGINS / 2 - 3;
    return { wide, high, lines: own, filled: (last - first) / (high - MARGINS) };
  });
}

function entities(text) {
  return text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&apos;', "'").replaceAll('&amp;', '&');
}

const even = (text) => text.replace(/\s+/g, ' ').trim();

/** The faults: a heading at the foot of a column, or one row of a number that is parted from the others. */
export function alone(sheets, told, { numbers, parts, sizes }) {
  const headings = new Set([...numbers, ...parts].map(even));
  const faults = [];
  const runs = [];
  let working = false;
  for (const [index, sheet] of sheets.entries()) {
    const begins = sheet.lines.findIndex((line) => line.text === 'The workings');
    const ends = sheet.lines.findIndex((line) => line.text === 'Drawings' || line.text === 'To sign' || line.text === 'Take care');
    working ||= begins >= 0;
    if (!working) continue;
    const top = begins >= 0 ? sheet.lines[begins].bottom : 0;
    const foot = ends >= 0 ? sheet.lines[ends].top : sheet.high;
    for (const column of [0, 1]) {
      const is_in = (line) => (line.left < sheet.wide / 2 - 6) === (column === 0) && line.top > top - 1 && line.bottom < foot + 1;
      const own = sheet.lines.filter(is_in);
      if (own.length === 0) continue;
      const left = Math.min(...own.map((line) => line.left));
      const place = `sheet ${index + 1}, column ${column + 1}`;
      const last = even(own.at(-1).text);
      if (headings.has(last)) faults.push(`a heading stands at the foot of ${place}: ${last}`);
      for (const line of own) {
        const text = even(line.text);
        if (headings.has(text)) runs.push({ name: text, rows: [] });
        else if (line.left < left + 2 && sizes.some((size) => text.startsWith(`${even(size)} `))) runs.at(-1)?.rows.push({ place, lines: 1 });
        else if (runs.at(-1)?.rows.length > 0) runs.at(-1).rows.at(-1).lines += 1;
      }
    }
    if (ends >= 0) break;
  }
  for (const { name, rows } of runs) {
    const places = [...new Set(rows.map((row) => row.place))];
    if (places.length < 2) continue;
    for (const place of [places[0], places.at(-1)]) {
      const here = rows.filter((row) => row.place === place);
      if (here.length === 1 && here[0].lines < LONG) faults.push(`one row of ${name} stands alone at ${place}`);
    }
  }
  return [...faults, ...aloneAtAGlance(sheets, told, sizes)];
}

/** The same of the numbers by size, where each row begins at the left of the sheet. */
function aloneAtAGlance(sheets, told, sizes) {
  const faults = [];
  const headings = new Set(told.lines.map((line) => heading(line)));
  let rows = [];
  const check = (place) => {
    if (rows.length === 0) return;
    const last = rows.length - 1;
    if (headings.has(rows[last]) || headings.has(rows[last - 1])) faults.push(`a heading or one row below it stands at the foot of ${place}: ${rows[last]}`);
  };
  for (const [index, sheet] of sheets.entries()) {
    const begins = sheet.lines.findIndex((line) => line.text === 'The numbers by size');
    const ends = sheet.lines.findIndex((line) => line.text === 'Findings' || line.text === 'The workings');
    if (index > 0 && rows.length === 0) break;
    const left = Math.min(...sheet.lines.map((line) => line.left));
    const own = sheet.lines.slice(begins + 1, ends < 0 ? undefined : ends).filter((line) => line.left < left + 2);
    rows = own.map((line) => even(line.text));
    if (index > 0 && headings.size > 0 && rows.length > 2 && headings.has(rows[2])) faults.push(`one row stands alone at the head of sheet ${index + 1}: ${rows[1]}`);
    if (ends >= 0) break;
    if (sizes.length > 0) check(`sheet ${index + 1}`);
  }
  return faults;
}

function heading({ section, fabric }) {
  if (fabric !== null) return `Fabric ${even(fabric)}`;
  const words = (section ?? 'other').replaceAll('_', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}
