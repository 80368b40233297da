// A program against the declarations: what must compile, and, after each @ts-expect-error, what must not.

import { decodeLabel, readNote, writeNote } from "crookwise";
import type {
    ClefName, CrookwiseError, DecodeOptions, Decoded, ErrorCode, Grade, InstrumentId, Mechanism, Production, ReadRequest,
    Reading, Staff, TemperamentId, WriteRequest, Writing,
} from "crookwise";

const options: DecodeOptions = { year: 1803 };
const decoded: Decoded = decodeLabel("Corni in Es", options);
const staff: Staff | null = decoded.staff;
if (staff !== null) {
    const instrument: InstrumentId = staff.instrument;
    const mechanism: Mechanism | null = staff.mechanism;
    const octave: "alto" | "basso" | null = staff.octave;
    const steps: number = staff.transposition.diatonic + 7 * staff.transposition.octaveChange;
    const texts: string[] = [staff.name, ...staff.drums, staff.key ?? ""];
    const numbers: number[] = [staff.count ?? 0, ...staff.players, staff.transposition.chromatic, steps];
    const doubled: boolean = staff.doubledBelow;
    console.log(instrument, mechanism, octave, texts, numbers, doubled);
}
const others: Staff[] = [...decoded.staves, ...decoded.changes, ...decoded.alternatives];
const sentences: (string | null)[] = [decoded.assumed, decoded.problem];

const full: ReadRequest = {
    label: "Corni in Es", printed: "E5", clef: "G2", clefOctave: 0, bassNotation: "old", scheme: "french",
    mechanism: "natural", movementKey: "Eb major", as: "Horn in F", a4: 430, temperament: "vallotti",
    temperamentKey: "C", tunedOn: "G",
};
const reading: Reading = readNote(full);
const request: WriteRequest = { ...full, sounding: "G4" };
const writing: Writing = writeNote(request);
const widened: Reading = writing;
const production: Production = reading.production;
const grade: Grade | null = reading.grade;
const cents: (number | null)[] = [reading.partial, reading.driftCents, reading.naturalHz, reading.bendCents];
const hertz: number = reading.targetHz;
const words: string[] = [reading.printed, reading.written, reading.sounding, reading.degree.crook];
const movement: string | null = reading.degree.movement;
const direction: "up" | "down" | "none" = reading.byInterval.direction;
const clef: ClefName = reading.byClef.clef;
const there: string | undefined = reading.inHand?.written;
const also: string | null = writing.alsoPrinted;

try {
    readNote({ label: "", printed: "E5" });
} catch (error) {
    const code: ErrorCode = (error as CrookwiseError).code;
    const field: string = (error as CrookwiseError).field;
    const sentence: string = (error as CrookwiseError).message;
    console.log(code, field, sentence);
}

// @ts-expect-error a label is a string
decodeLabel(5);
// @ts-expect-error the note is missing
readNote({ label: "Corni in Es" });
// @ts-expect-error writing asks for what sounds
writeNote({ label: "Corni in Es", printed: "E5" });
// @ts-expect-error no such clef
readNote({ label: "Corni in Es", printed: "E5", clef: "G7" });
// @ts-expect-error null is not absent
readNote({ label: "Corni in Es", printed: "E5", clef: null });
// @ts-expect-error no such temperament
const temperament: TemperamentId = "Vallotti";
// @ts-expect-error no such instrument
const instrument: InstrumentId = "kazoo";
// @ts-expect-error a partial may be null
const partial: number = reading.partial;
// @ts-expect-error no such code
const code: ErrorCode = "oops";
// @ts-expect-error misspelt
readNote({ label: "Corni in Es", printed: "E5", temprament: "vallotti" });

export {
    also, cents, clef, code, direction, grade, hertz, instrument, movement, others, partial, production, sentences,
    temperament, there, widened, words,
};
