"""What long work says while it runs: one line on a terminal, rewritten; nothing in a pipe."""

import sys
from typing import TextIO


class Progress:
    """`quiet` or a stream that is no terminal: silent."""

    def __init__(self, quiet: bool = False, stream: TextIO | None = None) -> None:
        self._stream = stream if stream is not None else sys.stderr
        self._shown = not quiet and self._stream.isatty()
        self._width = 0

    def say(self, words: str) -> None:
        if self._shown:
            self._stream.write("\r" + words.ljust(self._width))
            self._stream.flush()
            self._width = len(words)

    def done(self) -> None:
        if self._shown and self._width:
            self._stream.write("\r" + " " * self._width + "\r")
            self._stream.flush()
            self._width = 0
