#!/usr/bin/env python3
"""Writes ../src/glyph/table.rs and ../src/glyph/measured.rs, the outlines of the Crookwise Notation glyphs:
those of any page, and those that only measured music needs, each by its own name so that what does not
need them does not carry them.

The outlines are a subset of a SMuFL font under the SIL Open Font License 1.1 (OFL.txt beside this
file), turned into SVG path data. As a modified version it carries a name of its own.

How it is run, from this folder:

    npm pack @vexflow-fonts/bravura@1.0.2 && tar xzf vexflow-fonts-bravura-1.0.2.tgz
    python3 -m venv venv && venv/bin/pip install fonttools==4.68.0 brotli==1.2.1
    venv/bin/python make_glyphs.py package/bravura.otf package/metadata.json
    rm -r venv package vexflow-fonts-bravura-1.0.2.tgz

It prints the size of the path data, plain and as brotli. Lengths in the table are the font's own
units, 250 to a staff space; x runs to the right and y downwards, as in SVG.
"""

import json
import sys
from pathlib import Path

import brotli
from fontTools.pens.basePen import BasePen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.transformPen import TransformPen
from fontTools.ttLib import TTFont

# SMuFL name, code point, what it is.
GLYPHS = [
    ("brace", 0xE000, "the brace, four staff spaces tall as drawn"),
    ("gClef", 0xE050, "the G clef"),
    ("cClef", 0xE05C, "the C clef"),
    ("fClef", 0xE062, "the F clef"),
    ("unpitchedPercussionClef1", 0xE069, "the neutral clef of strokes without pitch"),
    ("gClefChange", 0xE07A, "the small G clef of a change"),
    ("cClefChange", 0xE07B, "the small C clef of a change"),
    ("fClefChange", 0xE07C, "the small F clef of a change"),
    ("clef8", 0xE07D, "the 8 at a clef"),
    ("clef15", 0xE07E, "the 15 at a clef"),
    ("noteheadWhole", 0xE0A2, "the whole notehead"),
    ("noteheadHalf", 0xE0A3, "the half notehead"),
    ("noteheadBlack", 0xE0A4, "the black notehead"),
    ("noteheadXBlack", 0xE0A9, "the crossed notehead of a stroke"),
    ("accidentalFlat", 0xE260, "the flat"),
    ("accidentalNatural", 0xE261, "the natural"),
    ("accidentalSharp", 0xE262, "the sharp"),
    ("accidentalDoubleSharp", 0xE263, "the double sharp"),
    ("accidentalDoubleFlat", 0xE264, "the double flat"),
    ("restWhole", 0xE4E3, "the whole rest"),
    ("restHalf", 0xE4E4, "the half rest"),
    ("restQuarter", 0xE4E5, "the quarter rest"),
    ("rest8th", 0xE4E6, "the eighth rest"),
    ("rest16th", 0xE4E7, "the sixteenth rest"),
    ("brassMuteClosed", 0xE5E5, "the cross of a stopped note"),
    ("brassMuteHalfClosed", 0xE5E6, "the sign of a half-stopped note"),
    ("brassMuteOpen", 0xE5E7, "the ring of an open note"),
]

MEASURED = [
    ("timeSig0", 0xE080, "the 0 of a time signature"),
    ("timeSig1", 0xE081, "the 1 of a time signature"),
    ("timeSig2", 0xE082, "the 2 of a time signature"),
    ("timeSig3", 0xE083, "the 3 of a time signature"),
    ("timeSig4", 0xE084, "the 4 of a time signature"),
    ("timeSig5", 0xE085, "the 5 of a time signature"),
    ("timeSig6", 0xE086, "the 6 of a time signature"),
    ("timeSig7", 0xE087, "the 7 of a time signature"),
    ("timeSig8", 0xE088, "the 8 of a time signature"),
    ("timeSig9", 0xE089, "the 9 of a time signature"),
    ("timeSigCommon", 0xE08A, "common time"),
    ("timeSigCutCommon", 0xE08B, "cut common time"),
    ("segno", 0xE047, "the segno"),
    ("coda", 0xE048, "the coda"),
    ("noteheadDoubleWhole", 0xE0A0, "the breve"),
    ("augmentationDot", 0xE1E7, "the dot of a dotted note"),
    ("flag8thUp", 0xE240, "the flag of an eighth, stem up"),
    ("flag8thDown", 0xE241, "the flag of an eighth, stem down"),
    ("flag16thUp", 0xE242, "the flags of a sixteenth, stem up"),
    ("flag16thDown", 0xE243, "the flags of a sixteenth, stem down"),
    ("flag32ndUp", 0xE244, "the flags of a thirty-second, stem up"),
    ("flag32ndDown", 0xE245, "the flags of a thirty-second, stem down"),
    ("articAccentAbove", 0xE4A0, "the accent"),
    ("articStaccatoAbove", 0xE4A2, "the staccato dot"),
    ("articTenutoAbove", 0xE4A4, "the tenuto line"),
    ("articStaccatissimoAbove", 0xE4A6, "the wedge, above"),
    ("articStaccatissimoBelow", 0xE4A7, "the wedge, below"),
    ("articMarcatoAbove", 0xE4AC, "the upright accent, above"),
    ("articMarcatoBelow", 0xE4AD, "the upright accent, below"),
    ("fermataAbove", 0xE4C0, "the fermata, above"),
    ("fermataBelow", 0xE4C1, "the fermata, below"),
    ("breathMarkComma", 0xE4CE, "the breath mark"),
    ("restDoubleWhole", 0xE4E2, "the rest of a breve"),
    ("rest32nd", 0xE4E8, "the thirty-second rest"),
    ("dynamicPiano", 0xE520, "p"),
    ("dynamicMezzo", 0xE521, "m"),
    ("dynamicForte", 0xE522, "f"),
    ("dynamicRinforzando", 0xE523, "r"),
    ("dynamicSforzando", 0xE524, "s"),
    ("dynamicZ", 0xE525, "z"),
    ("ornamentTrill", 0xE566, "the trill"),
    ("ornamentTurn", 0xE567, "the turn"),
    ("ornamentTurnInverted", 0xE568, "the turn upside down"),
    ("ornamentShortTrill", 0xE56C, "the short trill"),
    ("ornamentMordent", 0xE56D, "the mordent"),
    ("wiggleArpeggiatoUp", 0xEAA9, "a wave of an arpeggio, upright"),
    ("stringsDownBow", 0xE610, "the bow downwards"),
    ("stringsUpBow", 0xE612, "the bow upwards"),
    ("caesura", 0xE4D1, "the break"),
    ("fingering0", 0xED10, "the 0 of a small number"),
    ("fingering1", 0xED11, "the 1 of a small number"),
    ("fingering2", 0xED12, "the 2 of a small number"),
    ("fingering3", 0xED13, "the 3 of a small number"),
    ("fingering4", 0xED14, "the 4 of a small number"),
    ("fingering5", 0xED15, "the 5 of a small number"),
    ("fingering6", 0xED24, "the 6 of a small number"),
    ("fingering7", 0xED25, "the 7 of a small number"),
    ("fingering8", 0xED26, "the 8 of a small number"),
    ("fingering9", 0xED27, "the 9 of a small number"),
    ("bracketTop", 0xE003, "the upper end of a bracket"),
    ("bracketBottom", 0xE004, "the lower end of a bracket"),
]

# Drawn along the line in the font, and set upright by those who use it: turned against the clock.
UPRIGHT = {"wiggleArpeggiatoUp"}

ANCHORS = {"cutOutNE", "cutOutNW", "cutOutSE", "cutOutSW", "stemUpSE", "stemDownNW"}

HEAD = """//! The outlines of the Crookwise Notation glyphs. Written by `data/make_glyphs.py`; do not edit by hand.
//!
//! A modified subset of a font © 2019 Steinberg Media Technologies GmbH, under the SIL Open Font License 1.1:
//! see `data/OFL.txt`.

use super::{Anchor, Outline};

"""


class PathPen(BasePen):
    """Relative SVG path data in whole font units, y downwards, as short as it goes without loss."""

    def __init__(self, glyph_set):
        super().__init__(glyph_set)
        self.parts = []
        self.at = self.start = (0, 0)
        self.last = None

    def _emit(self, command, numbers):
        if command != self.last or command in "mz":
            self.parts.append(command)
            gap = False
        else:
            gap = True
        for number in numbers:
            if gap and number >= 0:
                self.parts.append(" ")
            self.parts.append(str(number))
            gap = True
        self.last = command

    def _delta(self, *points):
        return [v for x, y in points for v in (round(x) - self.at[0], -(round(y) - self.at[1]))]

    def _go(self, point):
        self.at = (round(point[0]), round(point[1]))

    def _moveTo(self, point):
        self._emit("m", self._delta(point))
        self._go(point)
        self.start = self.at

    def _lineTo(self, point):
        dx, dy = self._delta(point)
        if dx == 0 and dy == 0:
            return
        if dy == 0:
            self._emit("h", [dx])
        elif dx == 0:
            self._emit("v", [dy])
        else:
            self._emit("l", [dx, dy])
        self._go(point)

    def _curveToOne(self, a, b, c):
        self._emit("c", self._delta(a, b, c))
        self._go(c)

    def _closePath(self):
        self._emit("z", [])
        self.at = self.start

    def text(self):
        return "".join(self.parts)


def rust_name(smufl):
    return smufl[0].upper() + smufl[1:]


def anchor_name(smufl):
    return rust_name(smufl[:-2]) + smufl[-2:].capitalize()


def row(font, metadata, smufl, code):
    """The outline of a glyph as a value, and its path."""
    glyph_set, names = font.getGlyphSet(), font.getBestCmap()
    glyph = glyph_set[names[code]]
    pen, bounds = PathPen(glyph_set), BoundsPen(glyph_set)
    for out in (pen, bounds):
        glyph.draw(TransformPen(out, (0, 1, -1, 0, 0, 0)) if smufl in UPRIGHT else out)
    x0, y0, x1, y1 = bounds.bounds
    box = [round(v) for v in (x0, -y1, x1, -y0)]
    advance = round(metadata["glyphAdvanceWidths"][smufl] * 250)
    anchors = "".join(
        f"(Anchor::{anchor_name(name)}, {round(x * 250)}, {round(-y * 250)}), "
        for name, (x, y) in sorted(metadata["glyphsWithAnchors"].get(smufl, {}).items())
        if name in ANCHORS
    ).rstrip(", ")
    value = (
        f'Outline {{ name: "{smufl}", code: 0x{code:04X}, advance: {advance}, bounds: {box}, '
        f'anchors: &[{anchors}], path: "{pen.text()}" }}'
    )
    return value, pen.text()


def write(name, out, rows, paths):
    target = Path(__file__).resolve().parent.parent / "src" / "glyph" / name
    target.parent.mkdir(exist_ok=True)
    target.write_text(out, encoding="utf-8")
    data, whole = "\n".join(paths).encode(), "".join(rows).encode()
    print(f"{name}: {len(rows)} glyphs, paths {len(data)} bytes, brotli {len(brotli.compress(data, quality=11))}")
    print(f"whole table {len(whole)} bytes, brotli {len(brotli.compress(whole, quality=11))}")


def constant_name(smufl):
    return "".join("_" + c if c.isupper() else c for c in smufl).upper()


def of_any_page(font, metadata):
    enum, rows, paths = [], [], []
    for smufl, code, words in GLYPHS:
        value, path = row(font, metadata, smufl, code)
        enum.append(f"    /// SMuFL `{smufl}`, U+{code:04X}: {words}.\n    {rust_name(smufl)},\n")
        rows.append(f"    {value},\n")
        paths.append(path)
    out = HEAD
    out += "/// A sign of music, by its SMuFL name.\n"
    out += "#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]\n"
    out += "pub enum Glyph {\n" + "".join(enum) + "}\n\n"
    out += "impl Glyph {\n    /// Every glyph, in the order of the code points.\n    #[rustfmt::skip]\n"
    out += f"    pub const ALL: [Self; {len(GLYPHS)}] = [\n"
    out += "".join(f"        Self::{rust_name(name)},\n" for name, _, _ in GLYPHS) + "    ];\n}\n\n"
    out += "/// One outline for each glyph, in the order of [`Glyph::ALL`].\n#[rustfmt::skip]\n"
    out += f"pub(super) static TABLE: [Outline; {len(GLYPHS)}] = [\n" + "".join(rows) + "];\n"
    write("table.rs", out, rows, paths)


def of_measured_music(font, metadata):
    rows, paths, names = [], [], []
    for smufl, code, words in MEASURED:
        value, path = row(font, metadata, smufl, code)
        rows.append(
            f"/// SMuFL `{smufl}`, U+{code:04X}: {words}.\n#[rustfmt::skip]\n"
            f"pub static {constant_name(smufl)}: Outline = {value};\n"
        )
        paths.append(path)
        names.append(f"&{constant_name(smufl)}")
    out = HEAD + "".join(rows)
    if "Anchor::" not in out:
        out = out.replace("use super::{Anchor, Outline};", "use super::Outline;")
    out += "\n/// All of them.\n#[rustfmt::skip]\n"
    out += f"pub static ALL: [&Outline; {len(MEASURED)}] = [{', '.join(names)}];\n"
    write("measured.rs", out, rows, paths)


def main():
    font = TTFont(sys.argv[1])
    metadata = json.loads(Path(sys.argv[2]).read_text(encoding="utf-8"))
    assert font["head"].unitsPerEm == 1000, "four staff spaces to the em: 250 units each"
    of_any_page(font, metadata)
    of_measured_music(font, metadata)


if __name__ == "__main__":
    main()
