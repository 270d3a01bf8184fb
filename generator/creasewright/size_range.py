"""The sizes a design promises to work in: both ends of each measure's range, and all ends together."""

from collections.abc import Iterator
from fractions import Fraction

from creasewright.fitting.worked import MeasureValue, Worked
from creasewright.units.spellings import mixed

INCH = Fraction(127, 5)
MINUS = "\u2212"


def ends_of_ranges(worked: Worked) -> Iterator[tuple[str, dict[str, str]]]:
    """(in words, settings): each measure at its lowest and its highest, then all at their lowest and all at their highest.

    Ends at which the design stands already are left out; of one ranged measure alone, `all` is left out.
    """
    ranged = [measure for measure in worked.measures if measure.lowest is not None or measure.highest is not None]
    for measure in ranged:
        for value in (measure.lowest, measure.highest):
            if value is not None and value != measure.values[0]:
                text = written(measure, value, worked.system)
                yield f"{measure.name} {text}", {measure.name: text}
    if len(ranged) > 1:
        for word, ends in (("lowest", [m.lowest for m in ranged]), ("highest", [m.highest for m in ranged])):
            pairs = [(m, end) for m, end in zip(ranged, ends, strict=True) if end is not None]
            yield f"all at their {word}", {m.name: written(m, end, worked.system) for m, end in pairs}


def written(measure: MeasureValue, value: Fraction, system: str) -> str:
    """A value of a measure as one types it, in the pack's own unit."""
    if measure.power == 0:
        return mixed(value).replace(MINUS, "-")
    return f"{mixed(value / INCH)} in" if system == "in" else f"{decimal(value)} mm"


def decimal(value: Fraction) -> str:
    return f"{float(value):.6f}".rstrip("0").rstrip(".")
