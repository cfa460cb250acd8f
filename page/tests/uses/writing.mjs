// Writing: from nothing, from a post, with errors, with what does not belong there.
import assert from 'node:assert/strict';
import { accessible, answered, field, open, paste, picture, rail, settled, show, use, verdictOf, write } from '../person.mjs';

use('typing a recipe from nothing', async ({ page, address }) => {
  await open(page, address);
  await page.getByRole('button', { name: 'new recipe' }).click();
  await field(page).click();
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Recipe: From nothing\nFor: Moss\n\n400 g beef mi');
  await page.locator('.offers li').first().waitFor();
  await picture(page, 'offers');
  assert.match(await page.locator('.offers').innerText(), /beef/i);
  await page.keyboard.press('ArrowDown');
  const offered = await page.locator('.offers li[aria-selected="true"] span').innerText();
  await accessible(page, 'the offers');
  await page.keyboard.press('Enter');
  assert.match(await field(page).inputValue(), new RegExp(`400 g .*(${offered.slice(0, 6)}|\\[)`, 'i'));
  await page.keyboard.type('\n100 g beef liver\n2 tsp sunflower oil');
  await page.keyboard.press('Escape');
  await settled(page);
  assert.equal(await page.locator('button.margin').count(), 3);
  assert.match(await page.locator('.head').innerText(), /dog, 31 kg/);
  assert.match(await page.locator('.ribbon').innerText(), /Moss eats all of it/);
});

use('who chooses among foods while others arrive has chosen', async ({ page, address }) => {
  await open(page, address);
  await field(page).focus();
  await page.keyboard.press('Control+End');
  await page.keyboard.type('\n400 g beef m');
  await page.locator('.offers li').first().waitFor();
  // The letter, the choice and the key that takes it come before any answer can: all in one task of the page.
  const written = () => field(page).inputValue();
  const before = await written();
  await page.evaluate(() => {
    const f = document.getElementById('field');
    const press = (key) => f.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    document.execCommand('insertText', false, 'i');
    setTimeout(() => press('ArrowDown'), 0);
  });
  await answered(page);
  await page.locator('.offers li[aria-selected="true"]').waitFor({ timeout: 5000 });
  const chosen = await page.locator('.offers li[aria-selected="true"] span').innerText();
  await page.keyboard.press('Enter');
  const now = await written();
  assert.ok(now.startsWith(before.slice(0, before.lastIndexOf('400 g'))), 'what stood before stays');
  assert.match(now.slice(now.lastIndexOf('400 g')), /^400 g [^\n]*$/, 'no line is begun');
  assert.doesNotMatch(now, /mince?i/, 'the last letter gave way with the others');
  assert.ok(now.toLowerCase().includes(chosen.toLowerCase()) || now.includes('['), chosen);
});

use('a new recipe shows nothing of the one before, and asks for whom it is', async ({ page, address }) => {
  await open(page, address);
  await show(page, "Pim's plate");
  await page.getByRole('button', { name: 'new recipe' }).click();
  await settled(page);
  assert.match(await field(page).inputValue(), /^Recipe: \nFor: Pim\nMakes: 1 day\n/, 'it is for the same animal, and says what a day is');
  assert.equal(await page.locator('.complaints li, .letters .error').count(), 0, 'what is only begun is not a fault');
  assert.match(await page.locator('.field .write-here').innerText(), /one food a line/);
  assert.equal(await page.locator('button.rail, button.margin').count(), 0);
  assert.match(await page.locator('.reading').innerText(), /one line of the recipe is understood/);
  await write(page, 'Recipe: For nobody\n\n200 g lamb heart\n');
  assert.equal(await page.locator('button.rail, button.margin').count(), 0);
  assert.doesNotMatch(await page.locator('.head').innerText(), / kg/);
  assert.match(await page.locator('.complaints li.error').innerText(), /^which animal\? there are Juniper, Moss and Pim/);
  await picture(page, 'for-nobody');
  await accessible(page, 'a recipe for nobody');
  await page.getByRole('button', { name: 'for Moss', exact: true }).click();
  await settled(page);
  assert.match(await page.locator('.head').innerText(), /dog, 31 kg/);
  assert.equal(await page.locator('.complaints li').count(), 0);
  await write(page, 'Recipe: Everything deleted\nFor: Pim\n');
  assert.equal(await page.locator('button.rail').count(), 0, 'what is not in the text is not shown');
});

use('a post from a forum is read as it stands', async ({ page, address }) => {
  await open(page, address);
  const post = [
    'For: Juniper',
    'Makes: 7 days',
    '',
    '- 2 lb ground turkey, 93% lean, raw weight, simmered',
    '- 1 cup brown rice, cooked',
    '* 1/2 lb chicken liver, raw weight, simmered',
    '• 2 medium carrots, boiled',
    '- 3 large eggs, boiled',
    '- 1 tbsp olive oil',
  ].join('\n');
  await paste(page, post);
  await settled(page);
  assert.equal(await field(page).inputValue(), post);
  assert.equal(await page.locator('.complaints li.error').count(), 0, await page.locator('.complaints').allInnerTexts().then(String));
  assert.equal(await page.locator('button.margin').count(), 6);
  assert.equal(await verdictOf(page, 'calcium'), 'short');
});

use('what a post says around its foods becomes a remark with a click', async ({ page, address }) => {
  await open(page, address);
  await paste(page, 'For: Juniper\nThis is what he gets, he loves it!\n600 g lamb heart\nGround beef 80/20 - 1.5 lbs (browned in a pan)\nSarah');
  await settled(page);
  const errors = page.locator('.complaints li.error');
  assert.doesNotMatch(await errors.allInnerTexts().then(String), /\[usda/, 'records stand on buttons, by their names');
  for (let n = await errors.filter({ hasText: 'make it a remark' }).count(); n > 0; n--) {
    await page.getByRole('button', { name: 'make it a remark' }).first().click();
    await settled(page);
  }
  assert.match(await field(page).inputValue(), /\n# This is what he gets, he loves it!\n600 g/);
  assert.match(await field(page).inputValue(), /\n# Sarah$/);
  assert.equal(await errors.count(), 1, 'of the food that is not understood nothing is left out');
  await page.locator('button.margin').first().click();
  await page.locator('.swaps summary').click();
  await page.locator('.swaps .hint').getByText(/as soon as every line/).waitFor();
  await errors.locator('.remedy').first().click();
  await page.locator('.swaps button.swap').first().waitFor();
});

use('foods that are offered go away with the line, and with the field', async ({ page, address }) => {
  await open(page, address);
  const type = async () => {
    await field(page).focus();
    await page.keyboard.press('Control+End');
    await page.keyboard.type('\n40 g chick');
    await page.locator('.offers li').first().waitFor();
  };
  const gone = () => page.locator('.offers').waitFor({ state: 'detached' });
  await type();
  await page.keyboard.press('Escape');
  await gone();
  await type();
  await page.keyboard.press('ArrowUp');
  await gone();
  await type();
  await field(page).click({ position: { x: 60, y: 20 } });
  await gone();
  await type();
  await page.locator('.reading').click({ position: { x: 4, y: 4 } });
  await gone();
});

use('what must not be fed stands before every number', async ({ page, address }) => {
  await open(page, address);
  await write(page, `${(await field(page).inputValue()).trimEnd()}\n60 g onion, raw\n`);
  assert.match(await page.locator('.danger').innerText(), /^Stop: do not feed (60 g )?onion(, raw)? to Juniper/);
  assert.match(await page.locator('.reasons h2').innerText(), /not (to )?be fed|not feed/i, 'the headline says so first');
  assert.equal(await page.getByText(/^Stop: /).count(), 1, 'once, not beside itself');
  // The line itself says so, and the words lead there.
  assert.match(await page.locator('.row.dangerous').innerText(), /60 g onion, raw[^]*not to be fed/);
  await page.locator('.danger .to-line').click();
  await page.waitForFunction(() => document.activeElement?.id === 'field');
  const chosen = await field(page).evaluate((f) => f.value.slice(f.selectionStart, f.selectionEnd));
  assert.equal(chosen, '60 g onion, raw');
  await picture(page, 'poison');
  await accessible(page, 'a poison');
  const top = await page.locator('.dangers').evaluate((e) => [e.getBoundingClientRect().bottom + scrollY, document.querySelector('.ribbon').getBoundingClientRect().top + scrollY]);
  assert.ok(top[0] <= top[1], 'above every figure');
  await page.getByRole('button', { name: 'new recipe' }).click();
  await settled(page);
  assert.equal(await page.locator('.dangers').count(), 0);
});

use('an error underlines the word, says what to type, and is put right by its hint', async ({ page, address }) => {
  await open(page, address);
  const before = await field(page).inputValue();
  await write(page, before.replace('tsp', 'tbs'));
  assert.equal(await page.locator('.letters .error').innerText(), 'tbs');
  assert.match(await page.locator('.complaints li.error').innerText(), /Line 6: unknown unit 'tbs'; did you mean 'tbsp'\?/);
  assert.match(await page.locator('.reading .stale').innerText(), /[wW]ithout line 6/);
  await picture(page, 'error');
  await accessible(page, 'an error');
  await page.getByRole('button', { name: 'tbsp', exact: true }).click();
  await settled(page);
  assert.match(await field(page).inputValue(), /1 1\/2 tbsp ground hemp seed/);
  assert.equal(await page.locator('.letters .error').count(), 0);
  await field(page).focus();
  await page.keyboard.press('Control+z');
  await settled(page);
  assert.match(await field(page).inputValue(), /tbs ground/, "the browser's own undo knows of it");
});

use('a line is chosen: what it brings, and another record for it', async ({ page, address }) => {
  await open(page, address);
  await page.locator('button.margin').first().click();
  const reasons = page.locator('.reasons');
  assert.match(await reasons.innerText(), /\[usda:17039\]/);
  await picture(page, 'line');
  await accessible(page, 'a line');
  await reasons.locator('.record summary').click();
  await reasons.locator('.record table').waitFor();
  assert.match(await reasons.locator('.record').innerText(), /measured, usda_sr28/);
  await reasons.locator('.records summary').click();
  await reasons.locator('.records button').first().click();
  await settled(page);
  assert.match(await field(page).inputValue(), /600 g lamb shoulder, cubed, raw \[usda:17035\]/);
  assert.match(await reasons.innerText(), /named by its pin/);
});

use('names with markup are letters, nothing else', async ({ page, address }) => {
  await open(page, address);
  await write(
    page,
    'Recipe: <img src=x onerror=alert(1)> bowl\nFor: Juniper\n\n100 g beef liver # <script>alert(2)</script>\n10 g <b>bold</b> food\n🥩🥩 200 g 🐑 lamb heart\n100 g כבד עוף\n50 g beef heart\u202e',
  );
  assert.equal(await page.locator('main img, main script, main b b').count(), 0);
  assert.match(await page.locator('select.title').innerText(), /<img src=x/);
  assert.ok((await page.locator('.complaints li.error').count()) >= 1);
  await picture(page, 'markup');
});

use('a megabyte by mistake does not stop the page', async ({ page, address }) => {
  await open(page, address);
  const before = await field(page).inputValue();
  await paste(page, '100 g beef heart and then some words 🥩\n'.repeat(26000));
  assert.match(await page.locator('.notices').innerText(), /Nothing was pasted/);
  assert.equal(await field(page).inputValue(), before);
  await paste(page, 'Recipe: long\n' + '100 g beef heart and then some words\n'.repeat(250));
  await page.locator('.complaints li').first().waitFor();
  await write(page, 'Recipe: small again\nFor: Juniper\n\n100 g beef heart');
  assert.equal(await page.locator('button.margin').count(), 1);
});

use('an animal that is not for this program is refused in words', async ({ page, address }) => {
  await open(page, address);
  await page.getByRole('button', { name: 'change', exact: true }).click();
  const text = await field(page).inputValue();
  await write(page, text.replace('Status: healthy', 'Status: kidney disease'));
  assert.ok(await page.locator('.refused').isVisible());
  assert.equal(await page.locator('button.rail.short').count(), 0);
  await picture(page, 'refused', true);
  await accessible(page, 'a refusal');
});

use('the last of many quick keystrokes is the one that is read, and nothing is said of the others', async ({ page, address }) => {
  await open(page, address);
  await page.evaluate(() => {
    const field = document.getElementById('field');
    for (let g = 1; g <= 40; g++) {
      field.value = `Recipe: Quick\nFor: Juniper\n\n${g}00 g beef heart`;
      field.dispatchEvent(new Event('input', { bubbles: true }));
    }
  });
  await settled(page);
  assert.equal(await page.locator('.trouble').count(), 0);
  assert.match(await page.locator('button.margin').innerText(), /4000 g|4 kg/);
});

use('no script runs but the page’s own, and nothing is asked of another host', async ({ page, address }) => {
  await open(page, address);
  const refused = await page.evaluate(async () => {
    const seen = new Set();
    document.addEventListener('securitypolicyviolation', (e) => seen.add(e.effectiveDirective));
    const script = document.createElement('script');
    script.textContent = 'globalThis.ran = true';
    document.body.append(script);
    const image = new Image();
    image.src = 'http://127.0.0.1:9/x.png';
    await fetch('http://127.0.0.1:9/').catch(() => undefined);
    await new Promise((done) => setTimeout(done, 300));
    return { ran: 'ran' in globalThis, seen: [...seen].sort() };
  });
  assert.deepEqual(refused, { ran: false, seen: ['connect-src', 'img-src', 'script-src-elem'] });
}, { mayComplain: /Content Security Policy|127\.0\.0\.1:9\// });
