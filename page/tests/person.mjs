// What a person does with the page, and how it is looked at. The uses of uses/*.mjs are made of these.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

export const uses = [];
/** options: 'on' "site" or "serve" (else both), 'mayComplain' what the console may say, 'timeout', 'ownSite'; the rest goes to the browser. */
export const use = (name, run, options = {}) => uses.push({ name, run, options });
/** A use that looks at what is drawn, which no host changes: given both places it runs on the site alone. */
export const look = (name, run, options = {}) => use(name, run, { ...options, drawn: true });

/** Set by whoever runs the uses: a folder for pictures, or null. */
export const looks = { pictures: null };

export const field = (page) => page.locator('#field');
export const rail = (page, key) => page.locator(`button.rail[data-key="${key}"]`);
const VERDICTS = ['short', 'thin', 'over', 'unproven', 'met', 'no-figure'];
/** What the rail says; folded groups are opened where it is not to be seen. */
export async function verdictOf(page, key) {
  const folded = page.locator('.folded:not([open]) summary');
  while ((await rail(page, key).count()) === 0 && (await folded.count()) > 0) await folded.first().click();
  return (await rail(page, key).getAttribute('class')).split(' ').find((c) => VERDICTS.includes(c));
}

export async function open(page, address) {
  await page.goto(address);
  await page.locator('.rails button.rail').first().waitFor();
  await settled(page);
}

const still = (page, what) =>
  page.waitForFunction((names) => names.every((n) => document.documentElement.dataset[n] === 'still'), what, { polling: 20 });
/** Until the core has answered and what it said is drawn. */
export const answered = (page) => still(page, ['core']);
/** Until, besides, what was written is kept. */
export const settled = (page) => still(page, ['core', 'kept']);

export async function write(page, text) {
  await field(page).fill(text);
  await answered(page);
}

export async function picture(page, name, fullPage = false) {
  if (looks.pictures) await page.screenshot({ path: join(looks.pictures, `${name}.png`), fullPage });
}

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Pages that need not be looked at for this once more: the same ones have been, on another host. */
export const lookedAt = new WeakSet();

export async function accessible(page, where) {
  if (lookedAt.has(page)) return;
  // Playwright's evaluate is not bound by the page's content policy, so that axe can be put in without loosening it.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe);
  const found = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }));
  const words = found.violations.map((v) => `${v.id}: ${v.help}: ${v.nodes.slice(0, 2).map((n) => `${n.html.slice(0, 160)} ${n.any[0]?.message ?? ''}`).join(' | ')}`);
  assert.deepEqual(words, [], `axe-core in ${where}`);
}

/** Until a condition that takes time to find out holds. (Playwright's waitForFunction takes the promise of an async function for a
 * yes and does not wait at all.) */
export async function until(page, condition, argument) {
  while (!(await page.evaluate(condition, argument))) await page.waitForTimeout(50);
}

/** Begins 'act' and clicks a button of its search as soon as it is there: a search may be over within the time that a slow hand takes. */
export async function quickly(page, act, button, orElse = null) {
  await page.evaluate((name) => {
    globalThis.clicked = undefined;
    const look = () => {
      const b = [...document.querySelectorAll('.working button')].find((x) => x.innerText === name);
      if (!b) return;
      seen.disconnect();
      globalThis.clicked = document.querySelector('.working').innerText;
      b.click();
    };
    const seen = new MutationObserver(look);
    seen.observe(document.body, { subtree: true, childList: true, characterData: true });
  }, button);
  await act();
  await page.waitForFunction((other) => globalThis.clicked !== undefined || (other && document.querySelector(other)), orElse);
  return page.evaluate(() => globalThis.clicked ?? null);
}

/** Until a service worker has all files and answers for this page. */
export async function keptOffline(page) {
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
}

/** Puts text on the clipboard's way into the field, as a paste does. */
export async function paste(page, text) {
  await field(page).evaluate((f, t) => {
    f.focus();
    f.select();
    const data = new DataTransfer();
    data.setData('text/plain', t);
    if (f.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }))) document.execCommand('insertText', false, t);
  }, text);
}

/** Opens another text by its title. */
export async function show(page, title) {
  await page.locator('select.title').selectOption({ label: title });
  await answered(page);
}
