"""A join that cannot be made."""

from creasewright.problems import CreasewrightError


class JoinRefused(CreasewrightError):
    """`what` is wrong; `hint` says what to do."""

    def __init__(self, what: str, hint: str) -> None:
        super().__init__(what)
        self.what, self.hint = what, hint
