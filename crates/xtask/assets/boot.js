// Starts the app. Written by `cargo xtask build`, which fills in the names and adds what comes after the start.
// In words that old browsers know as well: they must get as far as the sentence for them.
const start = async () => {
  const problem = document.getElementById("boot-problem");
  // The app says when its page is there: before, it asks the browser which desk is its own.
  const begun = new Promise((done, broken) => {
    addEventListener("crookwise-begun", done, { once: true });
    // A notice of the browser's own, as about sizes that changed once more, carries no error: the app starts all the same.
    addEventListener("error", (event) => event.error && broken(event.error));
  });
  begun.catch(() => {});
  try {
    takeFromAnyHost();
    const app = await import("./{{js}}");
    await app.default({ module_or_path: new URL("./{{wasm}}", import.meta.url) });
    await begun;
    return true;
  } catch (error) {
    // Where the policy's "wasm-unsafe-eval" is not known, WebAssembly is refused as evaluated text.
    const old = typeof WebAssembly !== "object" || error instanceof WebAssembly.CompileError
      || error instanceof WebAssembly.LinkError || error instanceof SyntaxError || error instanceof EvalError;
    if (problem) problem.textContent = problem.getAttribute(old ? "data-old" : "data-other");
    console.error(error);
    return false;
  }
};
