"""What is said when a number with a unit cannot be read."""

from creasewright.problems import CreasewrightError


class Misread(CreasewrightError):
    """`what` cannot be read as it stands, `hint` is one thing to do. The place is added by whoever knows it."""

    def __init__(self, what: str, hint: str) -> None:
        self.what = what
        self.hint = hint
        super().__init__(f"{what}; {hint}")
