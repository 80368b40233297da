/**
 * Every instrument by its id. "horn" and "trumpet" are the crooked ones; their key is told apart from the id.
 */
export type InstrumentId =
    | "piccolo" | "flute" | "fl_terz" | "fl_amour" | "alto_fl" | "bass_fl" | "oboe" | "ob_amore" | "cor_ang"
    | "ob_caccia" | "bass_ob" | "heckel" | "cl_ab" | "cl_eb" | "cl_d" | "cl_c" | "cl_b" | "cl_bb" | "cl_a"
    | "cl_basset" | "cl_g" | "alto_cl" | "basset_hn" | "bcl_fr" | "bcl_de" | "bcl_a" | "contraalto_cl"
    | "contrabass_cl" | "sax_sopranino" | "sax_s" | "sax_mezzo" | "sax_a" | "sax_t" | "sax_cmel" | "sax_b"
    | "sax_bass" | "sax_cb" | "bassoon" | "tenoroon" | "cfg" | "rec_sopranino" | "rec_s" | "rec_a" | "rec_t"
    | "rec_b" | "cornet_bb" | "cornet_eb" | "flugel" | "fl_sopranino" | "posthorn" | "bass_tpt_c"
    | "tpt_f_contralto" | "picc_tpt" | "slide_trumpet" | "slide_horn" | "tromb_a" | "tromb_t" | "tromb_b"
    | "cimbasso" | "tenor_horn" | "baritone" | "euph_t" | "tuba" | "eb_bass" | "bb_bass" | "serpent"
    | "ophicleide" | "wt_t_bb" | "wt_t_bbb" | "wt_t_eb" | "wt_b_f" | "wt_b_bb" | "timp_old" | "glock" | "xyl"
    | "celesta" | "crotales" | "bells" | "marimba" | "vibraphone" | "cymbals" | "triangle" | "bass_drum"
    | "snare_drum" | "tenor_drum" | "tambourine" | "tam_tam" | "castanets" | "wood_block" | "whip"
    | "ratchet" | "sleigh_bells" | "anvil" | "percussion" | "guitar" | "cb" | "vc_treble_old" | "va_k364"
    | "tenor_voice" | "violin" | "viola" | "cello" | "bassi" | "harp" | "piano" | "organ" | "harpsichord"
    | "continuo" | "soprano" | "alto" | "bass_voice" | "chorus" | "voice" | "horn" | "trumpet";

/** A clef by sign and line as MusicXML has them; its octave mark stands apart, as `clefOctave`. */
export type ClefName = "G1" | "G2" | "C1" | "C2" | "C3" | "C4" | "C5" | "F3" | "F4" | "F5";

/** The temperaments, all on the twelve keys of a keyboard. */
export type TemperamentId =
    | "equal" | "pythagorean" | "meantone-quarter" | "meantone-sixth" | "werckmeister-3" | "kirnberger-3"
    | "vallotti" | "young" | "just";

/** Natural brass has a series of partials; with valves every note is an ordinary one. */
export type Mechanism = "natural" | "valves";

/** The two habits of writing horn, trumpet and basset horn in the bass clef; the old one lies an octave low. */
export type BassNotation = "old" | "new";

/**
 * The systems of notation: "french", "german", "russian" and "italian" for the bass clarinet, "rheingold",
 * "goetterdaemmerung" and "alpensinfonie" for the Wagner tuba.
 */
export type Scheme =
    | "french" | "german" | "russian" | "italian" | "rheingold" | "goetterdaemmerung" | "alpensinfonie";

/**
 * How a note is made. "chromatic" is an ordinary note: everything but natural horn and trumpet. "unavailable" is on
 * the plain series neither by hand nor by lip.
 */
export type Production =
    | "open" | "handOut" | "quarter" | "half" | "threeQuarter" | "full" | "lipped" | "chromatic" | "unavailable";

/**
 * How good a note is: "A" open and true, "B" good with a little help, "C" high or far corrected, "D" muffled,
 * "E" hardly to be had. A guide: players, horns and sources differ.
 */
export type Grade = "A" | "B" | "C" | "D" | "E";

/**
 * Why a call failed. "missing": a field that must be there is not; "type": a value is of another JavaScript type
 * than its field takes (`null` is one); every other code means that the value of a field is not understood: "pitch" is
 * about `printed` or `sounding`, or how a score goes out, "label" and "as" name no staff, "file" is a file that cannot be read
 * (the sentence says why and where), the rest bear the name of their field.
 */
export type ErrorCode =
    | "missing" | "type" | "label" | "as" | "pitch" | "clef" | "clefOctave" | "bassNotation" | "scheme" | "mechanism"
    | "movementKey" | "a4" | "temperament" | "temperamentKey" | "tunedOn" | "year"
    | "kinds" | "exercise" | "question" | "answer" | "file" | "part" | "parts"
    | "family" | "key" | "crook";

/** What every call throws: an `Error` whose `message` is a sentence for the reader. */
export interface CrookwiseError extends Error {
    /** What kind of trouble. */
    readonly code: ErrorCode;
    /** The field it is about: "printed"; "text", "options" or "request" for an argument itself. */
    readonly field: string;
}

/** From written to sounding, as the MusicXML element `transpose` has it: the three add up. */
export interface MusicXmlTransposition {
    /** Letters, signed, the octaves of `octaveChange` left out. */
    diatonic: number;
    /** Semitones, signed, the octaves of `octaveChange` left out. */
    chromatic: number;
    /** Octaves, signed, on top of the other two. */
    octaveChange: number;
}

/** A staff as its label names it. */
export interface Staff {
    /** Which instrument. */
    instrument: InstrumentId;
    /** Its English name. */
    name: string;
    /** The key it stands in: "Eb", "F#", "C"; null for an instrument in no key. */
    key: string | null;
    /** The higher or the lower of the two octaves a key is built in; null where it has one only. */
    octave: "alto" | "basso" | null;
    /** How many players the label prints; null where it prints no number. */
    count: number | null;
    /** Which players the label numbers, from 1; empty where it numbers none. */
    players: number[];
    /** Natural or with valves, for horn, trumpet and their kin; null for all others. */
    mechanism: Mechanism | null;
    /** Doubled an octave below, as cellos and basses on one staff are. */
    doubledBelow: boolean;
    /** The notes named for the drums: ["D", "A"]; empty for everything but timpani. */
    drums: string[];
    /** From written to sounding, by the habit assumed. */
    transposition: MusicXmlTransposition;
}

/** Everything a label says. */
export interface Decoded {
    /** The first or only staff; null where the label names none. */
    staff: Staff | null;
    /** All staves or crooks that the label names, in order: two for "Corno I in B alto, Corno II in G". */
    staves: Staff[];
    /** What the players are told to change to: "muta in …". */
    changes: Staff[];
    /** Other readings of the first staff, where the trade leaves it open. */
    alternatives: Staff[];
    /** What was taken for granted and why, as a sentence; null where nothing was. */
    assumed: string | null;
    /** What is not understood, as a sentence; null where everything is. */
    problem: string | null;
}

/** What is known beside a label. */
export interface DecodeOptions {
    /** Year of the music, a whole number from 1 to 9999. */
    year?: number;
}

/** What surrounds a note. Fields not named here are ignored; `undefined` is the same as absent, `null` is not. */
export interface Surroundings {
    /** What the score prints at the head of the staff, at most 200 characters: "Corni in Es". */
    label: string;
    /** The clef; the instrument's usual one where absent. */
    clef?: ClefName;
    /**
     * Octaves by the mark at the clef: 1 for an 8 above, -1 for an 8 below, from -2 to 2; 0 where absent. The
     * pitches of a request count the mark: C4 is middle C in every clef. A mark that says what the instrument does
     * anyway (the 8 below a tenor voice or a guitar) shifts once, not twice.
     */
    clefOctave?: number;
    /** Read where horn, trumpet or basset horn stands in an F clef without mark; "old" where absent. */
    bassNotation?: BassNotation;
    /** The system of an instrument that has several, else without effect; by label and clef where absent. */
    scheme?: Scheme;
    /** Overrides what the label says or implies. Without effect on all but horn and trumpet. */
    mechanism?: Mechanism;
    /** Key of the movement in sound: "Eb major", "C minor"; at most seven sharps or flats. */
    movementKey?: string;
    /** Label of the instrument in the reader's hands: "Horn in F". */
    as?: string;
    /** Reference pitch: frequency of A4 in Hz, from 370 to 570; 440 where absent. */
    a4?: number;
    /** The temperament everybody else plays in; "equal" where absent. */
    temperament?: TemperamentId;
    /** The keynote the temperament starts from: "C", "Eb"; "C" where absent. */
    temperamentKey?: string;
    /** The written note on which the brass tunes with the others; "C" where absent. */
    tunedOn?: "C" | "G";
}

/** A question from paper to sound. */
export interface ReadRequest extends Surroundings {
    /**
     * What stands on the paper in scientific notation: letter, as many `b` or `#` as needed, octave ("Eb4", "F##5";
     * C4 is middle C). The pitch the clef gives it, its octave mark counted, before old bass-clef notation is undone
     * and before transposition.
     */
    printed: string;
}

/** A question from sound to paper. */
export interface WriteRequest extends Surroundings {
    /** What is heard, in scientific notation: "G4". */
    sounding: string;
}

/** Where a note stands in two keys: "3", "#4", "b7". */
export interface Degrees {
    /** In the movement's key, minor counted from the natural minor scale; null where no key was given. */
    movement: string | null;
    /** Above the written C. */
    crook: string;
}

/** Read by interval, from what is printed to what sounds. */
export interface ByInterval {
    /** Which way: "none" for a unison. */
    direction: "up" | "down" | "none";
    /** In words without direction: "major sixth", "two octaves and a major second". */
    name: string;
    /** Letters, signed: -5 for a sixth down. */
    steps: number;
    /** Semitones, signed: -9 for a major sixth down. */
    semitones: number;
}

/** Read by imagined clef: the note keeps its place on the staff. */
export interface ByClef {
    /** The clef to imagine, without any octave mark. */
    clef: ClefName;
    /** Octaves to add to what that clef gives, signed. */
    octaves: number;
    /** Sharps (positive) or flats (negative) to add to the printed signature. */
    fifths: number;
    /**
     * The accidental as it is read there: "b", "bb", "#", "##", "n" for a natural. "" where none is printed: then the
     * imagined signature decides. The staff is taken without a signature, so none is printed on natural letters.
     */
    sign: string;
}

/** Read on the instrument in hand. */
export interface InHand {
    /** The note to read or finger there, as that instrument's part would be written. */
    written: string;
    /** Letters from the note of the part to that note, signed. */
    steps: number;
    /** Semitones from the note of the part to that note, signed. */
    semitones: number;
}

/** Everything about one note. Pitches are strings in scientific notation, strictly spelled. */
export interface Reading {
    /** What stands on the paper. */
    printed: string;
    /** What the player reads: printed, with old bass-clef notation undone. */
    written: string;
    /** What is heard. */
    sounding: string;
    /** Number of the partial on natural horn (2 to 16) or trumpet (3 to 18); null off the series and elsewhere. */
    partial: number | null;
    /** Cents from the note in the tuning to its partial, uncorrected, negative is flat; null where no partial is. */
    driftCents: number | null;
    /** Frequency of the partial in Hz, uncorrected; null where no partial is. */
    naturalHz: number | null;
    /** Frequency of the note in the tuning, in Hz. */
    targetHz: number;
    /** Cents to bend from the partial the note is made from, positive is upwards; null where nothing is bent. */
    bendCents: number | null;
    /** How it is made. */
    production: Production;
    /** How good it is; null beyond the tables, and on everything but natural horn and trumpet. */
    grade: Grade | null;
    /** Where it stands in the movement's key and above the written C. */
    degree: Degrees;
    /** First way of reading. */
    byInterval: ByInterval;
    /** Second way of reading. */
    byClef: ByClef;
    /** Third way of reading; null where `as` is absent. */
    inHand: InHand | null;
}

/** A reading from sound to paper, in the strict spelling. */
export interface Writing extends Reading {
    /** What the trade would print instead; null where that is the strict spelling. */
    alsoPrinted: string | null;
}

/**
 * What a label at the head of a staff says. A label that is not understood throws nothing: it has a `problem`.
 * @throws {CrookwiseError} with code "missing", "type" or "year"
 */
export function decodeLabel(text: string, options?: DecodeOptions): Decoded;

/**
 * From paper to sound.
 * @throws {CrookwiseError}
 */
export function readNote(request: ReadRequest): Reading;

/**
 * From sound to paper.
 * @throws {CrookwiseError}
 */
export function writeNote(request: WriteRequest): Writing;

/**
 * What a question asks: what sounds, what must be written, the note on the instrument in hand, the label, the partial,
 * how it is made, the degree, the clef to imagine, the chord of several staves, the wrong note of a copy, the staff that
 * is heard wrong, which of two sounds is the natural partial, what both players sound.
 */
export type QuestionKind =
    | "sounds" | "writes" | "inHand" | "label" | "partial" | "made" | "degree" | "clef" | "chord" | "wrongNote"
    | "wrongStaff" | "natural" | "players";

/** What explains a wrong answer. */
export type Mistake =
    | "direction" | "octave" | "thirdForSixth" | "quality" | "eForEs" | "bForH" | "otherClarinet"
    | "accidentalNotShifted" | "clefSignature" | "oldBassNotation" | "signatureImagined" | "signatureOverlooked"
    | "crookChange" | "takenForHorn" | "spelling" | "partialLiterally" | "drumsInCAndG" | "aTwo" | "clefMisread"
    | "notTransposed" | "altoForBasso" | "otherPlayersCrook" | "crookForKey" | "otherBass" | "otherInstrument"
    | "fourthForFifth" | "noteMissing";

/** A staff to ask about. */
export interface AskedStaff {
    /** As the score prints it. */
    label: string;
    /** Its clef; the usual one of its instrument where absent. */
    clef?: ClefName;
    /** Old or new bass-clef notation, for horn, trumpet and basset horn; the old where absent. */
    bassNotation?: BassNotation;
    /** The system of a bass clarinet or a Wagner tuba; the usual one where absent. */
    scheme?: Scheme;
    /** What it changes to in the course of a question: "muta in C", "in C", "C" or a whole label. */
    muta?: string;
    /** Whether two players share it. */
    pair?: boolean;
}

/** What an exercise asks. */
export interface ExerciseOptions {
    /** Kinds of questions, each in its turn; "sounds" where absent. */
    kinds?: QuestionKind[];
    /** The staves, by label or with more. */
    staves: (string | AskedStaff)[];
    /** Keys of the movement, such as "Eb major"; those usual for the staff where absent. */
    keys?: string[];
    /** The instrument in hand, for "inHand" and "wrongNote". */
    inHand?: string;
    /** Phrases of the trade's patterns instead of single notes. */
    phrases?: boolean;
    /** The lowest partial asked for, 2 to 24; on natural brass. */
    lowestPartial?: number;
    /** The highest partial asked for, 2 to 24. */
    highestPartial?: number;
    /** How many questions, 1 to 60; 10 where absent. */
    questions?: number;
    /** The seed of all chance, 0 to 2147483647; 1 where absent. */
    seed?: number;
    /** Answers are chosen among a few. */
    choices?: boolean;
    /** Another spelling of the same key of the keyboard is right too. */
    enharmonics?: boolean;
    /** The octave is not judged. */
    anyOctave?: boolean;
    /** Seconds for each question, 1 to 3600. */
    secondsEach?: number;
    /** Seconds for all questions, 1 to 3600. */
    secondsAll?: number;
}

/**
 * An answer as text: "note Eb4", "name Eb", "key 63" (a MIDI number), "notes C4 G4", "label horn -5 -9" (instrument,
 * letters, semitones), "partial 7", "partial none", "made handOut", "degree #4", "clef C4 1 -2" (clef, octaves, sharps
 * or flats added), "chord Eb major third" (root, quality, lowest member), "column 3", "staff 0", "which first".
 */
export type Answer = string;

/** A staff of a question. */
export interface QuestionStaff {
    /** As the score prints it. */
    label: string;
    /** The words shown beside the label, where the same staff could mean two things: "old notation", "basso". */
    shown: string[];
    /** Its clef at the beginning. */
    clef: ClefName;
    /** The octave mark at the clef: -2 to 2. */
    clefOctave: number;
    /** The sharps (positive) or flats (negative) at the beginning. */
    signature: number;
    /** What changes in its course, in order. */
    changes: QuestionChange[];
    /** For each player what is printed in each column; null for a rest or a gap. */
    notes: (string | null)[][];
}

/** What changes before a column of a staff. */
export interface QuestionChange {
    /** The column, from 0. */
    column: number;
    /** The player it is for, from 0; null for all. */
    player: number | null;
    /** As it is printed: "muta in Es"; a clef or a signature by its name. */
    text: string;
}

/** A note that is heard. */
export interface HeardNote {
    /** Its staff, from 0. */
    staff: number;
    /** Its column, from 0. */
    column: number;
    /** What sounds. */
    sounding: string;
    /** Cents that it is heard above (positive) or below the tuning. */
    cents: number;
}

/** A question. */
export interface Question {
    /** What is asked. */
    kind: QuestionKind;
    /** The staves it shows, from the top. */
    staves: QuestionStaff[];
    /** The staff, column and player asked about, from 0. */
    at: [number, number, number];
    /** The key of the movement there. */
    movementKey: string | null;
    /** What shall sound, where it is asked what must be written. */
    given: string | null;
    /** The label of the instrument in hand, where it matters. */
    inHand: string | null;
    /** What to choose from, the right answer among them; empty for a free answer. */
    choices: Answer[];
    /** The right answer. */
    right: Answer;
    /** What is right as well. */
    also: Answer[];
    /** What is heard: a page, for "wrongStaff"; one note twice, for "natural". */
    heard: HeardNote[];
    /** Everything in it as text: equal texts are equal questions, on every machine. */
    canonical: string;
}

/** The mark of an answer. */
export interface Mark {
    /** Whether a musician would accept it. */
    right: boolean;
    /** What explains a wrong answer; empty where nothing typical does. */
    mistakes: Mistake[];
}

/**
 * Makes an exercise. The text is what stands behind `do=` in a link to the app.
 * @throws {CrookwiseError}
 */
export function makeExercise(options: ExerciseOptions): string;

/**
 * The questions of an exercise: the same for the same text, everywhere.
 * @throws {CrookwiseError} with code "missing", "type" or "exercise"
 */
export function askExercise(exercise: string): Question[];

/**
 * Marks an answer to a question of an exercise, counted from 0.
 * @throws {CrookwiseError}
 */
export function markAnswer(exercise: string, question: number, answer: Answer): Mark;

/** A time or a length in quarter notes: numerator and denominator, in lowest terms, the denominator above 0. */
export type Fraction = [number, number];

/** What a file of a score holds. */
export interface ScoreSummary {
    /** Its title; empty where it has none. */
    title: string;
    /** How many bars it has. */
    measures: number;
    /** Its parts in the order of the file. */
    parts: PartSummary[];
    /** What is odd in the whole of it, as sentences. */
    remarks: string[];
}

/** A part of a score. */
export interface PartSummary {
    /** As the file names it. */
    name: string;
    /** What the name says as a label. */
    label: Decoded;
    /** Notes with a pitch: grace and cue notes and all notes of a stem are counted. */
    notes: number;
    /** Rests. */
    rests: number;
    /** Every transposition that the file tells, in its order. */
    transpositions: ToldTransposition[];
    /** What is odd in it, as sentences: a label and a file that disagree, changes that do not come, what is not understood. */
    remarks: string[];
}

/** A transposition that a file tells; letters that it leaves out are those of the label, or the usual ones. */
export interface ToldTransposition extends MusicXmlTransposition {
    /** The number of the bar from which on it holds. */
    measure: string;
    /** The staff of the part, from 1. */
    staff: number;
}

/** What is asked of the notes of a part. */
export interface SoundingOptions {
    /**
     * Horns in old bass-clef notation whose file has it as if it were new are read an octave higher, as they were meant;
     * false where absent.
     */
    repair?: boolean;
}

/** A pitched note of a part. */
export interface SoundingNote {
    /** The number of its bar, as printed. */
    measure: string;
    /** Its bar, from 0. */
    measureIndex: number;
    /** Its staff of the part, from 1. */
    staff: number;
    /** Its voice, as the file numbers it. */
    voice: number;
    /** Quarter notes from the beginning of its bar. */
    onset: Fraction;
    /** How long it lasts in quarter notes; `[0, 1]` for a grace note. */
    duration: Fraction;
    /** Whether it goes on from the same note before, and is not struck. */
    tied: boolean;
    /** What the player reads. */
    written: string;
    /** What is heard, by the file's own transposition. */
    sounding: string;
    /** Its partial, on natural brass that the label names; null elsewhere and off the series. */
    partial: number | null;
    /** How it is made. A guide: players, horns and sources differ. */
    production: Production;
}

/** What the audit takes for granted. */
export interface AuditOptions extends SoundingOptions {
    /** Brass that is taken to have valves is held against the series as well; false where absent. */
    valvesToo?: boolean;
}

/** A staff of brass, held against its crooks. Grace notes and notes tied to one before are not counted. */
export interface PartAudit {
    /** The part, from 0 in the order of the file. */
    part: number;
    /** As the file names it. */
    name: string;
    /** The staff of the part, from 1. */
    staff: number;
    /** Which family. */
    family: "horn" | "trumpet";
    /** Notes that are struck. */
    attacks: number;
    /** Of these, those on the series. */
    onSeries: number;
    /** Crook by crook, in the order in which they come. */
    crooks: CrookAudit[];
    /** Changes of crook. */
    changes: CrookChange[];
}

/** All that a staff plays on one crook before it changes. */
export interface CrookAudit {
    /** The crook in words: "Horn in E-flat". */
    crook: string;
    /** The numbers of the first and the last bar in which it plays. */
    measures: [string, string];
    /** Notes that are struck. */
    attacks: number;
    /** Open notes: partial and how many, rising. */
    open: [number, number][];
    /** Notes on the series that hand or lip correct: partial and how many, rising. */
    corrected: [number, number][];
    /** Notes off the series that hand or lip make. */
    made: { note: string; production: Production; notes: number }[];
    /** Notes out of reach. */
    outOfReach: number;
    /** The lowest note written. */
    lowest: string | null;
    /** The highest note written. */
    highest: string | null;
    /** The longest stretch above partial 12. */
    longestHigh: { measure: string; duration: Fraction; attacks: number } | null;
}

/** A change of crook. */
export interface CrookChange {
    /** The crook before. */
    from: string;
    /** The crook after. */
    to: string;
    /** The number of the bar in which it first plays. */
    measure: string;
    /** The rest before that, in quarter notes. */
    rest: Fraction;
}

/** How a score goes out. */
export interface ExportOptions extends SoundingOptions {
    /** Parts as they sound, without a transposition; or written: as they were, or for the instrument of `label`. */
    pitch: "sounding" | "written";
    /** The parts, from 0 in the order of the file; all where absent. */
    parts?: number[];
    /** For "written": the instrument or crook, as a label ("Horn in F"). */
    label?: string;
}

/** What goes out as MIDI. */
export interface MidiOptions extends SoundingOptions {
    /** The parts, from 0 in the order of the file; all where absent. */
    parts?: number[];
}

/**
 * What a file of a score holds: MusicXML 2.0 to 4.0 by parts, as `.musicxml`, `.xml` or `.mxl`.
 *
 * ```js
 * const { title, parts } = importScore(new Uint8Array(await file.arrayBuffer()), file.name);
 * ```
 * @throws {CrookwiseError} with code "missing", "type" or "file"
 */
export function importScore(bytes: Uint8Array, fileName?: string): ScoreSummary;

/**
 * Every pitched note of a part in the order of the file, chord, grace and cue notes included.
 * @throws {CrookwiseError}
 */
export function soundingNotes(bytes: Uint8Array, part: number, options?: SoundingOptions): SoundingNote[];

/**
 * Every brass part held against its crooks; parts whose brass has valves are left out, unless they are asked for.
 * @throws {CrookwiseError}
 */
export function auditScore(bytes: Uint8Array, options?: AuditOptions): PartAudit[];

/**
 * The score written anew as MusicXML in UTF-8. What need not change passes through as it came.
 * @throws {CrookwiseError}
 */
export function exportScore(bytes: Uint8Array, options: ExportOptions): Uint8Array;

/**
 * The score as a MIDI file of type 1. Repeats stand once; grace notes are left out.
 * @throws {CrookwiseError}
 */
export function exportMidi(bytes: Uint8Array, options?: MidiOptions): Uint8Array;

/** A note that is wanted; times in quarter notes from the start, triplets as near as a number comes. */
export interface WantedNote {
    /** When it begins. */
    onset: number;
    /** How long it lasts; above 0. */
    duration: number;
    /** What is to sound: "Eb4". */
    sounding: string;
    /** Whose it is, from 0; anybody's where absent. */
    player?: number;
    /** How much it counts; 1 where absent. */
    weight?: number;
}

/** A player with what he owns. */
export interface CrookPlayer {
    /** Horn or trumpet. */
    family: "horn" | "trumpet";
    /** His crooks, as in a label after "in": "Eb", "Bb alto", "C basso". */
    crooks: string[];
    /** Players of the same number are a pair. */
    pair?: number;
}

/** What counts how much. */
export interface CrookWeights {
    /** What a note is worth by how it is made: open 1, handOut 0.9, lipped 0.8, quarter 0.7, half 0.6, threeQuarter 0.4, full 0.3,
     *  all others 0 where absent. A guide: players and sources differ. */
    worth?: Partial<Record<Production, number>>;
    /** Written notes above this partial are asked of nobody; 12 (above G5) where absent. */
    highest?: number;
}

/** What `planCrooks` is asked; at most 8 players and 60,000 notes. */
export interface PlanRequest extends CrookWeights {
    /** The notes wanted, in any order. */
    notes: WantedNote[];
    /** Who plays. */
    players: CrookPlayer[];
    /** Quarter notes of rest that a change of crook needs. */
    changeTime: number;
    /** Whether the players of a pair share their crook; true where absent. */
    together?: boolean;
    /** What each change costs each player; 0.5 where absent. */
    changeCost?: number;
}

/** So long a player stays on one crook. */
export interface CrookStretch {
    /** From 0. */
    player: number;
    /** As the request names it. */
    crook: string;
    /** Where its first note begins, in quarter notes. */
    from: number;
    /** Where its last note ends, in quarter notes. */
    to: number;
}

/** What becomes of a note in a plan. */
export interface PlannedNote {
    /** Who plays it; null where it is left out. */
    player: number | null;
    /** As it is written for him, in strict spelling. */
    written: string | null;
    /** How it is made. */
    production: Production | null;
    /** What it is worth, its weight included. */
    worth: number;
}

/** A plan. */
export interface CrookPlan {
    /** What all its notes are worth, less what its changes cost. */
    total: number;
    /** By player, then by time. */
    stretches: CrookStretch[];
    /** In the order asked. */
    notes: PlannedNote[];
}

/** What `planCrooks` found. */
export interface CrookPlans {
    /** The best first; at most four, no two with the same stretches. */
    plans: CrookPlan[];
    /** Whether the first is proved to be the best. */
    optimal: boolean;
    /** No plan is worth more. */
    bound: number;
    /** Why there is no plan, in a sentence; null where there is one. */
    problem: string | null;
}

/** What `crookTable` is asked. */
export interface CrookTableRequest extends CrookWeights {
    /** Horn or trumpet. */
    family: "horn" | "trumpet";
    /** "G minor". */
    key: string;
    /** The crooks, as in a label after "in"; every one that is built where absent. */
    crooks?: string[];
}

/** A degree as it is had best. */
export interface CrookTableNote {
    /** As it sounds. */
    sounding: string;
    /** As it is written, in strict spelling. */
    written: string;
    /** How it is made. */
    production: Production;
    /** What that is worth. */
    worth: number;
}

/** What a crook, or two of them together, give of a key. */
export interface CrookTableRow {
    /** One or two. */
    crooks: string[];
    /** For each degree, in the octave where it is had best; null where it is missing. */
    degrees: (CrookTableNote | null)[];
    /** For each chord, how many of its three members are open notes. */
    open: number[];
}

/** What crooks give of a key. */
export interface CrookTable {
    /** From the first to the seventh; in minor the raised seventh after the natural one. */
    degrees: { number: number; raised: boolean; note: string }[];
    /** The triads on the first, fourth and fifth degrees; members are places in `degrees`. */
    chords: { root: number; members: number[] }[];
    /** Each crook, in the order asked. */
    crooks: CrookTableRow[];
    /** Each two of them. */
    pairs: CrookTableRow[];
}

/**
 * The best crooks for notes that are to sound: for each player the crook and its changes, who plays which note, and how it is made.
 *
 * ```js
 * const { plans } = planCrooks({
 *     notes: [{ onset: 0, duration: 4, sounding: "G4" }, { onset: 0, duration: 4, sounding: "Bb4" }],
 *     players: [{ family: "horn", crooks: ["G", "Bb alto"] }, { family: "horn", crooks: ["G", "Bb alto"] }],
 *     changeTime: 16,
 * });
 * ```
 * @throws {CrookwiseError} with code "missing", "type", "pitch" or "family"; what has no plan is told in `problem`
 */
export function planCrooks(request: PlanRequest): CrookPlans;

/**
 * What each crook, and each two of them, give of the degrees and chords of a key.
 *
 * ```js
 * const { pairs } = crookTable({ family: "horn", key: "G minor", crooks: ["G", "Bb alto"] });
 * ```
 * @throws {CrookwiseError}
 */
export function crookTable(request: CrookTableRequest): CrookTable;
