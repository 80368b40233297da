// planCrooks and crookTable from Node.

import assert from "node:assert/strict";
import { test } from "node:test";
import { crookwise, thrown } from "./package.mjs";

const { crookTable, planCrooks } = crookwise;

const horn = (...crooks) => ({ family: "horn", crooks });
const note = (onset, sounding, more = {}) => ({ onset, duration: 4, sounding, ...more });
const code = (call) => thrown(call).code;

test("a minor chord takes two crooks", () => {
    const crooks = ["G", "Bb alto"];
    const found = planCrooks({
        notes: [note(0, "G4"), note(0, "Bb4"), note(4, "D4"), note(4, "F4")],
        players: [horn(...crooks), horn(...crooks)],
        changeTime: 16,
    });
    assert.equal(found.problem, null);
    assert.equal(found.optimal, true);
    const [best] = found.plans;
    assert.deepEqual(new Set(best.stretches.map((stretch) => stretch.crook)), new Set(["G", "Bb alto"]));
    assert.equal(best.total, 4);
    assert.equal(found.bound, best.total);
    assert.ok(best.notes.every((one) => one.production === "open" && one.worth === 1));
    assert.ok(found.plans.length > 1 && found.plans[1].total <= best.total);
});

test("a crook changes in a rest, and the change is paid", () => {
    const pair = { family: "horn", crooks: ["Eb", "E"], pair: 1 };
    const notes = [note(0, "Eb4"), note(4, "G4"), note(24, "E4"), note(28, "G#4")];
    const request = { notes, players: [pair], changeTime: 16 };
    const [best] = planCrooks(request).plans;
    assert.deepEqual(best.stretches, [
        { player: 0, crook: "Eb", from: 0, to: 8 },
        { player: 0, crook: "E", from: 24, to: 32 },
    ]);
    assert.equal(best.total, 3.5);
    assert.deepEqual(best.notes.map((one) => one.written), ["C5", "E5", "C5", "E5"]);
    // Without the time for it, one crook does what it can by hand.
    const [stays] = planCrooks({ ...request, changeTime: 17 }).plans;
    assert.equal(new Set(stays.stretches.map((stretch) => stretch.crook)).size, 1);
    // What the hand is worth can be said: then a note is left out to make the rest.
    const open = planCrooks({ ...request, changeTime: 17, worth: { open: 1, handOut: 0, quarter: 0, half: 0, threeQuarter: 0, full: 0 } });
    assert.equal(open.plans[0].total, 2.5);
    assert.equal(open.plans[0].notes.filter((one) => one.player === null).length, 1);
});

test("what has no plan is told in a sentence", () => {
    const good = { notes: [note(0, "C4")], players: [horn("F")], changeTime: 8 };
    const told = (more) => {
        const { plans, problem } = planCrooks({ ...good, ...more });
        assert.deepEqual(plans, []);
        return problem;
    };
    assert.match(told({ players: [] }), /no players/);
    assert.match(told({ players: [horn()] }), /Player 1 has no crook/);
    assert.match(told({ players: [horn("Q")] }), /no crook “Q” for the horn/);
    assert.match(told({ changeTime: -1 }), /0 quarter notes or more/);
    assert.match(told({ changeTime: Number.NaN }), /number of quarter notes/);
    assert.match(told({ highest: 1 }), /between 2 and 32/);
    assert.match(told({ notes: [{ ...note(0, "C4"), duration: 0 }] }), /Note 1 has no length/);
    assert.match(told({ notes: [note(0, "C4", { player: 3 })] }), /player 4, who is not there/);
    assert.match(told({ notes: [note(0, "C4", { weight: -1 })] }), /weight of note 1/);
    assert.equal(code(() => planCrooks({ ...good, notes: "C4" })), "type");
    assert.equal(code(() => planCrooks({ ...good, notes: [note(0, "H9")] })), "pitch");
    assert.equal(code(() => planCrooks({ ...good, players: [{ family: "flute", crooks: [] }] })), "family");
    assert.equal(code(() => planCrooks({ notes: [], players: [] })), "missing");
    // Beyond any instrument: left out.
    const [plan] = planCrooks({ ...good, notes: [note(0, "C9"), note(4, "C0")] }).plans;
    assert.deepEqual(plan.notes.map((one) => one.player), [null, null]);
});

test("ten thousand bars are planned", () => {
    const notes = Array.from({ length: 40_000 }, (_, at) => note(at * 4, at % 2 ? "C4" : "E4"));
    const { plans, problem } = planCrooks({ notes, players: [horn("C basso", "E")], changeTime: 8 });
    assert.equal(problem, null);
    assert.equal(plans[0].notes.length, 40_000);
});

test("a table says what crooks give of a key", () => {
    const table = crookTable({ family: "horn", key: "G minor", crooks: ["G", "Bb alto"] });
    assert.deepEqual(table.degrees.map((one) => one.note), ["G", "A", "Bb", "C", "D", "Eb", "F", "F#"]);
    assert.deepEqual(table.chords[0], { root: 1, members: [0, 2, 4] });
    const [g, flat] = table.crooks;
    assert.equal(g.degrees[0].production, "open");
    assert.notEqual(g.degrees[2].production, "open");
    assert.equal(flat.degrees[2].written, "C5");
    assert.equal(table.pairs.length, 1);
    assert.equal(table.pairs[0].open[0], 3);
    const all = crookTable({ family: "trumpet", key: "D major" }).crooks.map((row) => row.crooks[0]);
    assert.ok(all.includes("D") && all.includes("Bb basso"), all);
    assert.equal(code(() => crookTable({ family: "horn", key: "Q" })), "key");
    assert.equal(code(() => crookTable({ family: "horn", key: "G minor", crooks: ["X"] })), "crook");
});
