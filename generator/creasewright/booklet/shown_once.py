"""Measures that would be the same in picture after picture: shown in the first of an assembly, said in words in the others."""

from collections.abc import Iterable

from msgspec.structs import replace

from creasewright.booklet.step_views import StepPicture


def shown_once(pictures: Iterable[StepPicture]) -> tuple[StepPicture, ...]:
    """The pictures of an assembly; of dimensions of the same thing with the same value (`Dimension.of`) only the first."""
    seen: set[tuple[str, str]] = set()
    found = []
    for picture in pictures:
        plan = picture.plan
        if plan is not None and any(dim.of for dim in plan.dimensions):
            fresh = tuple(dim for dim in plan.dimensions if not dim.of or (dim.of, dim.text) not in seen)
            seen |= {(dim.of, dim.text) for dim in plan.dimensions if dim.of}
            picture = picture if len(fresh) == len(plan.dimensions) else replace(picture, plan=replace(plan, dimensions=fresh))
        found.append(picture)
    return tuple(found)
