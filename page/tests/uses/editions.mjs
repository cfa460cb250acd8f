// Editions: what is offline is the whole site, a later edition arrives, pages left open meanwhile go on, copies do not meet.
import assert from 'node:assert/strict';
import { cpSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { field, keptOffline, open, settled, until, use, write } from '../person.mjs';
import { laterEdition } from '../site.mjs';
import { LATER } from '../weight.mjs';

const OFFLINE = /ERR_CONNECTION_REFUSED|ERR_CONNECTION_RESET|ERR_INTERNET_DISCONNECTED|Failed to fetch|update/;

const edition = (page) => page.evaluate(() => document.querySelector('meta[name="edition"]')?.content ?? 'first');
async function reopened(page) {
  await page.reload();
  await page.locator('.rails button.rail').first().waitFor();
  await settled(page);
}

use('every file of the site is there without a network', async ({ page, address, site }) => {
  await open(page, address);
  await keptOffline(page);
  const kept = await page.evaluate(async () => {
    const all = await Promise.all((await caches.keys()).map(async (name) => (await (await caches.open(name)).keys()).map((r) => new URL(r.url).pathname)));
    return all.flat();
  });
  const files = readdirSync(site.folders['/'], { recursive: true, withFileTypes: true })
    .filter((f) => f.isFile() && f.name !== 'sw.js')
    .map((f) => (f.name === 'index.html' ? '/' : `${(f.parentPath ?? f.path).slice(site.folders['/'].length)}/${f.name}`));
  assert.ok(files.length > 5);
  assert.deepEqual(kept.sort(), files.sort());
}, { on: 'site', ownSite: true });

use('a first visit fetches the first parts alone, and a core goes on with the whole when it is asked for more', async ({ page, address, context }) => {
  const fetched = [];
  context.on('request', (r) => fetched.push(new URL(r.url()).pathname));
  await open(page, address);
  assert.ok(fetched.some((f) => /\.first-.*\.wasm$/.test(f)) && fetched.some((f) => /\.near-.*\.packed$/.test(f)));
  assert.deepEqual(fetched.filter((f) => LATER.test(f)), [], 'nothing of what comes later');
  const worker = fetched.find((f) => /worker-.*\.js$/.test(f));
  // A worker that has begun with the first module is asked for what only the whole one can do, and then again for what both can.
  const told = await page.evaluate(async ([url, household]) => {
    const core = new Worker(url, { type: 'module' });
    let heard = () => undefined;
    core.onmessage = ({ data }) => 'id' in data && heard(data);
    const ask = (id, call, args) => new Promise((done) => ((heard = done), core.postMessage({ id, call, args, question: { animals: household, own: [], asked: { today: '2026-11-25' } } })));
    const page = ['Recipe: A\nFor: Moss\n\n300 g beef heart', { eaten: 1 }];
    const all = [await ask(1, 'page', page), await ask(2, 'foods', ['beef heart', 5]), await ask(3, 'page', page)];
    core.terminate();
    return all;
  }, [worker, readFileSync(new URL('../../../examples/saltmarsh.animals', import.meta.url), 'utf8')]);
  assert.ok(JSON.parse(told[1].answer).answer.foods.length > 0, told[1].failed ?? '');
  assert.ok(JSON.parse(told[0].answer).answer.check.animal.name === 'Moss');
  assert.equal(told[2].answer, told[0].answer, 'the same answer from both');
  assert.ok(fetched.some((f) => /bowlwright-[^/]*\.wasm$/.test(f)), 'the whole module came for it');
}, { on: 'site', ownSite: true, serviceWorkers: 'block', mayComplain: /registration blocked/ });

use('a later edition arrives with the next visit, and a page left open goes on', async ({ page, context, address, site }) => {
  const later = laterEdition(site.folders['/']);
  const third = laterEdition(site.folders['/'], 'third');
  try {
    await open(page, address);
    await keptOffline(page);
    site.folders['/'] = later;
    const other = await context.newPage();
    await open(other, address);
    assert.equal(await edition(other), 'later', 'it arrives');
    // Until the later worker has taken over from the first one.
    await until(other, async () => {
      const there = await navigator.serviceWorker.getRegistration();
      return (await caches.keys()).some((n) => n.endsWith('later')) && there.active?.state === 'activated' && !there.installing && !there.waiting;
    });
    // The page that was left open needs files only now that the host does not have any more: mending has a worker of its own.
    assert.equal(await edition(page), 'first');
    await page.getByRole('button', { name: 'Mend it' }).click();
    await page.locator('.proposal').waitFor({ timeout: 60000 });
    await page.getByRole('button', { name: 'Keep these changes' }).click();
    // Of the editions only the last two are kept.
    site.folders['/'] = third;
    await other.reload();
    await until(other, async () => (await caches.keys()).some((n) => n.endsWith(' third')) && (await caches.keys()).length === 2);
    assert.deepEqual((await other.evaluate(() => caches.keys())).map((n) => n.split(' ').at(-1)), ['later', 'third']);
    await write(page, 'Recipe: Across editions\nFor: Juniper\n\n300 g beef heart');
    await settled(page);
    site.close();
    await context.setOffline(true);
    await reopened(page);
    assert.equal(await edition(page), 'third', 'and the last is the one without a network');
    assert.match(await field(page).inputValue(), /Across editions/);
    await context.setOffline(false);
  } finally {
    for (const folder of [later, third]) rmSync(folder, { recursive: true });
  }
}, { on: 'site', ownSite: true, mayComplain: OFFLINE });

use('an index that belongs to another edition is not kept', async ({ page, address, site }) => {
  // Half of an upload: the worker is the later one already, the index still the first.
  const later = laterEdition(site.folders['/']);
  try {
    await open(page, address);
    await keptOffline(page);
    cpSync(join(site.folders['/'], 'index.html'), join(later, 'index.html'));
    site.folders['/'] = later;
    const failed = await page.evaluate(async () => {
      const there = await navigator.serviceWorker.getRegistration();
      const found = new Promise((done) => there.addEventListener('updatefound', () => done(there.installing)));
      await there.update().catch(() => undefined);
      const worker = await found;
      while (worker.state === 'installing') await new Promise((done) => worker.addEventListener('statechange', done, { once: true }));
      return worker.state;
    });
    assert.equal(failed, 'redundant');
  } finally {
    rmSync(later, { recursive: true });
  }
}, { on: 'site', ownSite: true, mayComplain: /another edition/ });

use('two copies under paths of one host leave each other alone', async ({ page, context, address, site }) => {
  const later = laterEdition(site.folders['/']);
  try {
    site.folders = { '/home/api/first/': site.folders['/'], '/home/later/': later };
    await open(page, `${address}home/api/first/`);
    await keptOffline(page);
    const other = await context.newPage();
    await open(other, `${address}home/later/`);
    await keptOffline(other);
    site.close();
    await context.setOffline(true);
    for (const [p, wanted] of [[page, 'first'], [other, 'later']]) {
      await reopened(p);
      assert.equal(await edition(p), wanted);
    }
    await context.setOffline(false);
  } finally {
    rmSync(later, { recursive: true });
  }
}, { on: 'site', ownSite: true, mayComplain: OFFLINE });
