// After the start: keeps the app on the device by the service worker. Where there is none, or it is forbidden, the app
// runs all the same. A newer version that is ready is told to the app, which asks the reader; where this version could
// not start, there is nothing to lose, and the newer one is taken at once.
const keep = async (started) => {
  try {
    const kept = await navigator.serviceWorker.register("./sw.js", { updateViaCache: "none" });
    const take = () => {
      // Another window may have taken it already.
      const next = kept.waiting;
      if (!next) return location.reload();
      next.addEventListener("statechange", () => next.state === "activated" && location.reload());
      next.postMessage("crookwise-take-over");
    };
    const tell = () => {
      if (!kept.waiting || !kept.active) return;
      if (started) dispatchEvent(new Event("crookwise-new-version"));
      else take();
    };
    const follow = () => kept.installing && kept.installing.addEventListener("statechange", tell);
    addEventListener("crookwise-use-new-version", take);
    if (kept.active) kept.active.postMessage("crookwise-started");
    kept.addEventListener("updatefound", follow);
    follow();
    tell();
  } catch {
    // Not kept, then.
  }
};
// Says by which version this window was started, as long as it is there: what that version kept stays until then.
const mine = `crookwise started ${import.meta.url}`;
if (navigator.locks) navigator.locks.request(mine, { mode: "shared" }, () => new Promise(() => {})).catch(() => {});
start().then(keep);
