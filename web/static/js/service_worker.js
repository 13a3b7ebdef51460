// Keeps pages for a phone without a network. `KEPT` (what belongs to the house, the words) stands
// before this file when it is served; see web/pages/pocket.py.

const HOUSE = `house ${KEPT.version}`;
const COPY = "copy";
const LIST = "/pocket/copy.json";
const HERE = "/pocket/here";
const PAGES = /^\/(plans\/of|cutting|pocket)\//;

addEventListener("install", (event) => {
  event.waitUntil(caches.open(HOUSE).then((cache) => cache.addAll(KEPT.files)).then(() => skipWaiting()));
});

addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) if (name !== HOUSE && name !== COPY) await caches.delete(name);
    await clients.claim();
  })());
});

addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (url.origin !== location.origin) return;
  if (event.request.method === "POST" && event.request.mode === "navigate") event.respondWith(sent(event.request));
  // Whether the stash answers now is never told out of the copy.
  if (event.request.method !== "GET" || url.pathname === HERE) return;
  if (url.pathname.startsWith("/static/")) event.respondWith(ofTheHouse(event.request));
  else if (event.request.mode === "navigate" || PAGES.test(url.pathname)) event.respondWith(fresh(event.request, url));
});

addEventListener("message", (event) => {
  if (event.data === "renew") event.waitUntil(renew().catch(() => null));
});

async function ofTheHouse(request) {
  return (await caches.match(request, { cacheName: HOUSE, ignoreSearch: true })) ?? fetch(request);
}

// The network first; what is kept where there is none.
async function fresh(request, url) {
  try {
    const answer = await fetch(request);
    if (await isForgotten(answer)) return answer;
    if (answer.ok && !answer.redirected && PAGES.test(url.pathname) && !url.search) await keep(url.pathname, answer.clone());
    return answer;
  } catch {
    return (await copyOf(url.pathname)) ?? nothingKept(request);
  }
}

// A form that nobody answers leaves the page, and all that was typed, as it stands (204); the page says so.
async function sent(request) {
  try {
    return await fetch(request);
  } catch {
    for (const client of await clients.matchAll({ type: "window" })) client.postMessage({ unsent: true });
    return new Response(null, { status: 204 });
  }
}

async function keep(path, answer) {
  const copy = await caches.open(COPY);
  const headers = new Headers(answer.headers);
  headers.set("Kept-At", new Date().toISOString());
  await copy.put(path, new Response(await answer.blob(), { headers }));
}

// A page out of the copy says that it is one, and when it was true.
async function copyOf(path) {
  const kept = await (await caches.open(COPY)).match(path);
  if (!kept || !kept.headers.get("Content-Type")?.includes("text/html")) return kept;
  const page = (await kept.text()).replace("<html ", `<html data-kept="${kept.headers.get("Kept-At")}" `);
  return new Response(page, { headers: kept.headers });
}

async function nothingKept(request) {
  if (request.mode !== "navigate") return Response.error();
  const label = /^\/c\/([0-9a-z]+)$/i.exec(new URL(request.url).pathname);
  if (await (await caches.open(COPY)).match("/pocket/")) {
    return Response.redirect(label ? `/pocket/#${label[1].toUpperCase()}` : "/pocket/#not-kept", 302);
  }
  const words = new Response(KEPT.nothing, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
  return words;
}

// A device that is known no longer keeps nothing to read.
async function isForgotten(answer) {
  if (answer.headers.get("Lengthwise-Device") !== "unknown") return false;
  await caches.delete(COPY);
  return true;
}

// Everything this device may keep, fetched where the record has moved on; the rest is dropped.
async function renew() {
  const answer = await fetch(LIST, { headers: { Accept: "application/json" } });
  if ((await isForgotten(answer)) || !answer.ok) return;
  const list = await answer.clone().json();
  const copy = await caches.open(COPY);
  const before = await copy.match(LIST).then((kept) => kept?.json()).catch(() => null);
  const wanted = new Set([...list.pages, LIST]);
  for (const request of await copy.keys()) {
    if (!wanted.has(decodeURI(new URL(request.url).pathname)) && !wanted.has(new URL(request.url).pathname)) await copy.delete(request);
  }
  for (const page of list.pages) {
    if (before?.as_of === list.as_of && (await copy.match(page))) continue;
    const got = await fetch(page);
    if (await isForgotten(got)) return;
    if (got.ok && !got.redirected) await keep(page, got);
  }
  await copy.put(LIST, answer);
  for (const client of await clients.matchAll({ includeUncontrolled: true })) client.postMessage({ renewed: list.as_of });
}
