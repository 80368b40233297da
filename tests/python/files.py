"""Reads files of scores with music21 and says what sounds: paths as JSON on standard input, answers on standard output.

    {"files": [{"path": "score.musicxml", "sounds_as_written": false}]}

Of each file its staves, each with its name and its notes in order: "bar place pitch", the bar counted from 0, its place in
quarter notes. Notes without a pitch and chord symbols are left out. Of a file that sounds as written nothing is moved,
whatever its names would make the library think.

Flats are written "b" outside and "-" inside music21.
"""

import json
import sys
from multiprocessing import Pool

import music21
from music21 import converter, harmony, stream


def notes_of(staff):
    found = []
    for bar, measure in enumerate(staff.getElementsByClass(stream.Measure)):
        for note in measure.recurse().notes:
            if isinstance(note, harmony.Harmony):
                continue
            place = note.getOffsetInHierarchy(measure)
            for pitch in getattr(note, "pitches", ()):
                sign = pitch.accidental.modifier.replace("-", "b") if pitch.accidental else ""
                found.append((bar, place, f"{pitch.step}{sign}{pitch.octave}"))
    return [f"{bar} {place} {pitch}" for bar, place, pitch in sorted(found)]


def read(file):
    score = converter.parse(file["path"], forceSource=True, storePickle=False)
    if not file["sounds_as_written"]:
        score = score.toSoundingPitch()
    return [{"name": staff.partName, "notes": notes_of(staff)} for staff in score.parts]


def main():
    questions = json.load(sys.stdin)
    with Pool(2) as pool:
        answers = pool.map(read, questions["files"], chunksize=1)
    json.dump({"version": music21.__version__, "files": answers}, sys.stdout)


if __name__ == "__main__":
    main()
