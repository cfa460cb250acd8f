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

use('the weight with its band, the need, a list of the weighings', async ({ page, address }) => {
  await open(page, address);
  await openDays(page);
  await withExample(page);
  const drawn = page.locator('.weight-chart .plot svg');
  assert.match(await drawn.getAttribute('aria-label'), /^Weight from \d{4}-\d\d-\d\d to .* kg, nine times in ten between .*; \d+ weighings/);
  assert.match(await page.locator('.weight').innerText(), /Its own need is \d+ kcal a day, between \d+ and \d+/);
  assert.ok((await page.locator('.weight .outlier').count()) >= 1, 'the slip of the pen is marked');
  await page.locator('.weight summary').getByText('The weighings as a list').click();
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
