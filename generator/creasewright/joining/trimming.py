"""Folded leaves cut even at the fore edge: what comes off each of them."""

from msgspec.structs import replace

from creasewright.folding.state import State, Trimmed
from creasewright.joining.bench import Bench
from creasewright.joining.nested_leaves import nests
from creasewright.joining.refused import JoinRefused
from creasewright.reading.design import Make

LEAST = 1e-6


def trimmed(bench: Bench, action: Make, number: int) -> tuple[State, tuple[str, ...]]:
    """The state with the leaves cut even with the one that ends first, and the parts cut. Raises JoinRefused."""
    parts = tuple(path for text in action.parts for group in bench.parts(str(text)) for path in group)
    state = bench.state
    leaves = next((nest for nest in nests(state) if any(leaf.part in parts for leaf in nest)), ())
    inside = tuple(leaf for leaf in leaves if leaf.part in parts)
    if len(inside) < 2:
        raise JoinRefused("no leaves lie folded in one another there", "fold them together first, then trim them")
    even = min(leaf.ends_at for leaf in inside)
    off = tuple((leaf.part, leaf.ends_at - even) for leaf in inside)
    if max(amount for _, amount in off) < LEAST:
        raise JoinRefused("the leaves end even already", "take this step out")
    done = frozenset((part, "trim") for part, _ in off)
    return replace(state, trims=(*state.trims, Trimmed(off, number)), made=state.made | done), parts
