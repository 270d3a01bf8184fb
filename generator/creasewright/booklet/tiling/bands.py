"""How far a polygon reaches across within a level band: what says which tiles of a row hold a part of it."""

from creasewright.geometry.outline import Polygon

Span = tuple[float, float]


def spans_in_band(polygon: Polygon, head: float, tail: float) -> list[Span]:
    """The places x for which some part of the polygon lies between y = `head` and y = `tail`, as disjoint spans from
    left to right.

    The border of the polygon within the band is made of its own edges and of the parts of both band lines inside it;
    each connected part of the polygon has a closed border, so the shadows of these pieces on the x axis cover the
    shadow of the whole.
    """
    spans: list[Span] = []
    crossings: tuple[list[float], list[float]] = ([], [])
    x0, y0 = polygon[-1]
    for x1, y1 in polygon:
        low, high = (y0, y1) if y0 <= y1 else (y1, y0)
        if high > head and low < tail:
            a = x0 if y0 == y1 or head <= y0 <= tail else _at(x0, y0, x1, y1, head if y0 < head else tail)
            b = x1 if y0 == y1 or head <= y1 <= tail else _at(x0, y0, x1, y1, head if y1 < head else tail)
            spans.append((a, b) if a <= b else (b, a))
        for level, found in zip((head, tail), crossings, strict=True):
            if low <= level < high:
                found.append(_at(x0, y0, x1, y1, level))
        x0, y0 = x1, y1
    for found in crossings:
        found.sort()
        spans.extend(zip(found[::2], found[1::2], strict=True))
    return merged(spans)


def merged(spans: list[Span]) -> list[Span]:
    out: list[Span] = []
    for low, high in sorted(spans):
        if out and low <= out[-1][1]:
            out[-1] = (out[-1][0], max(high, out[-1][1]))
        else:
            out.append((low, high))
    return out


def _at(x0: float, y0: float, x1: float, y1: float, level: float) -> float:
    return x0 + (x1 - x0) * (level - y0) / (y1 - y0)
