// Fetches the parts of the app. Written by `cargo xtask build`, which fills in the names and adds the parts.
import { initSync } from "../{{js}}";

// What the parts share with what started, as each module wants it.
let shared;
const imports = () => {
  if (!shared) {
    const { {{shared}} } = initSync();
    shared = { __wasm_split: { {{shared}} } };
  }
  return shared;
};

// Each file comes once. One that did not come is asked for anew when it is next wanted.
const coming = new Map();
const bring = (name) => {
  if (!coming.has(name)) {
    const file = fetch(new URL(`./${name}.wasm`, import.meta.url));
    const module = WebAssembly.instantiateStreaming(file, imports());
    module.catch(() => coming.delete(name));
    coming.set(name, module);
  }
  return coming.get(name);
};

// A part of these files. What waits for it stands in the table, and is told whether it came.
const part = (...files) => async (waiting, from) => {
  let came = true;
  try {
    await Promise.all(files.map(bring));
  } catch (error) {
    console.error(error);
    came = false;
  }
  imports().__wasm_split.__indirect_function_table.get(waiting)(from, came);
};
