"""What a template calls the panels of its piece: as the pictures and the sentences of the steps do, and nothing that they do not."""

from collections.abc import Collection

from creasewright.blanks.blank import Blank
from creasewright.booklet.panel_groups import stem
from creasewright.booklet.turn_pictures import MOST_NAMES


def template_names(blank: Blank, folded: Collection[str]) -> dict[str, str]:
    """Panel to name, in the engine's words; panels that are not named are left out. `folded`: the scores that steps fold.

    Of few panels each has its own name. Of many, numbered ones go by their kind, but for those that a step tells a fold by (`between
    joint 1 and spine board`); where bands cross, each panel goes by its two bands.
    """
    if len(blank.panels) <= MOST_NAMES:
        return {panel.name: panel.name for panel in blank.panels}
    if {band.direction for band in blank.bands} == {"across", "down"}:
        crossed = {f"{one.name} {other.name}" for one in blank.bands for other in blank.bands if one.direction != other.direction}
        return {panel.name: panel.name for panel in blank.panels if panel.name in crossed}
    said = {name for score in folded if "/" in score for name in score.split("/")}
    return {panel.name: panel.name if panel.name in said else stem(panel.name) or panel.name for panel in blank.panels}
