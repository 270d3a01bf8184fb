"""All checks, in the order in which their findings are shown."""

from collections.abc import Callable

from creasewright.checks.adhesives_suit import adhesives_suit
from creasewright.checks.author_checks import expectations_hold, measures_in_range
from creasewright.checks.bands_close import bands_close
from creasewright.checks.bent_panels import curved_scores_told
from creasewright.checks.bulk_even import bulk_even, calipers_known
from creasewright.checks.cut_in_time import cut_in_time
from creasewright.checks.double_scores import scores_go_round
from creasewright.checks.facts import Facts
from creasewright.checks.flaps_land import flaps_land
from creasewright.checks.fore_edges_even import fore_edges_even
from creasewright.checks.forgiveness import forgiveness
from creasewright.checks.gates_meet import gates_meet
from creasewright.checks.glue_stays_clear import glue_stays_clear
from creasewright.checks.inner_panels import inner_panels
from creasewright.checks.inserts_fit import inserts_fit
from creasewright.checks.order_of_work import order_of_work
from creasewright.checks.prints_upright import prints_upright
from creasewright.checks.scores_on_grooves import scores_on_grooves
from creasewright.checks.sheets_hold import blanks_fit_sheets, stock_suffices, trimmer_holds
from creasewright.checks.steps_can_be_made import steps_can_be_made
from creasewright.checks.wraps_close import wraps_close
from creasewright.problems import BLOCKS, NOTES, WARNS, Finding
from creasewright.reading.design import Known

Check = Callable[[Facts], list[Finding]]

CHECKS: tuple[Check, ...] = (
    steps_can_be_made,
    blanks_fit_sheets,
    stock_suffices,
    inserts_fit,
    glue_stays_clear,
    order_of_work,
    cut_in_time,
    adhesives_suit,
    flaps_land,
    inner_panels,
    gates_meet,
    wraps_close,
    forgiveness,
    scores_go_round,
    scores_on_grooves,
    prints_upright,
    bands_close,
    bulk_even,
    fore_edges_even,
    trimmer_holds,
    measures_in_range,
    expectations_hold,
    calipers_known,
    curved_scores_told,
)
WEIGHT = {BLOCKS: 0, WARNS: 1, NOTES: 2}


def every_finding(facts: Facts) -> tuple[Finding, ...]:
    """What all checks found, what blocks first; what the author has marked as known is left out."""
    found = [finding for check in CHECKS for finding in check(facts)]
    kept = [finding for finding in dict.fromkeys(found) if not is_known(finding, facts.worked.design.known)]
    return tuple(sorted(kept, key=lambda finding: WEIGHT[finding.severity]))


def is_known(finding: Finding, known: tuple[Known, ...]) -> bool:
    """A finding that blocks cannot be waved through."""
    return finding.severity != BLOCKS and any(
        entry.check == finding.check and (entry.about is None or str(entry.about) in f"{finding.what} {finding.hint}")
        for entry in known
    )
