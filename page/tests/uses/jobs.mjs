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
  // It is one's own to change, and to copy again; and it is there in other lengths.
  await page.locator('.letter').press('Control+Home');
  await page.keyboard.type('Hello from me. ');
  assert.match(await page.locator('.reply h2').innerText(), /changed since it was copied/);
  await page.getByRole('button', { name: 'Copy it as it stands' }).click();
  await page.locator('.reply h2', { hasText: /^Copied/ }).waitFor();
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), `Hello from me. ${copied}`);
  await page.getByLabel('How long the reply is').selectOption('five lines');
  await page.waitForFunction(() => (document.querySelector('.letter')?.value.trim().split('\n').filter((l) => l !== '').length ?? 9) <= 5);
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), await page.locator('.letter').inputValue());
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
  await page.locator('.questions').waitFor();
  assert.match(await field(page).inputValue(), /^Dog: 22 kg, 4 years, neutered[^]*300 g beef mince[^]*# one drizzle taken as/, 'the animal is told in passing; what was assumed stands behind its line');
  assert.match(await field(page).inputValue(), /^# ask: .*scoop/m, 'questions stand in the text, once');
  assert.equal(await page.locator('.questions li').first().isVisible(), false);
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

use('what a post leaves open is chosen at the end of its line', async ({ page, address }) => {
  await open(page, address);
  await page.getByRole('button', { name: 'new recipe' }).click();
  await paste(page, 'Our 22 kg spayed girl, 4 yrs, is a couch potato.\n300 g beef mince\na splash of olive oil\n100 g salmon\n2 large eggs\n');
  await settled(page);
  assert.equal(await page.locator('.complaints .error .to-line').count(), 1, 'one line that is no food: a paste is offered to be read all the same');
  await page.locator('.ask.post .with').getByText(/assumed/).waitFor();
  await page.getByRole('button', { name: 'Read it as a post' }).click();
  await page.locator('.open-choice').first().waitFor();
  await settled(page);
  const choice = (words) => page.getByRole('combobox', { name: new RegExp(words) });
  const kcal = async (words) => Number(/([\d.]+) kcal/.exec(await page.locator('button.margin', { hasText: words }).first().innerText())[1]);
  const before = await kcal('splash');
  const labels = await choice('olive oil').locator('option').allInnerTexts();
  assert.ok(labels.some((l) => /^much/.test(l)) && labels.some((l) => /usual.*as it is read/.test(l)), labels.join(' | '));
  await choice('olive oil').selectOption({ label: labels.find((l) => /^much/.test(l)) });
  await settled(page);
  assert.match(await field(page).inputValue(), /^9\.1 g olive oil {2}# 1 splash$/m, 'grams now, and what the owner said');
  assert.ok((await kcal('9.1 g olive oil')) > 1.8 * before);
  assert.equal(await choice('olive oil').count(), 0, 'nothing is open in this line any more');
  const records = await choice('salmon').locator('option').allInnerTexts();
  await choice('salmon').selectOption({ label: records.find((l) => /wild/.test(l)) });
  await settled(page);
  assert.match(await field(page).inputValue(), /^100 g salmon \[usda:\d+\]$/m);
  assert.match(await page.locator('button.margin', { hasText: 'salmon' }).innerText(), /wild/i);
  assert.ok((await choice('beef mince').locator('option').count()) > 2, 'how fat the mince is');
  const at = await choice('beef mince').boundingBox();
  assert.ok(at.width >= 24 && at.height >= 24, 'a target of 24 px');
  await accessible(page, 'choices in the margin');
  await picture(page, 'choices');
  await field(page).focus();
  for (let i = 0; i < 2; i++) await page.keyboard.press('Control+z');
  await settled(page);
  assert.match(await field(page).inputValue(), /^1 splash olive oil/m, 'undo takes choices back');
});

use('the questions about a post are copied', async ({ page, address, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await open(page, address);
  await page.getByRole('button', { name: 'new recipe' }).click();
  await paste(page, 'For my dog, 22 kg, 4 yrs\n300 g beef mince\n1 scoop kelp\nThanks!');
  await settled(page);
  await page.getByRole('button', { name: 'Read it as a post' }).click();
  await page.locator('.questions summary').click();
  await page.locator('.questions li').first().waitFor();
  const asked = await page.locator('.questions li').allInnerTexts();
  await page.getByRole('button', { name: /^Copy the (question|\d+ questions)$/ }).click();
  await page.locator('.notices').getByText('Copied.').waitFor();
  const copied = (await page.evaluate(() => navigator.clipboard.readText())).split('\n');
  assert.deepEqual(copied, asked.map((q, i) => `${i + 1}. ${q}`));
  assert.ok(copied.some((q) => /scoop/.test(q)));
});

use('the animal that a post tells becomes one of mine in one click', async ({ page, address }) => {
  await open(page, address);
  await page.getByRole('button', { name: 'new recipe' }).click();
  await paste(page, 'Our 22 kg spayed dog, 4 yrs, a real couch potato, gets\n300 g beef mince\na handful of spinach\n');
  await settled(page);
  await page.getByRole('button', { name: 'Read it as a post' }).click();
  await page.locator('.ask.told').waitFor();
  await settled(page);
  const need = () => page.locator('.need-words').innerText();
  const before = await need();
  await page.locator('.ask.told').getByRole('button', { name: 'New animal' }).click();
  await settled(page);
  assert.match(await field(page).inputValue(), /^For: Posted dog$/m);
  assert.doesNotMatch(await field(page).inputValue(), /^Dog:/m);
  assert.equal(await page.locator('select.name').inputValue(), 'Posted dog');
  assert.equal(await page.locator('.described').innerText(), 'dog, 22 kg, 4 years, neutered, low activity');
  assert.equal(await need(), before, 'the same animal needs the same');
  await page.locator('.notices').getByRole('button', { name: 'Name it' }).click();
  assert.match(await field(page).inputValue(), /Animal: Posted dog\nSpecies: dog\nWeight: 22 kg\nAge: 4 years\nNeutered: yes\nActivity: low\n/);
});

use('an animal that is only begun makes no recipe unreadable', async ({ page, address }) => {
  await open(page, address);
  const rails = await page.locator('button.rail').count();
  await page.getByRole('button', { name: 'new animal' }).click();
  await settled(page);
  assert.match(await field(page).inputValue(), /Animal: \nSpecies: dog\nWeight: {2}kg\n/);
  assert.equal(await page.locator('.old').count(), 0, 'the bowl for another animal is still read');
  assert.equal(await page.locator('button.rail').count(), rails);
  assert.ok((await page.locator('.complaints .error').count()) > 0, 'what is missing is said where it is written');
  await page.reload();
  await page.locator('.rails button.rail').first().waitFor();
  await settled(page);
  assert.equal(await page.locator('.old').count(), 0);
});
