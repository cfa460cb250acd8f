// Places: a phone, a dark room, a keyboard alone, paper.
import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { accessible, answered, field, look, looks, open, picture, rail, settled, use, verdictOf, write } from '../person.mjs';

look('a phone', async ({ page, address }) => {
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

look('a dark room', async ({ page, address }) => {
  await open(page, address);
  await rail(page, 'manganese').click();
  await picture(page, 'dark');
  await accessible(page, 'the dark');
}, { colorScheme: 'dark' });

look('by keyboard alone', async ({ page, address }) => {
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

look('on paper', async ({ page, address }) => {
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
  look(`names that are far too long, on ${where}`, async ({ page, address }) => {
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

look('no name is cut, and every letter stands where it is typed, at every width', async ({ page, address }) => {
  await open(page, address);
  const many = Array.from({ length: 24 }, (_, i) => `${100 + i} g lamb heart, raw`);
  await write(page, `Recipe: Long\nFor: Juniper\n\n${many.join('\n')}\n`);
  for (const width of [360, 390, 480, 600, 720, 768, 820, 900, 1024, 1100, 1280, 1440, 1600]) {
    await page.setViewportSize({ width, height: 900 });
    await settled(page);
    const folded = page.locator('.folded:not([open]) summary');
    while ((await folded.count()) > 0) await folded.first().click();
    const found = await page.evaluate(() => {
      const cut = [...document.querySelectorAll('.rail .name')].filter((n) => n.scrollWidth > n.clientWidth + 1 || n.scrollHeight > n.parentElement.clientHeight + 1).map((n) => n.innerText);
      const rows = [...document.querySelectorAll('.rows .row')];
      const field = document.getElementById('field');
      const style = getComputedStyle(field);
      const lines = rows.map((r) => r.getBoundingClientRect().height / parseFloat(style.lineHeight));
      return { cut, uneven: lines.filter((n) => Math.abs(n - Math.round(n)) > 0.01).length, rows: rows.length, sideways: document.documentElement.scrollWidth - innerWidth };
    });
    assert.deepEqual(found.cut, [], `names at ${width}`);
    assert.equal(found.uneven, 0, `rows are whole lines of the field at ${width}`);
    assert.ok(found.sideways <= 0, `no sideways scroll at ${width}`);
  }
});

look('words beside the ribbon’s marks stand at them, and targets are large enough, at every width', async ({ page, address }) => {
  await open(page, address);
  for (const width of [360, 390, 480, 600, 720, 768, 820, 900, 1024, 1100, 1280, 1440, 1600]) {
    await page.setViewportSize({ width, height: 900 });
    await settled(page);
    const found = await page.evaluate(() => {
      const box = (q) => document.querySelector(q)?.getBoundingClientRect();
      const over = (words, at) => words.left - 1 <= at && at <= words.right + 1;
      const track = box('.track');
      const handle = document.querySelector('.eaten');
      const need = box('.likely');
      const range = box('.need');
      const bars = [...document.querySelectorAll('.bar i')].map((b) => b.getBoundingClientRect());
      const end = Math.max(...bars.map((b) => b.right));
      const wrong = [];
      if (!over(box('.eaten-words > span'), end)) wrong.push('what is eaten');
      if (!over(box('.need-words > span'), need.left)) wrong.push('the likely need');
      if (!over(box('.range-words > span'), (range.left + range.right) / 2)) wrong.push('the range');
      for (const q of ['.eaten-words > span', '.need-words > span', '.range-words > span']) if (box(q).right > innerWidth || box(q).left < 0) wrong.push(`${q} beyond the window`);
      for (const b of document.querySelectorAll('.bar')) {
        const words = b.querySelector('span');
        if (words && words.offsetParent && words.getBoundingClientRect().right > b.getBoundingClientRect().right + 1) wrong.push(`${b.className} runs out of its bar`);
      }
      const small = [...document.querySelectorAll('button, select, summary, input:not([hidden]):not([type=radio])')]
        .filter((b) => b.offsetParent !== null && !b.closest('.unseen') && !b.classList.contains('to-line'))
        .map((b) => [b.getBoundingClientRect(), b])
        .filter(([r]) => r.height > 0 && (r.height < 23.5 || r.width < 23.5))
        .map(([r, b]) => `${b.className || b.tagName} ${b.innerText.slice(0, 20)} ${r.width.toFixed(0)}x${r.height.toFixed(0)}`);
      return { wrong, small };
    });
    assert.deepEqual(found.wrong, [], `words at ${width}`);
    assert.deepEqual(found.small, [], `targets at ${width}`);
  }
});
