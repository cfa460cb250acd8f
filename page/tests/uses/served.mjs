// Kept by "bowlwright serve": stopped, started anew, without room, with a damaged store, written to by somebody else.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { accessible, answered, field, keptOffline, open, picture, settled, show, use, write } from '../person.mjs';

const REFUSED = /ERR_CONNECTION_REFUSED|ERR_CONNECTION_RESET|ERR_INCOMPLETE_CHUNKED|ERR_EMPTY_RESPONSE|Failed to fetch|Failed to load resource|update/;
const notices = (page) => page.locator('.notices');
const says = (page, words) => notices(page).getByText(words).first().waitFor();
const rest = async (site, page, path, init = {}) =>
  page.evaluate(
    async ([url, given]) => {
      const { token } = await (await fetch('api/token')).json();
      const r = await fetch(url, { ...given, headers: { ...given.headers, 'X-Bowlwright-Token': token } });
      return { status: r.status, body: r.status === 204 ? null : await r.json() };
    },
    [`api/${path}`, init],
  );

use('the program stops and starts anew: nothing that was typed is lost', async ({ page, address, site }) => {
  await open(page, address);
  assert.match(await page.locator('.keeping').innerText(), /Kept by bowlwright on this machine/);
  await site.stop();
  await says(page, /has stopped/);
  await picture(page, 'stopped');
  await accessible(page, 'a stopped server');
  await write(page, 'Recipe: Typed into the void\nFor: Juniper\n\n300 g beef heart');
  assert.match(await page.locator('.ribbon').innerText(), /Juniper eats all of it/, 'it is read all the same');
  await settled(page);
  assert.match(await page.locator('.keeping').innerText(), /Not kept yet/);
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'export all' }).click()]);
  assert.match(readFileSync(await file.path(), 'utf8'), /Typed into the void/);
  await says(page, /not their earlier versions/);
  // Started anew it has another token.
  await site.start();
  await says(page, /answers again/);
  await settled(page);
  assert.match(await page.locator('.keeping').innerText(), /Kept by bowlwright/);
  const { body } = await rest(site, page, 'texts');
  assert.ok(body.texts.some((t) => t.body.startsWith('Recipe: Typed into the void')), 'the store has it');
  assert.equal(body.texts.length, 8, 'and nothing twice');
}, { on: 'serve', mayComplain: REFUSED });

use('the page is opened again while the program is stopped', async ({ page, address, site }) => {
  await open(page, address);
  await keptOffline(page);
  const kept = await page.evaluate(async () => (await (await caches.match('./')).text()).match(/name="bowlwright-token" content="([^"]*)"/)?.[1]);
  assert.equal(kept, '', 'no token is kept with the page');
  await site.stop();
  await write(page, 'Recipe: Still here\nFor: Juniper\n\n300 g beef heart');
  await says(page, /has stopped/);
  await page.reload();
  await page.locator('#field').waitFor();
  await answered(page);
  assert.match(await field(page).inputValue(), /Still here/);
  await says(page, /has stopped/);
  await site.start();
  await says(page, /answers again/);
  await page.reload();
  await page.locator('#field').waitFor();
  await settled(page);
  assert.match(await field(page).inputValue(), /Still here/);
  assert.equal(await notices(page).locator('p').count(), 0);
}, { on: 'serve', mayComplain: REFUSED });

use('killed in the middle of writing', async ({ page, address, site }) => {
  await open(page, address);
  for (let i = 1; i <= 3; i++) {
    await field(page).fill(`Recipe: Round ${i}\nFor: Juniper\n\n${300 + i} g beef heart`);
    await site.stop('SIGKILL');
    await says(page, /has stopped/);
    await site.start();
    await says(page, /answers again/);
    await settled(page);
    const { body } = await rest(site, page, 'texts');
    assert.ok(body.texts.some((t) => t.body.startsWith(`Recipe: Round ${i}\n`)));
  }
}, { on: 'serve', mayComplain: REFUSED });

use('without room on the disk the page says so, and saves when there is room again', async ({ page, context, address, site }) => {
  await open(page, address);
  let full = true;
  await context.route(/\/api\/texts\//, (r) =>
    full && r.request().method() === 'PUT'
      ? r.fulfill({ status: 507, contentType: 'application/json', body: '{"error":"there is no room on the disk","why":"room"}' })
      : r.continue(),
  );
  await write(page, 'Recipe: Too much\nFor: Juniper\n\n300 g beef heart');
  await says(page, /no room left/);
  await picture(page, 'no-room');
  await accessible(page, 'no room');
  full = false;
  await notices(page).getByText(/no room left/).waitFor({ state: 'hidden' });
  await settled(page);
  const { body } = await rest(site, page, 'texts');
  assert.ok(body.texts.some((t) => t.body.startsWith('Recipe: Too much')));
}, { on: 'serve', mayComplain: /507|registration blocked/, serviceWorkers: 'block' });

use('what somebody else writes appears, and meets what is being written', async ({ page, context, address, site }) => {
  // The page's own save is held back until somebody else was faster.
  let go;
  const faster = new Promise((done) => (go = done));
  await context.route(/\/api\/texts\//, async (r) => {
    if (r.request().postData()?.includes('Recipe: Mine')) await faster;
    await r.continue();
  });
  await open(page, address);
  const { body } = await rest(site, page, 'texts');
  const text = body.texts.find((t) => t.body.startsWith('Recipe: Weeknight bowl'));
  const put = (rev, words) =>
    rest(site, page, `texts/${text.id}`, {
      method: 'PUT',
      headers: { 'Content-Type': 'application/json', 'If-Match': `"${rev}"` },
      body: JSON.stringify({ kind: 'recipe', body: `Recipe: ${words}\nFor: Juniper\n\n300 g beef heart`, keep: true }),
    });
  assert.equal((await put(text.rev, 'From elsewhere')).status, 200);
  await page.waitForFunction(() => document.getElementById('field').value.includes('From elsewhere'));
  await field(page).fill('Recipe: Mine\nFor: Juniper\n\n310 g beef heart');
  assert.equal((await put(text.rev + 1, 'Theirs')).status, 200);
  go();
  await says(page, /changed elsewhere/);
  await picture(page, 'conflict');
  await accessible(page, 'a conflict');
  await page.getByRole('button', { name: /Keep mine/ }).click();
  await settled(page);
  assert.match(await field(page).inputValue(), /Recipe: Mine/);
  await page.locator('.keeping summary').click();
  await page.locator('.versions li').first().waitFor();
  assert.match(await page.locator('.versions').innerText(), /Theirs/, 'theirs is an earlier version');
}, { on: 'serve', mayComplain: /412|registration blocked/, serviceWorkers: 'block' });

use('a store that the program cannot read is said in words', async ({ page, context, address }) => {
  await context.route(/\/api\/texts$/, (r) =>
    r.fulfill({ status: 500, contentType: 'application/json', body: '{"error":"the store\'s file is damaged; nothing was changed","why":"damaged"}' }),
  );
  await page.goto(address);
  await says(page, /the store's file is damaged/);
  await picture(page, 'damaged');
  await page.getByRole('button', { name: 'new recipe' }).click();
  await write(page, 'Recipe: All the same\n\n300 g beef heart');
  assert.match(await field(page).inputValue(), /All the same/);
}, { on: 'serve', mayComplain: /500|registration blocked/, serviceWorkers: 'block' });

use('two tabs write while the program is stopped, and are closed: nothing of either is lost', async ({ page, context, address, site }) => {
  await open(page, address);
  await keptOffline(page);
  const other = await context.newPage();
  await open(other, address);
  await show(other, 'Chicken and rice pot');
  await settled(other);
  await site.stop();
  await says(page, /has stopped/);
  await says(other, /has stopped/);
  await write(page, 'Recipe: Of the one tab\nFor: Juniper\n\n300 g beef heart');
  await write(other, 'Recipe: Of the other tab\nFor: Juniper\n\n310 g beef heart');
  // And one text that both write.
  for (const [p, words] of [[page, 'First'], [other, 'Second']]) {
    await show(p, 'Garden stew');
    await write(p, `Recipe: ${words} stew\nFor: Juniper\n\n320 g beef heart`);
    await settled(p);
  }
  await page.close();
  await other.close();
  const later = await context.newPage();
  await later.goto(address);
  await later.locator('#field').waitFor();
  const wanted = ['Of the one tab', 'Of the other tab', 'First stew', 'Second stew'];
  const titles = await later.locator('select.title').innerText();
  for (const title of wanted) assert.ok(titles.includes(title), `${title} is on the page: ${titles}`);
  await site.start();
  await says(later, /answers again/);
  await settled(later);
  const { body } = await rest(site, later, 'texts');
  for (const title of wanted) assert.equal(body.texts.filter((t) => t.body.startsWith(`Recipe: ${title}\n`)).length, 1, `${title} is kept`);
  assert.equal(await later.evaluate(() => Object.keys(localStorage).filter((k) => k.startsWith('bowlwright.draft')).length), 0, 'no draft is left');
}, { on: 'serve', mayComplain: REFUSED });

use('a save whose answer was lost is known again, whatever was typed since', async ({ page, context, address, site }) => {
  await open(page, address);
  // It arrives, the answer does not, and nor do the next tries: the program ends in the middle.
  let lost = 0;
  await context.route(/\/api\/texts\//, async (r) => {
    if (r.request().method() !== 'PUT' || lost >= 3) return r.continue();
    if (lost++ === 0) assert.equal((await r.fetch()).status(), 200);
    await r.abort('connectionreset');
  });
  await write(page, 'Recipe: Answer lost\nFor: Juniper\n\n300 g beef heart');
  await says(page, /has stopped/);
  await write(page, 'Recipe: Answer lost\nFor: Juniper\n\n300 g beef heart\n10 g egg');
  while (lost < 3) await page.waitForTimeout(50);
  await write(page, 'Recipe: Answer lost\nFor: Juniper\n\n300 g beef heart\n20 g egg');
  await says(page, /answers again/);
  await settled(page);
  assert.equal(await notices(page).getByText(/changed elsewhere/).count(), 0, 'nobody else wrote it');
  const { body } = await rest(site, page, 'texts');
  assert.deepEqual(body.texts.filter((t) => t.body.startsWith('Recipe: Answer lost')).map((t) => t.body.endsWith('20 g egg')), [true]);
}, { on: 'serve', mayComplain: /ERR_CONNECTION_RESET|412|registration blocked|Failed to load resource/, serviceWorkers: 'block' });

use('a list of texts that was read before a save does not take the save back', async ({ page, context, address, site }) => {
  await open(page, address);
  // Somebody else changes another text: the page reads the list, whose answer is held back until the page has saved.
  let go;
  const held = new Promise((done) => (go = done));
  let read = false;
  await context.route(/\/api\/texts$/, async (r) => {
    if (read) return r.continue();
    read = true;
    const answer = await r.fetch();
    await held;
    await r.fulfill({ response: answer });
  });
  await rest(site, page, 'texts/of-another', {
    method: 'PUT',
    headers: { 'Content-Type': 'application/json', 'If-Match': '"0"' },
    body: JSON.stringify({ kind: 'recipe', body: 'Recipe: Of another\n', keep: true }),
  });
  while (!read) await page.waitForTimeout(20);
  await write(page, 'Recipe: Saved since\nFor: Juniper\n\n300 g beef heart');
  await page.waitForTimeout(1500); // longer than a save waits, and than the stream of changes needs to tell of it
  go();
  await page.waitForFunction(() => document.querySelector('select.title').innerText.includes('Of another'));
  await settled(page);
  assert.match(await field(page).inputValue(), /Saved since/);
  await write(page, 'Recipe: Saved since, and again\nFor: Juniper\n\n300 g beef heart');
  await settled(page);
  assert.equal(await notices(page).locator('p').count(), 0);
}, { on: 'serve', mayComplain: /registration blocked/, serviceWorkers: 'block' });
