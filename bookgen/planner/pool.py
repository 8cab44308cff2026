"""Every drill that an area allows on an instrument."""

from collections.abc import Iterator
from itertools import product

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.route import Return
from bookgen.model.units import Semitones
from bookgen.planner.area import Area
from bookgen.planner.staging import SECOND_NOTE, crosses_always


def pool(instrument: Instrument, area: Area) -> Iterator[Drill]:
    """All drills of the area whose fingers run straight up or straight down, in a fixed order.

    Drills whose two ways back are one and the same come once. The same hand is asked for once,
    so the thousands of drills of a wide area take little time.
    """
    places = map(Semitones, range(1, instrument.highest_stop + 1))
    for frame, place, strings in product(area.frames, places, area.strings):
        first = Drill(instrument.key, frame, frame.fingers, place, strings, 1, Return.SAME)
        if not area.holds(first, instrument):
            continue
        stages = range(1, area.highest_stage + 1)
        orders = (frame.fingers, frame.fingers[::-1])
        for stage, order, back in product(stages, orders, Return):
            drill = Drill(instrument.key, frame, order, place, strings, stage, back)
            doubled = stage == SECOND_NOTE and crosses_always(strings, order)
            refusal = drill.left_out() or drill.doubled()
            if not (doubled or refusal or drill.for_passages):
                yield drill
