// The declarations, held against a program by the TypeScript compiler, and their closed lists against the calls.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { crookwise, types } from "./package.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const compiler = join(here, "node_modules/typescript/bin/tsc");

test("a program compiles against the declarations, and a wrong one does not", (context) => {
    if (!existsSync(compiler)) {
        context.skip("the TypeScript compiler is not installed: run `npm ci` in tests/node");
        return;
    }
    const folder = mkdtempSync(join(tmpdir(), "crookwise-types-"));
    try {
        const config = join(folder, "tsconfig.json");
        writeFileSync(config, JSON.stringify({
            compilerOptions: {
                strict: true, noEmit: true, exactOptionalPropertyTypes: true, target: "ES2022", module: "ES2022",
                moduleResolution: "Bundler", lib: ["ES2022", "DOM"], types: [], skipLibCheck: false,
                paths: { crookwise: [types] },
            },
            files: [join(here, "usage.ts")],
        }));
        const run = spawnSync(process.execPath, [compiler, "--project", config], { encoding: "utf8" });
        assert.equal(run.status, 0, run.stdout + run.stderr);
    } finally {
        rmSync(folder, { recursive: true, force: true });
    }
});

/** The words of a union of strings in the declarations. */
function union(name) {
    const body = readFileSync(types, "utf8").match(new RegExp(`type ${name} =([^;]*);`))[1];
    return [...body.matchAll(/"([^"]+)"/g)].map((found) => found[1]);
}

test("every word of the closed lists is understood", () => {
    const request = { label: "Corni in Es", printed: "E5" };
    for (const clef of union("ClefName")) assert.equal(crookwise.readNote({ ...request, clef }).partial !== undefined, true);
    for (const temperament of union("TemperamentId")) crookwise.readNote({ ...request, temperament });
    for (const mechanism of union("Mechanism")) crookwise.readNote({ ...request, mechanism });
    for (const bassNotation of union("BassNotation")) crookwise.readNote({ ...request, bassNotation });
    for (const scheme of union("Scheme")) crookwise.readNote({ ...request, scheme });
    assert.equal(union("InstrumentId").length, 115);
    assert.equal(new Set(union("InstrumentId")).size, 115);
});

test("what is given back is in the closed lists", () => {
    const productions = new Set(union("Production"));
    const clefs = new Set(union("ClefName"));
    const seen = new Set();
    for (const label of ["Corni in Es", "Trombe in Es", "Clarinet in A"]) {
        for (let octave = 2; octave <= 6; octave += 1) {
            for (const letter of ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]) {
                const reading = crookwise.readNote({ label, printed: `${letter}${octave}` });
                assert.ok(productions.has(reading.production) && clefs.has(reading.byClef.clef));
                seen.add(reading.production);
            }
        }
    }
    assert.deepEqual(seen, productions);
});
