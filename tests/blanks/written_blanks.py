"""Blanks for tests, from a few lines of YAML as a design file has them, and a small stand-in for the measures."""

import math
import re
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

import yaml

from creasewright.blanks.blank import Blank
from creasewright.blanks.quality import blank_quality, written_quality
from creasewright.blanks.shape_blank import shape_blank
from creasewright.problems import Problem, ProblemsFound, Where
from creasewright.reading import design
from creasewright.reading.design import Text

AT = Where("design.yaml", 1, 1)
LENGTH = re.compile(r"(\d+(?:\.\d+)?) mm")
QUALITY = re.compile(r"\b(width|height|left|right|head|tail) of ((?:[a-z]\w*)(?: [a-z]\w*)*)")
CALLS = {
    "sqrt": math.sqrt, "min": min, "max": max, "down": lambda x: Fraction(math.floor(x)), "up": lambda x: Fraction(math.ceil(x)),
}  # fmt: skip


CALIPERS = {"card": Fraction(3, 10), "board": Fraction(2), "thin board": Fraction(1)}
"""mm, of the papers that these blanks may name."""


def text(value: Any) -> Text:
    return Text(str(value), AT)


def texts(value: Any) -> tuple[Text, ...]:
    return tuple(text(one) for one in (value if isinstance(value, list) else [value]))


def optional(value: Any) -> Text | None:
    return None if value is None else text(value)


def place(value: Any) -> design.Place:
    if isinstance(value, list):
        return design.Place(AT, (text(value[0]), text(value[1])), None)
    return design.Place(AT, None, text(value))


def line(value: Any) -> tuple[design.Place, design.Place] | None:
    return None if value is None else (place(value[0]), place(value[1]))


def bands(entries: list[dict[str, Any]]) -> tuple[design.Band | design.Repeat, ...]:
    found: list[design.Band | design.Repeat] = []
    for entry in entries:
        if "repeat" in entry:
            inner = tuple(band for band in bands(entry["of"]) if isinstance(band, design.Band))
            found.append(design.Repeat(AT, text(entry["repeat"]), inner))
        else:
            found += [design.Band(name, AT, text(size)) for name, size in entry.items()]
    return tuple(found)


def shape(of: dict[str, Any]) -> design.Shape:
    if "base" in of:
        base = of["base"]
        flaps = tuple(
            design.Flap(
                name, AT, texts(flap["at"]), text(flap["depth"]), optional(flap.get("ends")),
                tuple(texts(flap["over"])) if "over" in flap else None,
                optional(flap.get("far rise")), optional(flap.get("seam rise")),
            )
            for name, flap in of.get("flaps", {}).items()
        )  # fmt: skip
        sizes = [optional(base.get(key)) for key in ("width", "height", "sides", "side")]
        return design.FlapsShape(base.get("name", "base"), *sizes, flaps)
    if "outline" in of:
        points = [point if isinstance(point, dict) else {"to": point} for point in of["outline"]]
        return design.OutlineShape(
            tuple(
                design.OutlinePoint(place(point["to"]), optional(point.get("rise")), optional(point.get("edge")), line(point.get("by")))
                for point in points
            )
        )
    if "mirror of" in of:
        return design.MirrorShape(text(of["mirror of"]))
    if "same as" in of:
        return design.SameShape(text(of["same as"]), tuple((text(k), text(v)) for k, v in of.get("where", {}).items()))
    if "like" in of:
        return design.LikeShape(
            texts(of["like"]), optional(of.get("inset")), of.get("seen from", "front"), optional(of.get("turned"))
        )
    if "wrap" in of:
        return design.WrapShape(texts(of["wrap"]), optional(of.get("gaps")), text(of["turn-in"]), optional(of.get("corner gap")))
    return design.SheetShape(
        optional(of.get("width")), optional(of.get("height")), bands(of.get("across", [])), bands(of.get("down", []))
    )


def score(name: str, of: Any) -> design.ScoreWritten:
    if of == "none":
        return design.ScoreWritten(name, AT, None, None, (), None, (), None, True)
    at = texts(of["at"]) if "at" in of else ()
    over = texts(of["over"]) if "over" in of else ()
    return design.ScoreWritten(
        name, AT, optional(of.get("from")), of.get("across"), at, line(of.get("line")), over, line(of.get("span")), False,
        optional(of.get("rise")),
    )  # fmt: skip


def panels(of: Any) -> design.PanelNames | None:
    if of is None:
        return None
    if isinstance(of, str):
        rows = tuple(tuple(None if word == "-" else word for word in row.split()) for row in of.strip().splitlines())
        return design.PanelNames(AT, rows, ())
    return design.PanelNames(AT, (), tuple((name, place(point)) for name, point in of.items()))


def cut_away(of: Any) -> tuple[tuple[Text, ...], ...]:
    return (texts(of),) if isinstance(of, str) else tuple(texts(pair) for pair in of)


def written(name: str, of: dict[str, Any]) -> design.Blank:
    corners = of.get("corners", {}).items()
    return design.Blank(
        name, AT, optional(of.get("paper")), shape(of), of.get("grain"), of.get("turn"), of.get("sizes", "score to score"),
        tuple(
            design.Corner(which, AT, texts(c["cut"]) if "cut" in c else None, optional(c.get("round")), c.get("template"))
            for which, c in corners
        ),
        tuple(design.EdgeChange(which, AT, text(e["rise"]), e.get("template")) for which, e in of.get("edges", {}).items()),
        tuple(
            design.Notch(AT, place(n["at"]), text(n["width"]), text(n["depth"]), n.get("round", False), n.get("template"))
            for n in of.get("notches", [])
        ),
        cut_away(of.get("cut away", [])),
        tuple(design.HoleWritten(n, AT, place(h["at"]), text(h["across"])) for n, h in of.get("holes", {}).items()),
        tuple(
            design.SlitWritten(
                n, AT, line(s.get("line")), texts(s["on"]) if "on" in s else (), texts(s["over"]) if "over" in s else ()
            )
            for n, s in of.get("slits", {}).items()
        ),
        tuple(score(n, s) for n, s in of.get("scores", {}).items()),
        panels(of.get("panels")),
    )  # fmt: skip


@dataclass
class Measured:
    """Measures by name, formulas as text; lengths in mm, sums with + - * / and a few functions."""

    measures: dict[str, Any]
    blanks: dict[str, design.Blank]
    others: dict[str, float] = field(default_factory=dict)
    """Qualities of things this stand-in knows nothing of, by their text."""
    shaped: dict[str, Blank] = field(default_factory=dict)
    shaping: str = ""

    def value(self, formula: str, at: Where = AT) -> Fraction:
        out = LENGTH.sub(r"(\1)", formula)
        found: dict[str, Any] = dict(CALLS)

        def keep(number: Fraction) -> str:
            found[f"n{len(found)}_"] = number
            return f"n{len(found) - 1}_"

        def replace(known: dict[str, Any], out: str) -> str:
            for name in sorted(known, key=len, reverse=True):
                whole = rf"(?<![\w-]){re.escape(name)}(?![\w-])"
                if re.search(whole, out):
                    out = re.sub(whole, keep(self.value(str(known[name]), at)), out)
            return out

        out = replace(self.others, out)
        out = QUALITY.sub(lambda match: keep(self._quality(match)), out)
        out = replace(self.measures, out)
        out = re.sub(r"(?<![\w.])(\d+(?:\.\d+)?)(?![\w.])", r"F('\1')", out)
        try:
            return Fraction(eval(out, {"__builtins__": {}}, {**found, "F": Fraction}))
        except (NameError, SyntaxError):
            raise ProblemsFound([Problem(at, f"`{formula}` is no length", "write a length")]) from None

    def _quality(self, match: re.Match[str]) -> Fraction:
        word, of = match.group(1), match.group(2)
        found = None
        if self.shaping:
            values = Measured(self.measures, self.blanks, self.others, self.shaped)
            found = written_quality(self.blanks[self.shaping], word, of, values)
        if found is None:
            found = blank_quality(self.blank(text(of)), word, None)
        return Fraction(found)

    def length(self, text: Text) -> Fraction:
        return self.value(text.text, text.where)

    def pair(self, texts: tuple[Text, ...]) -> tuple[Fraction, Fraction]:
        if len(texts) == 1:
            both = self.measures.get(texts[0].text)
            if not isinstance(both, list):
                raise ProblemsFound([Problem(texts[0].where, f"`{texts[0]}` is no pair", "")])
            return self.value(both[0]), self.value(both[1])
        return self.length(texts[0]), self.length(texts[1])

    def caliper(self, paper: str, where: Where) -> Fraction:
        return CALIPERS[paper]

    def count(self, text: Text) -> int:
        return int(self.length(text))

    def number(self, text: Text) -> Fraction:
        return self.length(text)

    def blank(self, name: Text) -> Blank:
        if name.text not in self.blanks:
            raise ProblemsFound([Problem(name.where, f"`{name}` is no blank", "")])
        if name.text not in self.shaped:
            within = Measured(self.measures, self.blanks, self.others, self.shaped, name.text)
            self.shaped[name.text] = shape_blank(self.blanks[name.text], "card", within)
        return self.shaped[name.text]

    def written(self, name: Text) -> design.Blank:
        return self.blanks[name.text]

    def replaced(self, replacements: tuple[tuple[Text, Text], ...]) -> "Measured":
        new = {name.text: str(self.value(formula.text)) for name, formula in replacements}
        return Measured({**self.measures, **new}, self.blanks, self.others)


def measured(source: str, **others: float) -> Measured:
    """The blanks and measures of a design in YAML. Where both systems stand, the metric one counts."""
    both = re.sub(r"[\d/ .]+ (?:in|lb) \| ", "", source)
    read = yaml.load(both, Loader=yaml.BaseLoader)
    measures = {name: value["is"] if isinstance(value, dict) else value for name, value in read.get("measures", {}).items()}
    outside = {name.replace("_", " "): value for name, value in others.items()}
    return Measured(measures, {name: written(name, of) for name, of in read["blanks"].items()}, outside)


def shaped(source: str, **others: float) -> dict[str, Blank]:
    """Every blank of a design in YAML, by name."""
    values = measured(source, **others)
    return {name: values.blank(text(name)) for name in values.blanks}


def one(source: str, caliper: Fraction | None = None) -> Blank:
    """The only blank of the YAML, written without a name."""
    of = yaml.load(source, Loader=yaml.BaseLoader)
    blank = written("sheet", of)
    return shape_blank(blank, "card", Measured({}, {"sheet": blank}, shaping="sheet"), caliper)


def faults_of(source: str) -> list[tuple[str, str]]:
    """What the blank is refused for: each fault and its hint. An empty list for a sound one."""
    try:
        one(source)
    except ProblemsFound as caught:
        return [(problem.what, problem.hint) for problem in caught.problems]
    return []
