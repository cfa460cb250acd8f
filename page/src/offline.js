// The service worker: keeps every file of the site, answers from there, and fetches anew only when the site has changed.
const FILES = __FILES__;
const CACHE = 'bowlwright-' + __VERSION__;

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(CACHE)
      .then((cache) => cache.addAll(FILES))
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
