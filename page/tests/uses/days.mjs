// Weeks, journal and weight: opened, written by keyboard, kept, looked at on a phone and on paper.
import assert from 'node:assert/strict';
import { join } from 'node:path';
import { accessible, field, looks, open, settled, show, until, use } from '../person.mjs';

const days = (page) => page.locator('#days');
const entry = (page) => page.locator('#entry');
const offers = (page) => page.locator('#entry-offers li');
const fact = (page, words) => page.locator('.facts dd > span').filter({ hasText: words });
const says = (page) => page.locator('#entry-says');

async function openDays(page) {
  await days(page).locator('summary').first().click();
  await entry(page).waitFor();
  await settled(page);
}

async function withExample(page) {
  await page.getByRole('button', { name: 'Begin with the Saltmarsh household’s' }).click();
  await page.locator('.facts dd').first().waitFor();
  await page.locator('.weight-chart svg').waitFor();
  await settled(page);
}

/** Of one piece of the page. */
async function picture(page, name, piece) {
  if (looks.pictures) await page.locator(piece).first().screenshot({ path: join(looks.pictures, `${name}.png`) });
}

/** "2026-11-28", so many days before today. */
const day = (before) => {
  const d = new Date(Date.now() - before * 86_400_000);
  return [d.getFullYear(), d.getMonth() + 1, d.getDate()].map((n) => String(n).padStart(2, '0')).join('-');
};

use('the days are fetched when they are opened, and not before', async ({ page, address }) => {
  const asked = [];
  page.on('request', (r) => asked.push(r.url()));
  await open(page, address);
  await page.waitForTimeout(300);
  assert.deepEqual(asked.filter((u) => /Days|Journal/.test(u) && !/sw/.test(u)).length > 0 && !(await page.evaluate(() => navigator.serviceWorker.controller)), false);
  await openDays(page);
  assert.ok(asked.some((u) => /Days-.*\.js/.test(u)));
  await accessible(page, 'the days, with nothing written down');
});

use('a line for the journal is written by keyboard, with what may come next, and is kept', async ({ page, address }) => {
  await open(page, address);
  await openDays(page);
  await entry(page).focus();
  await page.keyboard.type('ju');
  await offers(page).filter({ hasText: 'Juniper' }).waitFor();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  assert.equal(await entry(page).inputValue(), 'Juniper ');
  await page.keyboard.type('weighs 18.2');
  await says(page).getByText('in which unit').waitFor();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await says(page).getByText(`${day(0)} Juniper weighs 18.2 kg`).waitFor();
  await page.keyboard.press('Enter');
  await fact(page, 'weighs 18.2 kg').waitFor();
  assert.equal(await entry(page).inputValue(), '');

  await page.keyboard.type('yesterday Juniper ate 430 g week');
  await offers(page).filter({ hasText: 'Weeknight bowl' }).first().waitFor();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await says(page).getByText(`${day(1)} Juniper ate 430 g`).waitFor();
  await page.keyboard.press('Enter');
  await fact(page, 'ate 430 g').waitFor();

  await page.keyboard.type('yesterday Juniper left a q');
  await offers(page).filter({ hasText: 'a quarter' }).waitFor();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Enter');
  await fact(page, 'left a quarter').waitFor();

  // An animal that is not known is asked about, and nothing is written.
  await page.keyboard.type('Rex weighs 4 kg');
  await says(page).getByText(/There is no animal 'Rex'/).waitFor();
  assert.ok(await page.locator('.entry .deed').isDisabled());
  await page.keyboard.press('Enter');
  assert.equal(await page.locator('.facts dd').count(), 3);

  await settled(page);
  await page.reload();
  await fact(page, 'left a quarter').waitFor();
  await page.getByRole('button', { name: 'the whole text' }).click();
  assert.match(await field(page).inputValue(), new RegExp(`^${day(0)} Juniper weighs 18.2 kg\n${day(1)} Juniper ate 430 g .+\n${day(1)} Juniper left a quarter\n$`));
});

use('a correction takes the place of a line, and both stay', async ({ page, address }) => {
  await open(page, address);
  await openDays(page);
  await entry(page).fill('2026-11-02 Juniper weighs 182 kg');
  await page.locator('.entry .deed:not([disabled])').waitFor();
  await page.keyboard.press('Enter');
  await fact(page, 'weighs 182 kg').waitFor();
  await page.locator('.complaints').getByText(/182 kg/).first().waitFor();
  await page.locator('.facts dd').getByRole('button', { name: /correct/ }).click();
  assert.equal(await entry(page).inputValue(), '2026-11-02 Juniper correction: weighs 182 kg');
  await entry(page).fill('2026-11-02 Juniper correction: weighs 18.2 kg');
  await page.locator('.entry .deed:not([disabled])').waitFor();
  await page.keyboard.press('Enter');
  await page.locator('.facts del').filter({ hasText: 'weighs 182 kg' }).waitFor();
  await fact(page, 'correction: weighs 18.2 kg').waitFor();
});

use('a line that is written otherwise, or can hardly be right, is asked about in a sentence, and nothing is lost', async ({ page, address }) => {
  await open(page, address);
  await openDays(page);
  const add = page.locator('.entry .deed');
  const remedy = (words) => says(page).getByRole('button', { name: words });
  const told = async (line, words) => {
    await entry(page).fill(line);
    await says(page).getByText(words).waitFor();
    assert.equal(await says(page).locator('.error').count(), 1, `one sentence about ${line}`);
    assert.ok(await add.isDisabled());
    assert.equal(await entry(page).inputValue(), line);
  };
  const write = async (line) => {
    await entry(page).fill(line);
    await page.locator('.entry .deed:not([disabled])').waitFor();
    await add.click();
  };
  // Days as people write them: the very line to type, with one click; both days where it may be two.
  await told('29.10.2026 Juniper weighs 18.2 kg', /write '2026-10-29 Juniper weighs 18.2 kg'/);
  await picture(page, 'days-other-date', '.entry');
  await remedy('2026-10-29').click();
  assert.equal(await entry(page).inputValue(), '2026-10-29 Juniper weighs 18.2 kg');
  await page.locator('.entry .deed:not([disabled])').waitFor();
  await page.keyboard.press('Enter');
  await fact(page, 'weighs 18.2 kg').waitFor();
  await told('3/4/2026 Juniper weighs 18.1 kg', /may be 3 April or 4 March/);
  await remedy('4 March').click();
  await page.locator('.entry .deed:not([disabled])').waitFor();
  assert.equal(await entry(page).inputValue(), '2026-03-04 Juniper weighs 18.1 kg');
  await told('Oct 32 2026 Juniper weighs 18 kg', /October has no day 32/);
  await told('2027-02-29 Juniper weighs 18 kg', /2027 is not a leap year; its February has 28 days/);
  // A name nearly known, one not known, a weight without a unit, two units that do not go together.
  await told('Junipr weighs 18 kg', /did you mean 'Juniper'/);
  await remedy('Juniper').click();
  assert.equal(await entry(page).inputValue(), 'Juniper weighs 18 kg');
  await told('Rex weighs 18 kg', /there are Juniper/);
  await told('Juniper weighs 18.2', /in which unit/i);
  await told('Juniper weighs 18 kg 3 oz', /'3 oz' after the weight is not understood/);
  await write('2026-10-28 Juniper weighs 40 lb 2 oz');
  await write('2026-10-29 Juniper weighs 18.2 kg');
  await write('2028-02-29 Juniper weighs 18.2 kg');
  await write('2026-10-30 Juniper weighs 1820 kg');
  await page.locator('.journal .complaints').getByText(/the same weighing is in line 1 already/i).waitFor();
  await page.locator('.journal .complaints').getByText(/this day is still to come/i).waitFor();
  await page.locator('.journal .complaints').getByText(/is this weight right\? 1820 kg/i).waitFor();
  assert.match(await fact(page, 'weighs 1820 kg').innerText(), /is this right\?/);
  await settled(page);
  await accessible(page, 'a journal with questions');
  await picture(page, 'days-asked', '.journal');

  // In the whole text: a line that is not understood is named where it matters, leads to its place, and is put right with one click.
  await page.getByRole('button', { name: 'the whole text' }).click();
  const before = await field(page).inputValue();
  await field(page).fill(`${before}30.10.2026 Pim weighs 4.6 kg\n2026-10-31 Pim at`);
  await page.locator('.journal .complaints').getByText(/was it cut off\? The line is left out/).waitFor();
  await page.locator('.weight').getByText('The weight is drawn as soon as line 6 of the journal is understood.').waitFor();
  await picture(page, 'days-not-understood', '#days');
  await page.locator('.journal .complaints').getByRole('button', { name: 'Line 6:' }).click();
  await page.waitForFunction((f) => f.value.slice(f.selectionStart, f.selectionEnd) === '30.10.2026', await field(page).elementHandle());
  await page.locator('.journal .complaints').getByRole('button', { name: '2026-10-30' }).click();
  await page.locator('.weight').getByText('as soon as line 6').waitFor({ state: 'detached' });
  assert.equal(await field(page).inputValue(), `${before}2026-10-30 Pim weighs 4.6 kg\n2026-10-31 Pim at`);
  // A recipe with a slip: the journal's reader knows none, the weight's does.
  await write(`${day(1)} Juniper ate 430 g Weeknigt bowl`);
  await page.locator('.journal .complaints').getByText(/did you mean 'Weeknight bowl'\? That day counts as not known/).waitFor();
  await page.locator('.journal .complaints').getByRole('button', { name: 'Weeknight bowl' }).click();
  await fact(page, 'ate 430 g Weeknight bowl').waitFor();
}, { on: 'site' });

use('a megabyte is pasted into the journal; its newest days are shown at once, as they are when all of it is read', async ({ page, address }) => {
  await open(page, address);
  await openDays(page);
  await entry(page).fill(`${day(3)} Juniper weighs 18.2 kg`);
  await page.locator('.entry .deed:not([disabled])').click();
  await page.getByRole('button', { name: 'the whole text' }).click();
  await until(page, () => document.getElementById('field').value.includes('18.2 kg'));
  // Newest first, with a line that nobody understands in the middle, and an animal that only the oldest line tells of.
  const lines = [];
  for (let d = 1; d <= 12_000; d++) lines.push(`${day(d)} Juniper ate ${400 + (d % 7)} g Weeknight bowl`, `${day(d)} Pim ate ${110 + (d % 5)} g Pim's plate`);
  lines.splice(12_000, 0, 'what is this?');
  lines.push(`${day(12_001)} Moss weighs 31 kg`);
  await field(page).evaluate((f) => f.setSelectionRange(f.value.length, f.value.length));
  await field(page).evaluate((f, t) => {
    const data = new DataTransfer();
    data.setData('text/plain', t);
    f.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
  }, `${lines.join('\r\n')}\n`);
  await fact(page, 'ate 401 g').first().waitFor();
  assert.equal(await field(page).inputValue(), `${day(3)} Juniper weighs 18.2 kg\n${lines.join('\n')}\n`);
  await page.locator('.journal .complaints').getByText(/'what' is not a day/).waitFor();
  await settled(page);
  await page.evaluate(() => {
    /* What stands there first, after the page is opened anew. */
    sessionStorage.setItem('watch', 'yes');
  });
  await page.addInitScript(() => {
    new MutationObserver(() => {
      if (!globalThis.firstSeen && document.querySelectorAll('.facts dd').length > 0) globalThis.firstSeen = document.querySelector('.facts').innerText;
    }).observe(document, { childList: true, subtree: true });
  });
  await page.reload();
  await page.locator('.journal .complaints').getByText(/'what' is not a day/).waitFor();
  await until(page, () => !document.querySelector('.reading-on'));
  assert.equal(await page.evaluate(() => globalThis.firstSeen), await page.locator('.facts').innerText());
  assert.equal(await page.locator('.facts dt').count(), 5);
  assert.deepEqual(await page.locator('.weight select option').allInnerTexts(), ['Juniper', 'Pim', 'Moss']);
  // Line 12001 is shown where it stands; undo takes the paste back.
  await page.locator('.journal .complaints').getByRole('button', { name: 'Line 12002:' }).click();
  await until(page, () => document.activeElement?.id === 'field');
  const seen = await field(page).evaluate((f) => ({ chosen: f.value.slice(f.selectionStart, f.selectionEnd), top: f.scrollTop / f.scrollHeight }));
  assert.equal(seen.chosen, 'what');
  assert.ok(Math.abs(seen.top - 0.5) < 0.1, `the line is in sight: ${seen.top}`);
}, { on: 'site' });

use('the weight with its band, the need, a list of the weighings', async ({ page, address }) => {
  await open(page, address);
  await openDays(page);
  await withExample(page);
  const drawn = page.locator('.weight-chart .plot svg');
  assert.match(await drawn.getAttribute('aria-label'), /^Weight from \d{4}-\d\d-\d\d to .* kg, nine times in ten between .*; \d+ weighings/);
  assert.match(await page.locator('.weight').innerText(), /Its own need is \d+ kcal a day, between \d+ and \d+/);
  assert.ok((await page.locator('.weight .outlier').count()) >= 1, 'the slip of the pen is marked');
  await page.locator('.weight summary').getByText('The weighings as a list').click();
  await page.locator('.weight .weighings tbody tr').first().waitFor();
  assert.ok((await page.locator('.weight .weighings tbody tr').count()) > 10);
  await page.locator('.weight select').selectOption('Pim');
  await page.locator('.weight .prose').getByText(/Pim weighs/).waitFor();
  const need = /Its own need is (\d+) kcal/.exec(await page.locator('.weight').innerText())[1];
  await page.getByRole('button', { name: `Measure bowls against ${need} kcal` }).click();
  await show(page, 'The animals');
  assert.match(await field(page).inputValue(), new RegExp(`Animal: Pim\nEnergy: ${need} kcal/day`));
  await accessible(page, 'weight');
  await page.locator('#days').scrollIntoViewIfNeeded();
  await picture(page, 'days-weight', '.weight');
});

use('an animal that is overweight gets a weight plan, and the bowl is mended for it', async ({ page, address }) => {
  await open(page, address);
  await openDays(page);
  await withExample(page);
  await page.locator('.weight select').selectOption('Moss');
  await page.locator('.slim .prose').getByText('From 34 kg').waitFor();
  assert.ok((await page.locator('.slim .weighings tbody tr').count()) > 3);
  assert.match(await page.locator('.slim').innerText(), /When to stop and see the vet/);
  await accessible(page, 'a weight plan');
  await picture(page, 'days-slim', '.slim');
});

use('a plan is a text; its calendar says which days fail, and a day says why', async ({ page, address }) => {
  await open(page, address);
  await openDays(page);
  await withExample(page);
  await show(page, 'November');
  await page.locator('.one-week h4').getByText('Pim').first().waitFor();
  assert.equal(await page.locator('.one-week').count(), 2);
  const juniper = page.locator('.one-week').first();
  assert.equal(await juniper.locator('.calendar tbody tr').count(), 2);
  assert.match(await juniper.locator('.prose').first().innerText(), /Averaging covers/);
  await juniper.locator('.calendar td button').first().click();
  await juniper.locator('.of-day').waitFor();
  const line = juniper.locator('.window-line svg').first();
  assert.match(await line.getAttribute('aria-label'), /windows of \d+ days?: (leanest|richest) .* of \d+ windows? fails?; /);
  await accessible(page, 'weeks');
  await picture(page, 'days-weeks', '.one-week');

  // A day that nobody planned is asked about, beside the text too.
  const text = await field(page).inputValue();
  await field(page).fill(text.replace('Sat, Sun: rice-pot\n', ''));
  await page.locator('#complaints li').first().waitFor();
  await until(page, () => document.querySelectorAll('.one-week').length === 0);
});

use('several recipes: which belongs on which day, and the plan of it is kept', async ({ page, address }) => {
  await open(page, address);
  await openDays(page);
  await page.locator('#days select').filter({ has: page.locator('option[value=rotate]') }).selectOption('rotate');
  const boxes = page.locator('.dishes input[type=checkbox]');
  await boxes.first().waitFor();
  assert.ok((await boxes.count()) >= 2);
  for (const i of [0, 1]) if (!(await boxes.nth(i).isChecked())) await boxes.nth(i).check();
  await page.locator('table.rotation tbody tr').first().waitFor();
  await settled(page);
  assert.ok((await page.locator('table.rotation tbody tr').count()) >= 2);
  assert.ok((await page.locator('.rotate .prose').first().innerText()).length > 20);
  await accessible(page, 'a rotation of several recipes');
  await picture(page, 'rotation', '#days');
  /* With its additions this kitchen has a plan; it is a text like any other. */
  assert.match(await page.locator('.plan-text').innerText(), /^Plan: Rotation\nFor: Juniper\nMon: /);
  await page.getByRole('button', { name: 'Keep this plan' }).click();
  await page.locator('#days select option').filter({ hasText: 'the plan Rotation' }).waitFor({ state: 'attached' });
});

use('the days on a phone and on paper', async ({ page, address }) => {
  await open(page, address);
  await openDays(page);
  await withExample(page);
  await page.locator('.which-days select').first().selectOption('journal');
  await page.locator('.calendar').first().waitFor();
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'nothing stands out to the side');
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('#days button, #days select, #days summary')]
      .filter((b) => b.getClientRects().length > 0 && !b.closest('p, .hint') && b.getBoundingClientRect().height < 24)
      .map((b) => b.innerText),
  );
  assert.deepEqual(small, [], 'everything is large enough for a finger');
  await accessible(page, 'the days on a phone');
  for (const piece of ['journal', 'weight', 'weeks']) await picture(page, `days-phone-${piece}`, `.${piece}`);
  await page.emulateMedia({ media: 'print' });
  assert.ok(await page.locator('.weight-chart').isVisible());
  assert.ok(!(await page.locator('.entry').isVisible()));
  await picture(page, 'days-print', '#days');
  await page.emulateMedia({ media: 'screen', colorScheme: 'dark' });
  await accessible(page, 'the days in the dark');
  await picture(page, 'days-dark', '.weight');
}, { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
