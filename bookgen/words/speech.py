"""One language: its catalogue of sentences, and how it says dates, lists and numbers."""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from functools import cache
from gettext import NullTranslations
from importlib import resources
from io import BytesIO
from typing import TYPE_CHECKING, Final
from unicodedata import category

from bookgen.errors import Finding, Message, Said
from bookgen.model.pitch import Pitch
from bookgen.words.notes import NOTES
from bookgen.words.refusals import SENTENCES
from bookgen.words.term import Term

if TYPE_CHECKING:
    from babel import Locale

SOURCE: Final = "en"
GERMAN: Final = "de"
"""The language that writes every noun with a capital."""

LOCALES: Final = {"en": "en_GB"}
"""The locale whose dates and lists are those of a language; others are their own."""

FOLDER: Final = "catalogues"

FIRST: Final = re.compile(r"\b1(?= [^\W\d])")
"""The first day of a month, before the month's name."""

UNSHOWN: Final = frozenset({"Cc", "Cs", "Zl", "Zp"})
"""Unicode's categories of what is no sign: controls, halves of signs, breaks of line."""


@dataclass(frozen=True, slots=True)
class Phrase:
    """What a function of words/ says of facts, said when it is known in which language."""

    words: Callable[["Speech"], str]

    def __str__(self) -> str:
        """Return the words in the source language, for a reader of the code."""
        return self.words(ENGLISH)


class Speech:
    """Says facts in a language.

    language: as the roster and the plan document name it, e.g. "en".
    translations: the catalogue; the source language needs none.
    """

    def __init__(self, language: str, translations: NullTranslations) -> None:
        """Take a catalogue into use."""
        self.language = language
        self.translations = translations

    @property
    def locale(self) -> "Locale":
        """Dates, lists and numbers by CLDR."""
        from babel import Locale  # noqa: PLC0415  slow to import

        return Locale.parse(LOCALES.get(self.language, self.language))

    def say(self, text: str, /, **facts: object) -> str:
        """A sentence with its gaps filled.

        >>> ENGLISH.say("cross {when}", when=Message("sooner"))
        'cross sooner'
        """
        return self.filled(self.translations.gettext(text), facts)

    def say_in(self, context: str, text: str, /, **facts: object) -> str:
        """A short text whose meaning hangs on where it stands."""
        return self.filled(self.translations.pgettext(context, text), facts)

    def count(self, one: str, many: str, number: float, /, **facts: object) -> str:
        """A sentence that hangs on a number, which fills the gap `number`.

        >>> ENGLISH.count("{number} day", "{number} days", 1)
        '1 day'
        """
        form = 1 if self.singular(number) else 2
        return self.filled(self.translations.ngettext(one, many, form), {"number": number, **facts})

    def term(self, term: Term) -> str:
        """A word of a table."""
        return self.say_in(*term)

    def unfilled(self, term: Term) -> str:
        """A word of a table with its gaps left open."""
        return self.translations.pgettext(*term)

    def singular(self, number: float) -> bool:
        """The language uses the singular for the number; ½ and 1½ are numbers too."""
        if self.language == SOURCE:
            return 0 < number <= 1
        return self.locale.plural_form(number) == "one"

    def filled(self, text: str, facts: dict[str, object]) -> str:
        """A text with its facts, said first where they are no words yet."""
        return text.format_map({name: self.said(fact) for name, fact in facts.items()})

    def said(self, fact: object) -> object:
        """A fact as it stands in a sentence: messages and notes in words, several in a list."""
        match fact:
            case Message():
                return self.line(fact)
            case Phrase():
                return fact.words(self)
            case Pitch():
                return self.pitch(fact)
            case list() | tuple():
                return self.listed(self.said(one) for one in fact)
            case _:
                return fact

    def note(self, pitch: Pitch) -> str:
        """A note without its octave, as players call it: German B flat is B, and B is H.

        >>> ENGLISH.note(Pitch.parse("Bb3"))
        'B♭'
        """
        return self.term(NOTES[pitch.name])

    def pitch(self, pitch: Pitch) -> str:
        """A note with its octave; languages that number octaves otherwise leave the number out.

        >>> ENGLISH.pitch(Pitch.parse("F#4"))
        'F♯4'
        """
        note, octave = self.note(pitch), pitch.octave
        return self.say_in("note with its octave", "{note}{octave}", note=note, octave=octave)

    def line(self, said: Said | Finding) -> str:
        """A message, or a finding as one line: where, what, and what mends it."""
        match said:
            case Finding():
                return self.say(
                    "{place}: {problem}; {mend}.",
                    place=self.line(said.place),
                    problem=self.line(said.problem),
                    mend=self.line(said.mend),
                )
            case Message():
                return shown(self.say(SENTENCES.get(said.text, said.text), **said.facts))
            case _:
                return shown(said)

    def listed(self, items: Iterable[object]) -> str:
        """Items in a sentence.

        >>> ENGLISH.listed([1, 2, 3])
        '1, 2 and 3'
        """
        from babel.lists import format_list  # noqa: PLC0415

        return format_list([str(item) for item in items], locale=self.locale)

    def apart(self, parts: Iterable[str]) -> str:
        """Parts that have commas in them, one after the other.

        >>> ENGLISH.apart(["1, 2", "3"])
        '1, 2; 3'
        """
        return self.say_in("between parts", "; ").join(parts)

    def small(self, noun: str) -> str:
        """A noun that stands within a row or a sentence: German keeps its capital."""
        return noun if self.language == GERMAN else noun[:1].lower() + noun[1:]

    def date(self, date: Date) -> str:
        """A date with weekday and year.

        >>> ENGLISH.date(Date(2026, 12, 1))
        'Tuesday, 1 December 2026'
        """
        from babel.dates import format_date  # noqa: PLC0415

        return self.first_of_month(format_date(date, "full", locale=self.locale))

    def skeleton(self, date: Date, fields: str) -> str:
        """A date with only these fields of CLDR, in the order of the language.

        >>> ENGLISH.skeleton(Date(2026, 12, 1), "yMMMM")
        'December 2026'
        """
        from babel.dates import format_skeleton  # noqa: PLC0415

        return self.first_of_month(format_skeleton(fields, date, locale=self.locale))

    def first_of_month(self, text: str) -> str:
        """A date whose first of a month is an ordinal where the language wants it, unlike CLDR.

        Source: common practice, no source (French: "1er décembre").
        """
        return FIRST.sub("1er", text) if self.language == "fr" else text


def shown(text: str) -> str:
    r"""One line that a screen can show: control characters of a user's file as escapes.

    >>> shown(f"a bell: {chr(7)}")
    'a bell: \\x07'
    """
    if text.isprintable():
        return text
    return "".join(
        one.encode("unicode_escape").decode() if category(one) in UNSHOWN else one for one in text
    )


def capital(text: str) -> str:
    """A text with a capital at its beginning, as over what follows; the rest stays."""
    return text[:1].upper() + text[1:]


ENGLISH: Final = Speech(SOURCE, NullTranslations())


def languages() -> list[str]:
    """The languages that there are, the source first."""
    names = [file.name for file in (resources.files("bookgen.words") / FOLDER).iterdir()]
    return [SOURCE, *sorted(name.removesuffix(".po") for name in names if name.endswith(".po"))]


@cache
def speech_of(language: str) -> Speech:
    """The speech of a language that has a catalogue.

    Raises:
        FileNotFoundError: there is no catalogue of that language.
    """
    if language == SOURCE:
        return ENGLISH
    if language not in languages():
        raise FileNotFoundError(language)
    file = resources.files("bookgen.words") / FOLDER / f"{language}.po"
    return translated(language, file.read_bytes())


def translated(language: str, catalogue: bytes) -> Speech:
    """The speech of a language from its catalogue, a `.po` file; it is compiled as it is read."""
    from babel.messages.mofile import write_mo  # noqa: PLC0415
    from babel.messages.pofile import read_po  # noqa: PLC0415
    from babel.support import Translations  # noqa: PLC0415

    compiled = BytesIO()
    write_mo(compiled, read_po(BytesIO(catalogue), locale=language))
    compiled.seek(0)
    return Speech(language, Translations(compiled))
