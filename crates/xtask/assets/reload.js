// Only while developing: waits for `cargo xtask serve` to say that there is a newer build, then reloads the page.
const pause = (ms) => new Promise((done) => setTimeout(done, ms));
let seen = null;
for (;;) {
  try {
    const answer = await fetch(`/xtask/build?seen=${seen ?? ""}`, { cache: "no-store" });
    const build = await answer.text();
    if (seen !== null && build !== seen) location.reload();
    seen = build;
  } catch {
    await pause(1000);
  }
}
