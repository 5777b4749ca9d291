// Keeps the pages of the fitting that is open, so that they open again without a connection. Pages
// come from the program whenever it answers; only this browser's last copy is shown without it.

"use strict";

const ASSETS = "assets";
const PAGES = "pages";
const AWAY = "/away";
const PATIENCE_MS = 3000;
const PAUSE_MS = 120; // between two pages fetched ahead: the fitter's own come first

function fittingOf(address) {
  return new URL(address).pathname.match(/^\/fittings\/(?!new$)[^/]+/)?.[0];
}

function isPage(answer) {
  return answer.ok && (answer.headers.get("content-type") ?? "").startsWith("text/html");
}

function rest(ms) {
  return new Promise((resolve) => { setTimeout(resolve, ms); });
}

async function timely(answer, ms) {
  const none = rest(ms).then(() => { throw new Error("no answer in time"); });
  return Promise.race([answer, none]);
}

self.addEventListener("install", (event) => {
  self.skipWaiting();
  event.waitUntil(caches.open(ASSETS).then((cache) => cache.add(AWAY)));
});
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  if (request.mode === "navigate") event.respondWith(page(event, url));
  else if (url.searchParams.has("v") || url.pathname.startsWith("/static/")) {
    event.respondWith(asset(request));
  }
});

async function page(event, url) {
  const pages = await caches.open(PAGES);
  const kept = fittingOf(url) && await pages.match(url.href);
  try {
    const asked = fetch(event.request);
    const answer = await (kept ? timely(asked, PATIENCE_MS) : asked);
    if (answer.status === 401) { // turned away: no page stays behind; what waits to be sent does
      await caches.delete(PAGES);
      return (await caches.match(AWAY)) ?? answer;
    }
    if (fittingOf(url) && isPage(answer)) {
      event.waitUntil(pages.put(url.href, answer.clone()).catch(() => {}));
    }
    return answer;
  } catch {
    return kept ? asItWas(kept) : away();
  }
}

// The copy says of itself when it was true.
async function asItWas(kept) {
  const time = new Date(kept.headers.get("date") ?? 0).toISOString();
  const text = (await kept.text()).replace("<html ", `<html data-kept="${time}" `);
  return new Response(text, { headers: kept.headers });
}

async function away() {
  return (await caches.match(AWAY)) ?? Response.error();
}

async function asset(request) {
  const cache = await caches.open(ASSETS);
  const named = new URL(request.url).searchParams.has("v");
  const kept = await cache.match(request, { ignoreVary: true });
  if (kept && named) return kept;
  try {
    return await fetch(request);
  } catch (error) {
    if (kept) return kept;
    throw error;
  }
}

self.addEventListener("message", (event) => event.waitUntil(keep(event.data)));

async function keep({ page: address, assets }) {
  await keepAssets(assets);
  const fitting = fittingOf(address);
  if (fitting) await keepFitting(fitting, address);
}

// One set of assets: when the program was renewed, the pages drawn with the old one go too.
async function keepAssets(addresses) {
  const cache = await caches.open(ASSETS);
  const held = (await cache.keys()).map((each) => each.url);
  const missing = addresses.filter((each) => !held.includes(each));
  const renewed = missing.some((each) => held.some((old) => old.split("?")[0] === each.split("?")[0]));
  if (renewed) {
    await caches.delete(PAGES);
    await Promise.all(held.filter((each) => !addresses.includes(each)).map((each) => cache.delete(each)));
  }
  await Promise.allSettled(missing.map((each) => cache.add(each)));
  if (renewed) await cache.add(AWAY);
}

// The pages of one fitting at a time: other golfers' are let go.
async function keepFitting(fitting, address) {
  const pages = await caches.open(PAGES);
  for (const { url } of await pages.keys()) {
    if (fittingOf(url) !== fitting) await pages.delete(url);
  }
  const answer = await fetch(`${fitting}/ways`);
  const ways = answer.ok ? await answer.json() : [];
  for (const way of [address, ...ways.map((each) => new URL(each, address).href)]) {
    if (await pages.match(way)) continue;
    const found = await fetch(way);
    if (isPage(found)) await pages.put(way, found);
    await rest(PAUSE_MS);
  }
}
