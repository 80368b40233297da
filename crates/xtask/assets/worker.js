// Keeps this version of the app whole on the device. Written by `cargo xtask build`, which fills in the version, the
// files with their hashes, and the names that the page must hold. It never looks into the cache of another version.
const ours = `crookwise ${registration.scope} `;
const version = `${ours}{{version}}`;
const files = {{files}};
const named = {{named}};
const at = (name) => new URL(name, registration.scope).href;

// All files or none. They are asked for anew, but the browser is not sent again what it has just loaded for the page.
// A host may add words of its own to the page, so the page is known by the files that it names.
const install = async () => {
  const cache = await caches.open(version);
  const entries = Object.entries(files);
  await cache.addAll(entries.map(([name, integrity]) => new Request(at(name), { cache: "no-cache", integrity })));
  const page = await (await cache.match(at("./"))).text();
  if (!named.every((name) => page.includes(name))) throw new Error("This page is of another version.");
};
const activate = async () => {
  const old = (await caches.keys()).filter((name) => name.startsWith(ours) && name !== version);
  await Promise.all(old.map((name) => caches.delete(name)));
  await clients.claim();
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
  const cache = await caches.open(version);
  const name = request.url.split(/[?#]/)[0].replace(/\/index\.html$/, "/");
  const kept = await cache.match(name, { ignoreVary: true });
  if (kept || request.mode !== "navigate") return kept || fetch(request);
  return fetch(request).catch(absent);
};

addEventListener("install", (event) => event.waitUntil(install()));
addEventListener("activate", (event) => event.waitUntil(activate()));
addEventListener("message", (event) => event.data === "crookwise-take-over" && skipWaiting());
addEventListener("fetch", (event) => {
  const { method, url } = event.request;
  if (method === "GET" && url.startsWith(registration.scope)) event.respondWith(answer(event.request));
});
