// Keeps the pages of the counter and the kiosk, so that they open without a connection. Questions are never kept here:
// the pages hold them themselves. A new version waits until the pages of the old one are closed or let it in.
"use strict";

const SHELF = "fruitwright-{{ tag }}";
const DRAWINGS = "fruitwright-drawings";
const KEPT = {{ kept | tojson }};
const DRAWING = /^\/v1\/signs\/[^/]+\/drawing$/;

self.addEventListener("install", (event) => {
  const fresh = KEPT.map((address) => new Request(address, { cache: "no-cache" }));
  event.waitUntil(caches.open(SHELF).then((shelf) => shelf.addAll(fresh)));
});

self.addEventListener("activate", (event) => {
  const old = (names) => names.filter((name) => name.startsWith("fruitwright-") && ![SHELF, DRAWINGS].includes(name));
  event.waitUntil(caches.keys()
    .then((names) => Promise.all(old(names).map((name) => caches.delete(name))))
    .then(() => self.clients.claim()));
});

self.addEventListener("message", (event) => {
  if (event.data === "let the new version in") self.skipWaiting();
});

async function kept(request) {
  const shelf = await caches.open(SHELF);
  return await shelf.match(request, { ignoreSearch: true }) ?? fetch(request);
}

async function drawing(request) {
  const drawings = await caches.open(DRAWINGS);
  const known = await drawings.match(request);
  if (known) return known;
  const drawn = await fetch(request);
  if (drawn.ok) await drawings.put(request, drawn.clone());
  return drawn;
}

self.addEventListener("fetch", (event) => {
  const { pathname, origin } = new URL(event.request.url);
  if (event.request.method !== "GET" || origin !== self.location.origin) return;
  if (KEPT.includes(pathname)) event.respondWith(kept(event.request));
  else if (DRAWING.test(pathname)) event.respondWith(drawing(event.request));
});
