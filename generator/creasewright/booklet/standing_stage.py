"""The stage that shows a thing at its best: what closes flat and stands up when it is opened is pictured standing."""

from creasewright.booklet.diagrams.plan_facets import lies_flat
from creasewright.fitting.worked import Finished, StageFacts, Worked


def standing_stage(worked: Worked) -> StageFacts | None:
    """The first stage of the finished thing that stands, where the thing itself lies flat, untied, and all of it is in that stage."""
    finished = worked.finished
    if finished is None or finished.state.closures or is_open(finished):
        return None
    parts = finished.body.parts
    stages = (stage for stage in worked.stages if stage.assembly == finished.assembly and stage.body.parts == parts)
    return next((stage for stage in stages if not lies_flat(stage.state, stage.body)), None)


def is_open(finished: Finished) -> bool:
    """The finished thing stands."""
    return not lies_flat(finished.state, finished.body)


def is_finished(worked: Worked, stage: StageFacts) -> bool:
    """The stage is the finished thing itself under another name."""
    finished = worked.finished
    return finished is not None and stage.state.placed == finished.state.placed
