"""Writes web/demo/movement.musicxml from the text beside it, web/demo/movement.txt, which says how it is to be read.

Run from the root of the repository: python3 web/make_demo.py
With --check it writes nothing and fails where the file is not what the text makes. It needs Python 3.8, no library. The
file is committed, so only who changes the music runs it.
"""

import pathlib
import re
import sys
from xml.sax.saxutils import escape

FOLDER = pathlib.Path(__file__).parent / "demo"
# Lengths in the text are eighth notes; the file counts sixteenths.
VALUES = {1: "16th", 2: "eighth", 3: "eighth.", 4: "quarter", 6: "quarter.", 8: "half", 12: "half.", 16: "whole"}
LETTERS = "CDEFGAB"
SEMITONES = (0, 2, 4, 5, 7, 9, 11)
DYNAMICS = {"pp", "p", "mp", "mf", "f", "ff", "fp", "sf"}
WEDGES = {"<": "crescendo", ">": "diminuendo", "!": "stop"}
CLEFS = {"treble": ("G", 2, 34), "alto": ("C", 3, 28), "bass": ("F", 4, 22)}


class Slip(Exception):
    """Something in the text that cannot be read."""


class Pitch:
    """Steps from C0 and semitones from C0."""

    def __init__(self, steps, semitones):
        self.steps, self.semitones = steps, semitones

    @classmethod
    def read(cls, text):
        found = re.fullmatch(r"([A-G])(#*|b*)(\d)", text)
        if not found:
            raise Slip(f"no pitch: {text}")
        letter, signs, octave = LETTERS.index(found[1]), found[2], int(found[3])
        alter = len(signs) if signs.startswith("#") else -len(signs)
        return cls(letter + 7 * octave, SEMITONES[letter] + alter + 12 * octave)

    def by(self, steps, semitones):
        return Pitch(self.steps + steps, self.semitones + semitones)

    @property
    def step(self):
        return LETTERS[self.steps % 7]

    @property
    def octave(self):
        return self.steps // 7

    @property
    def alter(self):
        return self.semitones - SEMITONES[self.steps % 7] - 12 * self.octave


class Event:
    """A note, a rest (no pitch) or a grace note (no length), with what stands at it and over it."""

    def __init__(self, pitch, length, marks, over):
        self.pitch, self.length, self.marks, self.over = pitch, length, marks, over

    def alike(self, other):
        return (self.length, self.pitch is None) == (other.length, other.pitch is None)


NOTE = re.compile(r"(\*?)(-|[A-G][#b]*\d)(?::([\d.]+))?((?:[()~'^_%o!]|\[\w+\])*)")
SIGNS = {"(": "slur", ")": "slurred", "~": "tie", "'": "staccato", "^": "accent", "_": "tenuto", "%": "stopped",
         "o": "open", "!": "staccatissimo"}


class Music:
    """The whole text: parts, what holds for all of them by bars, and for each player his bars."""

    def __init__(self, text):
        self.head, self.parts, self.players = {}, [], {}
        self.patterns, self.all, self.own = {}, {}, {}
        self.last = 0
        bars = None
        for number, line in enumerate(text.splitlines(), 1):
            line = line.split("//")[0].strip()
            try:
                if line:
                    bars = self.line(line, bars)
            except (Slip, ValueError, IndexError, KeyError) as slip:
                raise SystemExit(f"movement.txt, line {number}: {slip!r}") from None

    def line(self, line, bars):
        word, _, rest = line.partition(" ")
        rest = rest.strip()
        if word in ("title", "rights"):
            self.head[word] = rest
        elif word == "part":
            name, short, clef, players, *more = [field.strip() for field in rest.split(",")]
            by = dict(field.split() for field in more)
            part = Part(len(self.parts) + 1, name, short, clef, players.split(), by)
            self.parts.append(part)
            for player in part.players:
                self.players[player] = {}
        elif word == "pattern":
            name, shape = rest.split("=", 1)
            self.patterns[name.strip()] = shape.split()
        elif word == "at":
            bar, what = rest.split(None, 1)
            self.all.setdefault(int(bar), []).extend(field.strip() for field in what.split(";"))
        elif word == "bars":
            first, _, last = rest.partition("-")
            self.last = max(self.last, int(last or first))
            return int(first), int(last or first)
        elif word in self.players:
            self.bars(word, rest, bars)
        else:
            player, _, rest = word.partition("@")
            if player not in {part.players[0] for part in self.parts}:
                raise Slip(f"nobody is called {word}")
            self.own.setdefault((player, int(rest)), []).append(line.split(None, 1)[1])
        return bars

    def bars(self, player, text, between):
        first, last = between
        found = re.fullmatch(r"as (\w+)( [+-]\d)?", text)
        if found:
            octaves = int(found[2] or 0)
            for bar in range(first, last + 1):
                other = self.players[found[1]].get(bar)
                if other:
                    self.players[player][bar] = [moved(event, octaves) for event in other]
            return
        texts = text.split("|")
        if len(texts) != last - first + 1:
            raise Slip(f"{len(texts)} bars in place of {last - first + 1}")
        for bar, own in zip(range(first, last + 1), texts):
            events = self.events(player, own.strip()) if own.strip() != "-" else []
            if events:
                self.players[player][bar] = events

    def events(self, player, text):
        """The events of a bar."""
        events, over, length = [], [], None
        for token in re.findall(r"\{[^}]*\}|\S+", text):
            again = re.fullmatch(r"@(\d+)", token)
            shape = re.fullmatch(r"(\w+)\(([^)]*)\)", token)
            if token.startswith("{"):
                over.append(token[1:-1])
                continue
            if again:
                new = [moved(event, 0) for event in self.players[player].get(int(again[1]), [])]
                for event in new:
                    event.over = [word for word in event.over if word not in DYNAMICS]
            elif shape:
                tokens = [token.replace("X", shape[2]) for token in self.patterns[shape[1]]]
                new = [event for token in tokens for event in self.events(player, token)]
            else:
                found = NOTE.fullmatch(token)
                if not found:
                    raise Slip(f"not understood: {token}")
                length = int(float(found[3]) * 2) if found[3] else length
                if length is None and not found[1]:
                    raise Slip(f"no length: {token}")
                pitch = None if found[2] == "-" else Pitch.read(found[2])
                marks = [SIGNS.get(sign) or sign[1:-1] for sign in re.findall(r"\[\w+\]|.", found[4])]
                new = [Event(pitch, 0 if found[1] else length, marks, [])]
            if new:
                new[0].over = over + new[0].over
                over = []
                events += new
        if over:
            raise Slip(f"nothing follows {over}")
        return events


def moved(event, octaves):
    pitch = event.pitch and event.pitch.by(7 * octaves, 12 * octaves)
    return Event(pitch, event.length, list(event.marks), list(event.over))


class Part:
    """A staff: its name, its clef, who reads it, and how what the text has becomes what is printed."""

    def __init__(self, number, name, short, clef, players, by):
        self.id, self.name, self.short, self.clef, self.players = f"P{number}", name, short, clef, players
        self.transpose = self.interval(by.get("in"))
        # Clarinets and the like stand in the text as they sound; horns and trumpets as they are printed.
        self.sounding = "sounds" in by
        if self.sounding:
            self.transpose = self.interval(by["sounds"])
        self.unsigned = by.get("signature") == "none"

    @staticmethod
    def interval(text):
        return tuple(int(number) for number in text.split("/")) if text else (0, 0, 0)


def tag(name, inside="", **attributes):
    """An element; a trailing underscore in an attribute's name is left out, others are hyphens."""
    words = "".join(f' {key.strip("_").replace("_", "-")}="{value}"' for key, value in attributes.items())
    return f"<{name}{words}>{inside}</{name}>" if inside != "" else f"<{name}{words}/>"


def direction(inside, above=False, sound=""):
    return tag("direction", tag("direction-type", inside) + sound, placement="above" if above else "below")


class Writer:
    """Writes a part, bar by bar, keeping what holds from one bar to the next."""

    def __init__(self, music, part):
        self.music, self.part = music, part
        self.fifths, self.time, self.clef, self.minor = 0, (4, 4), part.clef, False
        self.together = None
        self.tied = set()

    def written(self):
        silent = [not any(self.music.players[player].get(bar) for player in self.part.players)
                  for bar in range(self.music.last + 1)]
        for bar in range(self.music.last + 1):
            yield self.bar(bar, silent)

    def length(self, bar):
        return 4 if bar == 0 else 16 * self.time[0] // self.time[1]

    def bar(self, bar, silent):
        out, end = [], []
        attributes = self.heads(bar, out, end)
        if not silent[bar]:
            attributes = attributes or ""
        elif bar == 0 or not silent[bar - 1] or self.divided(bar):
            run = 1
            while bar + run <= self.music.last and silent[bar + run] and not self.divided(bar + run):
                run += 1
            if run > 1:
                attributes += tag("measure-style", tag("multiple-rest", run))
        if attributes:
            out.insert(self.heads_end, tag("attributes", attributes))
        out += self.content(bar)
        out += end
        number = {"number": bar, "implicit": "yes"} if bar == 0 else {"number": bar}
        return tag("measure", "\n" + "\n".join(out) + "\n", **number)

    def divided(self, bar):
        """Whether rests are not counted on into this bar."""
        own = self.music.own.get((self.part.players[0], bar), [])
        return bar in self.music.all or bar - 1 in self.music.all and "fermata" in self.music.all[bar - 1] or bool(own)

    def heads(self, bar, out, end):
        """What stands before a bar; what changes there, as attributes in the order of the standard."""
        key = time = clef = transpose = ""
        self.heads_end, words = 0, []
        first = self.part is self.music.parts[0]
        left = ""
        for what in self.music.all.get(bar, []):
            name, _, rest = what.partition(" ")
            if name == "key":
                fifths, mode = rest.split()
                self.fifths, self.minor = int(fifths), mode == "minor"
                key = self.key(mode)
            elif name == "time":
                self.time = tuple(int(number) for number in rest.split("/"))
                time = tag("time", tag("beats", self.time[0]) + tag("beat-type", self.time[1]))
            elif name == "tempo" and first:
                text, unit, number = re.fullmatch(r"(.*?)\s+(\w+\.?)\s+(\d+)", rest).groups()
                beat = tag("beat-unit", unit.strip(".")) + ("<beat-unit-dot/>" if unit.endswith(".") else "")
                quarters = int(number) * 3 / 2 if unit.endswith(".") else int(number)
                words.append(direction(tag("words", escape(text), font_weight="bold"), True))
                words.append(direction(tag("metronome", beat + tag("per-minute", number)), True,
                                       tag("sound", tempo=f"{quarters:g}")))
            elif name == "letter" and first:
                words.append(direction(tag("rehearsal", rest), True))
            elif name == "words" and first:
                words.append(direction(tag("words", escape(rest), font_style="italic"), True))
            elif name == "repeat":
                left = tag("bar-style", "heavy-light") + tag("repeat", direction="forward")
            elif name == "ending":
                left = tag("ending", rest + ".", number=rest, type_="start")
                stop = tag("ending", number=rest, type_="stop" if rest == "1" else "discontinue")
                again = tag("repeat", direction="backward") if rest == "1" else ""
                style = tag("bar-style", "light-heavy" if rest == "1" else "light-light")
                end.append(tag("barline", style + stop + again, location="right"))
            elif name in ("double", "final"):
                style = "light-light" if name == "double" else "light-heavy"
                end.append(tag("barline", tag("bar-style", style), location="right"))
        if left:
            out.append(tag("barline", left, location="left"))
        self.heads_end = len(out)
        for what in self.music.own.get((self.part.players[0], bar), []):
            name, _, rest = what.partition(" ")
            if name == "clef":
                self.clef = rest
                clef = self.clef_sign()
            elif name == "crook":
                self.part.transpose = self.part.interval(rest)
                transpose = self.transposes()
            else:
                words.append(direction(tag("words", escape(what)), True))
        if bar == 0:
            clef, transpose = self.clef_sign(), self.transposes()
        out += words
        divisions = tag("divisions", 4) if bar == 0 else ""
        return divisions + key + time + clef + transpose

    def key(self, mode):
        if self.part.unsigned:
            self.printed_fifths = 0
            return tag("key", tag("fifths", 0))
        steps, semitones, _ = self.part.transpose
        # How many fifths the interval moves a key: a letter by two, and seven for each semitone beyond.
        self.printed_fifths = self.fifths - (7 * semitones - 12 * steps)
        return tag("key", tag("fifths", self.printed_fifths) + tag("mode", mode))

    def clef_sign(self):
        sign, line, _ = CLEFS[self.clef]
        return tag("clef", tag("sign", sign) + tag("line", line))

    def transposes(self):
        steps, semitones, octaves = self.part.transpose
        if (steps, semitones, octaves) == (0, 0, 0):
            return ""
        change = tag("octave-change", octaves) if octaves else ""
        return tag("transpose", tag("diatonic", steps) + tag("chromatic", semitones) + change)

    def content(self, bar):
        lines = [self.music.players[player].get(bar) for player in self.part.players]
        length = self.length(bar)
        for player, line in zip(self.part.players, lines):
            sum_ = sum(event.length for event in line or [])
            if line and sum_ != length:
                raise SystemExit(f"bar {bar}, {player}: {sum_ / 2:g} eighths in place of {length / 2:g}")
        self.signs = {}
        halt = "fermata" in self.music.all.get(bar, [])
        if not any(lines):
            sign = tag("notations", tag("fermata", type_="upright")) if halt else ""
            # An upbeat is no whole bar: its rest is one of its length.
            rest, value = ("<rest/>", "<type>quarter</type>") if bar == 0 else ('<rest measure="yes"/>', "")
            return [f"<note>{rest}<duration>{length}</duration><voice>1</voice>{value}{sign}</note>"]
        if len(lines) == 1 or lines[1] is None:
            return self.says("1." if len(lines) > 1 else None) + self.voice(lines[0], 1, None)
        if lines[0] is None:
            return self.says("2.") + self.voice(lines[1], 1, None)
        upper, lower = lines
        same = len(upper) == len(lower) and all(one.alike(other) for one, other in zip(upper, lower))
        if same and all(not a.pitch or a.pitch.semitones == b.pitch.semitones for a, b in zip(upper, lower)):
            return self.says("a 2") + self.voice(upper, 1, None)
        if same:
            return self.says(None) + self.voice(upper, 1, None, lower)
        back = tag("backup", tag("duration", length))
        return self.says(None) + self.voice(upper, 1, "up") + [back] + self.voice(lower, 2, "down")

    def says(self, who):
        """Who plays of two on a staff, where that changes."""
        if who == self.together:
            return []
        self.together = who
        return [direction(tag("words", who), True)] if who else []

    def voice(self, events, voice, stem, lower=None):
        out, at = [], 0
        beams = self.beams(events)
        for place, event in enumerate(events):
            for word in event.over:
                out.append(self.word(word))
            out.append(self.note(event, voice, stem, beams.get(place, ""), at, False, lower and lower[place]))
            if lower and event.pitch and lower[place].pitch.semitones != event.pitch.semitones:
                out.append(self.note(lower[place], voice, stem, "", at, True, event))
            at += event.length
        return out

    def word(self, word):
        if word in DYNAMICS:
            return direction(tag("dynamics", tag(word)))
        if word in WEDGES:
            return direction(tag("wedge", type_=WEDGES[word]))
        style = {} if word.lower().startswith(("muta", "in ", "solo")) else {"font_style": "italic"}
        return direction(tag("words", escape(word), **style), word[0].isupper() or not style)

    def printed(self, pitch):
        """What stands on the staff: as the crook reads it; under a bass clef horns have the old octave."""
        steps, semitones, octaves = self.part.transpose
        if self.part.sounding:
            return pitch.by(-steps - 7 * octaves, -semitones - 12 * octaves)
        old = self.clef == "bass" and self.part.clef == "treble"
        return pitch.by(-7, -12) if old else pitch

    def note(self, event, voice, stem, beam, at, on_stem, other):
        value = VALUES.get(event.length or 2)
        if not value:
            raise SystemExit(f"{self.part.name}: no note lasts {event.length / 2:g} eighths")
        pitch = event.pitch and self.printed(event.pitch)
        out = "<grace slash=\"yes\"/>" if not event.length else ""
        out += "<chord/>" if on_stem else ""
        if pitch:
            alter = tag("alter", pitch.alter) if pitch.alter else ""
            out += tag("pitch", tag("step", pitch.step) + alter + tag("octave", pitch.octave))
        else:
            out += "<rest/>"
        out += tag("duration", event.length) if event.length else ""
        going = pitch and (voice, pitch.semitones) in self.tied
        if pitch:
            self.tied.discard((voice, pitch.semitones))
            if "tie" in event.marks:
                self.tied.add((voice, pitch.semitones))
        ties = (["stop"] if going else []) + (["start"] if "tie" in event.marks and pitch else [])
        out += "".join(tag("tie", type_=kind) for kind in ties)
        out += tag("voice", voice) + tag("type", value.strip(".")) + ("<dot/>" if value.endswith(".") else "")
        if pitch:
            out += self.accidental(pitch, going)
            if event.length != 16:
                out += tag("stem", stem or self.stem(pitch, other))
        return tag("note", out + beam + self.notations(event, ties, on_stem, voice))

    def accidental(self, pitch, going):
        order = "FCGDAEB" if self.printed_fifths > 0 else "BEADGCF"
        signed = pitch.step in order[:abs(self.printed_fifths)]
        usual = (1 if self.printed_fifths > 0 else -1) if signed else 0
        holds = self.signs.get(pitch.steps, usual)
        if holds == pitch.alter or going:
            return ""
        self.signs[pitch.steps] = pitch.alter
        return tag("accidental", {0: "natural", 1: "sharp", -1: "flat"}[pitch.alter])

    def stem(self, pitch, other):
        steps = [pitch.steps] + ([self.printed(other.pitch).steps] if other and other.pitch else [])
        middle = CLEFS[self.clef][2]
        return "down" if max(steps) - middle >= middle - min(steps) else "up"

    def notations(self, event, ties, on_stem, voice):
        out = "".join(tag("tied", type_=kind) for kind in ties)
        marks = [] if on_stem else event.marks
        out += tag("slur", type_="stop", number=voice) if "slurred" in marks else ""
        out += tag("slur", type_="start", number=voice) if "slur" in marks else ""
        ornaments = "<trill-mark/>" if "tr" in marks else ""
        ornaments += "".join(tag("tremolo", mark[-1], type_="single") for mark in marks if mark.startswith("trem"))
        out += tag("ornaments", ornaments) if ornaments else ""
        technical = "".join(tag(mark) for mark in event.marks if mark in ("stopped", "open"))
        out += tag("technical", technical) if technical else ""
        articulations = [mark for mark in marks if mark in ("accent", "tenuto", "staccato", "staccatissimo")]
        out += tag("articulations", "".join(tag(mark) for mark in sorted(articulations))) if articulations else ""
        out += tag("fermata", type_="upright") if "fermata" in marks else ""
        return tag("notations", out) if out else ""

    def beams(self, events):
        """Beams of eighths and sixteenths within a beat, by place."""
        beat = 6 if self.time[1] == 8 else 4
        groups, at = {}, 0
        for place, event in enumerate(events):
            if event.pitch and 0 < event.length < 4:
                groups.setdefault(at // beat, []).append(place)
            elif event.length:
                groups.setdefault(-1 - place, [])
            at += event.length
        found = {}
        for group in groups.values():
            # Only what stands beside one another, grace notes aside.
            runs = [[]]
            for place in group:
                between = events[runs[-1][-1] + 1:place] if runs[-1] else []
                if any(event.length for event in between):
                    runs.append([])
                runs[-1].append(place)
            for run in (run for run in runs if len(run) > 1):
                for level in (1, 2):
                    self.beam(run, events, level, found)
        return found

    @staticmethod
    def beam(run, events, level, found):
        short = [events[place].length <= 4 // 2 ** level for place in run]
        for at, place in enumerate(run):
            if not (short[at] or level == 1):
                continue
            before = at > 0 and (level == 1 or short[at - 1])
            after = at + 1 < len(run) and (level == 1 or short[at + 1])
            if before or after:
                kind = "continue" if before and after else "end" if before else "begin"
            else:
                kind = "backward hook" if at else "forward hook"
            found[place] = found.get(place, "") + tag("beam", kind, number=level)


def document(music):
    listed = "\n".join(
        tag("score-part", tag("part-name", escape(part.name)) + tag("part-abbreviation", escape(part.short)), id=part.id)
        for part in music.parts)
    parts = "\n".join(
        tag("part", "\n" + "\n".join(Writer(music, part).written()) + "\n", id=part.id) for part in music.parts)
    head = tag("movement-title", escape(music.head["title"]))
    head += tag("identification", tag("rights", escape(music.head["rights"])))
    return ('<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 '
            'Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">\n'
            + tag("score-partwise", f"\n{head}\n" + tag("part-list", f"\n{listed}\n") + f"\n{parts}\n", version="4.0")
            + "\n")


def main():
    made = document(Music((FOLDER / "movement.txt").read_text(encoding="utf-8")))
    file = FOLDER / "movement.musicxml"
    if "--check" in sys.argv[1:]:
        if file.read_text(encoding="utf-8") != made:
            raise SystemExit("movement.musicxml is not what movement.txt makes: run python3 web/make_demo.py")
    else:
        file.write_text(made, encoding="utf-8")


if __name__ == "__main__":
    main()
