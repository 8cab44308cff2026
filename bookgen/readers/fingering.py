"""The cost table of fingerings from its data file, or a finding that names the place."""

from functools import cache
from typing import Annotated, Final

import msgspec

from bookgen.errors import BookgenError, Finding, why, within
from bookgen.model.costs import (
    Costs,
    Cover,
    FingerCost,
    PlaceCost,
    Preference,
    ShiftCost,
    SoundCost,
    StretchCost,
    StringCost,
)
from bookgen.readers.data_file import MEND, data_text, decoded

FILE: Final = "fingering.toml"
Amount = Annotated[float, msgspec.Meta(ge=0, le=100)]
Share = Annotated[float, msgspec.Meta(ge=0, le=1)]
More = Annotated[float, msgspec.Meta(ge=1, le=10)]
WholeNotes = Annotated[float, msgspec.Meta(gt=0, le=16)]
HalfSteps = Annotated[float, msgspec.Meta(ge=0, le=36)]


class Table(msgspec.Struct, forbid_unknown_fields=True):
    """A table of the file in which every key is known."""


class ShiftTable(Table):
    """`[shift]`."""

    half_step: Amount
    further: Amount
    each: Amount
    unguided: Amount
    double: More


class CoverTable(Table):
    """`[cover]`."""

    rest_from: WholeNotes
    rest: Share
    long_rest_from: WholeNotes
    long_rest: Share
    long_from: WholeNotes
    long_note: Share
    open_string: Share
    harmonic: Share
    grace: More
    slur: Annotated[float, msgspec.Meta(ge=1, le=100)]


class StretchTable(Table):
    """`[stretch]`."""

    drawn_back: Amount
    opened: Amount
    each: Amount
    together: Amount


class FingerTable(Table):
    """`[finger]`."""

    fifth: Amount
    elsewhere: Amount
    slide: Amount
    quick_slide: Amount
    quick_to: WholeNotes
    fourth: Amount


class StringTable(Table):
    """`[string]`."""

    following: Amount
    further: Amount
    step: Amount
    timbre_from: WholeNotes
    open_note: Amount
    open_long: Amount
    open_from: WholeNotes


class PlaceTable(Table):
    """`[place]`."""

    home: HalfSteps
    each: Amount
    half: Amount
    beyond: Amount
    high_from: HalfSteps
    high_each: Amount


class SoundTable(Table):
    """`[sound]`."""

    double: Amount
    bar: Amount
    crossed: Amount


class CostsTable(Table):
    """The whole file."""

    shift: ShiftTable
    cover: CoverTable
    stretch: StretchTable
    finger: FingerTable
    string: StringTable
    place: PlaceTable
    sound: SoundTable
    prefer: dict[Preference, dict[str, Amount]]


@cache
def read_costs() -> Costs:
    """Read the cost table that comes with the package.

    Raises:
        BookgenError: the file is damaged.
    """
    return parse_costs(data_text(FILE), FILE)


def parse_costs(text: str, file: str) -> Costs:
    """Build the cost table from the text of its file.

    file: the name under which the user knows it.

    Raises:
        BookgenError: the text is no TOML, a value is missing, unknown or out of bounds.
    """
    table = decoded(text, file, CostsTable)
    values = msgspec.structs.asdict
    try:
        return Costs(
            shift=ShiftCost(**values(table.shift)),
            cover=Cover(**values(table.cover)),
            stretch=StretchCost(**values(table.stretch)),
            finger=FingerCost(**values(table.finger)),
            string=StringCost(**values(table.string)),
            place=PlaceCost(**values(table.place)),
            sound=SoundCost(**values(table.sound)),
            prefer=table.prefer,
        )
    except ValueError as error:
        raise BookgenError(Finding(within(file, "prefer"), why(error), MEND)) from error
