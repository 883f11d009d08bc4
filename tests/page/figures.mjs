// The drawings of a page against the JSON of the worksheet: all of them are there, what they say is what it says, they
// are drawn to scale, and their words can be read.

/** How far a drawn length may be from the true one, in units of the drawing: it is laid out in whole thousandths. */
const NEARLY = 0.6;

export async function figures(open, told, expect) {
  const page = await open({ viewport: { width: 1280, height: 900 }, colorScheme: 'light' });
  const shown = await page.evaluate(whatIsShown);
  const wanted = [...ofDesign(told.drawings.design, shown), ...told.drawings.sizes.flatMap(ofSize)];
  expect(shown.length === wanted.length, `there are ${shown.length} drawings and not ${wanted.length}`);
  const left = [...shown];
  for (const { size, kind, name, facts, parts, scale } of wanted) {
    const is = (one) => plain(one.size) === plain(size) && one.kind === kind && plain(one.facts.fabric ?? '') === plain(facts.fabric ?? '') && (name === undefined || one.facts.name === plain(name));
    const [figure] = left.splice(left.findIndex(is), left.some(is) ? 1 : 0);
    expect(figure, `${size}: there is no drawing ${kind} ${facts.fabric ?? name ?? ''}`);
    if (!figure) continue;
    const same = (is, should, what) => {
      const [a, b] = [JSON.stringify(is), JSON.stringify(should)].map(plain);
      expect(a === b, `${size}, ${kind}: ${what} ${a}, and in the JSON ${b}`);
    };
    expect(figure.box.width > 100 && figure.box.height > 20, `${size}, ${kind}: no drawing is to be seen`);
    expect(figure.caption.length > 10 && figure.words > 20, `${size}, ${kind}: it is not said in words`);
    for (const [name, value] of Object.entries(facts)) same(figure.facts[name] ?? null, value, `${name} is`);
    for (const [name, list] of Object.entries(parts)) same(listed(figure.parts, name, list), list, `${name}:`);
    for (const fault of scale(figure)) expect(false, `${size}, ${kind}: ${fault}`);
    for (const pair of figure.overlaps) expect(false, `${size}, ${kind}: one text lies on another: ${pair}`);
    for (const pair of figure.crossed) expect(false, `${size}, ${kind}: a line crosses a text: ${pair}`);
    for (const text of figure.outside) expect(false, `${size}, ${kind}: a text reaches out of the drawing: ${text}`);
  }
  await page.context().close();
}

/** What steers a reader is replaced in the page. */
const plain = (text) => text.replace(/[\u200e\u200f\u202a-\u202e\u2066-\u2069\ufffd]/g, '');

const shownAs = (told) => (told === null || told === undefined ? null : told.shown);

/** So many inches, from a fraction such as 235/2. */
const inches = (told) => told.inches.split('/').map(Number).reduce((top, over) => top / over);

/** The drawings of one size. */
function ofSize({ size, top, edge, fabrics, backing }) {
  const drawings = [];
  if (top) drawings.push({ size, kind: 'top', ...ofTop(top) });
  if (edge) drawings.push({ size, kind: 'edge', ...ofEdge(edge) });
  for (const fabric of fabrics) drawings.push({ size, kind: fabric.kind, ...ofFabric(fabric) });
  if (backing) drawings.push({ size, kind: 'backing', ...ofBacking(backing) });
  return drawings;
}

/** The blocks, and those units that are shown larger. */
function ofDesign(design, shown) {
  const size = 'For all sizes';
  const larger = shown.filter(({ kind }) => kind === 'unit').map(({ facts }) => facts.name);
  const blocks = (design?.blocks ?? []).map((block) => ({ size, kind: 'block', name: block.block, ...ofSewn(block) }));
  const units = (design?.units ?? []).filter(({ unit }) => larger.includes(plain(unit)));
  return [...blocks, ...units.map((unit) => ({ size, kind: 'unit', name: unit.unit, ...ofSewn(unit) }))];
}

/** A block or a unit: its finished outline to scale, and each piece drawn. */
function ofSewn(sewn) {
  const scale = ({ parts, unit }) => {
    const whole = parts.find(({ data }) => data.finished === 'all');
    if (!whole) return ['its outline is not drawn'];
    const pieces = Array.isArray(sewn.pieces) ? sewn.pieces.length : sewn.pieces;
    const drawn = parts.filter(({ data }) => data.piece !== undefined).length;
    const empty = parts.filter(({ data }) => data.unit !== undefined).length;
    const faults = drawn + empty < pieces ? [`${drawn} pieces are drawn of ${pieces}`] : [];
    return [...faults, ...differs('it', whole.width, inches(sewn.width), unit), ...differs('it', whole.height, inches(sewn.length), unit)];
  };
  return { facts: facts(sewn, ['width', 'length']), parts: {}, scale };
}

/** A top: every part is drawn, and the outline is to scale. */
function ofTop(top) {
  const scale = ({ parts, unit }) => {
    if (!top.width) return [];
    const whole = parts.find(({ data }) => data.finished === 'all');
    const drawn = parts.filter(({ data }) => data.kind !== undefined).length;
    const faults = drawn === top.parts.length ? [] : [`${drawn} parts are drawn of ${top.parts.length}`];
    // On point a side is a plain length and one that counts times the root of two.
    const side = ({ inches: text }) => text.split('+').reduce((sum, part) => {
      const [number, root] = part.split('√');
      return sum + inches({ inches: number }) * (root === undefined ? 1 : Math.SQRT2);
    }, 0);
    return [...faults, ...differs('it', whole.width, side(top.width), unit), ...differs('it', whole.height, side(top.length), unit)];
  };
  return { facts: facts(top, ['width', 'length']), parts: {}, scale };
}

/** The facts of a drawing that have the same name in the JSON. */
function facts(of, names) {
  return Object.fromEntries(names.map((name) => [name, typeof of[name] === 'object' ? shownAs(of[name]) : String(of[name])]));
}

function ofEdge(edge) {
  const { strips, laid } = edge;
  const counts = strips ? { strips: String(strips.count), left_over: String(strips.left_over) } : {};
  const parts = { join: [], strip: [], corner: [], tail: [], opening: [], start: [] };
  if (laid) {
    const [ends, zero] = [inches(laid.sewn), 0];
    const onEdge = laid.strips.filter((strip) => Math.max(inches(strip.begins), zero) < Math.min(inches(strip.ends), ends));
    parts.strip = onEdge.map(({ strip, begins, ends }) => ({ strip: String(strip), begins: begins.shown, ends: ends.shown }));
    // More joins than a table has room for are counted.
    parts.join = laid.joins.slice(0, 60).map((join) => ({
      join: String(join.join),
      at: join.at.shown,
      side: join.side === null ? undefined : String(join.side),
      corner_of_join: join.corner === null ? undefined : String(join.corner),
      past_corner: shownAs(join.past_corner) ?? undefined,
    }));
    parts.corner = laid.corners.map(({ corner, at }) => ({ corner: String(corner), at: at.shown }));
    parts.tail = [{ tail: 'start', length: laid.start_tail.shown }, { tail: 'end', length: laid.end_tail.shown }];
    parts.opening = laid.opening && inches(laid.opening) > 0 ? [{ opening: laid.opening.shown }] : [];
    parts.start = [{ start: shownAs(laid.start) ?? '' }];
  }
  const scale = (figure) => (laid ? edgeToScale(figure, edge) : []);
  return { facts: { ...facts(edge, ['width', 'length', 'round', 'needed', 'had', 'over', 'short']), ...counts }, parts, scale };
}

function ofFabric(fabric) {
  const { kind } = fabric;
  const none = { parts: {}, scale: () => [] };
  if (kind === 'square') {
    const names = ['fabric', 'usable_width', 'side', 'gives', 'needed', 'stated', 'left', 'short'];
    return { ...none, facts: facts(fabric, names) };
  }
  if (kind === 'bias') {
    const names = ['fabric', 'wanted', 'gives', 'usable_width', 'edge_to_edge', 'strip_length', 'pitch'];
    return { ...none, facts: { ...facts(fabric, names), amount: fabric.fabric_amount.shown } };
  }
  if (kind === 'precut') {
    return { ...none, facts: facts(fabric, fabric.stated === null ? ['fabric', 'used'] : ['fabric', 'used', 'stated', 'left', 'short']) };
  }
  const names = ['fabric', 'usable_width', 'used', 'stated', 'left', 'short', 'strips'];
  return { facts: facts(fabric, names), parts: {}, scale: (figure) => boltToScale(figure, fabric) };
}

function ofBacking(backing) {
  const { panels, count, run, sheet } = backing;
  const same = facts(backing, ['sewn', 'across', 'each', 'fabric', 'trimmed', 'short']);
  const parts = { panel: panels.map(({ panel, begins, ends }) => ({ panel: String(panel), begins: begins.shown, ends: ends.shown })) };
  const whole = { ...same, run, panels: String(count), width: sheet.width.shown, length: sheet.length.shown };
  return { facts: whole, parts, scale: (figure) => backingToScale(figure, backing) };
}

/** The parts of a drawing that have a name, with what the JSON says of such a part. */
function listed(parts, name, like) {
  const keys = Object.keys(like[0] ?? {});
  const found = parts.filter((part) => part.data[name] !== undefined && !(name === 'strip' && part.data.begins === undefined));
  return found.map((part) => Object.fromEntries(keys.map((key) => [key, part.data[key]])));
}

/** Whether so many inches are drawn so long. */
function differs(what, drawn, length, unit) {
  const should = length / unit;
  return Math.abs(drawn - should) > NEARLY ? [`${what} is drawn ${drawn.toFixed(1)} long and should be ${should.toFixed(1)}`] : [];
}

/** A strip without a corner on it is as long on the drawing as from its beginning to its end. */
function edgeToScale({ parts, unit }, { laid }) {
  const corners = laid.corners.map(({ at }) => inches(at));
  const sewn = inches(laid.sewn);
  return laid.strips.flatMap((strip) => {
    const [from, to] = [Math.max(inches(strip.begins), 0), Math.min(inches(strip.ends), sewn)];
    const line = parts.find(({ data }) => data.strip === String(strip.strip) && data.begins !== undefined);
    // At a corner the binding is longer than the edge, by what the corner takes up.
    if (!line || corners.some((at) => at > from - 1 && at < to)) return [];
    // A curved edge is drawn in short straight lines.
    const round = corners.length === 0 ? line.long * 0.01 : 0;
    return differs(`strip ${strip.strip}`, line.long, to - from, unit).filter(() => Math.abs(line.long - (to - from) / unit) > round);
  });
}

/** Strips across a fabric are as wide as it and as high as they are cut. */
function boltToScale({ parts, unit }, bolt) {
  const strips = parts.filter(({ data }) => data.strip !== undefined && data.width !== undefined);
  const shown = strips.reduce((sum, { data }) => sum + Number(data.strips), 0);
  const faults = shown === bolt.strips - bolt.more ? [] : [`${shown} strips are drawn of ${bolt.strips}`];
  for (const { data, width, height } of strips) {
    const row = bolt.rows.find(({ first, strips }) => Number(data.strip) >= first && Number(data.strip) < first + strips);
    faults.push(...differs(`strip ${data.strip} across`, width, inches(bolt.usable_width), unit));
    faults.push(...differs(`strip ${data.strip} along`, height, inches(row.width) * Number(data.strips), unit));
  }
  return faults;
}

/** Panels lie side by side, each as long as it is cut. */
function backingToScale({ parts, unit }, backing) {
  const panels = parts.filter(({ data }) => data.panel !== undefined);
  return panels.flatMap(({ data, width, height }) => {
    const [across, along] = backing.run === 'along' ? [width, height] : [height, width];
    const { begins, ends } = backing.panels[Number(data.panel) - 1];
    // Of panels that are far too many the last is cut short.
    const whole = inches(ends) <= inches(backing.across) ? differs(`panel ${data.panel} across`, across, inches(ends) - inches(begins), unit) : [];
    return [...whole, ...differs(`panel ${data.panel} along`, along, inches(backing.each), unit)];
  });
}

/** The drawings in the browser. */
function whatIsShown() {
  const snake = (data) => Object.fromEntries(Object.entries(data).map(([name, value]) => [name.replace(/[A-Z]/g, (c) => `_${c.toLowerCase()}`), value]));
  const text = (element) => element?.textContent ?? '';
  const size = (element) => (element.getBBox ? element.getBBox() : { width: 0, height: 0 });
  return [...document.querySelectorAll('figure')].map((figure) => {
    const svg = figure.querySelector('svg');
    const { width, height, left, right, top, bottom } = svg.getBoundingClientRect();
    const data = snake(svg.dataset);
    const parts = [...svg.querySelectorAll('*')].filter((part) => Object.keys(part.dataset).length > 0);
    const words = [...svg.querySelectorAll('text')].map((one) => ({ text: text(one), box: one.getBoundingClientRect() }));
    const overlaps = words.flatMap((one, index) => words.slice(index + 1).filter((other) => {
      const wide = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
      const high = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
      // The box of a line of text has room above its letters and below.
      return wide > 1 && high > one.box.height * 0.3;
    }).map((other) => `"${one.text}" and "${other.text}"`));
    // A line that leads to words ends beside them.
    const lines = [...svg.querySelectorAll('.fig-leader')].map((line) => {
      const [steps, screen] = [40, line.getScreenCTM()];
      return Array.from({ length: steps + 1 }, (_, step) => line.getPointAtLength(line.getTotalLength() * step / steps).matrixTransform(screen));
    });
    const lies = ({ x, y }, { box }) => x > box.left + 1 && x < box.right - 1 && y > box.top + box.height * 0.2 && y < box.bottom - box.height * 0.2;
    const crossed = words.filter((one) => lines.some((line) => line.some((place) => lies(place, one)))).map((one) => one.text);
    const inside = ({ box }) => box.left >= left - 1 && box.right <= right + 1 && box.top >= top - 1 && box.bottom <= bottom + 1;
    return {
      size: figure.querySelector('.drawing').getAttribute('aria-label').split(', ').slice(1).join(', ') || 'For all sizes',
      kind: data.drawing,
      facts: data,
      unit: data.unit ? Number(data.unit.split('/')[0]) / Number(data.unit.split('/')[1]) : 1,
      caption: text(figure.querySelector('figcaption')),
      words: (svg.getAttribute('aria-labelledby') ?? '').split(' ').map((id) => text(document.getElementById(id))).join(' ').length,
      box: { width, height },
      overlaps,
      crossed,
      outside: words.filter((one) => !inside(one)).map((one) => one.text),
      parts: parts.map((part) => {
        const { width, height } = size(part);
        return { data: snake(part.dataset), width, height, long: part.getTotalLength?.() ?? 0 };
      }),
    };
  });
}
