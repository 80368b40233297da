"""Reads the text of the movement: its parts, and for each player the events of his bars."""

import re

from notes import DYNAMICS

LETTERS = "CDEFGAB"
SEMITONES = (0, 2, 4, 5, 7, 9, 11)


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
