// Undoing and remembering: Ctrl+Z over everything, what was chosen after a reload, focus and what is announced.
import assert from 'node:assert/strict';
import { answered, field, look, open, rail, settled, show, use, write } from '../person.mjs';

const undo = async (page) => {
  await field(page).focus();
  await page.keyboard.press('Control+z');
  await settled(page);
};

use('undo goes back over Keep, over Leave, and over other texts', async ({ page, address }) => {
  await open(page, address);
  const first = await field(page).inputValue();
  await field(page).focus();
  await page.keyboard.press('Control+End');
  await page.keyboard.type('5 g parsley');
  await page.keyboard.press('Escape');
  await settled(page);
  const typed = await field(page).inputValue();
  await page.getByRole('button', { name: 'Mend it' }).click();
  await page.locator('.proposal').waitFor({ timeout: 90000 });
  await page.getByRole('button', { name: 'Leave it as it was' }).click();
  await show(page, 'Garden stew');
  await show(page, 'Weeknight bowl');
  await page.getByRole('button', { name: 'Mend it' }).click();
  await page.locator('.proposal').waitFor({ timeout: 90000 });
  await page.getByRole('button', { name: /^Keep/ }).click();
  await settled(page);
  const mended = await field(page).inputValue();
  assert.notEqual(mended, typed);
  await undo(page);
  assert.equal(await field(page).inputValue(), typed, 'what was kept is taken back');
  await undo(page);
  assert.equal(await field(page).inputValue(), first, 'and what was typed before');
  for (const again of [typed, mended]) {
    await field(page).focus();
    await page.keyboard.press('Control+Shift+z');
    await settled(page);
    assert.equal(await field(page).inputValue(), again);
  }
}, { timeout: 200000 });

use('a change that was kept says so, can be taken back, and the caret stands in it', async ({ page, address }) => {
  await open(page, address);
  const before = await field(page).inputValue();
  await page.getByRole('button', { name: 'Mend it' }).click();
  await page.locator('.proposal').waitFor({ timeout: 90000 });
  assert.match(await page.locator('.sum-up').innerText(), /changes?: .* g a day, .*kcal/);
  assert.equal(await page.evaluate(() => document.activeElement?.className), 'sum-up', 'the proposal has the focus');
  assert.match(await page.locator('.heard').innerText(), /A change is proposed/);
  await page.getByRole('button', { name: /^Keep/ }).click();
  await settled(page);
  await page.waitForFunction(() => document.activeElement?.id === 'field');
  assert.match(await page.locator('.heard').innerText(), /kept/);
  await page.locator('.notices').getByRole('button', { name: 'Take it back' }).click();
  await settled(page);
  assert.equal(await field(page).inputValue(), before);
}, { timeout: 120000 });

for (const [width, height] of [[1440, 900], [1024, 768], [390, 844]])
  look(`Keep is in sight as soon as a change is proposed, ${width} px wide`, async ({ page, address }) => {
    await open(page, address);
    await page.getByRole('button', { name: 'Mend it' }).click();
    await page.locator('.proposal').waitFor({ timeout: 90000 });
    await settled(page);
    const keep = await page.getByRole('button', { name: /^Keep/ }).boundingBox();
    assert.ok(keep.y >= 0 && keep.y + keep.height <= height, `Keep from ${keep.y} to ${keep.y + keep.height} of ${height}`);
  }, { viewport: { width, height }, timeout: 120000 });

use('what was chosen is there after a reload', async ({ page, address }) => {
  await open(page, address);
  await page.getByLabel('Standard').selectOption({ label: 'FEDIAF 2021' });
  await page.getByLabel('Allowances by').selectOption({ label: 'per 1000 kcal eaten' });
  await page.getByLabel('Confidence wanted').selectOption({ label: '90 % sure' });
  await page.locator('.folded summary').first().click();
  await show(page, 'the chest freezer');
  await settled(page);
  await page.reload();
  await page.locator('.rails button.rail').first().waitFor();
  await settled(page);
  const chosen = (label) => page.getByLabel(label).evaluate((s) => s.selectedOptions[0].label);
  assert.equal(await chosen('Standard'), 'FEDIAF 2021');
  assert.equal(await chosen('Allowances by'), 'per 1000 kcal eaten');
  assert.equal(await chosen('Confidence wanted'), '90 % sure');
  assert.match(await field(page).inputValue(), /Larder: the chest freezer/);
  assert.equal(await page.locator('.folded[open]').count(), 1);
});

use('Back and Escape close what was opened, and a reload finds it open', async ({ page, address }) => {
  await open(page, address);
  const here = page.url();
  await rail(page, 'zinc').click();
  await page.reload();
  await page.locator('.reasons h2').getByText('Zinc').waitFor();
  await page.goBack();
  await page.locator('.reasons h2').getByText('Too little').waitFor();
  assert.equal(page.url(), here, 'the page is not left');
  await rail(page, 'zinc').click();
  await page.locator('button.margin').first().click(); // another thing, the same step
  await answered(page);
  await page.keyboard.press('Escape');
  await page.locator('.reasons h2').getByText('Too little').waitFor();
  assert.equal(await page.evaluate(() => document.activeElement?.dataset.line), '5', 'back at what was chosen');
  await write(page, await field(page).inputValue());
});
