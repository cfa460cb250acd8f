// Reading: rails, slider, reasons down to the table, side by side.
import assert from 'node:assert/strict';
import { accessible, answered, field, open, picture, rail, settled, show, use, verdictOf, write } from '../person.mjs';

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

use('side by side: two marks on the same rails', async ({ page, address }) => {
  await open(page, address);
  await page.locator('.beside select').selectOption({ label: 'Chicken and rice pot' });
  await settled(page);
  assert.ok((await page.locator('.rails path.other').count()) > 10);
  assert.match(await page.locator('.beside').innerText(), /Chicken and rice pot for Juniper, \d+ kcal/);
  await picture(page, 'beside');
});

use('the chain behind a number, down to every factor', async ({ page, address }) => {
  await open(page, address);
  await rail(page, 'zinc').click();
  await page.locator('.chain summary').click();
  await page.locator('.chain li').first().waitFor();
  assert.match(await page.locator('.chain').innerText(), /300 g × 4\.\d+ mg\/100 g = 1\d\.\d/);
  await picture(page, 'chain');
});

/** The multiple of the allowance that a rail's own words give, and where its parts are drawn, in per cent of the drawing. */
const drawn = (page) =>
  page.locator('button.rail').evaluateAll((rails) =>
    rails.flatMap((r) => {
      const box = r.querySelector('svg.drawing')?.getBoundingClientRect();
      const said = /^(?:.*→ )?([\d.,]+) of ([\d.,]+)/.exec(r.querySelector('.figures').textContent);
      const mark = r.querySelector('circle.mark');
      if (!box || !said || !mark) return [];
      const at = (element) => {
        const b = element.getBoundingClientRect();
        return ((b.left + b.width / 2 - box.left) / box.width) * 100;
      };
      const [amount, allowance] = said.slice(1).map((w) => Number(w.replaceAll(',', '')));
      return [{ key: r.dataset.key, multiple: amount / allowance, mark: at(mark), line: at(r.querySelector('line.allowance')) }];
    }),
  );

use('marks stand where the figures beside them say', async ({ page, address }) => {
  await open(page, address);
  await page.locator('.folded summary').first().click();
  const rails = await drawn(page);
  assert.ok(rails.length > 12, `${rails.length} rails`);
  // A quarter to eight times in five doublings: the need stands at two fifths. Figures are rounded to a hundredth or so.
  for (const { key, multiple, mark, line } of rails) {
    assert.ok(Math.abs(line - 40) < 0.5, `${key}: the allowance at ${line}`);
    assert.ok(Math.abs(mark - 20 * Math.log2(4 * multiple)) < 1.5, `${key}: ${multiple} times at ${mark}`);
  }
});

use('the slider’s handle stands at the end of the bar, and the bar beside the need by the same measure', async ({ page, address }) => {
  await open(page, address);
  const THUMB = 22; // px wide: the input is as much longer than its way
  for (const eaten of [100, 60, 140]) {
    await page.locator('input.eaten').fill(String(eaten));
    await settled(page);
    const r = await page.evaluate((thumb) => {
      const box = (q) => document.querySelector(q).getBoundingClientRect();
      const track = box('.track');
      const slider = box('input.eaten');
      return {
        handle: slider.left + thumb / 2 + ((Number(document.querySelector('input.eaten').value) - 60) / 80) * (slider.width - thumb),
        end: Math.max(...[...document.querySelectorAll('.bar')].map((b) => b.getBoundingClientRect().right)),
        start: track.left,
        likely: box('.track .likely').left + box('.track .likely').width / 2,
        words: document.querySelector('.ribbon').innerText,
      };
    }, THUMB);
    const number = (pattern) => Number(pattern.exec(r.words)[1].replaceAll(',', ''));
    assert.ok(Math.abs(r.handle - r.end) < 3, `at ${eaten} %: the handle at ${r.handle}, the bar's end at ${r.end}`);
    const [supply, need] = [number(/of it: ([\d.,]+) kcal/), number(/likely need ([\d.,]+)/)];
    assert.ok(Math.abs((r.end - r.start) / (r.likely - r.start) / (supply / need) - 1) < 0.02, `at ${eaten} %: ${supply} kcal beside ${need}`);
  }
});

use('what rests on estimates is said in the head, and each line says what its figure was estimated from', async ({ page, address }) => {
  await open(page, address);
  await show(page, 'Garden stew');
  await settled(page);
  const lent = page.locator('.reasons .lent');
  const told = Number(/^Estimates decide (\d+) of these: /.exec(await lent.innerText())?.[1]);
  assert.ok(told >= 1);
  const names = lent.getByRole('button');
  assert.ok((await names.count()) >= 1 && (await names.count()) <= told);
  await accessible(page, 'verdicts that estimates decide');
  const wanted = await names.first().innerText();
  await names.first().click();
  assert.equal((await page.locator('.reasons h2').innerText()).toLowerCase().startsWith(wanted.toLowerCase()), true);
  assert.match(await page.locator('.reasons').innerText(), /Estimates decide this verdict/);
  // Amino acids of turkey mince 93/7 are printed by no table.
  while ((await rail(page, 'tryptophan').count()) === 0) await page.locator('.folded:not([open]) summary').first().click();
  await rail(page, 'tryptophan').click();
  await page.locator('.suppliers small', { hasText: /^estimated from \d+ analyses of turkey .+, within \d+ %/ }).first().waitFor();
  await picture(page, 'estimated');
  await accessible(page, 'where figures come from');
});

use('the pieces of the energy bar and of a nutrient’s suppliers are as wide as the figures beside them say', async ({ page, address }) => {
  await open(page, address);
  const energy = await page.evaluate(() => {
    const bars = [...document.querySelectorAll('.bar')].map((b) => b.getBoundingClientRect().width);
    return { bars, words: [...document.querySelectorAll('.shares > span')].map((s) => s.textContent.trim()), says: document.querySelector('.drawn').getAttribute('aria-label') };
  });
  const all = energy.bars.reduce((a, b) => a + b, 0);
  energy.words.forEach((words, i) => {
    assert.ok(energy.says.includes(words), `${words} in: ${energy.says}`);
    assert.ok(Math.abs(100 * (energy.bars[i] / all) - Number(/(\d+) %/.exec(words)[1])) < 1, `${words}: ${energy.bars[i]} of ${all}`);
  });
  let lacking = 0;
  for (const key of ['zinc', 'manganese', 'potassium']) {
    await rail(page, key).click();
    await page.locator('.stack .piece').first().waitFor();
    const drawn = await page.evaluate(() => {
      const box = (e) => e.getBoundingClientRect();
      const stack = document.querySelector('.stack');
      const width = box(stack).width;
      return {
        says: stack.getAttribute('aria-label'),
        pieces: [...stack.querySelectorAll('.piece:not(.missing)')].map((e) => [e.title, box(e).width / width]),
        missing: [...stack.querySelectorAll('.missing')].map((e) => box(e).width / width)[0] ?? 0,
        needed: (box(stack.querySelector('.needed')).right - box(stack).left - 1) / width,
        shares: [...document.querySelectorAll('.suppliers .num')].map((e) => e.textContent),
        told: document.querySelector('.reasons .prose, .of-nutrient .prose')?.textContent ?? '',
      };
    });
    const supplied = drawn.pieces.reduce((sum, [, wide]) => sum + wide, 0);
    drawn.pieces.forEach(([words, wide], i) => {
      assert.ok(drawn.says.includes(words));
      if (i < 7 && /\d %/.test(drawn.shares[i] ?? '') && !/under/.test(words)) {
        const share = Number(/([\d.]+) %$/.exec(drawn.shares[i].trim())[1]);
        assert.ok(Math.abs(100 * (wide / supplied) - share) < 1.2, `${key}, ${words}: ${wide} of ${supplied}`);
      }
    });
    assert.ok(Math.abs(Math.max(supplied, drawn.needed) - 1) < 0.02, `${key}: the longer of both fills the line`);
    assert.ok(Math.abs(drawn.missing - Math.max(0, drawn.needed - supplied)) < 0.02, `${key}: what is missing`);
    const [amount, need] = [/([\d.,]+) \S+ a day/, /needs ([\d.,]+)/].map((p) => Number(p.exec(drawn.told)[1].replaceAll(',', '')));
    assert.ok(Math.abs(supplied / drawn.needed - amount / need) < 0.03, `${key}: ${amount} beside ${need}`);
    lacking += drawn.missing > 0;
  }
  assert.ok(lacking > 0);
});
