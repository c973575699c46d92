// Keeps the app usable with no network: every file of one build, cached together and replaced together.
// The build fills in the version and the list (`cargo xtask precache`).
//
// A new version waits until the app asks for it, and the app asks only between bakes. But once no
// page is open a browser lets it in by itself, as when the phone died in the middle of a bake. So
// the app says whether a bake runs: while one does, the version that said so is held on to, and
// whichever worker is in charge serves that version's files, all from its one cache.

const VERSION = "__VERSION__";
const FILES = [
  "__FILES__",
];

const HOME = new URL("./", self.registration.scope);
// Hosts may keep several apps on one origin, and all of them share one cache storage.
const OURS = `oventide:${HOME.pathname}:`;
const CACHE = OURS + VERSION;
const HELD = `${OURS}held`;
const NOTE = new URL("held", HOME);
// No bake lasts longer, and a version too broken to say that it is over must not stay forever.
const LONGEST_HOLD_MS = 3 * 24 * 60 * 60 * 1000;

// The name of the cache that is served from, once it was found out.
let serving;

self.addEventListener("install", (event) => {
  event.waitUntil(keepAll());
});

self.addEventListener("activate", (event) => {
  event.waitUntil(takeOver());
});

self.addEventListener("message", (event) => {
  if (event.data === "SKIP_WAITING") self.skipWaiting();
  if (event.data === "BAKING") event.waitUntil(hold());
  if (event.data === "NOT_BAKING") event.waitUntil(letGo(event.source));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== HOME.origin) return;
  event.respondWith(request.mode === "navigate" ? page(request, url) : file(request));
});

self.addEventListener("notificationclick", (event) => {
  event.notification.close();
  event.waitUntil(showApp());
});

async function keepAll() {
  const cache = await caches.open(CACHE);
  // `reload` passes by the browser's own cache, which may still hold the last version's index.
  await cache.addAll(FILES.map((path) => new Request(new URL(path, HOME), { cache: "reload" })));
}

async function takeOver() {
  await forgetOldVersions();
  // The page of the first visit has no worker yet, and behind nobody a newer version wouldn't wait.
  await self.clients.claim();
}

async function forgetOldVersions() {
  const needed = [CACHE, HELD, await served()];
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(OURS) && !needed.includes(name));
  await Promise.all(old.map((name) => caches.delete(name)));
}

function served() {
  serving ??= findServed();
  return serving;
}

async function findServed() {
  if (!(await caches.has(HELD))) return CACHE;
  const note = await (await caches.open(HELD)).match(NOTE);
  if (!note) return CACHE;
  const { name, at } = await note.json();
  const isOfThisBake = Math.abs(Date.now() - at) < LONGEST_HOLD_MS;
  return isOfThisBake && (await caches.has(name)) ? name : CACHE;
}

async function hold() {
  const name = await served();
  const cache = await caches.open(HELD);
  await cache.put(NOTE, new Response(JSON.stringify({ name, at: Date.now() })));
}

async function letGo(client) {
  const isOlder = (await served()) !== CACHE;
  await caches.delete(HELD);
  serving = undefined;
  if (!isOlder) return;
  await forgetOldVersions();
  client?.postMessage("NEWER");
}

async function kept(request) {
  const cache = await caches.open(await served());
  return cache.match(request, { ignoreSearch: true, ignoreVary: true });
}

async function file(request) {
  return (await kept(request)) ?? fetch(request);
}

async function page(request, url) {
  if (url.pathname === HOME.pathname) return (await kept(HOME)) ?? fetch(request);
  // The index has relative links, so an address that isn't a file goes home instead of showing it there.
  return (await kept(request)) ?? Response.redirect(HOME);
}

async function showApp() {
  const windows = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  const open = windows.find((client) => client.url.startsWith(HOME.href));
  return open ? open.focus() : self.clients.openWindow(new URL("#/bench", HOME));
}
