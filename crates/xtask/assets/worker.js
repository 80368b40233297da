// Keeps this version of the app whole on the device. Written by `cargo xtask build`, which fills in the version, the
// files, the hash of all but the page together, and the names that the page must hold. A window that was started by another version is given
// what that version kept, until it is gone.
const ours = `crookwise ${registration.scope} `;
const version = `${ours}{{version}}`;
const files = {{files}};
const whole = "{{whole}}";
const named = {{named}};
const isHere = (url) => url.startsWith(registration.scope);
const at = (name) => new URL(name, registration.scope).href;

// All files or none. They are asked for anew, but the browser is not sent again what it has just loaded for the page.
// A host may add words of its own to the page, so the page is known by the files that it names.
const install = async () => {
  const cache = await caches.open(version);
  await cache.addAll(["./", ...files].map((name) => new Request(at(name), { cache: "no-cache" })));
  const bytes = async (name) => (await cache.match(at(name))).arrayBuffer();
  const all = await new Blob(await Promise.all(files.map(bytes))).arrayBuffer();
  const hash = String.fromCharCode(...new Uint8Array(await crypto.subtle.digest("SHA-256", all)));
  const page = await (await cache.match(at("./"))).text();
  if (btoa(hash) === whole && named.every((name) => page.includes(name))) return;
  await caches.delete(version);
  throw new Error("These files are not of one version.");
};
// Asked without making a cache that is gone.
const find = (name, cacheName) => caches.match(name, { cacheName, ignoreVary: true });
const others = async () => (await caches.keys()).filter((name) => name.startsWith(ours) && name !== version);
// Every window holds a lock that names the module it was started by: what a version kept goes when none of its windows is
// left. While a window has not said yet by what it was started, or a newer version is on its way or waits, all stays.
const isComing = () => registration.installing || registration.waiting;
const tidy = async () => {
  if (isComing()) return;
  const { held } = await navigator.locks.query();
  const started = held.flatMap(({ name }) => name.split("crookwise started ").slice(1)).filter(isHere);
  const windows = await clients.matchAll({ type: "window", includeUncontrolled: true });
  if (windows.filter(({ url }) => isHere(url)).length > started.length) return;
  for (const name of await others()) {
    const used = await Promise.all(started.map((module) => find(module, name)));
    if (!used.some(Boolean) && !isComing()) await caches.delete(name);
  }
};
const activate = async () => {
  await clients.claim();
  await tidy();
};
// What is not kept is asked for; without a connection a reader who goes there, to the licences, is told so, by a page with
// the icon that is kept: without one the browser asks for another.
const absent = () => {
  const headers = { "Content-Type": "text/html; charset=utf-8" };
  const said = "This text is not kept on the device: it needs a connection.";
  const icon = at("icon.svg");
  return new Response(`<!doctype html><html lang="en"><link rel="icon" href="${icon}"><title>Crookwise</title><p>${said}`, { headers });
};
const answer = async (request) => {
  const name = request.url.split(/[?#]/)[0].replace(/\/index\.html$/, "/");
  const kept = await find(name, version);
  if (kept) return kept;
  if (request.mode === "navigate") return fetch(request).catch(absent);
  for (const other of await others()) {
    const theirs = await find(name, other);
    if (theirs) return theirs;
  }
  return fetch(request);
};

addEventListener("install", (event) => event.waitUntil(install()));
addEventListener("activate", (event) => event.waitUntil(activate()));
addEventListener("message", (event) => {
  if (event.data === "crookwise-take-over") skipWaiting();
  if (event.data === "crookwise-started") event.waitUntil(tidy());
});
addEventListener("fetch", (event) => {
  const { method, url } = event.request;
  if (method === "GET" && isHere(url)) event.respondWith(answer(event.request));
});
