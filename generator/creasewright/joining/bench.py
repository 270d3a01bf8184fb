"""The bench: an assembly in the making. Parts are brought to it when a step first needs them."""

from collections.abc import Callable
from typing import TypeVar

from msgspec.structs import replace

from creasewright.folding.mirrored import both, mirrored_state, under_prefix
from creasewright.folding.references import RefFault, find_parts, panel_named, panels_named, pieces_named, word_fits
from creasewright.folding.state import PanelKey, PieceKey, Pocket, State
from creasewright.joining.bodies import with_part
from creasewright.joining.supply import PartSpec, Supply
from creasewright.nearest_name import did_you_mean

T = TypeVar("T")


class Bench:
    """Holds the state so far; every method that finds something may bring parts first."""

    def __init__(self, supply: Supply, specs: tuple[PartSpec, ...], state: State) -> None:
        self.supply = supply
        self.specs = {spec.path: spec for spec in specs}
        self.state = state

    def is_here(self, spec: PartSpec) -> bool:
        return any(path == spec.path or path.startswith(spec.path + "/") for path in self.state.blanks)

    def bring(self, spec: PartSpec) -> None:
        if self.is_here(spec):
            return
        if spec.kind == "assembly":
            inner = self.supply.sub_state(spec.name)
            inner = mirrored_state(inner) if spec.mirrored else inner
            self.state = both(self.state, under_prefix(inner, spec.path))
        else:
            blank, thick = self.supply.piece(spec)
            self.state = with_part(self.state, spec.path, blank, thick)

    def bring_named(self, text: str) -> bool:
        """Brings every part that a word of the text names."""
        words = text.split(" of ")
        for word in words:
            bare = word.removeprefix("each ").removeprefix("last ")
            if bare not in self.specs and self.supply.is_thing(bare):
                self.specs[bare] = PartSpec(bare, "thing", bare, False)
        named = [spec for spec in self.specs.values() if any(word_fits(word, spec.path) for word in words)]
        for spec in named:
            self.bring(spec)
        return bool(named)

    def found(self, text: str, find: Callable[[State, str], T]) -> T:
        """What the words name, after bringing what they need. Raises RefFault."""
        self.bring_named(text)
        try:
            return find(self.state, text)
        except RefFault as fault:
            if "there is no" not in fault.what:
                raise
            first = fault
        for spec in self.specs.values():
            if not self.is_here(spec) and spec.kind != "thing":
                self.bring(spec)
                try:
                    return find(self.state, text)
                except RefFault:
                    continue
        raise first

    def panels(self, text: str) -> list[PanelKey]:
        return self.found(text, panels_named)

    def panels_within(self, parts: tuple[str, ...], text: str) -> list[PanelKey]:
        """What the words name among these parts: panels, or all those of a part. Raises RefFault."""
        inside = {path: blank for path, blank in self.state.blanks.items() if path in parts}
        whole = [path for group in find_parts(inside, text) for path in group]
        if whole:
            return [(path, panel.name) for path in whole for panel in inside[path].panels]
        return panels_named(replace(self.state, blanks=inside), text)

    def panel(self, text: str) -> PanelKey:
        return self.found(text, panel_named)

    def pieces(self, text: str) -> list[PieceKey]:
        return self.found(text, pieces_named)

    def parts(self, text: str) -> list[tuple[str, ...]]:
        """Groups of part paths. Raises RefFault."""
        if text in ("all", ""):
            return [tuple(self.state.blanks)]
        self.bring_named(text)
        groups = find_parts(self.state.blanks, text)
        if not groups:
            known = [spec.path for spec in self.specs.values()]
            raise RefFault(f"there is no part `{text}` here", did_you_mean(text, sorted(known)))
        return groups

    def part_or_panels(self, text: str) -> tuple[tuple[str, ...], list[PanelKey]]:
        """A whole part (no panels), or panels of one."""
        self.bring_named(text)
        groups = find_parts(self.state.blanks, text)
        if groups:
            return tuple(path for group in groups for path in group), []
        keys = self.panels(text)
        return tuple(dict.fromkeys(part for part, _ in keys)), keys

    def pocket(self, text: str) -> Pocket | None:
        """The pocket that the words name, by its path; None where there is none of that name."""
        self.bring_named(text)
        words = text.split(" of ")
        hits = [
            pocket
            for path, pocket in self.state.pockets.items()
            if path.split("/")[-1] == words[0] and all(any(word_fits(w, c) for c in path.split("/")[:-1]) for w in words[1:])
        ]
        if len(hits) > 1:
            raise RefFault(f"`{text}` is in several places", f"say which: `{' of '.join(reversed(hits[0].name.split('/')))}`")
        return hits[0] if hits else None
