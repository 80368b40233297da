"""Reads some parts of scores with music21 and says what they have written and what they sound: questions as JSON on standard
input, answers on standard output.

    {"scores": [{"path": "score.mxl", "parts": [7, 8]}]}

Parts are counted from 0 in the order of the file; all others are left out before the library reads it, which spares it
minutes. Of each part its notes in order, once as written and once as they sound: "bar place pitch", the bar counted from 0,
its place in quarter notes as a fraction. Grace notes stand at the place of the note they belong to.

Flats are written "b" outside and "-" inside music21.
"""

import json
import sys
import tempfile
import zipfile
from fractions import Fraction
from multiprocessing import Pool
from pathlib import Path
from xml.etree import ElementTree

import music21
from music21 import converter, harmony, stream


def text_of(path):
    with zipfile.ZipFile(path) as archive:
        container = ElementTree.fromstring(archive.read("META-INF/container.xml"))
        return archive.read(next(container.iter("rootfile")).get("full-path"))


def parts_alone(path, wanted):
    """The file with these parts only."""
    root = ElementTree.fromstring(text_of(path))
    listed = root.find("part-list")
    keep = {part.get("id") for at, part in enumerate(listed.findall("score-part")) if at in wanted}
    for parent, name in [(listed, "score-part"), (root, "part")]:
        for part in parent.findall(name):
            if part.get("id") not in keep:
                parent.remove(part)
    for group in listed.findall("part-group"):
        listed.remove(group)
    return ElementTree.tostring(root, encoding="unicode")


def notes_of(part):
    found = []
    for bar, measure in enumerate(part.getElementsByClass(stream.Measure)):
        for note in measure.recurse().notes:
            if isinstance(note, harmony.Harmony):
                continue
            place = Fraction(note.getOffsetInHierarchy(measure)).limit_denominator(10_000)
            for pitch in getattr(note, "pitches", ()):
                sign = pitch.accidental.modifier.replace("-", "b") if pitch.accidental else ""
                found.append((bar, place, f"{pitch.step}{sign}{pitch.octave}"))
    return [f"{bar} {place} {pitch}" for bar, place, pitch in sorted(found)]


def read(question):
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "parts.musicxml"
        path.write_text(parts_alone(question["path"], set(question["parts"])), encoding="utf-8")
        score = converter.parse(path, forceSource=True, storePickle=False)
        written = [notes_of(part) for part in score.parts]
        sounding = [notes_of(part) for part in score.toSoundingPitch().parts]
    return [{"written": one, "sounding": other} for one, other in zip(written, sounding)]


def main():
    questions = json.load(sys.stdin)
    with Pool(2) as pool:
        answers = pool.map(read, questions["scores"], chunksize=1)
    json.dump({"version": music21.__version__, "scores": answers}, sys.stdout)


if __name__ == "__main__":
    main()
