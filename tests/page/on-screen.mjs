// The page on a screen.

import axe from 'axe-core';

/** Widths at which nothing may stick out. 640 is also what a screen of 1280 is at twice the size. */
const WIDTHS = [320, 640, 768, 1280];

export async function onScreen(open, expect) {
  const page = await open({ viewport: { width: 1280, height: 900 }, colorScheme: 'light' });
  await workings(page, expect);
  await skipping(page, expect);
  await page.locator('#show-all').check();
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 900 });
    const wide = await page.evaluate(sticksOut);
    expect(wide.length === 0, `at ${width} px ${wide.slice(0, 3).join('; ')}`);
  }
  await accessible(page, 'wide and light', {}, expect);
  await page.setViewportSize({ width: 320, height: 900 });
  // The colours are those of the wide page, and looking at them takes longest.
  await accessible(page, 'narrow', { rules: { 'color-contrast': { enabled: false } } }, expect);
  await page.setViewportSize({ width: 1280, height: 900 });
  await page.emulateMedia({ colorScheme: 'dark' });
  await accessible(page, 'dark', { runOnly: ['color-contrast'] }, expect);
  await page.context().close();
}

/** What is wider than the screen, in the browser. */
function sticksOut() {
  const wide = document.documentElement.clientWidth;
  const found = document.documentElement.scrollWidth > wide ? ['the page scrolls sideways'] : [];
  for (const element of document.querySelectorAll('body *:not(.drawing *, .unseen, .skip)')) {
    const { left, right, width, height } = element.getBoundingClientRect();
    // What is only there to be heard is a point in size.
    if (width <= 1 || height <= 1 || element.closest('thead') && wide <= 704) continue;
    if (right > wide + 0.5 || left < -0.5) found.push(`${element.tagName} "${element.textContent.slice(0, 30)}" sticks out`);
    if (element.scrollWidth > element.clientWidth + 1 && getComputedStyle(element).overflowX === 'hidden') {
      found.push(`${element.tagName} "${element.textContent.slice(0, 30)}" is cut off`);
    }
  }
  return found;
}

/** Nobody is kept out, as far as a program can tell. */
async function accessible(page, how, what, expect) {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate((what) => globalThis.axe.run({ resultTypes: ['violations'], ...what }), what);
  for (const { id, impact, nodes } of violations) {
    expect(false, `${how}: ${id} (${impact}) at ${nodes.slice(0, 3).map((node) => node.target).join(', ')}`);
  }
}

/** Workings are folded, open by mouse and by keyboard, and all at once. */
async function workings(page, expect) {
  const all = page.locator('p.working');
  const shown = async () => (await all.evaluateAll((found) => found.map((one) => one.checkVisibility()))).filter(Boolean).length;
  const count = await all.count();
  expect(await shown() === 0, 'a working is open before anybody opens it');
  if (count > 0) {
    const first = page.locator('details summary').first();
    await first.click();
    expect(await shown() === 1, 'a working does not open when it is clicked');
    await first.press('Enter');
    expect(await shown() === 0, 'a working does not close by the keyboard');
  }
  await page.locator('#show-all').check();
  expect(await shown() === count, 'not every working is shown when all are asked for');
  await page.locator('#show-all').uncheck();
  expect(await shown() === 0, 'the workings do not fold again');
}

/** The first thing that the keyboard comes to leads past the contents. */
async function skipping(page, expect) {
  await page.reload();
  await page.keyboard.press('Tab');
  const first = await page.evaluate(() => ({ class: document.activeElement.className, top: document.activeElement.getBoundingClientRect().top }));
  expect(first.class === 'skip' && first.top >= 0, `the keyboard comes first to ${JSON.stringify(first)}`);
  await page.keyboard.press('Enter');
  const then = await page.evaluate(() => document.activeElement.id);
  expect(then === 'numbers', `the link to the numbers leads to ${then}`);
}

/** Pictures for people to look at. */
export async function pictures(open, path) {
  for (const [kind, width, colorScheme] of [['wide', 1280, 'light'], ['narrow', 390, 'light'], ['dark', 1280, 'dark']]) {
    const page = await open({ viewport: { width, height: 900 }, colorScheme });
    await page.screenshot({ path: `${path}-${kind}.png`, fullPage: true });
    await page.context().close();
  }
}
