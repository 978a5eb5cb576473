/** A file of the build: its address from the page's folder on ('' is the page itself), and its SHA-256 as base64. */
interface BuiltFile {
  readonly path: string;
  readonly sha256: string;
}

/** What a page asks: whether all is here; or, of a version that waits, to take over. */
interface Asked {
  readonly ask: 'attend' | 'take-over';
  /** The page's own script, which tells of which version it is. */
  readonly script?: string;
}

declare const self: ServiceWorkerGlobalScope;

/** The build puts its list and its version in place of these. */
const FILES: readonly BuiltFile[] = JSON.parse('__BUILT_FILES__');
const VERSION = '__BUILT_VERSION__';

const scope = self.registration.scope;
const hashes = new Map(FILES.map(({ path, sha256 }) => [new URL(path, scope).href, sha256]));
const ofScope = `evenfield ${scope} `;
const cacheName = ofScope + VERSION;
let handedOverAt = Number.NEGATIVE_INFINITY;

self.addEventListener('install', (event) => event.waitUntil(fetchMissing()));
self.addEventListener('activate', (event) => event.waitUntil(removeOlder()));

self.addEventListener('message', (event) => {
  const { ask, script } = event.data as Asked;
  if (ask === 'take-over') event.waitUntil(self.skipWaiting());
  else event.waitUntil(attend(event.source as WindowClient, script ?? '', event.ports[0]!));
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET') return;
  const isPage =
    request.mode === 'navigate' && [scope, `${scope}index.html`].includes(url.origin + url.pathname);
  const address = isPage ? scope : url.origin + url.pathname;
  const asker = self.registration.waiting === null ? null : url.searchParams.get('newer');
  const isHandingOver = performance.now() - handedOverAt < HAND_OVER_MS;
  if (isPage && (asker !== null || isHandingOver)) event.respondWith(handOver(asker));
  else if (hashes.has(address)) event.respondWith(kept(address));
});

/**
 * Fetches what is not kept yet, one file after another. A file that is not the one that was built is refused, so that a
 * copy holds files of one version only; what is kept so far stays, and the next try goes on from there.
 */
async function fetchMissing(): Promise<void> {
  const cache = await caches.open(cacheName);
  const present = new Set((await cache.keys()).map(({ url }) => url));
  for (const address of hashes.keys())
    if (!present.has(address)) await cache.put(address, await fetched(address));
}

/** @throws TypeError where there is no network, or another file under that address. */
async function fetched(address: string): Promise<Response> {
  const integrity = `sha256-${hashes.get(address)}`;
  const response = await fetch(new Request(address, { cache: 'no-cache', integrity }));
  if (!response.ok) throw new TypeError(`${address} gave ${response.status}`);
  return response;
}

/** With all headers that it came with. */
async function kept(address: string): Promise<Response> {
  const cache = await caches.open(cacheName);
  return (await cache.match(address)) ?? (await fetched(address));
}

/** Only once no page of another version is open does a version become the active one. */
async function removeOlder(): Promise<void> {
  const names = await caches.keys();
  const older = names.filter((name) => name.startsWith(ofScope) && name !== cacheName);
  await Promise.all(older.map((name) => caches.delete(name)));
}

async function openPages(): Promise<readonly Client[]> {
  const windows = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  return windows.filter(({ url }) => url.startsWith(scope));
}

/**
 * Says whether every file is here, and how many other pages are open. A page of this very version that was loaded before
 * there was a copy is served from it from now on, where no other page is open that may be of another version.
 */
async function attend(page: WindowClient, script: string, answer: MessagePort): Promise<void> {
  const isWhole = await fetchMissing().then(
    () => true,
    () => false,
  );
  const others = (await openPages()).filter(({ id }) => id !== page.id).length;
  if (isWhole && others === 0 && hashes.has(script)) await self.clients.claim();
  answer.postMessage({ isWhole, others, id: page.id });
}

/** Once it has handed over, a version serves no page any more until the newer one, which begins by itself, does. */
const HAND_OVER_MS = 5000;

/**
 * The page that asked for the newer version is left for an empty one, under which the newer takes over: so no page is
 * served by two. Where another page is open meanwhile, everything stays as it is.
 */
async function handOver(asker: string | null): Promise<Response> {
  const others = (await openPages()).filter(({ id }) => id !== asker);
  if (asker !== null && others.length === 0) {
    handedOverAt = performance.now();
    self.registration.waiting?.postMessage({ ask: 'take-over' } satisfies Asked);
  }
  const page = await kept(scope);
  const headers = new Headers({ 'Content-Type': 'text/html; charset=utf-8' });
  for (const name of CARRIED) {
    const value = page.headers.get(name);
    if (value !== null) headers.set(name, value);
  }
  const next =
    '<!doctype html><title>Evenfield</title><link rel="icon" href="icons/icon-192.png"><meta http-equiv="refresh" content="0; url=./">';
  return new Response(next, { headers });
}

const CARRIED = ['Cross-Origin-Opener-Policy', 'Cross-Origin-Embedder-Policy', 'Content-Security-Policy'];

export {};
