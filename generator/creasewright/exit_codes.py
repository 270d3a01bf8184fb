"""The ways a run can end."""

GOOD = 0
"""The pack is written, or the check found nothing that blocks."""
CANNOT_BE_BUILT = 1
"""The design is read, but the thing cannot be built as asked."""
CANNOT_BE_USED = 2
"""The input, an option or a place to write to cannot be used."""
STOPPED = 130
"""Someone stopped the run."""
