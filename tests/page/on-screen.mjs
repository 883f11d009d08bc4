// The page on a screen.

import axe from 'axe-core';

/** Widths at which nothing may stick out. 640 is also what a screen of 1280 is at twice the size. */
const WIDTHS = [320, 380, 640, 768, 1280];

/** How high letters in a drawing are at least, in points of a screen. */
const LETTERS = 8;

export async function onScreen(open, expect) {
  const page = await open({ viewport: { width: 1280, height: 900 }, colorScheme: 'light' });
  await choices(page, expect);
  await skipping(page, expect);
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 900 });
    const wide = await page.evaluate(sticksOut);
    expect(wide.length === 0, `at ${width} px ${wide.slice(0, 3).join('; ')}`);
    const letters = await page.evaluate(() => Math.min(...[...document.querySelectorAll('svg text')].map((text) => 33 * text.getScreenCTM().a)));
    expect(letters >= LETTERS || width < 380, `at ${width} px letters in a drawing are ${letters.toFixed(1)} px high`);
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
  for (const element of document.querySelectorAll('body *:not(.drawing *, .unseen, .skip), svg')) {
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
export async function accessible(page, how, what, expect) {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate((what) => globalThis.axe.run({ resultTypes: ['violations'], ...what }), what);
  for (const { id, impact, nodes } of violations) {
    expect(false, `${how}: ${id} (${impact}) at ${nodes.slice(0, 3).map((node) => node.target).join(', ')}`);
  }
}

/** What is chosen is shown and nothing else, by mouse and by keyboard; of a part nothing can be signed. */
async function choices(page, expect) {
  const shown = (selector) => page.locator(selector).evaluateAll((found) => found.filter((one) => one.checkVisibility()).map((one) => one.className));
  const whole = async (what) => {
    expect((await shown('.sign')).length === 1 && (await shown('.partial')).length === 0, `${what}: there is no place to sign`);
  };
  await whole('at first');
  for (const kind of ['size', 'part']) {
    const picks = page.locator(`.pick-${kind}`);
    for (let index = 0; index < await picks.count(); index += 1) {
      const pick = picks.nth(index);
      await pick.check();
      const [, letter, number] = /pick-(s|p)[a-z]*-(\d+)/.exec(await pick.getAttribute('class'));
      const one = letter === 's' ? 's' : 'k';
      const classes = await shown(`.${one}`);
      const others = classes.filter((name) => !name.split(' ').some((word) => word === `${one}0` || word === `${one}${number}`));
      expect(others.length === 0, `${kind} ${number} is chosen, and there is ${others[0]}`);
      expect((await shown('.sign')).length === 0 && (await shown('.partial')).length === 1, `${kind} ${number} alone can be signed`);
    }
    const all = page.locator(`.pick-all-${kind}s`);
    if (await all.count() > 0) {
      await all.focus();
      await page.keyboard.press('Space');
    }
    await whole(`all of each ${kind}`);
  }
  await page.locator('.only-wrong').check();
  const fine = await shown('.fine');
  expect(fine.length === 0, `what is OK is shown beside what is not: ${fine[0]}`);
  await page.locator('.only-wrong').uncheck();
  for (const [box, what] of [['.no-drawings', 'figure'], ['.no-workings', '.values']]) {
    if (await page.locator(box).count() === 0) continue;
    expect((await shown(what)).length > 0, `there is no ${what}`);
    await page.locator(box).check();
    expect((await shown(what)).length === 0, `${box} leaves ${what}`);
    await page.locator(box).uncheck();
  }
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
  for (const [kind, width, colorScheme] of [['wide', 1280, 'light'], ['narrow', 380, 'light'], ['dark', 1280, 'dark']]) {
    const page = await open({ viewport: { width, height: 900 }, colorScheme });
    await page.screenshot({ path: `${path}-${kind}.png`, fullPage: true });
    await page.context().close();
  }
}
