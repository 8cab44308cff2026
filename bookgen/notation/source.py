"""Many drills as one LilyPond text: the notes of each, wrapped in our style."""

from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources
from typing import TYPE_CHECKING, Final

from bookgen.model.instrument import Instrument
from bookgen.notation.passage_music import passage_music
from bookgen.notation.style import Style
from bookgen.plan.document import PlannedDrill
from bookgen.plan.passage import Passage

if TYPE_CHECKING:
    import jinja2

FOLDER: Final = "engraving"
POINTS_IN_MM: Final = 72.27 / 25.4
"""LilyPond's staff size is told in printer's points."""

TALLEST_DRILL_MM: Final = 400.0
MARGIN_MM: Final = 10.0
"""Left and right of the music on the engraved page, as style.ily sets it."""

OPENING_MM: Final = 16.0
NOTE_MM: Final = 15.0
"""Widest room for clef and for each note: a short drill is not drawn out to a full line."""

TEMPO: Final = 60
"""Quarter notes in a minute when a drill is heard: slow enough to listen."""


def lilypond_source(drills: Sequence[PlannedDrill], instrument: Instrument, style: Style) -> str:
    """Write drills as one LilyPond file; page k of its PDF is drill k.

    The text holds our whole style, so plain LilyPond engraves it with no other file of ours.
    The text face is looked for in a folder `fonts` beside it; without one LilyPond takes its
    own. Only notes, numbers and our own words stand in it: nothing that a user wrote.
    """
    from bookgen.notation.music import lilypond_music  # noqa: PLC0415  abjad is slow to import

    entries = [
        {
            "number": planned.number,
            "key": planned.drill.key,
            "width_mm": round(music_width_mm(planned, style), 2),
            "music": lilypond_music(planned, instrument, intervals=style.intervals),
        }
        for planned in drills
    ]
    return in_our_style(entries, style, ("moves.ily", "ties.ily", "style.ily"))


def passage_source(passage: Passage, instrument: Instrument, style: Style) -> str:
    """Write a passage as one LilyPond file; page k of its PDF is line k of the music.

    Like the drills' file it needs no other file of ours, and holds nothing that a user wrote.
    """
    entry = {
        "number": "Passage",
        "key": f"{len(passage.phrase.bars)} bars for the {instrument.key}",
        "width_mm": style.line_width_mm,
        "music": passage_music(passage.phrase, passage.best, instrument),
    }
    files = ("moves.ily", "ties.ily", "style.ily", "groups.ily", "passage.ily")
    return in_our_style([entry], style, files)


def in_our_style(
    entries: Sequence[Mapping[str, object]], style: Style, files: Sequence[str]
) -> str:
    """A LilyPond file with its music; each entry begins a page.

    files: of our engraving style, in their order.
    """
    return template("drills.ly.j2").render(
        preface=["Music, as bookgen had it engraved: plain LilyPond 2.24 sets this file too."],
        staff_points=round(style.staff_height_mm * POINTS_IN_MM, 3),
        fonts=font_names(style),
        family=style.text_family,
        styles=[engraving_file(name) for name in files],
        page_mm=(style.line_width_mm + 2 * MARGIN_MM, TALLEST_DRILL_MM),
        drills=entries,
    )


def sound_source(planned: PlannedDrill, instrument: Instrument) -> str:
    """Write one drill as a LilyPond file that makes MIDI and no page."""
    from bookgen.notation.music import SOUNDS, lilypond_sound  # noqa: PLC0415

    octaves, semitones = divmod(instrument.sounding, 12)
    return template("sound.ly.j2").render(
        music=lilypond_sound(planned, instrument),
        tempo=TEMPO,
        sound=SOUNDS.get(instrument.key, "violin"),
        transposition=f"{octaves} 0 {semitones}/2",
    )


def music_width_mm(planned: PlannedDrill, style: Style) -> float:
    """How wide a drill is set: the whole line, or less where a few notes would swim in it."""
    return min(style.line_width_mm, OPENING_MM + NOTE_MM * len(planned.events))


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
