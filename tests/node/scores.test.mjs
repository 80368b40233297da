// importScore, soundingNotes, auditScore, exportScore and exportMidi from Node, on a small score of our own and, where they
// are there, on real ones.

import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { crookwise, thrown } from "./package.mjs";

const { auditScore, exportMidi, exportScore, importScore, soundingNotes } = crookwise;

const bytes = (text) => new TextEncoder().encode(text);
const note = (step, octave, duration, more = "") =>
    `<note><pitch><step>${step}</step><octave>${octave}</octave></pitch><duration>${duration}</duration>${more}</note>`;
const rest = (duration) => `<note><rest/><duration>${duration}</duration></note>`;

/** Two horns that change their crook, and a flute. */
const small = bytes(`<?xml version="1.0"?><score-partwise version="4.0"><movement-title>Morning</movement-title>
<part-list><score-part id="P1"><part-name>Corni in Es</part-name></score-part>
<score-part id="P2"><part-name>Flauto</part-name></score-part></part-list>
<part id="P1"><measure number="1"><attributes><divisions>2</divisions>
<transpose><diatonic>-5</diatonic><chromatic>-9</chromatic></transpose></attributes>
${note("C", 5, 4)}${note("A", 4, 4)}</measure>
<measure number="2"><direction><direction-type><words>muta in D</words></direction-type></direction>${rest(8)}</measure>
<measure number="3"><attributes><transpose><diatonic>-6</diatonic><chromatic>-10</chromatic></transpose></attributes>
${note("G", 4, 3)}${note("D", 3, 5)}</measure></part>
<part id="P2"><measure number="1">${note("E", 5, 4)}</measure></part></score-partwise>`);

const code = (call) => thrown(call).code;

test("a file says what it holds", () => {
    const score = importScore(small, "morning.musicxml");
    assert.equal(score.title, "Morning");
    assert.equal(score.measures, 3);
    assert.deepEqual(score.remarks, []);
    const [horns, flute] = score.parts;
    assert.equal(horns.label.staff.key, "Eb");
    assert.deepEqual([horns.notes, horns.rests, flute.notes], [4, 1, 1]);
    assert.deepEqual(horns.transpositions, [
        { measure: "1", staff: 1, diatonic: -5, chromatic: -9, octaveChange: 0 },
        { measure: "3", staff: 1, diatonic: -6, chromatic: -10, octaveChange: 0 },
    ]);
    assert.deepEqual(horns.remarks, []);
});

test("notes have their bar, their time, their sound and how they are made", () => {
    const notes = soundingNotes(small, 0);
    assert.deepEqual(
        notes.map(({ measure, onset, written, sounding, partial, production }) => [
            measure, onset.join("/"), written, sounding, partial, production,
        ]),
        [
            ["1", "0/1", "C5", "Eb4", 8, "open"],
            ["1", "2/1", "A4", "C4", null, "half"],
            ["3", "0/1", "G4", "A3", 6, "open"],
            ["3", "3/2", "D3", "E2", null, "unavailable"],
        ],
    );
    assert.deepEqual(notes[3].duration, [5, 2]);
    assert.deepEqual([notes[0].staff, notes[0].voice, notes[0].tied, notes[2].measureIndex], [1, 1, false, 2]);
    assert.equal(soundingNotes(small, 1)[0].production, "chromatic");
});

test("the audit counts crook by crook, and the time for a change", () => {
    const [horns] = auditScore(small);
    assert.deepEqual([horns.part, horns.family, horns.attacks, horns.onSeries], [0, "horn", 4, 2]);
    assert.deepEqual(horns.crooks.map((crook) => crook.crook), ["Horn in E-flat", "Horn in D"]);
    assert.deepEqual(horns.crooks[0].made, [{ note: "A", production: "half", notes: 1 }]);
    assert.equal(horns.crooks[1].outOfReach, 1);
    assert.deepEqual(horns.changes, [{ from: "Horn in E-flat", to: "Horn in D", measure: "3", rest: [4, 1] }]);
});

test("what goes out sounds the same when it comes back", () => {
    const sounds = (file, part = 0) => soundingNotes(file, part).map((each) => each.sounding);
    const sounding = exportScore(small, { pitch: "sounding" });
    assert.ok(sounding instanceof Uint8Array);
    assert.deepEqual(sounds(sounding), sounds(small));
    assert.deepEqual(importScore(sounding).parts[0].transpositions, []);
    const inF = exportScore(small, { pitch: "written", label: "Horn in F", parts: [0] });
    assert.deepEqual(sounds(inF), sounds(small));
    assert.equal(importScore(inF).parts.length, 1);
    const midi = exportMidi(small, { parts: [0] });
    assert.equal(new TextDecoder().decode(midi.slice(0, 4)), "MThd");
    assert.equal(code(() => importScore(midi)), "file");
});

test("errors have their codes", () => {
    assert.equal(code(() => importScore()), "missing");
    assert.equal(code(() => importScore("text")), "type");
    assert.equal(code(() => importScore(bytes("<html/>"))), "file");
    assert.equal(code(() => soundingNotes(small, 2)), "part");
    assert.equal(code(() => soundingNotes(small)), "missing");
    assert.equal(code(() => exportScore(small, {})), "missing");
    assert.equal(code(() => exportScore(small, { pitch: "loud" })), "pitch");
    assert.equal(code(() => exportScore(small, { pitch: "written", label: "Xyz" })), "label");
    assert.equal(code(() => exportScore(small, { pitch: "sounding", parts: [7] })), "parts");
    assert.equal(code(() => exportMidi(small, { parts: [] })), "parts");
});

const folder = process.env.CROOKWISE_SCORES;
const real = folder && join(folder, "Beethoven_Op.36_2.mxl");
test("old bass-clef notation of a real score is repaired on request", { skip: !real || !existsSync(real) }, () => {
    const file = new Uint8Array(readFileSync(real));
    const { parts } = importScore(file);
    const horn = parts.findIndex((part) => part.name.includes("Horn"));
    const [plain, repaired] = [soundingNotes(file, horn), soundingNotes(file, horn, { repair: true })];
    const changed = plain.filter((each, at) => each.sounding !== repaired[at].sounding);
    assert.equal(changed.length, 16);
});
