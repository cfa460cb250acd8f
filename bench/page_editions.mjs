// Two builds of the page in turns: what became faster. Usage: node bench/page_editions.mjs OLD_SITE NEW_SITE [ROUNDS [KEYS]]
//
// The machine's speed drifts, so both are measured within moments of each other, keystroke by keystroke, and the ratio is what matters: of
// the medians, and of the values that a tenth of all stay below, which what else the machine does touches least. Milliseconds.
import { launch, openBrowser } from '../page/tests/browser.mjs';
import { host } from '../page/tests/site.mjs';

const [old, now, rounds = '5', keys = '60'] = process.argv.slice(2);
const at = (all, p) => [...all].sort((a, b) => a - b)[Math.floor((all.length - 1) * p)];

/** When the first rail stands in the document, since the visit began. */
const watchRails = () => {
  const seen = new MutationObserver(() => {
    if (!document.querySelector('.rails button.rail')) return;
    globalThis.firstRails = performance.now();
    seen.disconnect();
  });
  seen.observe(document, { childList: true, subtree: true });
};

async function railsAfter(page) {
  await page.waitForFunction(() => globalThis.firstRails !== undefined);
  await page.waitForTimeout(1200);
  return page.evaluate(() => globalThis.firstRails);
}

/** Until the rails are laid out anew, and until the frame that shows them. */
async function keystroke() {
  const field = document.getElementById('field');
  const rails = document.querySelector('.rails');
  const set = Object.getOwnPropertyDescriptor(HTMLTextAreaElement.prototype, 'value').set;
  const frame = () =>
    new Promise((done) =>
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => done(performance.now());
        port2.postMessage(0);
      }),
    );
  const began = performance.now();
  const redrawn = new Promise((done) => {
    const m = new MutationObserver(() => {
      m.disconnect();
      rails.getBoundingClientRect();
      done(performance.now());
    });
    m.observe(rails, { characterData: true, childList: true, subtree: true, attributes: true });
  });
  set.call(field, field.value.replace(/^(\d+) g lamb shoulder/m, (_, k) => `${Number(k) + 1} g lamb shoulder`));
  field.dispatchEvent(new Event('input', { bubbles: true }));
  const laidOut = (await redrawn) - began;
  return [laidOut, (await frame()) - began];
}

const PARTS = { TaskDuration: 'all', ScriptDuration: 'script', LayoutDuration: 'layout', RecalcStyleDuration: 'style' };
const took = [{}, {}];
const add = (k, what, x) => (took[k][what] ??= []).push(x);

async function visit(browser, address, k) {
  const opened = await openBrowser(address, {}, browser);
  await opened.page.addInitScript(watchRails);
  await opened.page.goto(address);
  add(k, 'first visit, rails drawn', await railsAfter(opened.page));
  await opened.page.reload();
  add(k, 'second visit, rails drawn', await railsAfter(opened.page));
  return opened;
}

async function type({ page, cdp }, k, counted) {
  const metrics = async () => Object.fromEntries((await cdp.send('Performance.getMetrics')).metrics.map((m) => [m.name, m.value * 1000]));
  const before = await metrics();
  const [laidOut, shown] = await page.evaluate(keystroke);
  await page.waitForTimeout(REST_MS);
  const after = await metrics();
  if (!counted) return;
  add(k, 'keystroke to rails laid out', laidOut);
  add(k, 'keystroke to the frame that shows them', shown);
  for (const [name, words] of Object.entries(PARTS)) add(k, `work of the page's thread for it, ${words}`, after[name] - before[name]);
}

async function mend({ page }, k) {
  const began = performance.now();
  await page.getByRole('button', { name: 'Mend it' }).click();
  await page.locator('.proposal').waitFor();
  add(k, 'mend, click to proposal', performance.now() - began);
}

/* Longer than the page waits before it asks for the written review. */
const REST_MS = 260;
const WARM = 12;
const browser = await launch();
const sites = [await host(old), await host(now)];
const inTurns = async (i, what) => {
  for (const k of i % 2 === 0 ? [0, 1] : [1, 0]) await what(k);
};
for (let round = 0; round < Number(rounds); round++) {
  const open = [];
  await inTurns(round, async (k) => (open[k] = await visit(browser, sites[k].address, k)));
  if (round === 0) {
    for (const o of open) {
      o.cdp = await o.context.newCDPSession(o.page);
      await o.cdp.send('Performance.enable', { timeDomain: 'threadTicks' });
    }
    for (let i = 0; i < WARM + Number(keys); i++) await inTurns(i, (k) => type(open[k], k, i >= WARM));
  }
  await inTurns(round, (k) => mend(open[k], k));
  for (const o of open) await o.close();
}
await browser.close();
for (const s of sites) s.close();
console.log('| what | before | after | ratio | a tenth stays below: before | after | ratio |\n| --- | --- | --- | --- | --- | --- | --- |');
for (const what of Object.keys(took[0])) {
  const row = [0.5, 0.1].flatMap((p) => {
    const [a, b] = took.map((t) => at(t[what], p));
    return [a.toFixed(1), b.toFixed(1), (b / a).toFixed(2)];
  });
  console.log(`| ${what} | ${row.join(' | ')} |`);
}
