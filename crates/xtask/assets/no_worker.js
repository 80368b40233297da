// Only while developing: takes the place of a release's service worker that was kept from the same address, and goes with
// all it kept. A page of the release that is still there, or on its way, is given what the release kept; loaded anew, it
// is the one under development, and when no other is left, all of the release goes.
const isHere = (url) => url.startsWith(registration.scope);
const find = (name, cacheName) => caches.match(name, { cacheName, ignoreVary: true });
const kept = async () => (await caches.keys()).filter((name) => name.startsWith(`crookwise ${registration.scope} `));
const loaded = new Set();
const go = async () => {
  const windows = await clients.matchAll({ type: "window", includeUncontrolled: true });
  if (!windows.every(({ id, url }) => loaded.has(id) || !isHere(url))) return;
  await Promise.all((await kept()).map((name) => caches.delete(name)));
  await registration.unregister();
};
const answer = async (request) => {
  for (const name of await kept()) {
    const found = await find(request.url.split(/[?#]/)[0], name);
    if (found) return found;
  }
  return fetch(request);
};
addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(go()));
addEventListener("fetch", (event) => {
  const { method, mode, url } = event.request;
  if (method !== "GET" || !isHere(url)) return;
  if (mode === "navigate") {
    loaded.add(event.resultingClientId);
  } else {
    event.respondWith(loaded.has(event.clientId) ? fetch(event.request) : answer(event.request));
    event.waitUntil(go());
  }
});
