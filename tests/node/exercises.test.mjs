// makeExercise, askExercise and markAnswer from Node: the same questions as the native build, and marks with mistakes.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { crookwise } from "./package.mjs";

const { askExercise, makeExercise, markAnswer } = crookwise;
const here = dirname(fileURLToPath(import.meta.url));

test("an exercise gives its questions and marks their answers", () => {
    const exercise = makeExercise({ kinds: ["sounds"], staves: ["Corni in Es"], questions: 6, seed: 7 });
    const questions = askExercise(exercise);
    assert.equal(questions.length, 6);
    for (const [number, question] of questions.entries()) {
        assert.equal(question.staves[0].label, "Corni in Es");
        assert.deepEqual(markAnswer(exercise, number, question.right), { right: true, mistakes: [] });
    }
    const first = questions[0];
    const printed = first.staves[0].notes[first.at[2]][first.at[1]];
    const mark = markAnswer(exercise, 0, `note ${printed}`);
    assert.equal(mark.right, false);
    assert.ok(mark.mistakes.includes("notTransposed"), JSON.stringify(mark));
});

test("questions in WebAssembly are byte for byte those of the native build", () => {
    const file = readFileSync(join(here, "../../crates/practice/tests/questions.txt"), "utf8");
    const parts = file.split("exercise ").slice(1);
    assert.ok(parts.length > 20);
    for (const part of parts) {
        const end = part.indexOf("\n\n");
        const exercise = Buffer.from(part.slice(0, end), "hex").toString("base64url");
        const text = askExercise(exercise).map((question) => `${question.canonical}\n`).join("");
        assert.equal(text, part.slice(end + 2));
    }
});

test("what cannot be asked is said in a sentence", () => {
    const code = (call) => {
        try {
            call();
        } catch (error) {
            assert.ok(error.message.length > 10, error.message);
            return error.code;
        }
        return "nothing thrown";
    };
    assert.equal(code(() => makeExercise({ kinds: ["guess"], staves: ["Corni in Es"] })), "kinds");
    assert.equal(code(() => makeExercise({ staves: [] })), "exercise");
    assert.equal(code(() => makeExercise({ staves: ["Xyzzyq"] })), "exercise");
    assert.equal(code(() => makeExercise({ staves: [5] })), "type");
    assert.equal(code(() => makeExercise({ staves: "Corni" })), "type");
    assert.equal(code(() => makeExercise({ staves: ["Corni in Es"], questions: 61 })), "exercise");
    assert.equal(code(() => makeExercise({ staves: ["Corni in Es"], choices: "yes" })), "type");
    assert.equal(code(() => askExercise("rubbish!")), "exercise");
    assert.equal(code(() => askExercise(null)), "type");
    const exercise = makeExercise({ staves: [{ label: "Corni in F", clef: "F4" }] });
    assert.equal(code(() => markAnswer(exercise, 10, "note C4")), "question");
    assert.equal(code(() => markAnswer(exercise, 0.5, "note C4")), "question");
    assert.equal(code(() => markAnswer(exercise, 0, "sausage")), "answer");
});

test("what contains itself is refused, and at once", () => {
    const list = [];
    list.push(list);
    const wide = Array(100);
    wide.fill(wide);
    const object = {};
    object.label = object;
    for (const strange of [list, wide, object, [object], { label: list }]) {
        for (const call of [
            () => crookwise.decodeLabel(strange),
            () => makeExercise({ staves: strange }),
            () => makeExercise({ staves: [strange] }),
            () => makeExercise({ staves: ["Corni in Es"], keys: strange }),
            () => markAnswer("x", 0, strange),
        ]) {
            assert.throws(call, (error) => {
                assert.ok(["type", "exercise", "missing"].includes(error.code), `${error.code}: ${error.message}`);
                return true;
            });
        }
    }
    assert.throws(() => makeExercise({ staves: list }), { code: "type" });
});
