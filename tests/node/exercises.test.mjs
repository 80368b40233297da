// makeExercise, askExercise and markAnswer from Node: the same questions as the native build, and marks with mistakes.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { crookwise, thrown } from "./package.mjs";

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

test("a question shows all that decides its answer", () => {
    const asked = (staff, kinds = ["sounds"]) => askExercise(makeExercise({ kinds, staves: [staff], questions: 6, seed: 3 }));
    for (const bassNotation of ["old", "new"]) {
        for (const { staves } of asked({ label: "Corni in F", clef: "F4", bassNotation })) {
            assert.deepEqual(staves[0].shown, [`${bassNotation} notation`]);
            assert.deepEqual([staves[0].clef, staves[0].clefOctave, staves[0].signature], ["F4", 0, 0]);
        }
    }
    for (const { staves } of asked({ label: "Clarinetto basso in B", clef: "G2", scheme: "german" })) {
        assert.deepEqual(staves[0].shown, ["German notation"]);
    }
    for (const muta of ["muta in C", "in C", "C", "Corni in C"]) {
        for (const { staves } of asked({ label: "Corni in Es", muta })) {
            assert.deepEqual(staves[0].changes, [{ column: 1, player: null, text: "muta in C basso" }]);
        }
    }
    for (const { staves } of asked("Corni in B")) {
        assert.deepEqual(staves[0].shown, ["basso"]);
    }
    for (const { heard, right } of asked("Corni in Es", ["natural"])) {
        assert.equal(heard.length, 2);
        assert.equal(right, heard[0].cents !== 0 ? "which first" : "which second");
    }
    assert.throws(() => asked({ label: "Corni in F", bassNotation: "middle" }), { code: "bassNotation" });
    assert.throws(() => asked({ label: "Clarinetto basso in B", scheme: "rheingold" }), { code: "scheme" });
    assert.throws(() => asked({ label: "Corni in F", muta: "muta in Q" }), { code: "exercise" });
});

test("questions that show the same have the same answers", () => {
    const seen = new Map();
    const staves = [
        "Corni in B", "Corni in Es", "Trombe in D", "Viole",
        ...["old", "new"].map((bassNotation) => ({ label: "Corni in F", clef: "F4", bassNotation })),
        ...["french", "german"].map((scheme) => ({ label: "Clarinetto basso in B", clef: "G2", scheme })),
        ...["rheingold", "alpensinfonie"].map((scheme) => ({ label: "Tenortuben in B", scheme })),
        ...["C", "D"].map((muta) => ({ label: "Corni in Es", muta })),
        { label: "Corno I in B alto, Corno II in G", pair: true },
    ];
    let again = 0;
    for (const kind of ["sounds", "writes", "partial", "clef", "natural", "players"]) {
        for (let seed = 1; seed <= 12; seed += 1) {
            const exercise = makeExercise({ kinds: [kind], staves, questions: 20, seed });
            for (const question of askExercise(exercise)) {
                const { canonical, right, also, choices, movementKey, ...shown } = question;
                const look = JSON.stringify(shown);
                const answers = [right, ...also].sort().join("; ");
                again += seen.has(look) ? 1 : 0;
                assert.equal(seen.get(look) ?? answers, answers, look);
                seen.set(look, answers);
            }
        }
    }
    assert.ok(again > 100, `${again}`);
});

test("what cannot be asked is said in a sentence", () => {
    const code = (call) => thrown(call).code;
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
