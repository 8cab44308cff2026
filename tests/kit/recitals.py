"""Drills as they are played one after the other, for the tests."""

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.music import play
from bookgen.notation.played import Played, Recital


def recital(*drills: Drill, on: Instrument, tempo: int = 60) -> Recital:
    """Drills under titles of their own."""
    titled = [Played(f"{n} · drill", play(drill, on)) for n, drill in enumerate(drills, start=1)]
    return Recital("Mara · a day", titled, tempo)
