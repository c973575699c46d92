// Keeps the app usable with no network: every file of one build, cached together and replaced together.
// The build fills in the version and the list (`cargo xtask precache`).
//
// A new version waits until the app asks for it, and the app asks only between bakes.

const VERSION = "__VERSION__";
const FILES = [
  "__FILES__",
];

const HOME = new URL("./", self.registration.scope);
// Hosts may keep several apps on one origin, and all of them share one cache storage.
const OURS = `oventide:${HOME.pathname}:`;
const CACHE = OURS + VERSION;

self.addEventListener("install", (event) => {
  event.waitUntil(keepAll());
});

self.addEventListener("activate", (event) => {
  event.waitUntil(takeOver());
});

self.addEventListener("message", (event) => {
  if (event.data === "SKIP_WAITING") self.skipWaiting();
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
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(OURS) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
}

async function kept(request) {
  const cache = await caches.open(CACHE);
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
