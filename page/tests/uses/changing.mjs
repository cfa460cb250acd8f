// Changing: mend, compose, swaps, own foods.
import assert from 'node:assert/strict';
import { accessible, answered, field, open, picture, rail, quickly, settled, show, use, verdictOf, write } from '../person.mjs';

use('mend proposes in the text; one change is accepted, another refused', async ({ page, address }) => {
  await open(page, address);
  const before = await field(page).inputValue();
  await write(page, before.replace('lamb shoulder', 'glorp'));
  await page.getByRole('button', { name: 'Mend it' }).click();
  await page.locator('.acts').getByText(/^Line 5: no food record is like 'glorp'/).waitFor();
  await write(page, before);
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

use('mend shows its ways, each with what it comes to, and goes from one to another', async ({ page, address }) => {
  await open(page, address);
  await page.getByRole('button', { name: 'Mend it' }).click();
  await page.locator('.proposal').waitFor({ timeout: 90000 });
  await settled(page);
  const ways = page.getByRole('radiogroup', { name: 'Mend with' }).getByRole('radio');
  assert.ok((await ways.count()) >= 2);
  const changes = () => page.locator('.changes').innerText();
  const first = await changes();
  await page.getByLabel('foods alone').check();
  await settled(page);
  assert.notEqual(await changes(), first);
  /* What stands on the shelf, as an own food, is at hand and may be used. */
  const added = (await page.locator('.hunk:not(:has(del))').allInnerTexts()).filter((line) => !line.includes('[mine:'));
  assert.ok(added.length > 0 && added.every((line) => !/tablet|capsule|softgel|drops?\b/.test(line)), `foods alone are foods alone: ${added}`);
  assert.equal(await page.locator('button.rail.short').count(), 0, 'the rails follow');
  await picture(page, 'ways');
  await accessible(page, 'ways to mend');
  await page.getByRole('button', { name: /^Keep/ }).click();
  await settled(page);
  assert.equal(await page.locator('button.rail.short').count(), 0, 'what is shown is what is kept');
}, { timeout: 120000 });

use('mending can be stopped, and writing goes on meanwhile', async ({ page, address }) => {
  await open(page, address);
  await write(page, 'Recipe: Much is wanting\nFor: Pim\n\n50 g rice, cooked\n20 g beef liver\n3 g cod liver oil\n5 g kelp\n'); // searched for seconds
  await quickly(page, () => page.getByRole('button', { name: 'Mend it' }).click(), 'Stop');
  await page.getByRole('button', { name: 'Mend it' }).waitFor();
  await write(page, 'Recipe: On it goes\nFor: Juniper\n\n100 g beef heart');
  assert.equal(await page.locator('button.margin').count(), 1);
});

use('mend takes from a larder first, or does without supplements', async ({ page, address }) => {
  await open(page, address);
  const larder = (await page.locator('select.title optgroup[label="Larders"] option').first().innerText()).trim();
  assert.equal(larder, 'the chest freezer');
  const added = async (choice) => {
    await page.getByLabel('Mend with').selectOption({ label: choice });
    await page.getByRole('button', { name: 'Mend it' }).click();
    await page.locator('.proposal').waitFor({ timeout: 90000 });
    const lines = await page.locator('.hunk ins').allInnerTexts();
    await page.getByRole('button', { name: 'Leave it as it was' }).click();
    return lines.flatMap((l) => /\[[a-z]+:[\w-]+\]/.exec(l) ?? []);
  };
  const without = await added('foods, no supplements');
  assert.ok(without.length > 0 && without.every((pin) => pin.startsWith('[usda:')), without.join(' '));
  const held = await added('the chest freezer first');
  await show(page, 'the chest freezer');
  const text = await field(page).inputValue();
  assert.ok(held.length > 0);
  assert.ok(held.filter((pin) => text.includes(pin)).length >= held.length / 2, `of the larder: ${held.join(' ')}`);
});

/* Some searches are over before a hand could be quick: then there is nothing to take, and the whole answer stands there. */
use('what a search has found can be taken before it is over', async ({ page, address }) => {
  await open(page, address);
  assert.ok((await page.locator('button.rail.short').count()) > 0);
  for (let tries = 0; tries < 4; tries++) {
    const told = await quickly(page, () => page.getByRole('button', { name: 'Mend it' }).click(), 'Take it', '.proposal');
    await page.locator('.proposal').waitFor();
    if (told === null) {
      assert.equal(await page.locator('.proposal').getByText(/ended before it was over/).count(), 0);
      await page.getByRole('button', { name: 'Leave it as it was' }).click();
      await settled(page);
      continue;
    }
    assert.match(told, /A change of \d+ lines? is found/);
    await page.locator('.proposal').getByText(/ended before it was over/).waitFor();
    break;
  }
  if (await page.locator('.proposal').count() === 0) {
    await page.getByRole('button', { name: 'Mend it' }).click();
    await page.locator('.proposal').waitFor({ timeout: 90000 });
  }
  await page.getByRole('button', { name: /^Keep/ }).click();
  await settled(page);
  assert.match(await field(page).inputValue(), /^Recipe: Weeknight bowl/);
  assert.equal(await page.locator('button.rail.short').count(), 0);
}, { timeout: 120000 });

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

use('a food for a line’s place is put there with a click, and taken back', async ({ page, address }) => {
  await open(page, address);
  const before = await field(page).inputValue();
  const old = before.split('\n').find((l) => l.includes('lamb shoulder'));
  await page.locator('button.margin').first().click();
  await page.locator('.swaps summary').click();
  const first = page.locator('.swaps button.swap').first();
  await first.waitFor();
  await answered(page);
  await picture(page, 'swaps');
  await accessible(page, 'foods for a line');
  const text = await first.locator('ins').innerText();
  assert.match(text, /^\d[\d.]* g .*\[\w+:[\w-]+\]$/);
  assert.match(await first.innerText(), /repairs|helps/);
  await first.click();
  await answered(page);
  assert.equal(await field(page).inputValue(), before.replace(old, text), 'the line, and nothing else, is another');
  assert.equal(await page.locator('.complaints li.error').count(), 0);
  assert.match(await page.locator('.reasons h2').innerText(), new RegExp(text.split(' [')[0].replace(/[.*+?^${}()|[\]\\]/g, '\\$&')));
  await picture(page, 'swapped');
  await page.getByRole('button', { name: 'Take it back' }).click();
  await answered(page);
  assert.equal(await field(page).inputValue(), before);
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await answered(page);
  assert.equal(await field(page).inputValue(), before, "the browser's own undo knows of both");
});

use('swaps that would help one nutrient', async ({ page, address }) => {
  await open(page, address);
  await rail(page, 'manganese').click();
  await page.locator('.swaps summary').click();
  await page.locator('.swaps button.swap').first().waitFor();
  await answered(page);
  await page.locator('.swaps .hint').getByText(/are tried in every line/).waitFor();
  await picture(page, 'nutrient-swaps');
  await accessible(page, 'swaps for a nutrient');
  const offers = page.locator('.swaps button.swap');
  for (const words of await offers.allInnerTexts()) assert.match(words, /repairs/);
  const amount = async () => Number.parseFloat(await rail(page, 'manganese').locator('b').innerText());
  const was = await amount();
  await offers.first().click();
  await answered(page);
  assert.ok((await amount()) > was, `manganese rises from ${was} to ${await amount()}`);
});

use('a label becomes a food of one’s own: in recipes, in swaps, in mend', async ({ page, address }) => {
  await open(page, address);
  await page.getByRole('button', { name: 'new label' }).click();
  await write(page, 'Food: Kelp caps\nPart: supplement\nPer: 1 capsule (0.5 g)\nIodine: 150 mcg\nSelenium: 5 quarts\n\nFood: Rye flakes\nPart: grain\nPer: 100 g\nEnergy: 340 kcal\nManganese: 2.6 mg\n');
  assert.equal(await page.locator('.complaints li.error').count(), 1, 'a faulty line is complained about');
  assert.match(await page.locator('.complaints li.error').innerText(), /Line 5:/);
  assert.match(await page.locator('.field').innerText(), /\[mine:rye-flakes\]/, 'the other food is known all the same');
  await write(page, (await field(page).inputValue()).replace('5 quarts', '20 mcg'));
  assert.equal(await page.locator('.complaints li').count(), 0);
  assert.match(await page.locator('.field').innerText(), /\[mine:kelp-caps\]/);
  await picture(page, 'label');
  await accessible(page, 'a label');
  await show(page, 'Weeknight bowl');
  assert.equal(await verdictOf(page, 'iodine'), 'short');
  await write(page, `${(await field(page).inputValue()).trimEnd()}\n4 capsules kelp caps [mine:kelp-caps]\n`);
  assert.equal(await page.locator('.complaints li.error').count(), 0);
  assert.notEqual(await verdictOf(page, 'iodine'), 'short');
  await rail(page, 'iodine').click();
  assert.match(await page.locator('.reasons').innerText(), /kelp caps/);
  await settled(page);
  await page.reload();
  await page.locator('.rails button.rail').first().waitFor();
  await settled(page);
  assert.notEqual(await verdictOf(page, 'iodine'), 'short', 'it is known after a reload');
});
