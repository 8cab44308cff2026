"""A language that nobody speaks: each message half as long again, with letters English has not.

What a page says in it was said by the catalogue; an English word on the page was not.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from gettext import NullTranslations
from io import BytesIO
from typing import Final

import pypdfium2
from babel import Locale

from bookgen.words.speech import Speech, capital

LETTERS: Final = str.maketrans(
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "áßčďéƒğĥíĵķĺḿńóṕġřšťúŵŵźýžÁÐČĎÉŁĞĤÍĴĶĹḾŃÓṔĠŘŠŤÚŴŴŹÝŽ",
)
"""Letters that PT Serif has, most of them high ones."""

KEPT: Final = re.compile(r"(<[^<>]*>|\{[^{}]*\}|&\w+;)")
"""Marks of the cut, gaps and signs of a message."""

WORD: Final = re.compile(r"[^\W\d_]+")
NUMERALS: Final = frozenset({"II", "III", "IV", "VI"})
UNITS: Final = frozenset({"Hz", "mm"})


def strange(text: str) -> str:
    """A message in the language; every second letter is doubled.

    >>> strange("<b>Like {number}</b>, cross")
    '<b>ĹĹíķķé {number}</b>, ččřóóššš'
    """
    parts = KEPT.split(text)
    return "".join(part if at % 2 else WORD.sub(longer, part) for at, part in enumerate(parts))


def longer(word: re.Match[str]) -> str:
    """A word half as long again."""
    doubled = (letter * (1 if at % 2 else 2) for at, letter in enumerate(word[0]))
    return "".join(doubled).translate(LETTERS)


class Strange(NullTranslations):
    """The catalogue of the language, made as it is read."""

    def gettext(self, message: str) -> str:
        """Say a message."""
        return strange(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        """Say one or many."""
        return strange(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        """Say a message where it stands."""
        return strange(message)


PSEUDO: Final = Speech("pl", Strange())
"""With the dates, lists and numbers of Polish, which shares no word with ours."""


def english(pdf: bytes, names: Sequence[str] = ()) -> dict[str, int]:
    """Words of plain letters in a PDF, each with a page; page -1 is what the file tells of itself.

    names: what the user has typed, which may be English.
    """
    allowed = NUMERALS | UNITS | {word for name in names for word in WORD.findall(name)}
    allowed |= {word for text in calendar(PSEUDO.locale) for word in WORD.findall(text)}
    found: dict[str, int] = {}
    for page, text in texts(pdf):
        for word in WORD.findall(text):
            if len(word) > 1 and word.isascii() and word not in allowed and not cut(word, names):
                found.setdefault(word, page)
    return found


def cut_off(pdf: bytes, names: Sequence[str] = ()) -> list[str]:
    """Words that had no room, but for those of the user."""
    found = {word for _, text in texts(pdf) for word in text.split() if word.endswith("…")}
    return sorted(word for word in found if not cut(word[:-1], names))


def cut(word: str, names: Iterable[str]) -> bool:
    """It is the beginning of a user's word that had no room."""
    return any(one.startswith(word) for name in names for one in name.split())


def calendar(locale: Locale) -> Iterator[str]:
    """Everything CLDR calls a month or a day, and what it lists with."""
    for table in (locale.months, locale.days):
        for widths in table.values():
            for named in widths.values():
                yield from named.values()
                yield from map(capital, named.values())
    yield from (pattern for style in locale.list_patterns.values() for pattern in style.values())


def texts(pdf: bytes) -> Iterator[tuple[int, str]]:
    """What stands on each page, from 0; page -1 is its outline and its title."""
    with pypdfium2.PdfDocument(BytesIO(pdf)) as book:
        for number, page in enumerate(book):
            yield number, page.get_textpage().get_text_range()
        for mark in book.get_toc():
            yield -1, mark.get_title()
        for key in ("Title", "Subject", "Keywords"):
            yield -1, book.get_metadata_value(key)
