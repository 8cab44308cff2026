"""Key, meter and bar number of a typed passage, as words."""

import re
from typing import Final

from bookgen.errors import told
from bookgen.readers.score.attributes import meter_of
from bookgen.readers.score.bars import is_printed
from bookgen.readers.score.findings import WordError
from bookgen.readers.score.spelling import key_signature
from bookgen.readers.shown import shown

EXAMPLES: Final = told(
    "write e.g. {major}, {minor} or {signs}", major="D major", minor="B minor", signs="2 sharps"
)
KEY: Final = re.compile(r"(?P<tonic>[A-G](?:#|b)?)(?: (?P<mode>major|minor))?")
SIGNS: Final = re.compile(r"(?P<count>[0-7]) (?P<sign>sharp|flat)s?")


def meter_said(value: str) -> tuple[int, int]:
    """The meter of `3/4` or `3+2/8`.

    Raises:
        WordError: it is none.
    """
    beats, _, beat = value.partition("/")
    meter = meter_of(beats, beat)
    if meter is None:
        mend = told("write beats and beat, e.g. {example}", example="3/4")
        raise WordError(told("{word} is no meter", word=shown(value)), mend)
    return meter


def sharps_said(value: str) -> int:
    """The sharps of `D major`, `B minor` or `2 sharps`; flats are negative.

    >>> sharps_said("B minor"), sharps_said("3 flats"), sharps_said("D")
    (2, -3, 2)

    Raises:
        WordError: it is no key, or one with more than seven signs.
    """
    signs, key = SIGNS.fullmatch(value), KEY.fullmatch(value)
    if signs is not None:
        return int(signs["count"]) * (1 if signs["sign"] == "sharp" else -1)
    if key is None:
        raise WordError(told("{word} is no key", word=shown(value)), EXAMPLES)
    try:
        return key_signature(key["tonic"], minor=key["mode"] == "minor")
    except ValueError as error:
        problem = told("{word} has more than seven sharps or flats", word=shown(value))
        raise WordError(problem, EXAMPLES) from error


def sharps_text(sharps: int) -> str:
    """A key signature as `sharps_said` reads it back.

    >>> sharps_text(-1), sharps_text(0)
    ('1 flat', '0 sharps')
    """
    sign = "flat" if sharps < 0 else "sharp"
    return f"{abs(sharps)} {sign}{'' if abs(sharps) == 1 else 's'}"


def number_said(value: str) -> str:
    """A bar number.

    Raises:
        WordError: it is none.
    """
    if not is_printed(value):
        mend = told("write digits, with a small letter at most")
        raise WordError(told("{word} is no bar number", word=shown(value)), mend)
    return value
