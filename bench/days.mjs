// Twenty years of daily entries of ten animals on the page: opened, written in, another animal chosen. Usage: node bench/days.mjs SITE
// Told are the waits that a person sees (from the letter, the key or the click until the page is laid out anew), the longest time
// for which the page's own thread answered nothing, and what a bare drawing of as many points takes in the same browser: one path
// of SVG with a point a day of one animal, put into an empty page and laid out.
import { openBrowser } from '../page/tests/browser.mjs';
import { host } from '../page/tests/site.mjs';

const [site] = process.argv.slice(2);
const [ANIMALS, YEARS] = [10, 20];
const NAMES = Array.from({ length: ANIMALS }, (_, i) => `Dog${i + 1}`);
const DAY_MS = 86_400_000;
const today = Math.floor(Date.now() / DAY_MS);
const date = (d) => new Date(d * DAY_MS).toISOString().slice(0, 10);

/** Fed every day, weighed once a week, now and then a leftover, a day that nobody wrote down. */
function journal() {
  const lines = [];
  for (let d = 365 * YEARS; d >= 1; d--)
    NAMES.forEach((name, a) => {
      const unlike = (d * 7 + a * 13) % 97;
      if (unlike === 96) return;
      if (d % 7 === a % 7) lines.push(`${date(today - d)} ${name} weighs ${(12 + 2 * a + ((d * 31 + a) % 9) / 20).toFixed(2)} kg`);
      lines.push(`${date(today - d)} ${name} ate ${400 + (unlike % 5) * 10} g Weeknight bowl${unlike % 7 === 0 ? '; 100 g cod, raw' : ''}`);
      if (unlike % 11 === 0) lines.push(`${date(today - d)} ${name} left ${10 + (unlike % 3) * 10} g`);
    });
  return lines;
}
const animals = NAMES.map((n, a) => `Animal: ${n}\nSpecies: dog\nBorn: ${date(today - 365 * 6)}\nWeight: ${12 + 2 * a} kg\nNeutered: yes\n`).join('\n');

const served = await host(site);
const browser = await openBrowser(served.address);
const { page } = browser;
const stats = (ms) => {
  const sorted = [...ms].sort((a, b) => a - b);
  return `median ${sorted[Math.floor(sorted.length / 2)].toFixed(0)}  most ${sorted.at(-1).toFixed(0)} ms`;
};
const BUSY_AFTER_MS = 700;
/** Until 'ready' holds after 'act', with the longest time for which the page's thread was busy meanwhile. */
const wait = (act, ready, ...args) =>
  page.evaluate(
    async ([actSource, readySource, more, after]) => {
      const [doIt, isReady] = [new Function(`return ${actSource}`)(), new Function(`return ${readySource}`)()];
      const channel = new MessageChannel();
      let [busy, last, going] = [0, performance.now(), true];
      channel.port1.onmessage = () => {
        const now = performance.now();
        busy = Math.max(busy, now - last);
        last = now;
        if (going) setTimeout(() => channel.port2.postMessage(0), 0);
      };
      channel.port2.postMessage(0);
      const began = performance.now();
      const was = doIt(...more);
      while (!isReady(was, ...more)) await new Promise((r) => setTimeout(r, 1));
      document.body.getBoundingClientRect();
      const ms = performance.now() - began;
      await new Promise((r) => setTimeout(r, after)); // what follows keeps the thread busy as well
      going = false;
      return { ms, busy, began };
    },
    [String(act), String(ready), args, BUSY_AFTER_MS],
  );
try {
  await page.goto(served.address);
  await page.locator('.rails button.rail').first().waitFor();
  await page.waitForTimeout(2500);
  const lines = journal();
  const body = `${lines.join('\n')}\n`;
  await page.evaluate(
    async ([all, household]) => {
      const db = await new Promise((ok) => (indexedDB.open('bowlwright').onsuccess = (e) => ok(e.target.result)));
      const t = db.transaction('texts', 'readwrite');
      const texts = t.objectStore('texts');
      const list = await new Promise((ok) => (texts.getAll().onsuccess = (e) => ok(e.target.result)));
      for (const text of list) if (text.kind === 'animals') texts.put({ ...text, body: `${text.body}\n${household}` });
      texts.put({ id: 'journal', kind: 'journal', body: all, rev: 1, saved: new Date().toISOString() });
      await new Promise((ok) => (t.oncomplete = ok));
    },
    [body, animals],
  );
  console.log(`${lines.length} lines, ${body.length} bytes, ${ANIMALS} animals, ${YEARS} years`);
  await page.reload();
  await page.locator('.rails button.rail').first().waitFor();
  await page.waitForTimeout(1500);

  const told = (what, t) => console.log(`${what}: ${stats(t.map((x) => x.ms))}; the page's thread busy at most ${stats(t.map((x) => x.busy))}`);
  await page.evaluate(() => {
    globalThis.allRead = (async () => {
      const still = () => document.querySelector('.weight-chart svg') && !document.querySelector('.reading-on') && document.documentElement.dataset.core === 'still';
      while (!still()) await new Promise((r) => setTimeout(r, 5));
      return performance.now();
    })();
  });
  await page.evaluate(() => {
    globalThis.factsSeen = (async () => {
      while (document.querySelectorAll('.facts dd').length <= 5) await new Promise((r) => setTimeout(r, 1));
      return performance.now();
    })();
  });
  const opened = await wait(
    () => document.querySelector('#days summary').click(),
    () => document.querySelectorAll('.facts dd').length > 5 && document.querySelector('.weight-chart svg'),
  );
  console.log(`opened, until the newest days stand there: ${((await page.evaluate(() => globalThis.factsSeen)) - opened.began).toFixed(0)} ms`);
  told('opened, until facts and weight are drawn', [opened]);
  const all = (await page.evaluate(() => globalThis.allRead)) - opened.began;
  console.log(`opened, until everything is read, asked about and drawn: ${all.toFixed(0)} ms`);

  const letters = [];
  const typed = 'Dog3 ate 430 g w';
  for (let i = 1; i <= typed.length; i++)
    letters.push(
      await wait(
        (text) => {
          const input = document.getElementById('entry');
                    input.focus();
          Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(input, text);
          input.dispatchEvent(new Event('input', { bubbles: true }));
          return performance.now();
        },
        /* Asked and answered; a letter that changes nothing is over when nothing was asked within two frames. */
        (at) => performance.now() > at + 34 && document.documentElement.dataset.core === 'still',
        typed.slice(0, i),
      ),
    );
  told('a letter of a new line, until what may come next is drawn', letters);

  const added = [];
  for (let i = 0; i < 5; i++) {
    await page.locator('#entry').fill(`Dog3 weighs ${(16 + i / 10).toFixed(1)} kg`);
    await page.locator('.entry .deed:not([disabled])').waitFor();
    added.push(
      await wait(
        (words) => {
          document.querySelector('.entry .deed').click();
          return words;
        },
        (words) => document.querySelector('.facts').textContent.includes(words),
        `weighs ${(16 + i / 10).toFixed(1)} kg`,
      ),
    );
  }
  told('a line added, until it stands among the facts', added);

  const chosen = [];
  for (const name of NAMES.slice(4, 9))
    chosen.push(
      await wait(
        (to) => {
          const select = document.querySelector('.weight select');
          const was = document.querySelector('.weight .prose')?.textContent;
          select.value = to;
          select.dispatchEvent(new Event('change', { bubbles: true }));
          return was;
        },
        (was, to) => document.querySelector('.weight .prose')?.textContent.startsWith(to),
        name,
      ),
    );
  told('another animal chosen, until its weight is drawn', chosen);

  const bare = await page.evaluate(
    async ([points, rounds]) => {
      const ms = [];
      for (let k = 0; k < rounds; k++) {
        const began = performance.now();
        const holder = document.createElement('div');
        let path = '';
        for (let i = 0; i < points; i++) path += `${i ? 'L' : 'M'}${((100 * i) / points).toFixed(2)} ${(50 + 40 * Math.sin(i / 50)).toFixed(2)}`;
        holder.innerHTML = `<svg viewBox="0 0 100 100" width="600" height="200"><path fill="none" stroke="black" d="${path}"/></svg>`;
        document.body.append(holder);
        holder.getBoundingClientRect();
        await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
        ms.push(performance.now() - began);
        holder.remove();
      }
      return ms;
    },
    [365 * YEARS, 9],
  );
  console.log(`a bare drawing of ${365 * YEARS} points: ${stats(bare)}`);
  const middle = (t) => [...t].sort((a, b) => a - b)[Math.floor(t.length / 2)];
  for (const [what, t] of [['letter', letters], ['line added', added], ['animal chosen', chosen]])
    console.log(`ratio to the bare drawing, ${what}: ${(middle(t.map((x) => x.ms)) / middle(bare)).toFixed(1)}; of the thread's longest: ${(middle(t.map((x) => x.busy)) / middle(bare)).toFixed(1)}`);
} finally {
  await browser.close();
  served.close();
}
