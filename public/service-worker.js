// Keeps one version of the page for use without a network.
//
// A version is kept whole before it may serve anything. A newer one waits until a page asks for it or until no page of
// the older is left. What an open page may still load stays until that page is gone.

const VERSION = '{{version}}';
const FILES = {{files}};
// Each is kept once somebody has read the page in it, and then through every newer version.
const LANGUAGES = {{languages}};
const PREFIX = 'trialfit-';
const KEPT = PREFIX + VERSION;
const PAGE = registration.scope;

addEventListener('install', (event) => event.waitUntil(keep()));
addEventListener('activate', (event) => event.waitUntil(Promise.all([clients.claim(), tidy()])));
addEventListener('message', (event) => {
  const { kind, version } = event.data ?? {};
  if (kind === 'activate') skipWaiting();
  if (kind === 'language') event.waitUntil(keepLanguage(event.data.file));
  if (kind === 'started' && version === VERSION) event.waitUntil(tidy(event.source.id));
});
addEventListener('fetch', (event) => {
  const { method, mode, url } = event.request;
  if (method !== 'GET' || !url.startsWith(PAGE)) return;
  event.respondWith(mode === 'navigate' ? page(event.request) : file(event.request));
});

async function keep() {
  const cache = await caches.open(KEPT);
  const read = await languagesRead();
  const names = [...FILES, ...LANGUAGES.filter((name) => read.has(stem(name)))];
  await Promise.all(names.map((name) => keepFile(cache, name)));
  const response = await get(PAGE, 'no-cache');
  // A host in the middle of publishing may still give, or already give, the page of another version.
  if (!(await response.clone().text()).includes(VERSION)) throw new Error('the page is of another version');
  await cache.put(PAGE, asItself(response));
}

async function keepFile(cache, name) {
  const url = new URL(name, PAGE);
  // A name stands for one content: what an older version has need not be fetched again.
  const response = (await caches.match(url)) ?? (await get(url, 'default'));
  await cache.put(url, response);
}

// A page of an older version may ask for a file that is not of this one.
async function keepLanguage(name) {
  if (LANGUAGES.includes(name)) await keepFile(await caches.open(KEPT), name);
}

// What stands before the hash.
function stem(name) {
  return name.slice(0, name.lastIndexOf('-'));
}

// Languages that any version keeps.
async function languagesRead() {
  const stems = new Set(LANGUAGES.map(stem));
  const read = new Set();
  for (const key of (await caches.keys()).filter((key) => key.startsWith(PREFIX))) {
    for (const { url } of await (await caches.open(key)).keys()) {
      const found = stem(url.slice(PAGE.length));
      if (stems.has(found)) read.add(found);
    }
  }
  return read;
}

// Browsers refuse what was redirected as the answer to a navigation.
function asItself(response) {
  const { headers, redirected, status, statusText } = response;
  return redirected ? new Response(response.body, { headers, status, statusText }) : response;
}

async function get(url, cache) {
  const response = await fetch(url, { cache });
  if (!response.ok) throw new Error(`${url}: ${response.status}`);
  return response;
}

async function page(request) {
  const path = request.url.slice(PAGE.length).split(/[?#]/)[0];
  if (path === '' || path === 'index.html') {
    const cache = await caches.open(KEPT);
    return (await cache.match(PAGE)) ?? fetch(request);
  }
  // Not ours, perhaps the host's; without a network the page is the best there is.
  return fetch(request).catch(() => Response.redirect(PAGE));
}

async function file(request) {
  const cache = await caches.open(KEPT);
  const options = { ignoreSearch: true };
  return (await cache.match(request, options)) ?? (await caches.match(request, options)) ?? fetch(request);
}

// Drops other versions once no page is open that could be of one; `started` is of this one.
async function tidy(started) {
  const open = await clients.matchAll({ type: 'window', includeUncontrolled: true });
  if (registration.waiting || registration.installing || open.some((client) => client.id !== started)) return;
  for (const key of await caches.keys()) {
    if (key.startsWith(PREFIX) && key !== KEPT) await caches.delete(key);
  }
}
