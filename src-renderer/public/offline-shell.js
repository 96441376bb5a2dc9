// Runs beside the pages of a device that has joined (a service worker): a tablet that is reloaded while its station is away gets the
// page it had, which says so and goes on by itself, in place of the browser's own error. It keeps the page and its code, nothing of the
// casebook; calls, photos and changes pass it by.
const CACHE = 'beadwright-shell';
const PAGE = '/';

self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

// The page that begins all this came before: it says with what files, so that they are kept from the first time on.
self.addEventListener('message', (event) => event.waitUntil(keepWhatStands(event.data)));

self.addEventListener('fetch', (event) => {
  const { method, mode, url } = event.request;
  const { origin, pathname, search } = new URL(url);
  if (method !== 'GET' || origin !== self.location.origin || search !== '') return;
  if (mode === 'navigate' && pathname === PAGE) event.respondWith(newestPage(event.request));
  // Their names carry a hash of what is in them.
  else if (pathname.startsWith('/assets/')) event.respondWith(keptOrBrought(event.request));
});

/** Keeps the page that stands, and of its files those that are ours and carry a hash. */
async function keepWhatStands(files) {
  const cache = await caches.open(CACHE);
  const page = await fetch(PAGE);
  if (!page.headers.has('x-beadwright-screens')) return;
  await keepPage(cache, page);
  for (const file of Array.isArray(files) ? files : []) {
    const { origin, pathname } = new URL(file);
    if (origin === self.location.origin && pathname.startsWith('/assets/') && !(await cache.match(pathname)))
      await cache.add(pathname);
  }
}

/** The page as the station has it; the one that was kept, where nobody answers. */
async function newestPage(request) {
  const cache = await caches.open(CACHE);
  try {
    const response = await fetch(request);
    if (response.headers.has('x-beadwright-screens')) await keepPage(cache, response.clone());
    // Shut out: nothing stays that looks as if the device were let in.
    else if (response.status === 401) await caches.delete(CACHE);
    return response;
  } catch (error) {
    const kept = await cache.match(PAGE);
    if (kept) return kept;
    throw error;
  }
}

/** With another page come other files: those of the page before are let go. */
async function keepPage(cache, response) {
  const [before, now] = [await (await cache.match(PAGE))?.clone().text(), await response.clone().text()];
  if (before !== undefined && before !== now)
    for (const request of await cache.keys()) await cache.delete(request);
  await cache.put(PAGE, response);
}

async function keptOrBrought(request) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(request);
  if (kept) return kept;
  const response = await fetch(request);
  if (response.ok) await cache.put(request, response.clone());
  return response;
}
