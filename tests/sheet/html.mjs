// Usage: html.mjs BUILD_DIR SOURCE_DIR
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { HtmlValidate } from 'html-validate';
import { chromium } from 'playwright-core';
import { kinds, sheet } from './sheets.mjs';

const [build, source] = process.argv.slice(2);
const here = dirname(fileURLToPath(import.meta.url));
const axe = readFileSync(join(here, 'node_modules/axe-core/axe.min.js'), 'utf8');
const validator = new HtmlValidate({ root: true, extends: ['html-validate:standard', 'html-validate:document', 'html-validate:a11y'] });
const A4_PIXELS = 680; // 180 mm between the margins, at 96 to the inch
const faults = [];

const browser = await chromium.launch({
  executablePath: ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find((p) => existsSync(p)),
  headless: true,
  args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});

const wider = () => document.documentElement.scrollWidth - document.documentElement.clientWidth;

for (const [name, words, text] of kinds(source)) {
  const html = sheet(build, words, text).toString();
  for (const r of (await validator.validateString(html)).results)
    for (const m of r.messages) faults.push(`${name}: line ${m.line}: ${m.message} (${m.ruleId})`);
  const page = await browser.newPage({ viewport: { width: 1000, height: 1200 }, javaScriptEnabled: true });
  const asked = [];
  page.on('request', (r) => asked.push(r.url()));
  await page.setContent(html);
  if (asked.length > 0) faults.push(`${name}: fetches ${asked}`);
  await page.addScriptTag({ content: axe });
  const { violations } = await page.evaluate(() => globalThis.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }));
  for (const v of violations) faults.push(`${name}: axe ${v.id}: ${v.help}: ${v.nodes.slice(0, 2).map((n) => n.html.slice(0, 120))}`);
  await page.setViewportSize({ width: 360, height: 700 });
  if ((await page.evaluate(wider)) > 0) faults.push(`${name}: wider than a phone`);
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: A4_PIXELS, height: 1000 });
  if ((await page.evaluate(wider)) > 0) faults.push(`${name}: wider than paper`);
  await page.close();
}
await browser.close();
for (const f of faults) console.error(`FAILED: ${f}`);
console.log(`${kinds(source).length} sheets, ${faults.length} faults`);
process.exit(faults.length > 0 ? 1 : 0);
