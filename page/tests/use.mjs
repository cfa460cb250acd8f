// The page as people use it, in a real browser.
// Usage: node use.mjs [SITE] [--serve PROGRAM] [--pictures FOLDER] [--only WORDS]
//
// SITE is the built folder, put on a plain file host; PROGRAM is a bowlwright with "serve", which gives out SITE too, or
// the page that is built into it when there is no SITE. Given both, every use runs on each,
// but for those that look at what is drawn ("look").
// WORDS: uses whose name holds them; several are parted by |.
// Each use starts with an empty browser and an empty store. After each, the console must be free of errors and no other
// origin may have been asked.
import assert from 'node:assert/strict';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { chromiumPath, launch, openBrowser } from './browser.mjs';
import { lookedAt, looks, uses } from './person.mjs';
import { serve } from './serve.mjs';
import { host } from './site.mjs';
import './uses/writing.mjs';
import './uses/reading.mjs';
import './uses/changing.mjs';
import './uses/keeping.mjs';
import './uses/served.mjs';
import './uses/places.mjs';
import './uses/trust.mjs';
import './uses/jobs.mjs';
import './uses/undoing.mjs';
import './uses/editions.mjs';
import './uses/sheet.mjs';
import './uses/days.mjs';

const given = process.argv.slice(2);
const option = (name) => (given.includes(name) ? given[given.indexOf(name) + 1] : null);
const site = given[0]?.startsWith('--') ? null : given[0];
const program = option('--serve');
const only = option('--only');
const TOGETHER = 2;
const COPIES = /clipboard-/;
const SECOND_TRIES = 3;
looks.pictures = option('--pictures');
if (looks.pictures) mkdirSync(looks.pictures, { recursive: true });
if (!chromiumPath()) throw new Error('no chromium: tools/setup.sh test installs it');

const runs = [
  ...uses.filter(({ options }) => site && options.on !== 'serve').map((u) => ({ ...u, on: 'site' })),
  ...uses.filter(({ options }) => program && options.on !== 'site' && !(site && options.drawn)).map((u) => ({ ...u, on: 'serve' })),
].filter((u) => !only || only.split('|').some((words) => u.name.includes(words)));

const browser = await launch();
const shared = site ? await host(site) : null;
const failed = [];

/** True when it went well. */
async function perform({ name, run, options, on }, words = '') {
  const { on: _on, drawn: _drawn, ownSite, mayComplain, ...browserOptions } = options;
  const began = Date.now();
  const place = on === 'serve' ? await serve(program, site ? ['--page', site] : []) : ownSite ? await host(site) : shared;
  const opened = await openBrowser(place.address, browserOptions, browser);
  if (site && on === 'serve' && options.on !== 'serve') lookedAt.add(opened.page);
  try {
    opened.context.setDefaultTimeout(30000);
    await run({ ...opened, site: place, address: place.address, on });
    assert.deepEqual(opened.complaints.filter((c) => !mayComplain?.test(c)), [], 'the console is clean');
    console.log(`ok   ${on}: ${name}${words} (${((Date.now() - began) / 1000).toFixed(1)} s)`);
    return true;
  } catch (e) {
    console.log(`FAIL ${on}: ${name}${words}\n     ${String(e.message).split('\n').slice(0, 12).join('\n     ')}`);
    if (looks.pictures) await opened.page.screenshot({ path: join(looks.pictures, `fail-${failed.length}.png`) }).catch(() => {});
    return false;
  } finally {
    await opened.close();
    if (place !== shared) await place.close();
  }
}

const began = Date.now();
const waiting = [...runs];
/* All pages of a browser share one clipboard: of those that copy only one is at work at a time. */
let copying = null;
const next = async () => {
  const at = waiting.findIndex(({ run }) => !copying || !COPIES.test(run));
  if (at < 0) await copying;
  return waiting.splice(Math.max(at, 0), 1)[0];
};
await Promise.all(
  Array.from({ length: TOGETHER }, async () => {
    while (waiting.length > 0) {
      const one = await next();
      if (!one) continue;
      const done = perform(one);
      if (COPIES.test(one.run)) copying = done.finally(() => (copying = null));
      if (!(await done)) failed.push(one);
    }
  }),
);
// A browser that waits for a busy machine misses its time now and then: a few may try once more, alone. More are a fault.
let wrong = failed.length;
if (wrong <= SECOND_TRIES) for (const again of failed) if (await perform(again, ', second try')) wrong--;
await browser.close();
shared?.close();
console.log(`${runs.length - wrong} of ${runs.length} uses in ${((Date.now() - began) / 1000).toFixed(0)} s`);
process.exit(wrong > 0 || runs.length === 0 ? 1 : 0);
