"""Writes notes: pitches as they are printed, values, beams, stems, accidentals, and what stands at them."""

from xml.sax.saxutils import escape

# Lengths in the text are eighth notes; the file counts sixteenths.
VALUES = {1: "16th", 2: "eighth", 3: "eighth.", 4: "quarter", 6: "quarter.", 8: "half", 12: "half.", 16: "whole"}
DYNAMICS = {"pp", "p", "mp", "mf", "f", "ff", "fp", "sf"}
WEDGES = {"<": "crescendo", ">": "diminuendo", "!": "stop"}
CLEFS = {"treble": ("G", 2, 34), "alto": ("C", 3, 28), "bass": ("F", 4, 22)}


def tag(name, inside="", **attributes):
    """An element; a trailing underscore in an attribute's name is left out, others are hyphens."""
    words = "".join(f' {key.strip("_").replace("_", "-")}="{value}"' for key, value in attributes.items())
    return f"<{name}{words}>{inside}</{name}>" if inside != "" else f"<{name}{words}/>"


def direction(inside, above=False, sound=""):
    return tag("direction", tag("direction-type", inside) + sound, placement="above" if above else "below")


class Notes:
    """The notes of a part, bar by bar; who writes its bars keeps clef, key and time."""

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
        out = []
        beams = self.beams(events)
        for place, event in enumerate(events):
            for word in event.over:
                out.append(self.word(word))
            out.append(self.note(event, voice, stem, beams.get(place, ""), False, lower and lower[place]))
            if lower and event.pitch and lower[place].pitch.semitones != event.pitch.semitones:
                out.append(self.note(lower[place], voice, stem, "", True, event))
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

    def note(self, event, voice, stem, beam, on_stem, other):
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
