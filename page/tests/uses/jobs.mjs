// Two jobs, counted: every click, and that its button is in sight when it is needed.
import assert from 'node:assert/strict';
import { open, settled, use } from '../person.mjs';

/** Clicks like a person does: what is not in sight cannot be clicked. Counts. */
const hand = (page) => {
  let clicks = 0;
  return {
    clicks: () => clicks,
    click: async (what) => {
      const at = await what.boundingBox();
      const { width, height } = page.viewportSize();
      assert.ok(at && at.x >= 0 && at.y >= 0 && at.x + at.width <= width && at.y + at.height <= height, `in sight: ${await what.innerText()} at ${JSON.stringify(at)}`);
      clicks++;
      await what.click();
      await settled(page);
    },
  };
};

use('is it fine, what do I change, take it, print it: three clicks', async ({ page, address }) => {
  await page.addInitScript(() => {
    globalThis.printed = 0;
    window.print = () => globalThis.printed++;
  });
  await open(page, address);
  const { click, clicks } = hand(page);
  const verdict = await page.locator('.reasons h2').boundingBox();
  assert.ok(verdict.y + verdict.height < 900, 'whether it is fine stands there without a click');
  await click(page.getByRole('button', { name: 'Mend it' }));
  await page.locator('.proposal').waitFor({ timeout: 60000 });
  await settled(page);
  await click(page.getByRole('button', { name: /^Keep/ }));
  await page.locator('.notices').getByText(/kept/).waitFor();
  await click(page.locator('.notices').getByRole('button', { name: 'print' }));
  assert.equal(await page.evaluate(() => globalThis.printed), 1);
  assert.equal(clicks(), 3);
}, { timeout: 120000 });
