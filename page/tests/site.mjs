// A plain file host on loopback, for the tests: what any static host does, and no more.
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
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

/** Serves 'folder'; the answer has its address, the bytes sent so far, and close(). */
export async function host(folder) {
  const told = { address: '', bytes: 0, close: () => {} };
  const open = new Set();
  const server = createServer((request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url, 'http://localhost').pathname));
    const file = join(folder, path.endsWith('/') ? `${path}index.html` : path);
    if (!file.startsWith(folder) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    const size = statSync(file).size;
    told.bytes += size;
    response.writeHead(200, { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream', 'content-length': size, 'cache-control': 'no-cache' });
    createReadStream(file).pipe(response);
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
