/** Files kept at most; older ones, of earlier versions of the pages, make room. */
const FILE_LIMIT = 240;
const PAGE_LIMIT = 40;

/**
 * Keeps this page and the files it is made of within reach of `app/offline.js`, for when the server is not. Does
 * nothing where the browser has no service workers, as on addresses without https.
 */
export async function keepPages(): Promise<void> {
  if (process.env.NODE_ENV !== "production" || !("serviceWorker" in navigator) || !("caches" in window)) return;
  await navigator.serviceWorker.register("/offline.js");
  const files = performance
    .getEntriesByType("resource")
    .map((entry) => entry.name)
    .filter((address) => new URL(address).pathname.startsWith("/_next/static/"));
  await keep("addend-files", files, FILE_LIMIT);
  await keep("addend-pages", [window.location.origin + window.location.pathname], PAGE_LIMIT);
}

async function keep(name: string, addresses: readonly string[], limit: number): Promise<void> {
  const cache = await caches.open(name);
  const kept = new Set((await cache.keys()).map((request) => request.url));
  await cache.addAll(addresses.filter((address) => !kept.has(address)));
  // Caches give their entries in the order in which they were put in.
  const entries = await cache.keys();
  const idle = entries.filter((request) => !addresses.includes(request.url));
  const surplus = Math.max(0, entries.length - limit);
  await Promise.all(idle.slice(0, surplus).map((request) => cache.delete(request)));
}
