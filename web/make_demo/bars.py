"""Writes the bars of a part: what holds from each of them on, its lines, and the notes in it."""

import re
from xml.sax.saxutils import escape

from notes import CLEFS, Notes, direction, tag


class Heads:
    """What stands before the notes of one bar and after them, gathered."""

    def __init__(self):
        self.attributes, self.words = {}, []
        self.left = self.right = ""

    def before(self):
        """In the order of the standard."""
        order = ("divisions", "key", "time", "clef", "transpose", "style")
        found = "".join(self.attributes.get(name, "") for name in order)
        line = [tag("barline", self.left, location="left")] if self.left else []
        return line + ([tag("attributes", found)] if found else []) + self.words

    def after(self):
        return [tag("barline", self.right, location="right")] if self.right else []


class Writer(Notes):
    """Writes a part, bar by bar, keeping what holds from one bar to the next."""

    def __init__(self, music, part):
        self.music, self.part = music, part
        self.fifths, self.printed_fifths, self.time, self.clef = 0, 0, (4, 4), part.clef
        # Who of two plays, and what is tied into the next note.
        self.together, self.tied, self.signs = None, set(), {}

    def written(self):
        bars = range(self.music.last + 1)
        silent = [not any(self.music.players[player].get(bar) for player in self.part.players) for bar in bars]
        return [self.bar(bar, silent) for bar in bars]

    def length(self, bar):
        """In sixteenths. The bar before the first is an upbeat of a quarter note."""
        return 4 if bar == 0 else 16 * self.time[0] // self.time[1]

    def bar(self, bar, silent):
        heads = Heads()
        for what in self.music.all.get(bar, []):
            name, _, rest = what.partition(" ")
            getattr(self, f"at_{name}")(heads, rest)
        for what in self.music.own.get((self.part.players[0], bar), []):
            name, _, rest = what.partition(" ")
            getattr(self, f"own_{name}")(heads, rest)
        if bar == 0:
            heads.attributes["divisions"] = tag("divisions", 4)
            self.own_clef(heads, self.clef)
            heads.attributes["transpose"] = self.transposes()
        run = self.rests(bar, silent)
        if run > 1:
            heads.attributes["style"] = tag("measure-style", tag("multiple-rest", run))
        inside = heads.before() + self.content(bar) + heads.after()
        number = {"number": bar, "implicit": "yes"} if bar == 0 else {"number": bar}
        return tag("measure", "\n" + "\n".join(inside) + "\n", **number)

    def rests(self, bar, silent):
        """How many bars are counted as one rest from this one on."""
        if not silent[bar] or bar > 0 and silent[bar - 1] and not self.is_new(bar):
            return 0
        run = 1
        while bar + run <= self.music.last and silent[bar + run] and not self.is_new(bar + run):
            run += 1
        return run

    def is_new(self, bar):
        """Whether something begins with this bar that players look out for, so that their rest is counted anew."""
        halted = "fermata" in self.music.all.get(bar - 1, [])
        return halted or bar in self.music.all or (self.part.players[0], bar) in self.music.own

    # What changes for all parts.

    def at_key(self, heads, text):
        fifths, mode = text.split()
        self.fifths = int(fifths)
        if self.part.unsigned:
            heads.attributes["key"] = tag("key", tag("fifths", 0))
            return
        steps, semitones, _ = self.part.transpose
        # How many fifths an interval moves a key: seven for a semitone, less two times six for a letter.
        self.printed_fifths = self.fifths - (7 * semitones - 12 * steps)
        heads.attributes["key"] = tag("key", tag("fifths", self.printed_fifths) + tag("mode", mode))

    def at_time(self, heads, text):
        self.time = tuple(int(number) for number in text.split("/"))
        heads.attributes["time"] = tag("time", tag("beats", self.time[0]) + tag("beat-type", self.time[1]))

    def at_tempo(self, heads, text):
        words, unit, dot, number = re.fullmatch(r"(.*?)\s+(\w+)(\.?)\s+(\d+)", text).groups()
        beat = tag("beat-unit", unit) + ("<beat-unit-dot/>" if dot else "") + tag("per-minute", number)
        quarters = int(number) * 3 / 2 if dot else int(number)
        self.over(heads, tag("words", escape(words), font_weight="bold"))
        self.over(heads, tag("metronome", beat), tag("sound", tempo=f"{quarters:g}"))

    def at_letter(self, heads, text):
        self.over(heads, tag("rehearsal", text))

    def at_words(self, heads, text):
        self.over(heads, tag("words", escape(text), font_style="italic"))

    def over(self, heads, inside, sound=""):
        """Over the first staff, for all."""
        if self.part is self.music.parts[0]:
            heads.words.append(direction(inside, True, sound))

    def at_repeat(self, heads, _):
        heads.left = tag("bar-style", "heavy-light") + tag("repeat", direction="forward")

    def at_ending(self, heads, number):
        heads.left = tag("ending", f"{number}.", number=number, type_="start")
        style, kind, again = ("light-heavy", "stop", tag("repeat", direction="backward"))
        if number != "1":
            style, kind, again = ("light-light", "discontinue", "")
        heads.right = tag("bar-style", style) + tag("ending", number=number, type_=kind) + again

    def at_double(self, heads, _):
        heads.right = tag("bar-style", "light-light")

    def at_final(self, heads, _):
        heads.right = tag("bar-style", "light-heavy")

    def at_fermata(self, _heads, _):
        """Stands at the notes and rests of the bar."""

    # What changes for one part.

    def own_clef(self, heads, name):
        self.clef = name
        sign, line, _ = CLEFS[name]
        heads.attributes["clef"] = tag("clef", tag("sign", sign) + tag("line", line))

    def own_crook(self, heads, interval):
        self.part.transpose = self.part.interval(interval)
        heads.attributes["transpose"] = self.transposes()

    def transposes(self):
        steps, semitones, octaves = self.part.transpose
        if not (steps or semitones or octaves):
            return ""
        change = tag("octave-change", octaves) if octaves else ""
        return tag("transpose", tag("diatonic", steps) + tag("chromatic", semitones) + change)
