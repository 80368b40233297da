// Only while developing: takes the place of a release's service worker that was kept from the same address, and goes with
// all it kept. The page that it finds is still the release's; loaded anew, it is the one under development.
const go = async () => {
  const ours = (await caches.keys()).filter((name) => name.startsWith(`crookwise ${registration.scope} `));
  await Promise.all(ours.map((name) => caches.delete(name)));
  await registration.unregister();
};
addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(go()));
