"""Has LilyPond engrave a passage, each line of music on a page of its own."""

from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import EngravedDrill, Engraving
from bookgen.notation.engraver import PDF_OPTIONS, Part, Running
from bookgen.notation.lilypond import Workshop
from bookgen.notation.source import passage_source
from bookgen.notation.style import Style
from bookgen.plan.passage import Passage


def start_passage(
    passage: Passage, instrument: Instrument, style: Style, workshop: Workshop
) -> Running:
    """Start LilyPond on a passage and return while it works.

    What is finished then has an entry for each line of music, in their order.

    Raises:
        FileNotFoundError: a font file of the style is missing.
        ValueError: the passage has no bars.
    """
    source = passage_source(passage, instrument, style)
    workshop.furnish(style)
    run = workshop.begin("passage", *PDF_OPTIONS)
    run.feed(source)
    return Running((Part(run, source, None),), style)


def put_together(one: Engraving, other: Engraving) -> Engraving:
    """Two engravings as one: the second one's pages come after the first one's."""
    moved = tuple(
        EngravedDrill(drill.file + len(one.files), drill.page, drill.box) for drill in other.drills
    )
    return Engraving(one.files + other.files, one.drills + moved)
