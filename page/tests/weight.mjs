// What a first visit fetches until the first answer stands, in a browser that keeps nothing: as gzip sends it. Usage: node weight.mjs SITE
// The bound is the goal of docs/decisions/0005-library-on-its-way.md. That no other file is fetched is looked at by
// the use "a first visit fetches the first parts alone".
import assert from 'node:assert/strict';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';

const MOST_BYTES = 1_100_000;
/** Fetched when a question needs it, or for a time without a network. */
export const LATER = /\.rest-[^/]*\.packed$|bowlwright-[^/]*\.wasm$|(Days|examples)-[^/]*\.(js|css)$|(^|\/)sw\.js$|\.txt$/;

export const filesOf = (site) => readdirSync(site, { recursive: true }).map(String).filter((f) => statSync(join(site, f)).isFile());
export const sent = (bytes) => Math.min(bytes.length, gzipSync(bytes, { level: 9 }).length);

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const site = process.argv[2];
  const parts = filesOf(site).filter((f) => !LATER.test(f)).map((f) => [f, sent(readFileSync(join(site, f)))]);
  const sum = parts.reduce((all, [, n]) => all + n, 0);
  for (const [f, n] of parts.sort(([, a], [, b]) => b - a)) console.log(`${String(n).padStart(9)} ${f}`);
  console.log(`${String(sum).padStart(9)} of at most ${MOST_BYTES}`);
  assert.ok(parts.some(([f]) => /\.first-.*\.wasm$/.test(f)) && parts.some(([f]) => /\.near-.*\.packed$/.test(f)), 'the first parts are there');
  assert.ok(sum < MOST_BYTES, 'the first load stays under its goal');
}
