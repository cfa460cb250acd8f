// The sheet for the kitchen wall: chosen, looked at, printed, taken along; and the one drawing of rails.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { accessible, open, picture, rail, settled, show, use, write } from '../person.mjs';

const button = (page) => page.getByRole('button', { name: 'Sheet', exact: true });
/** Opens the sheet and gives its frame, once it is dressed. */
async function sheetOf(page) {
  await button(page).click();
  return dressed(page);
}
async function dressed(page, words = /./) {
  await page.locator('.sheet-view iframe').waitFor();
  const frame = page.frameLocator('.sheet-view iframe');
  await frame.locator('h1').waitFor();
  await frame.locator('main', { hasText: words }).waitFor();
  await page.waitForFunction(() => document.querySelector('.sheet-view iframe')?.contentDocument?.adoptedStyleSheets.length === 1);
  return frame;
}

use('a sheet for the wall: looked at, printed, taken along', async ({ page, address }) => {
  await open(page, address);
  const frame = await sheetOf(page);
  const words = await frame.locator('main').innerText();
  assert.match(words, /^Weeknight bowl\n/);
  assert.match(words, /Juniper, dog, 18 kg/);
  for (const part of ['The bowl', 'Shopping', 'Keeping', 'Nutrients a day']) assert.ok(words.includes(part), part);
  // What the page says, the sheet says.
  const figures = (await rail(page, 'manganese').locator('.figures').innerText()).match(/[\d.]+ of [\d.]+ mg/)[0];
  const row = await frame.locator('tr', { hasText: /^Manganese/ }).innerText();
  for (const n of figures.match(/[\d.]+/g)) assert.ok(row.includes(n), `${n} in ${row}`);
  await accessible(page, 'the sheet');
  await picture(page, 'sheet');

  await page.evaluate(() => (document.querySelector('.sheet-view iframe').contentWindow.print = () => (globalThis.printed = (globalThis.printed ?? 0) + 1)));
  await page.getByRole('button', { name: 'Print', exact: true }).click();
  assert.equal(await page.evaluate(() => globalThis.printed), 1, 'the frame is printed, not the page');

  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Download' }).click()]);
  assert.equal(file.suggestedFilename(), 'Weeknight-bowl.html');
  const html = readFileSync(await file.path(), 'utf8');
  assert.match(html, /^<!doctype html>[^]*<style>[^]*@page\{size:A4/);
  assert.doesNotMatch(html, /https?:\/\/(?!www\.w3\.org\/2000\/svg)|<script/, 'one file, with nothing from elsewhere');

  await page.keyboard.press('Escape');
  await page.locator('.sheet-view').waitFor({ state: 'detached' });
  assert.equal(await page.evaluate(() => document.activeElement?.innerText), 'Sheet', 'and the hand is where it was');
});

use('the sheet is written as it is wished: paper, units, days, meals, prices, large print', async ({ page, address }) => {
  await open(page, address);
  await sheetOf(page);
  const style = () => page.evaluate(() => [...document.querySelector('.sheet-view iframe').contentDocument.adoptedStyleSheets[0].cssRules].map((r) => r.cssText).join('\n'));
  assert.match(await style(), /size: a4/i);
  const view = page.locator('.sheet-view');
  await view.getByLabel('paper').selectOption('letter');
  await view.getByLabel('units').selectOption('us');
  await view.getByLabel('days').fill('10');
  await view.getByLabel('days').press('Tab');
  await view.getByLabel('meals').fill('3');
  await view.getByLabel('meals').press('Tab');
  await view.getByLabel('large print').check();
  await view.getByLabel('prices').selectOption({ index: 1 });
  const frame = await dressed(page, /10 days/);
  await frame.locator('main', { hasText: /\d oz/ }).waitFor();
  await frame.locator('main', { hasText: /3 meals|A meal/ }).waitFor();
  await page.waitForFunction(() => /size: letter/i.test([...document.querySelector('.sheet-view iframe').contentDocument.adoptedStyleSheets[0].cssRules].map((r) => r.cssText).join('')));
  assert.match(await frame.locator('main').innerText(), /pric|cost/i);
  await picture(page, 'sheet-large');
}, { on: 'site' });

use('a recipe that is not understood has no sheet, and it says why', async ({ page, address }) => {
  await open(page, address);
  await write(page, 'Recipe: A\nFor: Juniper\n\n300 g xyzzyfoo');
  await settled(page);
  await button(page).click();
  await page.locator('.sheet-view [role=status]', { hasText: /xyzzyfoo|understood/ }).waitFor();
}, { on: 'site' });

/** Where marks stand on a rail of the page and on one of the sheet: the sheet's are drawn in C, from a quarter of the need at 6 points to
 * eight times it at the width less 6. */
use('the page’s rails and the sheet’s are the same', async ({ page, address }) => {
  await open(page, address);
  for (const title of ['Weeknight bowl', 'Garden stew']) {
    await show(page, title);
    await settled(page);
    for (let folded; (folded = page.locator('.folded:not([open]) summary')), (await folded.count()) > 0; ) await folded.first().click();
    const mine = await page.locator('button.rail').evaluateAll((rails) =>
      rails.flatMap((r) => {
        const svg = r.querySelector('svg.drawing');
        if (!svg) return [];
        const at = (q, name) => {
          const e = svg.querySelector(q);
          if (!e) return null;
          return Number.parseFloat((e.hasAttribute(name) ? e : e.closest('svg')).getAttribute(name)) / 100;
        };
        const disc = at('circle.mark', 'cx');
        return [{ key: r.querySelector('.name').title, mark: disc, minimum: at('.minimum', 'x'), limit: at('.limit', 'x'), leanest: at('.leanest', 'x'), low: at('.spread', 'x'), unknown: at('.unknown', 'x') }];
      }),
    );
    const frame = await sheetOf(page);
    const theirs = new Map(
      await frame.locator('tr:has(svg)').evaluateAll((rows) =>
        rows.map((r) => {
          const svg = r.querySelector('svg');
          const width = Number(svg.getAttribute('width'));
          const share = (x) => (Number(x) - 6) / (width - 12);
          const all = (q, name) => [...svg.querySelectorAll(q)].map((e) => share(e.getAttribute(name)));
          return [r.querySelector('th').firstChild.textContent.trim(), { disc: all('circle', 'cx'), x1: all('line', 'x1'), x2: all('line', 'x2').map((x) => x * (width - 12)), width: width - 12, rect: all('rect:not([width="3"])', 'x') }];
        }),
      ),
    );
    let compared = 0;
    for (const m of mine) {
      const t = theirs.get(m.key);
      if (!t || t.x1.length === 0) continue;
      const near = (list, x, words) => assert.ok(list.some((v) => Math.abs(v - x) < 0.0006), `${m.key}: ${words} at ${x}, there ${list.map((v) => v.toFixed(4))}`);
      if (m.mark !== null) near(t.disc, m.mark, 'mark');
      else assert.equal(t.disc.length, 0, m.key);
      if (m.minimum !== null) near(t.x1, m.minimum, 'minimum');
      if (m.low !== null) near(t.rect, m.low, 'spread');
      if (m.unknown !== null) near(t.rect, m.unknown, 'unknown');
      // The tip of an angle is 2, of a cross 4 to the right of its place; the sheet draws six tenths of it.
      if (m.limit !== null) assert.ok(t.x2.some((x) => Math.abs(x - m.limit * t.width - 1.2) < 0.05), `${m.key}: limit`);
      if (m.leanest !== null) assert.ok(t.x2.some((x) => Math.abs(x - m.leanest * t.width - 2.4) < 0.05), `${m.key}: leanest`);
      compared++;
    }
    assert.ok(compared > 30, `${compared} rails`);
    await page.keyboard.press('Escape');
  }
}, { on: 'site' });
