// The service worker: keeps every file of the site, answers from there, and fetches anew only when the site has changed.
const FILES = __FILES__;
const CACHE = 'bowlwright-' + __VERSION__;

// A program that serves the page writes the token of its present run into the index. Kept here, it would only grow stale: the
// page asks for the present one by itself.
async function keepIndex(cache) {
  const index = await fetch('./', { cache: 'no-store' });
  if (!index.ok) throw new Error(`the index could not be fetched (${index.status})`);
  const text = (await index.text()).replace(/(<meta name="bowlwright-token" content=")[^"]*/, '$1');
  await cache.put('./', new Response(text, { headers: { 'Content-Type': 'text/html; charset=utf-8' } }));
}

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(CACHE)
      .then((cache) => Promise.all([keepIndex(cache), cache.addAll(FILES.filter((f) => f !== './'))]))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((n) => n.startsWith('bowlwright-') && n !== CACHE).map((n) => caches.delete(n))))
      .then(() => self.clients.claim()),
  );
});

// The page itself is asked from the network first, so that a new edition is seen at once; its files carry their hash in
// their name and never change.
async function answer(request) {
  const cache = await caches.open(CACHE);
  if (request.mode === 'navigate') {
    try {
      return await fetch(request);
    } catch {
      return (await cache.match('./')) ?? Response.error();
    }
  }
  return (await cache.match(request, { ignoreSearch: true })) ?? fetch(request);
}

self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.origin !== self.location.origin || url.pathname.includes('/api/')) return;
  event.respondWith(answer(event.request));
});
