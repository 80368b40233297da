// The JavaScript package as Node sees it: what its types promise is there, and nothing besides.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const folder = new URL("../../dist/package/", import.meta.url);
const manifest = JSON.parse(readFileSync(new URL("package.json", folder)));
const types = readFileSync(new URL(manifest.exports["."].types, folder), "utf8");

test("every function of the types is exported, and no other", async () => {
  const module = await import(new URL(manifest.exports["."].node, folder));
  const promised = [...types.matchAll(/^export (?:declare )?(?:function|class) (\w+)/gm)].map((match) => match[1]);
  assert.ok(promised.length > 0, "the types promise something");
  assert.deepEqual(Object.keys(module).sort(), [...new Set(promised)].sort());
  for (const name of promised) assert.equal(typeof module[name], "function", name);
});

test("the entry for browsers exports the same names", () => {
  const exported = (file) => readFileSync(new URL(file, folder), "utf8").match(/export \{(.*?)\}/s)[1].trim();
  assert.equal(exported(manifest.exports["."].default), exported(manifest.exports["."].node));
});

test("nothing in the package names the machine it was built on", () => {
  for (const name of ["glue.js", "crookwise.wasm"]) {
    const text = readFileSync(new URL(name, folder), "latin1");
    for (const place of [process.env.HOME, process.cwd()].filter((at) => at && at.length > 1)) {
      assert.ok(!text.includes(`${place}/`), `${name} names ${place}`);
    }
  }
});

test("installed, it is found by its name and needs no initialisation", () => {
  const place = mkdtempSync(join(tmpdir(), "crookwise-"));
  try {
    mkdirSync(join(place, "node_modules"));
    symlinkSync(fileURLToPath(folder), join(place, "node_modules", "crookwise"), "junction");
    const script = `import * as all from "crookwise"; console.log(Object.keys(all).sort().join())`;
    const words = ["--preserve-symlinks", "--input-type=module", "--eval", script];
    const printed = execFileSync(process.execPath, words, { cwd: place, encoding: "utf8" });
    const promised = [...types.matchAll(/^export (?:declare )?(?:function|class) (\w+)/gm)].map((match) => match[1]);
    assert.equal(printed.trim(), [...new Set(promised)].sort().join());
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
});
