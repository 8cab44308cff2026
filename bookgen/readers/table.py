"""A table of a TOML file as our values; what is wrong in it becomes findings."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Final

import msgspec

from bookgen.errors import Finding, Message, Said, open_sentence, told, within
from bookgen.readers.shown import plain, shown
from bookgen.readers.spoken import odd_entry

TABLE: Final = open_sentence("{value} is no table")

PATH: Final = re.compile(r"`\$\.(\w+)(?:\[(\d+)\])?")


@dataclass(frozen=True, slots=True)
class Words:
    """How a wrong value is told; the value itself fills the gap.

    problem: of the value; each: of a thing in a list.
    """

    problem: Message
    mend: Message
    each: Message | None = None


def converted[Table: msgspec.Struct](
    value: object,
    kind: type[Table],
    place: Said,
    findings: list[Finding],
    *,
    words: Mapping[str, Words],
    prefix: str = "",
    at: Callable[[str], Said] | None = None,
) -> Table:
    """A table of the file as our values; what is wrong in it is told and left at its default.

    place: file, player and table as the user knows them; words: of wrong values, by their keys.
    prefix: of the keys in a table inside; at: the place of a key, where it is known more closely.
    """
    if not isinstance(value, dict):
        findings.append(Finding(place, TABLE.about(value=shown(value)), told("write a table")))
        return kind()
    table: dict[str, object] = dict(value)
    known = kind.__struct_fields__
    where = at or (lambda key: within(place, f"{prefix}{key}"))
    for key in [key for key in table if key not in known]:
        del table[key]
        findings.append(unknown_key(where(plain(key)), key, known))
    while True:
        try:
            return msgspec.convert(table, kind)
        except msgspec.ValidationError as error:
            findings.append(wrong_value(table, str(error), place, where, words))


def unknown_key(place: Said, key: str, known: tuple[str, ...]) -> Finding:
    """A finding for a key that there is not, with the nearest one that there is."""
    near = get_close_matches(key.lower(), known, n=1)
    if near:
        mend = told("perhaps {name}", name=near[0])
    else:
        mend = told("the keys here are {known}", known=", ".join(known))
    return Finding(place, told("there is no such key"), mend)


def wrong_value(
    table: dict[str, object],
    message: str,
    place: Said,
    where: Callable[[str], Said],
    words: Mapping[str, Words],
) -> Finding:
    """The finding for what the schema refuses; the value is taken out of the table.

    message: what the schema's library says; its path leads to the value.
    place: of the table; where: of a key in it; words: of wrong values, by their keys.
    """
    path = PATH.search(message)
    if path is None:
        table.clear()
        return Finding(place, message, told("mend it in the file"))
    key, index = path[1], path[2]
    said, value = words[key], table.pop(key)
    inner, value = odd_entry(key, value, message)
    if index is None or not isinstance(value, list):
        problem = said.problem if inner == key else said.each or said.problem
        return Finding(where(inner), problem.about(value=shown(value)), said.mend)
    wrong = value[int(index)]
    rest = [*value[: int(index)], *value[int(index) + 1 :]]
    if rest:
        table[key] = rest
    return Finding(where(key), (said.each or said.problem).about(value=shown(wrong)), said.mend)
