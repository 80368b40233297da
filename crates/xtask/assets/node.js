// For Node: reads the wasm file beside this one. Written by `cargo xtask package`.
import { readFileSync } from "node:fs";
import { initSync } from "./glue.js";

initSync({ module: readFileSync(new URL("./crookwise.wasm", import.meta.url)) });
