// The built package, as a program would load it: through the entry point its own package.json names.
// CROOKWISE_PACKAGE names another folder than dist/package.

import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));

/** The folder of the package. */
export const folder = resolve(process.env.CROOKWISE_PACKAGE ?? join(here, "../../dist/package"));

if (!existsSync(join(folder, "package.json"))) {
    throw new Error(`There is no package in ${folder}: run \`cargo xtask package\` first`);
}

/** Its package.json. */
export const manifest = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));

/** The file a condition ("types", "default" …) leads to. */
function entry(condition) {
    const root = manifest.exports?.["."] ?? manifest.exports;
    const found = typeof root === "string" ? root : root?.[condition] ?? root?.import ?? root?.default;
    return join(folder, found ?? manifest[condition === "types" ? "types" : "main"]);
}

/** Its declarations. */
export const types = (() => {
    const root = manifest.exports?.["."] ?? manifest.exports;
    return join(folder, manifest.types ?? root?.types ?? entry("types"));
})();

/** Its calls. */
export const crookwise = await import(pathToFileURL(entry("node")).href);

/** The closed list of codes, as the declarations have it. */
const codes = [...readFileSync(types, "utf8").match(/type ErrorCode =([^;]*);/)[1].matchAll(/"([^"]+)"/g)].map(
    (found) => found[1],
);

/** The error a call throws. */
export function thrown(call) {
    try {
        call();
    } catch (error) {
        assert.ok(error instanceof Error, `${error} is no Error`);
        assert.equal(typeof error.code, "string");
        assert.ok(codes.includes(error.code), `${error.code} is not in the closed list`);
        assert.ok(error.message.length > 10 && error.message.length < 400, error.message);
        return error;
    }
    assert.fail("nothing was thrown");
}
