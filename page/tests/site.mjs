// A plain file host on loopback, for the tests: what any static host does, and no more.
import { cpSync, createReadStream, existsSync, mkdtempSync, readdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { extname, join, normalize } from 'node:path';

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.wasm': 'application/wasm',
  '.woff2': 'font/woff2',
  '.svg': 'image/svg+xml',
  '.webmanifest': 'application/manifest+json',
};

/** Serves 'folder'; the answer has its address, the bytes sent so far, which folder stands at which path (it may be changed
 * meanwhile, as by an upload), and close(). */
export async function host(folder) {
  const told = { address: '', bytes: 0, folders: { '/': folder }, close: () => {} };
  const open = new Set();
  const server = createServer((request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url, 'http://localhost').pathname));
    const at = Object.keys(told.folders).find((under) => path.startsWith(under)) ?? '/';
    const from = told.folders[at] ?? folder;
    const file = join(from, (path.endsWith('/') ? `${path}index.html` : path).slice(at.length));
    if (!(at in told.folders) || !file.startsWith(from) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    const size = statSync(file).size;
    told.bytes += size;
    response.writeHead(200, { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream', 'content-length': size, 'cache-control': 'no-cache' });
    // A folder may be taken away while a file of it is on its way.
    createReadStream(file).on('error', () => response.destroy()).pipe(response);
  });
  server.on('connection', (s) => {
    open.add(s);
    s.on('close', () => open.delete(s));
  });
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  told.address = `http://127.0.0.1:${server.address().port}/`;
  told.close = () => {
    server.close();
    for (const s of open) s.destroy();
  };
  return told;
}

/** A later edition of a built site, in a new folder: every file whose name holds a hash has another name, and the index says
 * <meta name="edition" content="later">, or another word. */
export function laterEdition(folder, word = 'later') {
  const later = mkdtempSync(join(tmpdir(), 'bowlwright-later-'));
  cpSync(folder, later, { recursive: true });
  const names = readdirSync(join(later, 'assets'));
  const renamed = (name) => name.replace(/(\.[^.]+)$/, `${word}$1`);
  for (const name of names) renameSync(join(later, 'assets', name), join(later, 'assets', renamed(name)));
  for (const file of ['index.html', 'sw.js', ...names.map((name) => join('assets', renamed(name)))]) {
    if (!/\.(html|js|css)$/.test(file)) continue;
    let text = readFileSync(join(later, file), 'utf8');
    for (const name of names) text = text.replaceAll(name, renamed(name));
    if (file === 'index.html') text = text.replace('<head>', `<head><meta name="edition" content="${word}">`);
    // The edition's own name in the worker, a hash of sixteen letters.
    if (file === 'sw.js') text = text.replace(/"[0-9a-f]{16}"/, `"${word}"`);
    writeFileSync(join(later, file), text);
  }
  return later;
}
