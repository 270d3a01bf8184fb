"""Things made from one another in a ring."""

from collections.abc import Iterator, Mapping, Sequence

from creasewright.reading.design import Text

Links = Mapping[str, Sequence[Text]]
"""For each name, the names it is made from, where they are written."""


def rings(links: Links) -> Iterator[tuple[Text, tuple[str, ...]]]:
    """Each ring met, as the link that closes it and the names on the way round, first and last the same.

    A search in depth that keeps its own list of what it is in the middle of, so a long chain needs no deep recursion.
    """
    done: set[str] = set()
    for start in links:
        path: list[str] = []
        on_path: set[str] = set()
        waiting: list[Iterator[Text]] = []
        if start not in done:
            path, on_path, waiting = [start], {start}, [iter(links[start])]
        while waiting:
            link = next(waiting[-1], None)
            if link is None:
                waiting.pop()
                finished = path.pop()
                on_path.discard(finished)
                done.add(finished)
            elif link.text in on_path:
                yield link, (*path[path.index(link.text) :], link.text)
            elif link.text in links and link.text not in done:
                path.append(link.text)
                on_path.add(link.text)
                waiting.append(iter(links[link.text]))
