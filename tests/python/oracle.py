"""Answers questions about pitches with music21: questions as JSON on standard input, answers on standard output.

    {"transpose": [["Eb5", -5, -9]]}      sounding pitch and MIDI number of a written pitch moved by letters, semitones
    {"intervals": [[-5, -9]]}             name of an interval of so many letters and semitones, downwards with "-"
    {"signatures": [[0, -5, -9]]}         sharps of a signature moved by an interval, flats negative
    {"harmonics": [5]}                    cents of a partial above the first, rounded by music21 to whole ones
    {"frequencies": [["A4", 440]]}        frequency of a pitch by the reference pitch
    {"clefs": [["G", 2]]}                 pitch on the bottom line of a clef

Flats are written "b" outside and "-" inside music21.
"""

import json
import sys

import music21
from music21 import clef, interval, key, pitch


def read_pitch(name):
    return pitch.Pitch(name[0] + name[1:].replace("b", "-"))


def write_pitch(found):
    sign = found.accidental.modifier.replace("-", "b") if found.accidental else ""
    return f"{found.step}{sign}{found.octave}"


def interval_of(steps, semitones):
    generic = steps + 1 if steps >= 0 else steps - 1
    return interval.intervalFromGenericAndChromatic(generic, semitones)


def transpose(name, steps, semitones):
    found = read_pitch(name).transpose(interval_of(steps, semitones))
    return [write_pitch(found), int(found.ps)]


def harmonic_cents(number):
    # Counted from a low C, so that the whole range stays above the lowest octave.
    first = pitch.Pitch("C1")
    found = first.getHarmonic(number)
    return (found.ps - first.ps) * 100


def frequency(name, a4):
    found = read_pitch(name)
    return found.frequency * a4 / 440


def bottom_line(sign, line):
    found = clef.clefFromString(f"{sign}{line}")
    bottom = pitch.Pitch()
    bottom.diatonicNoteNum = found.lowestLine
    return bottom.step + str(bottom.octave)


ANSWERS = {
    "transpose": lambda question: transpose(*question),
    "intervals": lambda question: interval_of(*question).directedName,
    "signatures": lambda question: key.KeySignature(question[0]).transpose(interval_of(*question[1:])).sharps,
    "harmonics": harmonic_cents,
    "frequencies": lambda question: frequency(*question),
    "clefs": lambda question: bottom_line(*question),
}


def main():
    questions = json.load(sys.stdin)
    answers = {name: [ANSWERS[name](one) for one in asked] for name, asked in questions.items()}
    answers["version"] = music21.__version__
    json.dump(answers, sys.stdout)


if __name__ == "__main__":
    main()
