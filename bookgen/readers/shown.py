"""What a user wrote, as a finding shows it, and the names that there are instead."""

from collections.abc import Mapping
from difflib import get_close_matches
from typing import Final

from bookgen.errors import Finding, Message, Said, told

LONGEST_SHOWN: Final = 40


def plain(name: str) -> str:
    """A name from the file as it can stand in a line: cut, without line breaks and the like."""
    cut = name if len(name) <= LONGEST_SHOWN else f"{name[:LONGEST_SHOWN]} …"
    return cut if cut.isprintable() else ascii(cut)


def shown(value: object) -> Said:
    """A value as it stands in the file, cut where it is long."""
    match value:
        case bool():
            return str(value).lower()
        case []:
            return told("an empty list")
        case list():
            return told("a list")
        case Mapping():
            return told("a table")
        case str():
            return repr(value if len(value) <= LONGEST_SHOWN else f"{value[:LONGEST_SHOWN]} …")
        case _:
            return str(value)[:LONGEST_SHOWN]


def unknown(place: Said, problem: Message, given: str, known: tuple[str, ...]) -> Finding:
    """A finding for a name that is not among those there are; the nearest one is named.

    problem: what is unknown.
    """
    near = get_close_matches(given.lower(), known, n=1)
    every = ", ".join(known)
    if near:
        mend = told("perhaps {name}; choose {known}", name=near[0], known=every)
    else:
        mend = told("choose {known}", known=every)
    return Finding(place, problem, mend)
