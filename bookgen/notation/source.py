"""Drills, a passage or its excerpts as one LilyPond text: the notes, wrapped in our style."""

from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources
from itertools import batched
from string import digits
from typing import TYPE_CHECKING, Final

from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.notation.clef import clef_of
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.label import BOTH_STRINGS
from bookgen.notation.style import SIZES, Style
from bookgen.words.marks import Marks

if TYPE_CHECKING:
    import jinja2

    from bookgen.plan.passage import Passage
    from bookgen.plan.passage_excerpt import Excerpt

FOLDER: Final = "engraving"
POINTS_IN_MM: Final = 72.27 / 25.4
"""LilyPond's staff size is told in printer's points."""

TALLEST_DRILL_MM: Final = 400.0
IN_A_BOOK: Final = 25
"""Drills; LilyPond then takes 180 MB, with 50 it takes 230 MB and is as fast (measured)."""

MARGIN_MM: Final = 10.0
"""Left and right of the music on the engraved page, as style.ily sets it."""

SOUND_MM: Final = 8.0
"""Own choice: a piece with less of a line for each sound is spread over whole lines, the last one
too, so that no bar is left alone on it; a shorter one keeps its own width."""

DRILL_FILES: Final = ("moves.ily", "ties.ily", "style.ily")
CASE_FILE: Final = "case.ily"
PASSAGE_FILES: Final = (*DRILL_FILES, "groups.ily", "spots.ily", "passage.ily")
"""Of our engraving style, in their order."""


def lilypond_source(
    scores: Sequence[DrillScore],
    instrument: Instrument,
    style: Style,
    clefs: Sequence[str] | None = None,
) -> str:
    """Write drills as one LilyPond file; page k of its PDF is drill k.

    The text holds our whole style, so plain LilyPond engraves it with no other file of ours.
    The text face is looked for in a folder `fonts` beside it; without one LilyPond takes its
    own. Only notes, numbers and our own words stand in it: nothing that a user wrote.

    clefs: of the drills; None chooses each by itself.
    """
    return drills_source(scores, style, drill_texts(scores, instrument, style, clefs))


def drill_texts(
    scores: Sequence[DrillScore],
    instrument: Instrument,
    style: Style,
    clefs: Sequence[str] | None = None,
) -> list[str]:
    """The music of each drill, as it stands in a LilyPond file.

    clefs: of the drills; None chooses each by itself.
    """
    from bookgen.notation.drill_staff import drill_music  # noqa: PLC0415  abjad is slow to import

    if clefs is None:
        clefs = [clef_of(score.events(instrument), instrument) for score in scores]
    return [
        drill_music(score, instrument, style, clef)
        for score, clef in zip(scores, clefs, strict=True)
    ]


def drills_source(
    scores: Sequence[DrillScore], style: Style, texts: Sequence[str], *, cased: bool = False
) -> str:
    """Drills whose music is written as one LilyPond file.

    cased: the type case comes first, as a page more, and every `IN_A_BOOK` drills are a PDF of
        their own, after which LilyPond lets go of what it knew of them.
    """
    entries = [
        {
            "key": score.drill.key,
            "width_mm": round(score.width_mm, 2),
            "ragged": False,
            "music": text,
        }
        for score, text in zip(scores, texts, strict=True)
    ]
    width = max(score.width_mm for score in scores)
    if not cased:
        return in_our_style([entries], style, DRILL_FILES, width)
    books = [*batched(entries, IN_A_BOOK)]
    return in_our_style(books, style, DRILL_FILES, width, CASE_FILE)


def books_of(drills: int) -> int:
    """How many PDFs so many drills become, where the type case comes first."""
    return -(-drills // IN_A_BOOK)


def passage_source(
    passage: "Passage", instrument: Instrument, style: Style, width_mm: float
) -> str:
    """Write a passage as one LilyPond file; page k of its PDF is line k of the music.

    Like the drills' file it needs no other file of ours, and holds nothing that a user wrote.
    """
    from bookgen.notation.fingered import Reading  # noqa: PLC0415
    from bookgen.notation.passage_staff import passage_music  # noqa: PLC0415
    from bookgen.plan.passage_facts import changes_of  # noqa: PLC0415

    reading = Reading(changes_of(passage.best), passage.spots, thin=True)
    entry = {
        "key": f"{len(passage.phrase.bars)} bars for the {instrument.key}",
        "width_mm": width_mm,
        "ragged": sum(len(bar.sounds) for bar in passage.phrase.bars) * SOUND_MM < width_mm,
        "music": passage_music(passage.phrase, passage.best, instrument, reading),
    }
    return in_our_style([[entry]], style, PASSAGE_FILES, width_mm)


def excerpts_source(
    excerpts: "Sequence[tuple[Excerpt, float]]", instrument: Instrument, style: Style
) -> str:
    """Write excerpts of a passage as one LilyPond file; page k of its PDF is excerpt k.

    excerpts: each with the width of its line in millimetres.
    """
    from bookgen.notation.fingered import Reading  # noqa: PLC0415
    from bookgen.notation.passage_staff import passage_music  # noqa: PLC0415

    entries = [
        {
            "key": f"spot {excerpt.number}, {len(excerpt.fingering.placed)} sounds",
            "width_mm": round(width_mm, 2),
            "ragged": True,
            "music": passage_music(
                excerpt.phrase, excerpt.fingering, instrument, Reading(excerpt.changes)
            ),
        }
        for excerpt, width_mm in excerpts
    ]
    widest = max(width_mm for _, width_mm in excerpts)
    return in_our_style([entries], style, (*PASSAGE_FILES, "excerpt.ily"), widest)


def in_our_style(
    books: Sequence[Sequence[Mapping[str, object]]],
    style: Style,
    files: Sequence[str],
    width_mm: float,
    case: str | None = None,
) -> str:
    """A LilyPond file with its music: each book becomes a PDF, each of its entries begins a page.

    files: of our engraving style, in their order; width_mm: of the widest entry.
    case: the file with the page that comes first in each; without one there is one book.
    """
    return template("drills.ly.j2").render(
        preface=["Music, as bookgen had it engraved: plain LilyPond 2.24 sets this file too."],
        staff_points=round(style.staff_height_mm * POINTS_IN_MM, 3),
        fonts=font_names(style),
        family=style.text_family,
        styles=[engraving_file(name) for name in files],
        sizes=sizes_of(style),
        page_mm=(width_mm + 2 * MARGIN_MM, TALLEST_DRILL_MM),
        case=engraving_file(case) if case else "",
        letters=letters_of(style.marks),
        books=books,
    )


def letters_of(marks: Marks) -> str:
    """Every letter, figure and sign in which the words of a drill are set, once."""
    qualities = (form.format(number=digits) for form in marks.qualities.values())
    words = (marks.half, marks.whole, *qualities, *NUMERALS, BOTH_STRINGS)
    return "".join(sorted({letter for word in words for letter in word}))


def sizes_of(style: Style) -> dict[str, float]:
    """The style's numbers by the names that our engraving files give them."""
    steps = {"finger": "finger-step", "word": "word-step", "numeral": "numeral-step"}
    return {steps.get(name, name.replace("_", "-")): getattr(style, name) for name in SIZES}


def font_names(style: Style) -> list[str]:
    """Names under which the text face's files lie beside the source; none comes from a user."""
    return [f"text-{index}{file[-4:]}" for index, file in enumerate(style.text_files)]


@cache
def engraving_file(name: str) -> str:
    """A file of our engraving style."""
    file = resources.files("bookgen") / "data" / FOLDER / name
    return file.read_text(encoding="utf-8")


@cache
def template(name: str) -> "jinja2.Template":
    """A template of our engraving style, which fails on a name it does not know."""
    import jinja2  # noqa: PLC0415  not needed where nothing is engraved

    environment = jinja2.Environment(  # noqa: S701  the text is LilyPond's, not a web page's
        undefined=jinja2.StrictUndefined, trim_blocks=False, keep_trailing_newline=True
    )
    return environment.from_string(engraving_file(name))
