// Draws the pictures of README. Usage: node pictures.mjs SITE PROGRAM FOLDER
//
// page.png: the page as it opens, for the Saltmarsh household's first recipe. terminal.svg: the beginning of the same answer in a
// terminal, letter by letter as the program colours it.
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openBrowser } from './browser.mjs';
import { open } from './person.mjs';
import { host } from './site.mjs';
import { small } from './small-png.mjs';

const [site, program, folder] = process.argv.slice(2);
const root = join(dirname(fileURLToPath(import.meta.url)), '../..');
const RAILS = 22;
const COLUMNS = 80;

// ---- the page ---------------------------------------------------------------------------------------------------------
const served = await host(site);
const browser = await openBrowser(served.address, { viewport: { width: 1440, height: 900 } });
await open(browser.page, served.address);
await browser.page.evaluate(() => document.fonts.ready);
writeFileSync(join(folder, 'page.png'), small(await browser.page.screenshot()));
await browser.close();
served.close();

// ---- the terminal -----------------------------------------------------------------------------------------------------
// 'script' gives the program a terminal, so that it colours what it says.
const command = `${program} check examples/weeknight-bowl.recipe --for examples/saltmarsh.animals --quiet --width ${COLUMNS}`;
const coloured = execFileSync('script', ['-qec', command, '/dev/null'], { cwd: root, env: { ...process.env, TERM: 'xterm-256color', LANG: 'C.UTF-8' } }).toString();

const INK = '#201f1b';
const COLOURS = { 31: '#9a3a22', 91: '#9a3a22', 32: '#4d6a34', 33: '#8a6414', 34: '#34558a', 35: '#7b3b78', 36: '#2b6a6a', 37: '#635e54', 90: '#777064' };
const [CELL, ROW, SIZE, EDGE] = [8.4, 19, 14, 18];
const escaped = (s) => s.replace(/&/g, '&amp;').replace(/</g, '&lt;');

/** Pieces of one line, with what the codes before them ask for. */
function pieces(line, style) {
  const out = [];
  let column = 0;
  for (const part of line.split(/(\x1b\[[\d;]*m)/)) {
    const codes = /^\x1b\[([\d;]*)m$/.exec(part);
    if (!codes) {
      // A run of spaces would be drawn as one: what stands on either side is placed by itself.
      for (const word of part.split(/(\s{2,}|^\s|\s$)/)) {
        if (word.trim() !== '') out.push({ text: word, column, ...style });
        column += [...word].length;
      }
      continue;
    }
    for (const code of (codes[1] || '0').split(';').map(Number)) {
      if (code === 0) Object.assign(style, { bold: false, dim: false, colour: INK });
      else if (code === 1) style.bold = true;
      else if (code === 2) style.dim = true;
      else if (code === 22) Object.assign(style, { bold: false, dim: false });
      else if (code === 39) style.colour = INK;
      else if (COLOURS[code]) style.colour = COLOURS[code];
    }
  }
  return out;
}

const style = { bold: false, dim: false, colour: INK };
const all = coloured.replace(/\r/g, '').replace(/^\n+/, '').split('\n');
const at = (words) => all.findIndex((l) => l.includes(words));
// The sentence, the energy, what to act on; then the first rails.
const lines = [...all.slice(0, at('Keep an eye on')), ...all.slice(at('Nutrients a day'), at('Nutrients a day') + RAILS)];
const drawn = lines.flatMap((line, i) =>
  pieces(line, style).map((p) => {
    const x = (EDGE + p.column * CELL).toFixed(1);
    const wide = ([...p.text].length * CELL).toFixed(1);
    return `<text x="${x}" y="${EDGE + ROW * i + SIZE}" textLength="${wide}" lengthAdjust="spacingAndGlyphs" fill="${p.colour}"${p.bold ? ' font-weight="bold"' : ''}${p.dim ? ' opacity="0.65"' : ''}>${escaped(p.text)}</text>`;
  }),
);
const [width, height] = [2 * EDGE + COLUMNS * CELL, 2 * EDGE + lines.length * ROW];
writeFileSync(
  join(folder, 'terminal.svg'),
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="${SIZE}">\n<rect width="100%" height="100%" fill="#faf8f3"/>\n${drawn.join('\n')}\n</svg>\n`,
);
