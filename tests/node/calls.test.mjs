// decodeLabel, readNote and writeNote from Node: what they give and what they throw.

import assert from "node:assert/strict";
import { test } from "node:test";
import { crookwise, thrown } from "./package.mjs";

const { decodeLabel, readNote, writeNote } = crookwise;

const near = (actual, expected, within = 0.05) =>
    assert.ok(Math.abs(actual - expected) < within, `${actual} is not ${expected}`);

test("a label is decoded to plain values, null where nothing is said", () => {
    const decoded = decodeLabel("2 Corni in Es");
    assert.deepEqual(Object.keys(decoded), ["staff", "staves", "changes", "alternatives", "assumed", "problem"]);
    assert.deepEqual(decoded.staff, {
        instrument: "horn",
        name: "Horn",
        key: "Eb",
        octave: null,
        count: 2,
        players: [],
        mechanism: "natural",
        doubledBelow: false,
        drums: [],
        transposition: { diatonic: -5, chromatic: -9, octaveChange: 0 },
    });
    assert.equal(decoded.problem, null);
    assert.ok(Array.isArray(decoded.staves) && decoded.staves.length === 1);
});

test("labels in several languages", () => {
    const cases = [
        ["Cors en Ut", "horn", "C", { diatonic: 0, chromatic: 0, octaveChange: -1 }],
        ["Hörner in tief B", "horn", "Bb", { diatonic: -1, chromatic: -2, octaveChange: -1 }],
        ["Clarini in D", "trumpet", "D", { diatonic: 1, chromatic: 2, octaveChange: 0 }],
        ["Trompas en Fa", "horn", "F", { diatonic: -4, chromatic: -7, octaveChange: 0 }],
        ["Clarinetto in La", "cl_a", "A", { diatonic: -2, chromatic: -3, octaveChange: 0 }],
    ];
    for (const [label, instrument, key, transposition] of cases) {
        const { staff } = decodeLabel(label);
        assert.deepEqual([staff.instrument, staff.key], [instrument, key], label);
        assert.deepEqual(staff.transposition, transposition, label);
    }
});

test("what the trade leaves open is said, and the other readings are offered", () => {
    const decoded = decodeLabel("Corni in B", { year: 1800 });
    assert.equal(decoded.staff.key, "Bb");
    assert.equal(typeof decoded.assumed, "string");
    assert.ok(decoded.alternatives.some((other) => other.octave !== decoded.staff.octave));
});

test("a label that is not understood is no error", () => {
    for (const label of ["", "qwertz asdf", "x".repeat(1_000_000), "\u0000\u202e🎺", "\ud800"]) {
        const decoded = decodeLabel(label);
        assert.equal(decoded.staff, null);
        assert.deepEqual(decoded.staves, []);
        assert.ok(decoded.problem.length > 0 && decoded.problem.length < 400);
    }
});

test("a note of the horns in E-flat, every field", () => {
    const reading = readNote({ label: "Corni in Es", printed: "E5", movementKey: "Eb major", as: "Horn in F" });
    near(reading.driftCents, -13.686, 0.001);
    near(reading.bendCents, 13.686, 0.001);
    near(reading.targetHz, 391.995, 0.001);
    near(reading.naturalHz, 388.909, 0.001);
    const { driftCents, bendCents, targetHz, naturalHz, ...rest } = reading;
    assert.deepEqual(rest, {
        printed: "E5",
        written: "E5",
        sounding: "G4",
        partial: 10,
        production: "open",
        grade: "A",
        degree: { movement: "3", crook: "3" },
        byInterval: { direction: "down", name: "major sixth", steps: -5, semitones: -9 },
        byClef: { clef: "F4", octaves: 1, fifths: -3, sign: "" },
        inHand: { written: "D5", steps: -1, semitones: -2 },
    });
});

test("old bass-clef notation, and a clef that says the octave itself", () => {
    const horn = (more) => readNote({ label: "Horn in F", printed: "C3", clef: "F4", ...more });
    assert.deepEqual([horn().written, horn().sounding, horn().partial], ["C4", "F3", 4]);
    assert.equal(horn({ bassNotation: "new" }).sounding, "F2");
    assert.equal(horn({ clefOctave: 1 }).sounding, "F2");
    assert.equal(horn({ clefOctave: undefined }).sounding, "F3");
});

test("no partials but on natural brass", () => {
    for (const request of [
        { label: "Clarinet in A", printed: "E5" },
        { label: "Corni in Es", printed: "E5", mechanism: "valves" },
    ]) {
        const reading = readNote(request);
        for (const field of ["partial", "driftCents", "naturalHz", "bendCents", "grade", "inHand"]) {
            assert.equal(reading[field], null, field);
        }
        assert.equal(reading.production, "chromatic");
        assert.equal(reading.degree.movement, null);
    }
});

test("temperaments: the third of the crook in Vallotti", () => {
    for (const [key, cents] of [["C basso", -5.9], ["Es", -13.7], ["E", -17.6], ["H basso", -21.5]]) {
        near(readNote({ label: `Horn in ${key}`, printed: "E4", temperament: "vallotti" }).driftCents, cents);
    }
});

test("from sound to paper, and as the trade prints it", () => {
    const horn = writeNote({ label: "Corni in Es", sounding: "F#4" });
    assert.deepEqual([horn.printed, horn.alsoPrinted, horn.sounding], ["D#5", "Eb5", "F#4"]);
    assert.equal(writeNote({ label: "Corni in Es", sounding: "G4" }).alsoPrinted, null);
    const { alsoPrinted, ...strict } = writeNote({ label: "Corni in Es", sounding: "G4", a4: 430 });
    assert.deepEqual(strict, readNote({ label: "Corni in Es", printed: "E5", a4: 430 }));
});

test("spellings beyond double accidentals", () => {
    assert.equal(readNote({ label: "Klarinette in Es", printed: "Fbb4" }).sounding, "Abbb4");
    assert.equal(readNote({ label: "Clarinet in A", printed: "F##5" }).sounding, "D##5");
});

test("every wrong value is an Error with a code of the closed list and the field", () => {
    const request = { label: "Corni in Es", printed: "E5" };
    const wrong = [
        ["label", "qwertz", "label"], ["label", 5, "type"], ["label", null, "type"], ["label", undefined, "missing"],
        ["printed", "H4", "pitch"], ["printed", "E", "pitch"], ["printed", `E${"b".repeat(5_000_000)}4`, "pitch"],
        ["printed", undefined, "missing"], ["printed", Symbol("E5"), "type"], ["printed", new String("E5"), "type"],
        ["clef", "G7", "clef"], ["clef", 2, "type"], ["clef", null, "type"],
        ["clefOctave", 3, "clefOctave"], ["clefOctave", 0.5, "clefOctave"], ["clefOctave", NaN, "clefOctave"],
        ["clefOctave", "1", "type"], ["clefOctave", 1n, "type"],
        ["bassNotation", "ancient", "bassNotation"], ["bassNotation", true, "type"],
        ["scheme", "austrian", "scheme"], ["scheme", {}, "type"],
        ["mechanism", "keys", "mechanism"], ["mechanism", [], "type"],
        ["movementKey", "Eb", "movementKey"], ["movementKey", "G# major", "movementKey"],
        ["as", "qwertz", "as"], ["as", () => "Horn in F", "type"],
        ["a4", 369, "a4"], ["a4", 571, "a4"], ["a4", NaN, "a4"], ["a4", -Infinity, "a4"], ["a4", "440", "type"],
        ["temperament", "Vallotti", "temperament"], ["temperamentKey", "H", "temperamentKey"],
        ["tunedOn", "A", "tunedOn"],
    ];
    for (const [field, value, code] of wrong) {
        const error = thrown(() => readNote({ ...request, [field]: value }));
        assert.deepEqual([error.code, error.field], [code, field], error.message);
    }
    assert.equal(thrown(() => writeNote({ label: "Corni in Es", printed: "E5" })).field, "sounding");
});

test("arguments that are no requests", () => {
    for (const argument of [undefined, null, 5, "Corni in Es", true]) {
        assert.ok(["missing", "type"].includes(thrown(() => readNote(argument)).code));
        assert.ok(["missing", "type"].includes(thrown(() => writeNote(argument)).code));
    }
    assert.equal(thrown(() => readNote([])).code, "missing");
    assert.equal(thrown(() => decodeLabel()).code, "missing");
    assert.equal(thrown(() => decodeLabel(5)).code, "type");
    assert.equal(thrown(() => decodeLabel("Corni in Es", 1800)).code, "type");
    assert.equal(thrown(() => decodeLabel("Corni in Es", { year: 1800.5 })).code, "year");
    const trap = Object.defineProperty({ printed: "E5" }, "label", { get: () => { throw new Error("no"); } });
    assert.equal(thrown(() => readNote(trap)).code, "type");
    // After all of that the package still works.
    assert.equal(readNote({ label: "Corni in Es", printed: "E5" }).sounding, "G4");
});

test("replies are plain objects that survive JSON", () => {
    const reading = readNote({ label: "Corni in Es", printed: "Eb5" });
    assert.deepEqual(JSON.parse(JSON.stringify(reading)), reading);
    assert.equal(Object.getPrototypeOf(reading), Object.prototype);
    const writing = writeNote({ label: "Corni in Es", sounding: "G4" });
    assert.equal(Object.getPrototypeOf(writing), Object.prototype);
    assert.deepEqual(JSON.parse(JSON.stringify(decodeLabel("Corni in B"))), decodeLabel("Corni in B"));
});
