// Starts the app. Written by `cargo xtask build`, which fills in the two names.
const before = document.getElementById("before");
try {
  const app = await import("./{{js}}");
  await app.default({ module_or_path: new URL("./{{wasm}}", import.meta.url) });
  before?.remove();
} catch (error) {
  const problem = document.getElementById("boot-problem");
  if (problem) {
    const old = typeof WebAssembly !== "object" || error instanceof WebAssembly.CompileError
      || error instanceof WebAssembly.LinkError || error instanceof SyntaxError;
    problem.textContent = old
      ? "This browser is too old for Crookwise. It needs Safari 16.4, Firefox 115, Chrome or Edge 111, or a later version of any of them."
      : "Crookwise could not start. Reload the page; if that does not help, the site may be only partly there, or the connection may be down.";
  }
  console.error(error);
}
