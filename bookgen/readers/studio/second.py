"""A second instrument of one player: a table of its own inside of theirs, with its own log."""

from collections.abc import Iterator, Mapping
from typing import Final

from bookgen.errors import Finding, Message, told, within
from bookgen.readers.own_instrument import key_of

SHARED: Final = ("layout", "practice_days", "away", "lesson", "note")
"""What counts for all instruments of a player where the inner table says nothing."""


def second_name(name: str, instrument: str) -> str:
    """The name under which a second instrument is printed and logged.

    >>> second_name("Ines", "viola")
    'Ines, viola'
    """
    return f"{name}, {instrument}"


def seconds_of(
    name: str, table: object, place: Message, findings: list[Finding]
) -> Iterator[tuple[str, Mapping[str, object]]]:
    """The further instruments of a player as tables like others, each under its own name.

    What is wrong with how they are listed is added to the findings.

    place: file and player as the user knows them.
    """
    whole: Mapping[str, object] = table if isinstance(table, dict) else {}
    inner, seen = whole.get("also", []), {key_or_name(whole.get("instrument", "violin"))}
    for number, second in enumerate(inner if isinstance(inner, list) else [], start=1):
        where = within(told("{place}, also {number}", place=place, number=number), "instrument")
        instrument = second.get("instrument") if isinstance(second, dict) else None
        if not isinstance(instrument, str):
            mend = told("write {example}", example='instrument = "viola"')
            findings.append(Finding(where, told("is missing"), mend))
        elif key_or_name(instrument) in seen:
            problem = told("{name} stands there already", name=repr(instrument))
            findings.append(Finding(where, problem, told("name another instrument")))
        else:
            key = key_or_name(instrument)
            seen.add(key)
            shared = {key: whole[key] for key in SHARED if key in whole}
            former = whole.get("formerly")
            if isinstance(former, str):
                shared["formerly"] = second_name(former, key)
            yield second_name(name, key), {**shared, **second}


def key_or_name(instrument: object) -> str:
    """The key of an instrument; what is none stays as it is, and is told later."""
    return key_of(str(instrument)) or str(instrument)
