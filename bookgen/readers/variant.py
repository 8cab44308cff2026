"""An instrument and what is otherwise on it, as one name says both: strings, names of positions."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from bookgen.errors import Said
from bookgen.model.instrument import Instrument
from bookgen.model.pitch import Pitch
from bookgen.readers.position_tables import called_by
from bookgen.readers.scordatura import retuned, tuned_apart, tuned_key

CALLED: Final = re.compile(r"(?P<base>\S.*?)[ _]+by[ _]+(?P<table>[a-z]+)")
"""An instrument with the table behind it by which its positions are called."""


@dataclass(frozen=True, slots=True)
class Variant:
    """What is otherwise on an instrument.

    base: the instrument's own name. make: the variant of it, for a place in a finding.
    key: of the variant, by the key of the instrument.
    """

    base: str
    make: Callable[[Instrument, Said], Instrument]
    key: Callable[[str], str]


def variant_in(name: str) -> Variant | None:
    """The variant that a name says, as a user or the key of a drill does; None where it says none.

    >>> variant_in("cello G3 D3 G2 C2").key("cello"), variant_in("cello_by_davidov").base
    ('cello_g3_d3_g2_c2', 'cello')
    >>> variant_in("double_bass_low_b")
    """
    tuned = tuned_apart(name)
    if tuned is not None:
        base, notes = tuned
        return Variant(
            base,
            lambda instrument, place: retuned(instrument, notes, place),
            lambda key: tuned_key(key, [Pitch.parse(note) for note in notes]),
        )
    called = CALLED.fullmatch(name.strip())
    if called is None:
        return None
    table = called["table"]
    return Variant(
        called["base"],
        lambda instrument, place: called_by(instrument, table, place),
        lambda key: f"{key}_by_{table}",
    )
