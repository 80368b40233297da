// For browsers: fetches the wasm file beside this one. Written by `cargo xtask package`.
import init from "./glue.js";

await init({ module_or_path: new URL("./crookwise.wasm", import.meta.url) });
