"""Has LilyPond engrave a group's own notes, each excerpt on a page of its own."""

from collections.abc import Sequence

from bookgen.model.instrument import Instrument
from bookgen.notation.engraver import PDF_OPTIONS, Part, Running
from bookgen.notation.lilypond import Workshop
from bookgen.notation.passage_music import passage_music
from bookgen.notation.source import in_our_style
from bookgen.notation.style import Style
from bookgen.plan.passage_excerpt import Excerpt

FILES = ("moves.ily", "ties.ily", "style.ily", "groups.ily", "passage.ily", "excerpt.ily")


def excerpts_source(excerpts: Sequence[Excerpt], instrument: Instrument, style: Style) -> str:
    """Write excerpts as one LilyPond file; page k of its PDF is excerpt k."""
    entries = [
        {
            "number": f"{excerpt.letter}, {'evenly' if number % 2 == 0 else 'in rhythm'}",
            "key": f"{len(excerpt.fingering.placed)} sounds",
            "width_mm": style.line_width_mm,
            "music": passage_music(excerpt.phrase, excerpt.fingering, instrument),
        }
        for number, excerpt in enumerate(excerpts)
    ]
    return in_our_style(entries, style, FILES)


def start_excerpts(
    excerpts: Sequence[Excerpt], instrument: Instrument, style: Style, workshop: Workshop
) -> Running:
    """Start LilyPond on excerpts and return while it works.

    Raises:
        FileNotFoundError: a font file of the style is missing.
    """
    source = excerpts_source(excerpts, instrument, style)
    workshop.furnish(style)
    run = workshop.begin("excerpts", *PDF_OPTIONS)
    run.feed(source)
    return Running((Part(run, source, None),), style)
