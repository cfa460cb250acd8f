// The page as people use it, in a real browser against the built site. Usage: node use.mjs SITE [--pictures FOLDER] [--only WORDS]
//
// Each use starts with an empty browser. After each, the console must be free of errors and no other origin may have been asked.
import assert from 'node:assert/strict';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromiumPath, openBrowser } from './browser.mjs';
import { host } from './site.mjs';

const [folder, ...rest] = process.argv.slice(2);
const option = (name) => (rest.includes(name) ? rest[rest.indexOf(name) + 1] : null);
const pictures = option('--pictures');
const only = option('--only');
if (pictures) mkdirSync(pictures, { recursive: true });
if (!chromiumPath()) throw new Error('no chromium: tools/setup.sh test installs it');
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const uses = [];
const use = (name, run, options = {}) => uses.push({ name, run, options });

// ---- what a person does ---------------------------------------------------------------------------------------------------

const field = (page) => page.locator('#field');
const rail = (page, key) => page.locator(`button.rail[data-key="${key}"]`);
const verdictOf = async (page, key) =>
  (await rail(page, key).getAttribute('class')).split(' ').find((c) => ['short', 'thin', 'over', 'unproven', 'met', 'no-figure'].includes(c));

async function open(page, address) {
  await page.goto(address);
  await page.locator('.rails button.rail').first().waitFor();
  await settled(page);
}

/** Until the core has answered and the text is kept. */
async function settled(page) {
  await page.waitForTimeout(900);
}

async function write(page, text) {
  await field(page).fill(text);
  await settled(page);
}

async function picture(page, name, fullPage = false) {
  if (pictures) await page.screenshot({ path: join(pictures, `${name}.png`), fullPage });
}

async function accessible(page, where) {
  // Playwright's evaluate is not bound by the page's content policy, so that axe can be put in without loosening it.
  await page.evaluate(axe);
  const found = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }));
  const words = found.violations.map((v) => `${v.id}: ${v.help}: ${v.nodes.slice(0, 2).map((n) => `${n.html.slice(0, 160)} ${n.any[0]?.message ?? ''}`).join(' | ')}`);
  assert.deepEqual(words, [], `axe-core in ${where}`);
}

// ---- uses -----------------------------------------------------------------------------------------------------------------

use('the first visit shows a recipe with real faults, and its reasons', async ({ page, address }) => {
  await open(page, address);
  assert.match(await field(page).inputValue(), /^Recipe: Weeknight bowl/);
  assert.ok((await page.locator('button.rail.short').count()) >= 2);
  assert.match(await page.locator('.reasons').innerText(), /Iodine|iodine/);
  assert.match(await page.locator('.ribbon').innerText(), /Juniper eats all of it: \d+ kcal/);
  await picture(page, 'first', true);
  await accessible(page, 'the first view');
  await page.locator('.folded summary').first().click();
  await accessible(page, 'the first view unfolded');
  await picture(page, 'unfolded', true);
});

use('typing a recipe from nothing', async ({ page, address }) => {
  await open(page, address);
  await page.getByRole('button', { name: 'new', exact: true }).click();
  await field(page).click();
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Recipe: From nothing\nFor: Moss\n\n400 g beef mi');
  await page.locator('.offers li').first().waitFor();
  await picture(page, 'offers');
  assert.match(await page.locator('.offers').innerText(), /beef/i);
  await page.keyboard.press('ArrowDown');
  const offered = await page.locator('.offers li[aria-selected="true"] span').innerText();
  await accessible(page, 'the offers');
  await page.keyboard.press('Enter');
  assert.match(await field(page).inputValue(), new RegExp(`400 g .*(${offered.slice(0, 6)}|\\[)`, 'i'));
  await page.keyboard.type('\n100 g beef liver\n2 tsp sunflower oil');
  await page.keyboard.press('Escape');
  await settled(page);
  assert.equal(await page.locator('button.margin').count(), 3);
  assert.match(await page.locator('.head').innerText(), /dog, 31 kg/);
  assert.match(await page.locator('.ribbon').innerText(), /Moss eats all of it/);
});

use('a post from a forum is read as it stands', async ({ page, address }) => {
  await open(page, address);
  const post = [
    'For: Juniper',
    'Makes: 7 days',
    '',
    '- 2 lb ground turkey, 93% lean, raw weight, simmered',
    '- 1 cup brown rice, cooked',
    '* 1/2 lb chicken liver, raw weight, simmered',
    '• 2 medium carrots, boiled',
    '- 3 large eggs, boiled',
    '- 1 tbsp olive oil',
  ].join('\n');
  await field(page).click();
  await page.keyboard.press('Control+a');
  await page.evaluate((text) => {
    const data = new DataTransfer();
    data.setData('text/plain', text);
    const target = document.getElementById('field');
    if (target.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true })))
      document.execCommand('insertText', false, text);
  }, post);
  await settled(page);
  assert.equal(await field(page).inputValue(), post);
  assert.equal(await page.locator('.complaints li.error').count(), 0, await page.locator('.complaints').allInnerTexts().then(String));
  assert.equal(await page.locator('button.margin').count(), 6);
  assert.equal(await verdictOf(page, 'calcium'), 'short');
});

use('an error underlines the word, says what to type, and is put right by its hint', async ({ page, address }) => {
  await open(page, address);
  const before = await field(page).inputValue();
  await write(page, before.replace('tsp', 'tbs'));
  assert.equal(await page.locator('.letters .error').innerText(), 'tbs');
  assert.match(await page.locator('.complaints li.error').innerText(), /Line 6\. unknown unit 'tbs'; did you mean 'tbsp'\?/);
  assert.match(await page.locator('.reading .stale').innerText(), /without line 6/);
  await picture(page, 'error');
  await accessible(page, 'an error');
  await page.getByRole('button', { name: 'tbsp', exact: true }).click();
  await settled(page);
  assert.match(await field(page).inputValue(), /1 1\/2 tbsp ground hemp seed/);
  assert.equal(await page.locator('.letters .error').count(), 0);
  await field(page).focus();
  await page.keyboard.press('Control+z');
  await settled(page);
  assert.match(await field(page).inputValue(), /tbs ground/, "the browser's own undo knows of it");
});

use('sliding how much is eaten moves everything', async ({ page, address }) => {
  await open(page, address);
  const slider = page.locator('input.eaten');
  const amount = async () => Number.parseFloat(await rail(page, 'zinc').locator('b').innerText());
  const all = await amount();
  const box = await slider.boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + 30);
  await page.mouse.down();
  await page.mouse.move(box.x + 14, box.y + 30, { steps: 12 });
  await page.mouse.up();
  await settled(page);
  const eaten = Number(await slider.inputValue());
  assert.ok(eaten < 65, `slid to ${eaten}`);
  assert.ok(Math.abs((await amount()) / all - eaten / 100) < 0.02, 'zinc follows');
  assert.match(await page.locator('.ribbon').innerText(), new RegExp(`eats ${eaten} % of it: 4\\d\\d kcal`));
  assert.equal(await verdictOf(page, 'zinc'), 'short');
  await picture(page, 'slid');
  await page.getByRole('button', { name: 'all of it' }).click();
  await settled(page);
  assert.equal(await amount(), all);
});

use('a nutrient is chosen, and its chain read down to the table', async ({ page, address }) => {
  await open(page, address);
  await rail(page, 'manganese').click();
  const reasons = page.locator('.reasons');
  assert.match(await reasons.locator('h2').innerText(), /Manganese short/);
  const words = await reasons.innerText();
  assert.match(words, /ground hemp seed/);
  assert.match(words, /per kg\^0\.75/);
  assert.match(words, /NRC 2006, row \d+/);
  await picture(page, 'nutrient');
  await accessible(page, 'a nutrient');
  await reasons.getByRole('button', { name: /ground hemp seed/ }).first().click();
  assert.match(await reasons.locator('h2').innerText(), /ground hemp seed/);
});

use('a line is chosen: what it brings, and another record for it', async ({ page, address }) => {
  await open(page, address);
  await page.locator('button.margin').first().click();
  const reasons = page.locator('.reasons');
  assert.match(await reasons.innerText(), /\[usda:17039\]/);
  await picture(page, 'line');
  await accessible(page, 'a line');
  await reasons.locator('.record summary').click();
  await reasons.locator('.record table').waitFor();
  assert.match(await reasons.locator('.record').innerText(), /measured, usda_sr28/);
  await reasons.locator('.records button').first().click();
  await settled(page);
  assert.match(await field(page).inputValue(), /600 g lamb shoulder, cubed, raw \[usda:17035\]/);
  assert.match(await reasons.innerText(), /named by its pin/);
});

use('everything is there after a reload, and older versions can be brought back', async ({ page, address }) => {
  await open(page, address);
  const first = await field(page).inputValue();
  await write(page, first.replace('600 g', '650 g'));
  await write(page, first.replace('600 g', '700 g'));
  await page.reload();
  await page.locator('.rails button.rail').first().waitFor();
  assert.match(await field(page).inputValue(), /700 g lamb shoulder/);
  await page.locator('.keeping summary').click();
  await page.locator('.versions button').last().click();
  await settled(page);
  assert.match(await field(page).inputValue(), /600 g lamb shoulder/);
  assert.equal(await page.locator('select.title option').count(), 7);
});

use('after the first visit it works without a network', async ({ page, context, address, site }) => {
  await open(page, address);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(async () => (await caches.keys()).length > 0 && navigator.serviceWorker.controller !== null);
  site.close();
  await context.setOffline(true);
  await page.reload();
  await page.locator('.rails button.rail').first().waitFor();
  await settled(page);
  assert.ok((await page.locator('button.rail.short').count()) >= 2);
  await context.setOffline(false);
}, { ownSite: true, mayComplain: /ERR_CONNECTION_REFUSED|ERR_INTERNET_DISCONNECTED|Failed to fetch|update/ });

use('a phone', async ({ page, address }) => {
  await open(page, address);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.equal(wide, 0, 'nothing runs out at the side');
  await picture(page, 'phone', true);
  await accessible(page, 'a phone');
  await rail(page, 'manganese').click();
  await page.waitForTimeout(300);
  assert.ok(await page.locator('.reasons h2').isVisible());
  const top = await page.locator('#reasons').evaluate((e) => e.getBoundingClientRect().top);
  assert.ok(top < 400, `the reasons are brought into view (${top})`);
  await picture(page, 'phone-nutrient');
}, { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 });

use('a dark room', async ({ page, address }) => {
  await open(page, address);
  await rail(page, 'manganese').click();
  await picture(page, 'dark');
  await accessible(page, 'the dark');
}, { colorScheme: 'dark' });

use('by keyboard alone', async ({ page, address }) => {
  await open(page, address);
  const here = () => page.evaluate(() => document.activeElement?.id || document.activeElement?.className || '');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter'); // to the writing
  const seen = [];
  for (let i = 0; i < 60 && !seen.some((s) => s.includes('rail')); i++) {
    await page.keyboard.press('Tab');
    seen.push(await here());
  }
  for (const wanted of ['field', 'margin', 'rail']) assert.ok(seen.some((s) => s.includes(wanted)), `Tab comes by ${wanted}: ${seen}`);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowDown');
  const key = await page.evaluate(() => document.activeElement.dataset.key);
  await page.keyboard.press('Enter');
  assert.equal(await rail(page, key).getAttribute('aria-pressed'), 'true');
  await picture(page, 'keyboard');
  await page.locator('input.eaten').focus();
  for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowLeft');
  assert.equal(await page.locator('input.eaten').inputValue(), '95');
});

use('names with markup are letters, nothing else', async ({ page, address }) => {
  await open(page, address);
  await write(
    page,
    'Recipe: <img src=x onerror=alert(1)> bowl\nFor: Juniper\n\n100 g beef liver # <script>alert(2)</script>\n10 g <b>bold</b> food\n🥩🥩 200 g 🐑 lamb heart\n100 g כבד עוף\n50 g beef heart\u202e',
  );
  assert.equal(await page.locator('main img, main script, main b b').count(), 0);
  assert.match(await page.locator('select.title').innerText(), /<img src=x/);
  assert.ok((await page.locator('.complaints li.error').count()) >= 1);
  await picture(page, 'markup');
});

use('a megabyte by mistake does not stop the page', async ({ page, address }) => {
  await open(page, address);
  const before = await field(page).inputValue();
  const paste = (text) =>
    field(page).evaluate((f, t) => {
      f.focus();
      f.select();
      const data = new DataTransfer();
      data.setData('text/plain', t);
      if (f.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }))) document.execCommand('insertText', false, t);
    }, text);
  await paste('100 g beef heart and then some words 🥩\n'.repeat(26000));
  assert.match(await page.locator('.notices').innerText(), /Nothing was pasted/);
  assert.equal(await field(page).inputValue(), before);
  await paste('Recipe: long\n' + '100 g beef heart and then some words\n'.repeat(250));
  await page.locator('.complaints li').first().waitFor();
  await write(page, 'Recipe: small again\nFor: Juniper\n\n100 g beef heart');
  assert.equal(await page.locator('button.margin').count(), 1);
});

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
  assert.equal(await page.locator('select.title option').count(), 7);
});

use('two tabs never write over each other unseen', async ({ page, context, address }) => {
  await open(page, address);
  const other = await context.newPage();
  await open(other, address);
  await write(page, 'Recipe: Seen\nFor: Juniper\n\n300 g beef heart');
  assert.match(await field(other).inputValue(), /Recipe: Seen/, 'a quiet tab follows');
  // Both write before either has saved.
  await Promise.all([
    field(page).fill('Recipe: Mine\nFor: Juniper\n\n310 g beef heart'),
    field(other).fill('Recipe: Theirs\nFor: Juniper\n\n320 g beef heart'),
  ]);
  await page.waitForTimeout(1500);
  const asked = [];
  for (const p of [page, other]) if (/changed in another tab/.test((await p.locator('.notices').allInnerTexts()).join())) asked.push(p);
  assert.equal(asked.length, 1, 'one of the two is asked');
  const loser = asked[0];
  const mine = await field(loser).inputValue();
  await picture(loser, 'two-tabs');
  await loser.getByRole('button', { name: /Take theirs/ }).click();
  await settled(loser);
  assert.notEqual(await field(loser).inputValue(), mine);
  assert.ok((await loser.locator('select.title').innerText()).match(/Mine|Theirs/g).length >= 2, 'both texts are kept');
});

use('one file takes everything along', async ({ page, address }) => {
  await open(page, address);
  await write(page, 'Recipe: Taken along\nFor: Juniper\n\n300 g beef heart');
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'export all' }).click()]);
  const path = join(tmpdir(), `bowlwright-export-${process.pid}.json`);
  await download.saveAs(path);
  const bundle = JSON.parse(readFileSync(path, 'utf8'));
  assert.equal(bundle.bowlwright, 1);
  assert.equal(bundle.texts.length, 7);
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
});

use('an animal that is not for this program is refused in words', async ({ page, address }) => {
  await open(page, address);
  await page.getByRole('button', { name: 'change', exact: true }).click();
  const text = await field(page).inputValue();
  await write(page, text.replace('Status: healthy', 'Status: kidney disease'));
  assert.ok(await page.locator('.refused').isVisible());
  assert.equal(await page.locator('button.rail.short').count(), 0);
  await picture(page, 'refused', true);
  await accessible(page, 'a refusal');
});

use('side by side: two marks on the same rails', async ({ page, address }) => {
  await open(page, address);
  await page.locator('.beside select').selectOption({ label: 'Chicken and rice pot' });
  await settled(page);
  assert.ok((await page.locator('.rails path.other').count()) > 10);
  assert.match(await page.locator('.beside').innerText(), /Chicken and rice pot for Juniper, \d+ kcal/);
  await picture(page, 'beside');
});

use('mend proposes in the text; one change is accepted, another refused', async ({ page, address }) => {
  await open(page, address);
  const before = await field(page).inputValue();
  await page.getByRole('button', { name: 'Mend it' }).click();
  await page.locator('.proposal').waitFor({ timeout: 90000 });
  await settled(page);
  const hunks = page.locator('.changes .hunk');
  assert.ok((await hunks.count()) >= 2);
  assert.equal(await page.locator('button.rail.short').count(), 0, 'with all changes nothing is short');
  assert.ok((await page.locator('.rails path.other').count()) > 10, 'the bowl as it was stays visible');
  await picture(page, 'mend', true);
  await accessible(page, 'a proposal');
  const refused = await hunks.last().locator('ins').innerText();
  const kept = await page.locator('.changes ins').first().innerText();
  await hunks.last().getByRole('button').click();
  await settled(page);
  await picture(page, 'mend-refused');
  await page.getByRole('button', { name: /^Keep \d+ of \d+ changes/ }).click();
  await settled(page);
  const after = await field(page).inputValue();
  assert.notEqual(after, before);
  assert.ok(after.includes(kept), `${kept} is kept`);
  assert.ok(!after.includes(refused), `${refused} is refused`);
  await page.locator('.keeping summary').click();
  await page.locator('.versions button').first().click();
  await settled(page);
  assert.equal(await field(page).inputValue(), before, 'the text before the change is a version');
}, { timeout: 120000 });

use('mending can be stopped, and writing goes on meanwhile', async ({ page, address }) => {
  await open(page, address);
  await page.getByRole('button', { name: 'Mend it' }).click();
  await page.getByRole('button', { name: 'stop', exact: true }).click();
  await page.getByRole('button', { name: 'Mend it' }).waitFor();
  await write(page, 'Recipe: On it goes\nFor: Juniper\n\n100 g beef heart');
  assert.equal(await page.locator('button.margin').count(), 1);
});

use('composing from a larder, and reading why an impossible one is impossible', async ({ page, address }) => {
  await open(page, address);
  await page.locator('select.title').selectOption({ label: 'the chest freezer' });
  await settled(page);
  const larder = await field(page).inputValue();
  await picture(page, 'larder');
  await accessible(page, 'a larder');
  await page.getByRole('button', { name: 'Compose a bowl' }).click();
  await page.locator('.notices p').waitFor({ timeout: 60000 });
  await settled(page);
  assert.match(await page.locator('.notices').innerText(), /the chest freezer is a new recipe now/);
  assert.match(await field(page).inputValue(), /^Recipe: the chest freezer/);
  assert.equal(await page.locator('button.rail.short').count(), 0);
  await page.locator('select.title').selectOption({ label: 'the chest freezer', index: undefined });
  const larders = page.locator('select.title optgroup[label="Larders"] option').first();
  await page.locator('select.title').selectOption(await larders.getAttribute('value'));
  await settled(page);
  await write(page, larder.replace('food at most 700 g', 'food at most 90 g'));
  await page.getByRole('button', { name: 'Compose a bowl' }).click();
  await page.locator('.impossible').waitFor({ timeout: 60000 });
  assert.match(await page.locator('.impossible').innerText(), /90 g/);
  await picture(page, 'impossible');
  await accessible(page, 'an impossible larder');
});

use('the chain behind a number, and foods for a line’s place', async ({ page, address }) => {
  await open(page, address);
  await rail(page, 'zinc').click();
  await page.locator('.chain summary').click();
  await page.locator('.chain li').first().waitFor();
  assert.match(await page.locator('.chain').innerText(), /300 g × 4\.\d+ mg\/100 g = 1\d\.\d/);
  await picture(page, 'chain');
  await page.locator('button.margin').first().click();
  await page.locator('.swaps summary').click();
  await page.locator('.swaps li').first().waitFor({ timeout: 60000 });
  assert.match(await page.locator('.swaps').innerText(), /when fed, at equal energy/);
  await picture(page, 'swaps');
  await accessible(page, 'foods for a line');
});

use('on paper', async ({ page, address }) => {
  await open(page, address);
  await page.emulateMedia({ media: 'print' });
  assert.equal(await page.locator('.keeping').isVisible(), false);
  if (pictures) writeFileSync(join(pictures, 'paper.pdf'), await page.pdf({ format: 'A4', printBackground: true }));
  await page.setViewportSize({ width: 794, height: 1123 });
  await picture(page, 'paper', true);
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

// ---- running them -----------------------------------------------------------------------------------------------------------

let failed = 0;
const shared = await host(folder);
for (const { name, run, options } of uses) {
  if (only && !name.includes(only)) continue;
  const { ownSite, mayComplain, ...browserOptions } = options;
  const site = ownSite ? await host(folder) : shared;
  const browser = await openBrowser(site.address, browserOptions);
  const began = Date.now();
  try {
    browser.context.setDefaultTimeout(20000);
    await run({ ...browser, site, address: site.address });
    assert.deepEqual(browser.complaints.filter((c) => !mayComplain?.test(c)), [], 'the console is clean');
    console.log(`ok   ${name} (${((Date.now() - began) / 1000).toFixed(1)} s)`);
  } catch (e) {
    failed++;
    console.log(`FAIL ${name}\n     ${String(e.message).split('\n').slice(0, 12).join('\n     ')}`);
    if (pictures) await browser.page.screenshot({ path: join(pictures, `fail-${failed}.png`) }).catch(() => {});
  } finally {
    await browser.close();
    if (ownSite) site.close();
  }
}
shared.close();
process.exit(failed > 0 ? 1 : 0);
