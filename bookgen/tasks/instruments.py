"""The instruments at hand, by their keys."""

from bookgen.errors import BookgenError, Finding, Said, told
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.readers.instrument import instrument_keys, read_instrument
from bookgen.tasks.roster import choose


def find_instrument(key: str) -> Instrument | None:
    """The instrument of that key, or None."""
    return read_instrument(key) if key in instrument_keys() else None


def instrument_of_drill(drill: Drill, place: Said) -> Instrument:
    """The instrument that a drill's key names.

    place: where the key was given.

    Raises:
        BookgenError: there is none of that name.
    """
    found = find_instrument(drill.instrument)
    if found is None:
        problem = told("no instrument {name}", name=repr(drill.instrument))
        raise BookgenError(Finding(place, problem, choose(drill.instrument, instrument_keys())))
    return found
