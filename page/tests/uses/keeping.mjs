// Keeping: reload, versions, two tabs, one file, no network, a damaged store.
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { accessible, answered, field, keptOffline, open, picture, rail, settled, use, verdictOf, write } from '../person.mjs';

use('everything is there after a reload, and older versions can be brought back', async ({ page, address }) => {
  await open(page, address);
  const first = await field(page).inputValue();
  await write(page, first.replace('600 g', '650 g'));
  await write(page, first.replace('600 g', '700 g'));
  // At once: what was typed a moment ago is not lost either.
  await page.reload();
  await page.locator('.rails button.rail').first().waitFor();
  await settled(page);
  assert.match(await field(page).inputValue(), /700 g lamb shoulder/);
  assert.equal(await page.locator('.notices p').count(), 0);
  await page.locator('.keeping summary').click();
  await page.locator('.versions button').last().click();
  await settled(page);
  assert.match(await field(page).inputValue(), /600 g lamb shoulder/);
  assert.equal(await page.locator('select.title option').count(), 8);
});

use('after the first visit it works without a network', async ({ page, context, address, site }) => {
  await open(page, address);
  await keptOffline(page);
  site.close();
  await context.setOffline(true);
  await page.reload();
  await page.locator('.rails button.rail').first().waitFor();
  await settled(page);
  assert.ok((await page.locator('button.rail.short').count()) >= 2);
  await context.setOffline(false);
}, { on: 'site', ownSite: true, mayComplain: /ERR_CONNECTION_REFUSED|ERR_INTERNET_DISCONNECTED|Failed to fetch|update/ });

use('a damaged store loses only what is damaged', async ({ page, address }) => {
  await open(page, address);
  await page.evaluate(
    () =>
      new Promise((done, fail) => {
        const opening = indexedDB.open('bowlwright');
        opening.onsuccess = () => {
          const t = opening.result.transaction('texts', 'readwrite');
          t.objectStore('texts').put({ id: 'broken', kind: 'recipe', body: 17 });
          t.objectStore('texts').put({ id: 'strange' });
          t.oncomplete = () => (opening.result.close(), done());
          t.onerror = fail;
        };
      }),
  );
  await page.reload();
  await page.locator('.rails button.rail').first().waitFor();
  assert.match(await page.locator('.notices').innerText(), /2 stored texts are damaged/);
  assert.equal(await page.locator('select.title option').count(), 8);
}, { on: 'site' });

use('two tabs never write over each other unseen', async ({ page, context, address }) => {
  await open(page, address);
  const other = await context.newPage();
  await open(other, address);
  await write(page, 'Recipe: Seen\nFor: Juniper\n\n300 g beef heart');
  await settled(page);
  await other.waitForFunction(() => document.getElementById('field').value.includes('Recipe: Seen'), null, { polling: 20 });
  assert.match(await field(other).inputValue(), /Recipe: Seen/, 'a quiet tab follows');
  // Both write before either has saved.
  await Promise.all([
    field(page).fill('Recipe: Mine\nFor: Juniper\n\n310 g beef heart'),
    field(other).fill('Recipe: Theirs\nFor: Juniper\n\n320 g beef heart'),
  ]);
  await Promise.all([settled(page), settled(other)]);
  const asked = [];
  for (const p of [page, other]) if (/changed elsewhere/.test((await p.locator('.notices').allInnerTexts()).join())) asked.push(p);
  assert.equal(asked.length, 1, 'one of the two is asked');
  const loser = asked[0];
  const mine = `${await field(loser).inputValue()}\n# written on before it is answered`;
  await field(loser).fill(mine);
  await settled(loser);
  const drafts = await loser.evaluate(() => Object.keys(localStorage).filter((k) => k.startsWith('bowlwright.draft')).map((k) => localStorage.getItem(k)).join());
  assert.match(drafts, /before it is answered/, 'a browser that is ended the hard way takes nothing along');
  // Not even when the page is closed over the question.
  await loser.reload();
  await loser.locator('.notices').getByText(/changed elsewhere/).waitFor();
  await settled(loser);
  assert.equal(await field(loser).inputValue(), mine, 'what was written is still there');
  await picture(loser, 'two-tabs');
  await loser.getByRole('button', { name: /Take theirs/ }).click();
  await settled(loser);
  assert.notEqual(await field(loser).inputValue(), mine);
  assert.ok((await loser.locator('select.title').innerText()).match(/Mine|Theirs/g).length >= 2, 'both texts are kept');
}, { mayComplain: /412/ });

use('one file takes everything along', async ({ page, address }) => {
  await open(page, address);
  await write(page, 'Recipe: Taken along\nFor: Juniper\n\n300 g beef heart');
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'export all' }).click()]);
  const path = join(mkdtempSync(join(tmpdir(), 'bowlwright-export-')), 'all.json');
  await download.saveAs(path);
  const bundle = JSON.parse(readFileSync(path, 'utf8'));
  assert.equal(bundle.bowlwright, 1);
  assert.equal(bundle.texts.length, 8);
  await write(page, 'Recipe: Changed since\nFor: Juniper\n\n300 g beef heart');
  await page.locator('input[type=file]').setInputFiles(path);
  await settled(page);
  assert.match(await field(page).inputValue(), /Taken along/);
  await page.locator('.keeping summary').click();
  assert.match(await page.locator('.versions').innerText(), /Changed since/);
  writeFileSync(path, '{"bowlwright":1,"texts":[{"id":7}]}');
  await page.locator('input[type=file]').setInputFiles(path);
  await settled(page);
  assert.match(await page.locator('.notices').innerText(), /no text that can be read/);
  rmSync(dirname(path), { recursive: true });
});

use('without its core the page says so and keeps what is written', async ({ page, address }) => {
  await page.route(/\.wasm$/, (r) => r.abort());
  await page.goto(address);
  await page.locator('.trouble').waitFor();
  await field(page).fill('Recipe: Kept all the same\n');
  await settled(page);
  await page.unroute(/\.wasm$/);
  await page.reload();
  await page.locator('#field').waitFor();
  await settled(page);
  assert.match(await field(page).inputValue(), /Kept all the same/);
}, { mayComplain: /ERR_FAILED|Failed to load|Failed to fetch|registration blocked/, serviceWorkers: 'block' });

use('without room in the browser the page says so, and saves when there is room again', async ({ page, address }) => {
  await open(page, address);
  // A browser whose disk is full refuses the write with this error, be it at once or at the end.
  const full = (yes) =>
    page.evaluate((refuse) => {
      globalThis.put ??= IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = refuse
        ? function () {
            throw new DOMException('no room', 'QuotaExceededError');
          }
        : globalThis.put;
    }, yes);
  await full(true);
  const long = `Recipe: Too much\nFor: Juniper\n\n300 g beef heart\n${'# much to say about it\n'.repeat(400)}`;
  await write(page, long);
  await page.locator('.notices').getByText(/no room left/).waitFor();
  await settled(page);
  assert.match(await page.locator('.keeping').innerText(), /Not kept yet/);
  assert.equal(await field(page).inputValue(), long);
  await full(false);
  await page.locator('.notices').getByText(/no room left/).waitFor({ state: 'hidden' });
  await settled(page);
  assert.match(await page.locator('.keeping').innerText(), /Kept in this browser/);
  await page.reload();
  await page.locator('#field').waitFor();
  await settled(page);
  assert.equal(await field(page).inputValue(), long);
}, { on: 'site' });

use('a text that is removed elsewhere while it is open can be brought back', async ({ page, context, address }) => {
  await open(page, address);
  await write(page, 'Recipe: Left open\nFor: Juniper\n\n300 g beef heart');
  await settled(page);
  const other = await context.newPage();
  await open(other, address);
  await other.getByRole('button', { name: 'remove' }).click();
  await page.locator('.notices').getByText(/open here was removed elsewhere/).waitFor();
  assert.doesNotMatch(await field(page).inputValue(), /Left open/);
  await page.getByRole('button', { name: 'Bring it back' }).click();
  await settled(page);
  assert.match(await field(page).inputValue(), /Left open/);
});

use('a text that is removed while somebody writes it is not lost', async ({ page, context, address }) => {
  await open(page, address);
  const other = await context.newPage();
  await open(other, address);
  // The save of the one who writes comes after the removal, before it, or in between: each has its own question.
  await field(page).fill('Recipe: Written on\nFor: Juniper\n\n300 g beef heart');
  await other.getByRole('button', { name: 'remove' }).click();
  await Promise.all([settled(page), settled(other)]);
  const whileWriting = page.locator('.notices').getByText(/was removed elsewhere while you wrote/);
  const whileOpen = page.locator('.notices').getByText(/open here was removed elsewhere/);
  const refused = other.locator('.notices').getByText(/Not removed: the text was changed elsewhere/);
  await Promise.any([whileWriting.waitFor(), whileOpen.waitFor(), refused.waitFor()]);
  if (await whileOpen.isVisible()) await page.getByRole('button', { name: 'Bring it back' }).click();
  await settled(page);
  assert.match(await field(page).inputValue(), /Written on/, 'the page shows it');
  if (await whileWriting.isVisible()) await page.getByRole('button', { name: 'Keep mine' }).click();
  await settled(page);
  await page.reload();
  await page.locator('#field').waitFor();
  await settled(page);
  assert.match((await page.locator('select.title').innerText()), /Written on/, 'and it is kept');
}, { mayComplain: /412/ });

use('a clock that is set back does not stop the keeping of versions', async ({ page, address }) => {
  await open(page, address);
  await write(page, 'Recipe: Before noon\nFor: Juniper\n\n300 g beef heart');
  await settled(page);
  // Two minutes pass, in which the clock on the wall is set back by an hour.
  await page.evaluate(() => {
    const [wall, steady] = [Date.now, performance.now.bind(performance)];
    Date.now = () => wall() - 3_600_000;
    performance.now = () => steady() + 120_000;
  });
  await write(page, 'Recipe: At eleven again\nFor: Juniper\n\n310 g beef heart');
  await settled(page);
  await page.locator('.keeping summary').click();
  await page.locator('.versions').getByText('Before noon').waitFor();
});

use('a browser that keeps nothing says so, and the page works all the same', async ({ page, address }) => {
  await page.addInitScript(() => {
    for (const name of ['indexedDB', 'localStorage'])
      Object.defineProperty(globalThis, name, {
        get() {
          throw new DOMException('The operation is insecure.', 'SecurityError');
        },
      });
  });
  await open(page, address);
  await page.locator('.notices').getByText(/keeps nothing from this page/).waitFor();
  assert.match(await page.locator('.keeping').innerText(), /only until this tab is closed/i);
  await write(page, 'Recipe: Not for long\nFor: Juniper\n\n300 g beef heart');
  await settled(page);
  assert.equal(await page.locator('button.margin').count(), 1);
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'export all' }).click()]);
  assert.match(readFileSync(await download.path(), 'utf8'), /Not for long/);
}, { on: 'site' });
