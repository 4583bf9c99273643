// The service worker: hands out the pages of rooms and their scripts while the server is out of reach, so that loading a
// page again then does not lose what its browser has kept. Whenever the server answers, its answer is the one that counts.
// src/room/keepPages.ts puts in what is there when a room is joined.
const PAGES = "addend-pages";
const FILES = "addend-files";

self.addEventListener("install", () => self.skipWaiting());

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin) return;
  if (pathname.startsWith("/_next/static/")) event.respondWith(file(request));
  else if (request.mode === "navigate" && pathname.startsWith("/room/")) event.respondWith(page(request));
});

/** A file whose name changes with its content: the kept one is as good as the server's. */
async function file(request) {
  const kept = await caches.match(request, { cacheName: FILES });
  if (kept) return kept;
  const response = await fetch(request);
  if (response.ok) await put(FILES, request, response);
  return response;
}

async function page(request) {
  try {
    const response = await fetch(request);
    if (response.ok) await put(PAGES, request, response);
    return response;
  } catch (unreachable) {
    const kept = await caches.match(request, { cacheName: PAGES, ignoreSearch: true });
    if (kept) return kept;
    throw unreachable;
  }
}

async function put(name, request, response) {
  const cache = await caches.open(name);
  await cache.put(request, response.clone());
}
