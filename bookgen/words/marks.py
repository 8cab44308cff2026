"""The shortest words of a page: how intervals and steps are marked below a staff and in tables."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Final

from bookgen.errors import RefusedError
from bookgen.model.interval import Interval
from bookgen.words.speech import Speech
from bookgen.words.term import Term

LONGEST: Final = 12
"""Letters of a mark; there is no room for more between two notes."""

WIDEST: Final = 99
"""The widest interval that has a label."""

FORMS: Final[Mapping[str, Term]] = {
    "P": Term("mark of an interval", "P{number}"),
    "M": Term("mark of an interval", "M{number}"),
    "m": Term("mark of an interval", "m{number}"),
    "A": Term("mark of an interval", "aug{number}"),
    "d": Term("mark of an interval", "dim{number}"),
    "AA": Term("mark of an interval", "2aug{number}"),
    "dd": Term("mark of an interval", "2dim{number}"),
}
"""By the letters of a quality in a plan document."""


@dataclass(frozen=True, slots=True)
class Marks:
    """The table of marks in one language. Whatever is printed as one has passed it.

    half, whole: steps on one string.
    qualities: marks of intervals with a gap for their number, by the letters of their quality
        in a plan document. No mark can be read as the name of a note, therefore English writes
        aug4 and dim5 for A4 and d5.
    """

    half: str = "H"
    whole: str = "W"
    qualities: Mapping[str, str] = field(
        default_factory=lambda: {quality: form.text for quality, form in FORMS.items()}
    )

    def __post_init__(self) -> None:
        """Refuse what is no short word: the engraver would read a quotation mark as its own.

        Raises:
            RefusedError: a mark is empty, too long, or has more in it than letters and figures.
        """
        widest = [form.format(number=WIDEST) for form in self.qualities.values()]
        for mark in (self.half, self.whole, *widest):
            if not mark.isalnum() or len(mark) > LONGEST:
                raise RefusedError("mark", mark=mark, most=LONGEST)

    def interval(self, label: str) -> str:
        """How an interval is marked; only what is an interval label passes.

        >>> ENGLISH_MARKS.interval("A4"), ENGLISH_MARKS.interval("M6")
        ('aug4', 'M6')

        Raises:
            ValueError: the text is no interval label.
        """
        checked = Interval.parse(label).label
        quality = checked.rstrip("0123456789")
        return self.qualities[quality].format(number=checked.removeprefix(quality))


ENGLISH_MARKS: Final = Marks()


@cache
def marks_of(speech: Speech) -> Marks:
    """The marks of a language."""
    return Marks(
        half=speech.say_in("mark of a half step", "H"),
        whole=speech.say_in("mark of a whole step", "W"),
        qualities={quality: speech.unfilled(form) for quality, form in FORMS.items()},
    )
