"""Draws the PNG icons of web/static from its icon.svg, for systems that take no SVG.

Run from the root of the repository: python3 web/make_icons.py
It needs Python 3.8 and Chromium; no other library. The PNG files are committed, so only who changes the drawing runs it.
"""

import pathlib
import re
import shutil
import struct
import subprocess
import tempfile
import zlib

STATIC = pathlib.Path(__file__).parent / "static"
PAPER = "#faf6ec"
# Name, side in pixels, share of the side that the drawing takes, and whether the corners are cut by ourselves. A
# system that cuts an icon to its own shape may take all but the middle circle of four fifths (W3C, Web Application
# Manifest, "maskable").
ICONS = [
    ("icon-192.png", 192, 1.0, True),
    ("icon-512.png", 512, 1.0, True),
    ("icon-512-maskable.png", 512, 0.75, False),
    ("apple-touch-icon.png", 180, 0.9, False),
]


def draw(svg, side, share, cut, folder):
    """The picture as rows of RGBA bytes without filter, four bytes a pixel."""
    if not cut:
        svg = re.sub(r"<rect[^>]*/>", "", svg)
    inner = round(side * share)
    edge = (side - inner) / 2
    ground = "transparent" if cut else PAPER
    style = f"margin:0;background:{ground}"
    place = f"position:absolute;left:{edge}px;top:{edge}px;width:{inner}px;height:{inner}px"
    page = folder / "page.html"
    page.write_text(f'<body style="{style}">{svg.replace("<svg", f"<svg style={chr(34)}{place}{chr(34)}", 1)}')
    shot = folder / "shot.png"
    browser = shutil.which("chromium") or shutil.which("google-chrome") or "chrome"
    # Windows smaller than some 500 pixels are not shown whole: the picture is cut from the corner of a larger one.
    flags = ["--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--window-size=800,800"]
    flags += ["--default-background-color=00000000", f"--screenshot={shot}", page.as_uri()]
    subprocess.run([browser, *flags], check=True, capture_output=True)
    return [row[: side * 4] for row in rows(shot.read_bytes())[:side]]


def rows(png):
    """The rows of an RGBA picture with eight bits a channel."""
    at, data = 8, b""
    while at < len(png):
        length, kind = struct.unpack(">I4s", png[at : at + 8])
        body = png[at + 8 : at + 8 + length]
        if kind == b"IHDR":
            width, height, depth, colours = struct.unpack(">IIBB", body[:10])
            assert depth == 8 and colours in (2, 6), "an unexpected kind of PNG"
        data += body if kind == b"IDAT" else b""
        at += length + 12
    size = 4 if colours == 6 else 3
    raw, before, found = zlib.decompress(data), bytearray(width * size), []
    for number in range(height):
        start = number * (width * size + 1)
        kind, line = raw[start], bytearray(raw[start + 1 : start + 1 + width * size])
        for i in range(len(line)):
            left = line[i - size] if i >= size else 0
            corner = before[i - size] if i >= size else 0
            line[i] = (line[i] + guess(kind, left, before[i], corner)) & 255
        found.append(bytes(line) if size == 4 else opaque(line))
        before = line
    return found


def guess(kind, left, above, corner):
    """What a PNG filter expects of a byte (PNG specification, 9.2)."""
    if kind < 4:
        return (0, left, above, (left + above) // 2)[kind]
    estimate = left + above - corner
    return min((left, above, corner), key=lambda value: abs(estimate - value))


def opaque(line):
    return b"".join(bytes(line[i : i + 3]) + b"\xff" for i in range(0, len(line), 3))


def packed(lines, side):
    """A PNG with a palette: the drawing has few colours, and those of its soft edges are rounded to few."""
    def few(pixel):
        red, green, blue, alpha = pixel
        step = lambda value: min(255, (value + 8) // 16 * 16)
        if pixel in exact:
            return pixel
        return (0, 0, 0, 0) if alpha < 8 else (step(red), step(green), step(blue), min(255, step(alpha)))

    exact = {(0xFA, 0xF6, 0xEC, 255), (0x8A, 0x5A, 0x12, 255), (0x1F, 0x1B, 0x16, 255)}
    pixels = [[few(tuple(line[i : i + 4])) for i in range(0, side * 4, 4)] for line in lines]
    palette = sorted({pixel for line in pixels for pixel in line}, key=lambda pixel: pixel[3])
    assert len(palette) <= 256, "too many colours for a palette"
    index = {pixel: number for number, pixel in enumerate(palette)}
    raw = b"".join(b"\0" + bytes(index[pixel] for pixel in line) for line in pixels)
    alphas = bytes(pixel[3] for pixel in palette).rstrip(b"\xff")
    chunks = [(b"IHDR", struct.pack(">IIBBBBB", side, side, 8, 3, 0, 0, 0))]
    chunks.append((b"PLTE", b"".join(bytes(pixel[:3]) for pixel in palette)))
    chunks += [(b"tRNS", alphas)] if alphas else []
    chunks += [(b"IDAT", zlib.compress(raw, 9)), (b"IEND", b"")]
    check = lambda kind, body: struct.pack(">I", zlib.crc32(kind + body))
    parts = (struct.pack(">I", len(body)) + kind + body + check(kind, body) for kind, body in chunks)
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


def main():
    svg = (STATIC / "icon.svg").read_text()
    with tempfile.TemporaryDirectory() as folder:
        for name, side, share, cut in ICONS:
            png = packed(draw(svg, side, share, cut, pathlib.Path(folder)), side)
            (STATIC / name).write_bytes(png)
            print(f"{name}: {len(png)} bytes")


main()
