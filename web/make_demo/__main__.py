"""Makes web/demo/movement.musicxml from web/demo/movement.txt, whose head says how it is written.

Run from the root of the repository: python3 web/make_demo
With --check it writes nothing and fails where the file is not what the text makes. It needs Python 3.8, no library. The
file is committed, so only who changes the music runs it.
"""

import pathlib
import sys
from xml.sax.saxutils import escape

sys.dont_write_bytecode = True

from bars import Writer  # noqa: E402
from notes import tag  # noqa: E402
from text import Music  # noqa: E402

FOLDER = pathlib.Path(__file__).parent.parent / "demo"
HEAD = """<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
"""


def listed(part):
    names = tag("part-name", escape(part.name)) + tag("part-abbreviation", escape(part.short))
    return tag("score-part", names, id=part.id)


def document(music):
    head = tag("movement-title", escape(music.head["title"]))
    head += tag("identification", tag("rights", escape(music.head["rights"])))
    parts = [tag("part-list", "\n" + "\n".join(listed(part) for part in music.parts) + "\n")]
    for part in music.parts:
        parts.append(tag("part", "\n" + "\n".join(Writer(music, part).written()) + "\n", id=part.id))
    inside = "\n" + "\n".join([head, *parts]) + "\n"
    return HEAD + tag("score-partwise", inside, version="4.0") + "\n"


def main():
    made = document(Music((FOLDER / "movement.txt").read_text(encoding="utf-8")))
    file = FOLDER / "movement.musicxml"
    if "--check" not in sys.argv[1:]:
        file.write_text(made, encoding="utf-8")
    elif file.read_text(encoding="utf-8") != made:
        raise SystemExit("movement.musicxml is not what movement.txt makes: run python3 web/make_demo")


if __name__ == "__main__":
    main()
