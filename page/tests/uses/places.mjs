// Places: a phone, a dark room, a keyboard alone, paper.
import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { accessible, answered, field, looks, open, picture, rail, settled, use, verdictOf, write } from '../person.mjs';

use('a phone', async ({ page, address }) => {
  await open(page, address);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.equal(wide, 0, 'nothing runs out at the side');
  await picture(page, 'phone', true);
  await accessible(page, 'a phone');
  // The answer in one sentence stands before the text, and the text begins on the first screen.
  const tops = await page.evaluate(() => ['.answer h2', '.answer .sum', '#field'].map((q) => document.querySelector(q).getBoundingClientRect().top));
  assert.ok(tops[0] < tops[1] && tops[1] < tops[2] && tops[2] < 844, `${tops}`);
  assert.match(await page.locator('.answer').innerText(), /^Too little .*\d+ short/s);
  // A tap opens the reasons in place; the rail stays where it is.
  const place = async () => Math.round((await rail(page, 'manganese').boundingBox()).y);
  await rail(page, 'manganese').scrollIntoViewIfNeeded();
  const was = await place();
  await rail(page, 'manganese').click();
  await page.locator('.opened h2').waitFor();
  assert.equal(await place(), was, 'nothing jumps');
  const under = await page.locator('.opened').boundingBox();
  assert.ok(under.y >= was && under.y < was + 100, `the reasons stand under their rail (${under.y}, ${was})`);
  await picture(page, 'phone-nutrient');
  await accessible(page, 'reasons in place');
  await page.goBack();
  await page.locator('.opened').waitFor({ state: 'detached' });
  assert.equal(await place(), was, 'back at the rail');
  assert.equal(await page.evaluate(() => document.activeElement?.dataset.key), 'manganese');
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

use('mending by keyboard alone', async ({ page, address }) => {
  await open(page, address);
  const before = await field(page).inputValue();
  const tabTo = async (words, most) => {
    const seen = [];
    for (let i = 0; i < most; i++) {
      await page.keyboard.press('Tab');
      seen.push(await page.evaluate(() => (document.activeElement?.textContent ?? '').trim().slice(0, 40)));
      if (words.test(seen.at(-1))) return;
    }
    assert.fail(`Tab comes by ${words}: ${seen}`);
  };
  await tabTo(/^Mend it/, 60);
  await page.keyboard.press('Enter');
  await page.locator('.proposal').waitFor({ timeout: 60000 });
  await tabTo(/^refuse/, 4); // not from the top of the page again
  await page.keyboard.press('Enter');
  assert.equal(await page.locator('.hunk.left').count(), 1);
  await tabTo(/^Keep \d+ of \d+ changes/, 20);
  await page.keyboard.press('Enter');
  await settled(page);
  assert.notEqual(await field(page).inputValue(), before);
});

use('on paper', async ({ page, address }) => {
  await open(page, address);
  await page.emulateMedia({ media: 'print' });
  for (const gone of ['.keeping', '.deed', '.beside']) assert.equal(await page.locator(gone).first().isVisible(), false, gone);
  for (const there of ['.field', '.rails', '.findings.act', '.parts']) assert.ok(await page.locator(there).first().isVisible(), there);
  // Without colours: the parts of the energy stand apart by lightness (contrast as in WCAG 2.2), the verdicts by filled and open marks.
  const lightness = (what, property) =>
    page.locator(what).first().evaluate((e, name) => {
      const [r, g, b] = getComputedStyle(e)[name].match(/[\d.]+/g).map((x) => (x /= 255) && (x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4));
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    }, property);
  const contrast = (a, b) => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  const bars = await Promise.all(['protein', 'fat', 'carbohydrate'].map((p) => lightness(`.bar.${p} i`, 'backgroundColor')));
  assert.ok(contrast(bars[0], bars[1]) > 2 && contrast(bars[1], bars[2]) > 2, `${bars}`);
  const [short, thin] = await Promise.all(['.short', '.thin'].map((v) => lightness(`.rail${v} .mark`, 'fill')));
  assert.ok(contrast(short, 1) > 4.5 && contrast(thin, 1) < 1.2, `${short} ${thin}`);
  if (looks.pictures) writeFileSync(join(looks.pictures, 'paper.pdf'), await page.pdf({ format: 'A4', printBackground: true }));
  await page.setViewportSize({ width: 794, height: 1123 });
  await picture(page, 'paper', true);
});

for (const [where, width] of [['a phone', 360], ['a tablet', 900], ['a small desk', 1100], ['a desk', 1440]])
  use(`names that are far too long, on ${where}`, async ({ page, address }) => {
    await open(page, address);
    const long = 'Juniper Wilhelmina Featherstonehaugh-Cholmondeley of the Marsh';
    await page.getByRole('button', { name: 'change', exact: true }).click();
    await write(page, (await field(page).inputValue()).replace('Animal: Juniper', `Animal: ${long}`));
    await page.locator('select.title').selectOption({ label: 'Weeknight bowl' });
    await answered(page);
    const recipe = (await field(page).inputValue()).replace('For: Juniper', `For: ${long}`);
    await write(page, recipe.replace('Weeknight bowl', 'a name that goes on and on '.repeat(6)) + 'Donaudampfschifffahrtsgesellschaftskapitänsmützenlammfleischeintopf 3 g\n');
    assert.match(await page.locator('.ribbon').innerText(), /Juniper eats all of it/);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), 0, 'nothing runs out at the side');
    await picture(page, `long-${width}`);
    await page.locator('input.eaten').focus();
    await page.keyboard.press('End');
    await settled(page);
    const words = await page.locator('.eaten-words').boundingBox();
    assert.ok(words.x >= 0 && words.x + words.width <= width, 'what is eaten stays on the page');
  }, { viewport: { width, height: 800 } });
