// Two jobs, counted: every click, and that its button is in sight when it is needed.
import assert from 'node:assert/strict';
import { accessible, field, open, paste, picture, settled, use } from '../person.mjs';

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

use('answering a recipe that somebody posted: paste, say for whom, copy a reply', async ({ page, address, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await open(page, address);
  const { click, clicks } = hand(page);
  await click(page.getByRole('button', { name: 'new recipe' }));
  await paste(page, '- 300 g beef mince, raw\n- 100 g white rice, cooked\n- 50 g carrot, raw\n');
  await settled(page);
  await click(page.getByRole('button', { name: 'for Moss', exact: true }));
  await click(page.getByRole('button', { name: 'Copy a reply' }));
  await page.locator('.reply .letter').waitFor({ timeout: 60000 });
  const copied = await page.evaluate(() => navigator.clipboard.readText());
  assert.equal(copied, await page.locator('.letter').inputValue(), 'what is shown is what was copied');
  assert.ok(copied.split(/\s+/).length > 60, 'a letter');
  assert.match(copied, /calcium/i, 'it names what is missing');
  assert.ok(clicks() <= 5, `${clicks()} clicks`);
  await accessible(page, 'a reply');
  await picture(page, 'reply');
  await field(page).press('End');
  await page.keyboard.type(' ');
  await settled(page);
  assert.equal(await page.locator('.reply').count(), 0, 'a reply to another text is not shown');
}, { timeout: 120000 });

use('answering a post as it stands: paste, read it as a post, copy a reply', async ({ page, address, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await open(page, address);
  const { click, clicks } = hand(page);
  await click(page.getByRole('button', { name: 'new recipe' }));
  const post = 'Hi all! What do you think of this for our rescue?\nShe is a 22 kg spayed mix, 4 yrs.\n300 g beef mince and a handful of rice\n2 large eggs\na splash of olive oil\n1 scoop kelp\nThanks, Sarah';
  await paste(page, post);
  await settled(page);
  await click(page.getByRole('button', { name: 'Read it as a post' }));
  await page.locator('.questions li').first().waitFor();
  assert.match(await field(page).inputValue(), /^Dog: 22 kg, 4 years, neutered[^]*300 g beef mince[^]*# one drizzle taken as/, 'the animal is told in passing; what was assumed stands behind its line');
  assert.match(await page.locator('.questions').innerText(), /scoop/);
  assert.ok((await page.locator('button.rail').count()) > 5, 'it is judged');
  await accessible(page, 'a post that was read');
  await picture(page, 'post');
  await click(page.locator('.notices').getByRole('button', { name: 'Copy a reply' }));
  await page.locator('.reply .letter').waitFor({ timeout: 60000 });
  await page.locator('.reply').scrollIntoViewIfNeeded();
  assert.ok(clicks() <= 5, `${clicks()} clicks`);
  await field(page).focus();
  await page.keyboard.press('Control+z');
  await settled(page);
  assert.equal(await field(page).inputValue(), post, 'undo brings the post back');
}, { timeout: 120000 });
