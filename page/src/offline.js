// The service worker: keeps every file of the site, answers from there, and fetches anew only when the site has changed.
const FILES = __FILES__;
// Caches belong to the whole origin: the address of this copy of the site is part of the name, so that another copy on the same
// host keeps its own.
const OURS = `bowlwright ${self.registration.scope} `;
const CACHE = OURS + __VERSION__;

// A program that serves the page writes the token of its present run into the index. Kept here, it would only grow stale: the
// page asks for the present one by itself.
async function keepIndex(cache) {
  const index = await fetch('./', { cache: 'no-store' });
  if (!index.ok) throw new Error(`the index could not be fetched (${index.status})`);
  const text = (await index.text()).replace(/(<meta name="bowlwright-token" content=")[^"]*/, '$1');
  // In the middle of an upload the index may be of another edition than this list. The browser tries again later.
  for (const [, file] of text.matchAll(/(?:src|href)="\.\/(assets\/[^"]*)"/g))
    if (!FILES.includes(file)) throw new Error('the index belongs to another edition');
  await cache.put('./', new Response(text, { headers: { 'Content-Type': 'text/html; charset=utf-8' } }));
}

// Files whose name holds their hash never change: what the page has fetched a moment ago is not fetched again.
const once = (file) => (file.startsWith('assets/') ? new Request(file, { cache: 'force-cache' }) : file);

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(CACHE)
      .then((cache) => Promise.all([keepIndex(cache), cache.addAll(FILES.filter((f) => f !== './').map(once))]))
      .then(() => self.skipWaiting()),
  );
});

// The edition before stays, for pages that were left open: they fetch some files only when they need them (mending starts a
// worker), and the host may not have those any more. Names come in the order in which the caches were made.
async function dropOld() {
  const others = (await caches.keys()).filter((n) => n.startsWith(OURS) && n !== CACHE);
  await Promise.all(others.slice(0, -1).map((n) => caches.delete(n)));
}

self.addEventListener('activate', (event) => {
  event.waitUntil(dropOld().then(() => self.clients.claim()));
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
  return (await cache.match(request, { ignoreSearch: true })) ?? (await caches.match(request, { ignoreSearch: true })) ?? fetch(request);
}

self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  const theirs = new URL('./api/', self.location).pathname;
  if (event.request.method !== 'GET' || url.origin !== self.location.origin || url.pathname.startsWith(theirs)) return;
  event.respondWith(answer(event.request));
});
