"""Names chords with music21: lists of pitches as JSON on standard input, answers on standard output.

    [["C4", "Eb4", "G4"]]     root, position, name, semitones of third, fifth and seventh, Italian, French or German sixth

Flats are written "b" outside and "-" inside music21.
"""

import json
import sys

import music21
from music21 import chord


def read_pitch(name):
    return name[0] + name[1:].replace("b", "-")


def describe(names):
    found = chord.Chord([read_pitch(name) for name in names])
    sixths = {
        "Italian": found.isItalianAugmentedSixth(permitAnyInversion=True),
        "French": found.isFrenchAugmentedSixth(permitAnyInversion=True),
        "German": found.isGermanAugmentedSixth(permitAnyInversion=True),
    }
    return {
        "root": found.root().name.replace("-", "b"),
        "bass": found.bass().name.replace("-", "b"),
        "inversion": found.inversion(),
        "name": found.commonName,
        "quality": found.quality,
        "stack": [found.semitonesFromChordStep(step) for step in (3, 5, 7)],
        "sixth": next((name for name, is_one in sixths.items() if is_one), None),
    }


def main():
    answers = [describe(names) for names in json.load(sys.stdin)]
    json.dump({"version": music21.__version__, "chords": answers}, sys.stdout)


if __name__ == "__main__":
    main()
