// The page's speed in Debian's Chromium, and the WebAssembly core against the native one on the same calls.
// Usage: node bench/page.mjs SITE CORE_WASM LIBRARY NATIVE_BENCH
// Times are medians and 95th percentiles in milliseconds on whatever machine this is; the ratio is what matters.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync } from 'node:zlib';
import { openBrowser } from '../page/tests/browser.mjs';
import { host } from '../page/tests/site.mjs';
import { filesOf, LATER, sent } from '../page/tests/weight.mjs';

const [site, wasmPath, libraryPath, native] = process.argv.slice(2);
const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const at = (sorted, p) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * p))];
const stats = (ms) => {
  const sorted = [...ms].sort((a, b) => a - b);
  return `median ${at(sorted, 0.5).toFixed(2)}  95th ${at(sorted, 0.95).toFixed(2)}`;
};

// ---- bytes ------------------------------------------------------------------------------------------------------------
const files = filesOf(site);
for (const [words, of] of [['first load, until the first answer', (f) => !LATER.test(f)], ['all files', () => true]]) {
  let [raw, gzip, brotli] = [0, 0, 0];
  for (const f of files.filter(of)) {
    const bytes = readFileSync(join(site, f));
    raw += bytes.length;
    gzip += sent(bytes);
    brotli += Math.min(bytes.length, brotliCompressSync(bytes).length);
  }
  console.log(`${words}: ${raw} bytes as stored, ${gzip} gzip, ${brotli} brotli`);
}

// ---- the core alone ---------------------------------------------------------------------------------------------------
const instance = await WebAssembly.instantiate(await WebAssembly.compile(readFileSync(wasmPath)), {
  wasi_snapshot_preview1: new Proxy({}, { get: () => () => 8 }),
  page: { go_on: () => 1 },
});
const c = instance.exports;
c._initialize();
const put = (bytes) => {
  const p = c.bw_alloc(Math.max(1, bytes.length));
  new Uint8Array(c.memory.buffer, p, bytes.length).set(bytes);
  return [p, bytes.length];
};
const text = (t) => put(new TextEncoder().encode(t));
c.bw_open(...put(readFileSync(libraryPath)));
c.bw_ask(...put(readFileSync(join(root, 'examples/saltmarsh.animals'))), ...text('today=2026-11-25'));
const recipe = put(readFileSync(join(root, 'examples/weeknight-bowl.recipe')));
const words = text('lamb should');
const numbers = text('numbers-only');
const five = text('line=5\nmost=8');
const none = text('');
const calls = {
  numbers: [200, () => c.bw_page(...recipe, ...numbers)],
  review: [100, () => c.bw_page(...recipe, ...none)],
  foods: [200, () => c.bw_foods(...words, 12)],
  swap: [10, () => c.bw_swap(...recipe, ...five)],
  mend: [2, () => c.bw_mend(...recipe, ...none, ...none)],
};
const nativeMs = Object.fromEntries(
  execFileSync(native, [libraryPath, join(root, 'examples')]).toString().trim().split('\n').map((l) => l.split(' ')),
);
for (const [name, [times, call]] of Object.entries(calls)) {
  for (let i = 0; i < Math.min(times, 20); i++) call();
  const ms = [];
  for (let i = 0; i < times; i++) {
    const t = performance.now();
    call();
    ms.push(performance.now() - t);
  }
  ms.sort((a, b) => a - b);
  const ratio = at(ms, 0.5) / Number(nativeMs[name]);
  console.log(`core ${name.padEnd(8)} wasm ${stats(ms)}  native median ${Number(nativeMs[name]).toFixed(2)}  ratio ${ratio.toFixed(2)}`);
}

// ---- in the browser ---------------------------------------------------------------------------------------------------
const served = await host(site);
const browser = await openBrowser(served.address);
try {
  const page = browser.page;
  await page.addInitScript(() => {
    globalThis.shift = 0;
    new PerformanceObserver((all) => {
      for (const e of all.getEntries()) if (!e.hadRecentInput) globalThis.shift += e.value;
    }).observe({ type: 'layout-shift', buffered: true });
    const seen = new MutationObserver(() => {
      if (!document.querySelector('.rails button.rail')) return;
      globalThis.firstRails = performance.now();
      seen.disconnect();
    });
    seen.observe(document, { childList: true, subtree: true });
  });
  const firstRails = async () => {
    await page.locator('.rails button.rail').first().waitFor();
    await page.waitForTimeout(1500);
    return page.evaluate(() => globalThis.firstRails);
  };
  await page.goto(served.address);
  console.log(`first visit, rails drawn after ${(await firstRails()).toFixed(0)} ms`);
  console.log(`first visit, layout shift ${(await page.evaluate(() => globalThis.shift)).toFixed(3)}`);
  await page.reload();
  console.log(`second visit, rails drawn after ${(await firstRails()).toFixed(0)} ms`);
  // From the event until a rail has changed and the page is laid out with it, which is all that the page has to do for the next
  // frame; and until that frame, which waits for the screen's clock (60 a second) as well.
  const measure = (what) =>
    page.evaluate(async (kind) => {
      const nextFrame = () =>
        new Promise((done) =>
          requestAnimationFrame(() => {
            const { port1, port2 } = new MessageChannel();
            port1.onmessage = () => done(performance.now());
            port2.postMessage(0);
          }),
        );
      const rails = document.querySelector('.rails');
      const redrawn = () =>
        new Promise((done) => {
          const m = new MutationObserver(() => {
            m.disconnect();
            rails.getBoundingClientRect();
            done(performance.now());
          });
          m.observe(rails, { characterData: true, childList: true, subtree: true, attributes: true });
        });
      const field = document.getElementById('field');
      const slider = document.querySelector('input.eaten');
      const set = (element, proto, value) => {
        Object.getOwnPropertyDescriptor(proto, 'value').set.call(element, value);
        element.dispatchEvent(new Event('input', { bubbles: true }));
      };
      const ms = { redrawn: [], frame: [] };
      for (let i = 0; i < 60; i++) {
        await new Promise((r) => setTimeout(r, 350));
        const began = performance.now();
        const done = redrawn();
        if (kind === 'slider') set(slider, HTMLInputElement.prototype, String(70 + (i % 50)));
        else set(field, HTMLTextAreaElement.prototype, field.value.replace(/^(\d+) g lamb shoulder/m, (_, n) => `${Number(n) + 1} g lamb shoulder`));
        ms.redrawn.push((await done) - began);
        ms.frame.push((await nextFrame()) - began);
      }
      return ms;
    }, what);
  const GOAL_MS = 16; // one frame
  for (const [kind, words] of [['keystroke', 'keystroke to redrawn rails'], ['slider', 'slider step to redrawn rails']]) {
    const ms = await measure(kind);
    const ratio = at([...ms.redrawn].sort((a, b) => a - b), 0.5) / GOAL_MS;
    console.log(`${words}: ${stats(ms.redrawn)}  median ${ratio.toFixed(2)} of a frame; on the screen ${stats(ms.frame)}`);
  }
  const began = performance.now();
  await page.getByRole('button', { name: 'Mend it' }).click();
  await page.locator('.proposal').waitFor();
  console.log(`mend, from the click to its proposal: ${(performance.now() - began).toFixed(0)} ms (a core of its own is started for it)`);
} finally {
  await browser.close();
  served.close();
}
