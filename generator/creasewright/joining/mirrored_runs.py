"""The steps of an assembly as its mirror image: what is shown where an assembly is made a second time, the other hand."""

from msgspec.structs import replace

from creasewright.folding.mirrored import mirror_images, mirrored_keys, mirrored_state
from creasewright.joining.run_step import StepRun


def mirrored_runs(runs: tuple[StepRun, ...]) -> tuple[StepRun, ...]:
    """Every step with the states before and after it reflected left for right."""
    if not runs:
        return ()
    images = mirror_images(runs[-1].after)
    found = []
    for run in runs:
        keys = mirrored_keys(run.after, images)
        before = mirrored_state(run.before, {part: images[part] for part in run.before.blanks})
        after = mirrored_state(run.after, {part: images[part] for part in run.after.blanks})
        found.append(replace(run, before=before, after=after, targets={keys[key]: angle for key, angle in run.targets.items()}))
    return tuple(found)
