"""On which line of a TOML file a key stands: the decoder does not tell."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

HEADER: Final = re.compile(r"\s*(\[\[?)\s*([\w.\"'-]+)\s*\]\]?\s*(?:#.*)?$")
KEY: Final = re.compile(r"""\s*(?:"([^"]*)"|'([^']*)'|([\w-]+))\s*((?:\.\s*[\w"'-]+\s*)*)=""")
BARE: Final = re.compile(r"""[\s"']""")
LONG: Final = re.compile(r'"""|\'\'\'')


@dataclass(frozen=True, slots=True)
class KeyLine:
    """Where a key, or the head of a table in an array, stands.

    table: name of the table; nth: which table of that name, from 0.
    key: the first part of its name; empty for the head; line: from 1.
    inner: the other parts, each after a point.
    """

    table: str
    nth: int
    key: str
    line: int
    inner: str = ""


def key_lines(text: str) -> Iterator[KeyLine]:
    r"""Every key that begins a line, outside of strings of several lines.

    >>> [(one.key, one.line) for one in key_lines("a = 1\nb.c = 2")]
    [('a', 1), ('b', 2)]
    """
    counts: dict[str, int] = {}
    table, inside = "", ""
    for number, line in enumerate(text.splitlines(), start=1):
        if not inside:
            if head := HEADER.match(line):
                table = head[2]
                counts[table] = counts.get(table, -1) + 1
                yield KeyLine(table, counts[table], "", number)
            elif key := KEY.match(line):
                name = key[1] or key[2] or key[3] or ""
                yield KeyLine(table, counts.get(table, 0), name, number, BARE.sub("", key[4]))
        for mark in LONG.findall(line):
            inside = "" if mark == inside else inside or mark


class Lines:
    """The lines of a file's keys."""

    def __init__(self, text: str) -> None:
        """Go through the file once."""
        self.known: dict[tuple[str, int, str], int] = {}
        for one in key_lines(text):
            for key in (one.key, one.key + one.inner):
                self.known.setdefault((one.table, one.nth, key), one.line)

    def of(self, key: str, table: str = "", nth: int = 0) -> int | None:
        """The line of a key, else of the head of its table; None where neither begins a line.

        The line of tables in an array is that of the first one's head.
        key: in a table inside, its name and that of the table with a point between them.
        """
        first = key.partition(".")[0]
        places = ((table, nth, key), (table, nth, first), (table, nth, ""), (first, 0, ""))
        return next((self.known[place] for place in places if place in self.known), None)
