"""One drill as a scalable picture, cut to its ink."""

import re
from typing import Final

from bookgen.errors import EngravingError, told
from bookgen.model.instrument import Instrument
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraver import read_boxes
from bookgen.notation.lilypond import Workshop, defect
from bookgen.notation.source import lilypond_source
from bookgen.notation.style import Style

SVG_OPTIONS: Final = ("-dbackend=cairo", "--svg", "-dinclude-settings=bbox.ily")
SVG_SIZE: Final = re.compile(r'width="[\d.]+(?:pt)?" height="[\d.]+(?:pt)?" viewBox="[^"]*"')


def svg_of(
    score: DrillScore,
    instrument: Instrument,
    style: Style,
    workshop: Workshop,
    *,
    timeout: float,
) -> str:
    """One drill as SVG, cut to its ink.

    Raises:
        EngravingError: LilyPond failed, warned, took too long, or wrote no picture.
    """
    run = workshop.begin_in(style, "drill", *SVG_OPTIONS, hoarding=True)
    run.feed(lilypond_source([score], instrument, style))
    run.finish(timeout)
    [box] = read_boxes(run.written(".bbox").decode("ascii"))
    size = f"{box.width + 2:.2f}", f"{box.height + 2:.2f}"
    view = f'viewBox="{box.left - 1:.2f} {box.top - 1:.2f} {size[0]} {size[1]}"'
    text, found = SVG_SIZE.subn(
        f'width="{size[0]}pt" height="{size[1]}pt" {view}',
        run.written(".svg").decode("utf-8"),
        count=1,
    )
    if not found:
        raise EngravingError(defect(told("its SVG tells no size")))
    return text
