"""The planner's numbers from their data file, or a finding that names the place."""

from functools import cache
from typing import Annotated, Final

import msgspec

from bookgen.errors import BookgenError, Finding, why, within
from bookgen.model.spacing import Spacing
from bookgen.model.weights import (
    CrossingEffort,
    Effort,
    FingerEffort,
    NameEffort,
    Order,
    Pace,
    PlaceEffort,
    Shares,
    ShiftEffort,
    Weights,
)
from bookgen.readers.data_file import MEND, data_text, decoded

FILE: Final = "weights.toml"
Amount = Annotated[float, msgspec.Meta(ge=0, le=10)]
Share = Annotated[float, msgspec.Meta(ge=0, le=1)]
HalfSteps = Annotated[float, msgspec.Meta(ge=0, le=36)]


class Table(msgspec.Struct, forbid_unknown_fields=True):
    """A table of the file in which every key is known."""


class CrossingTable(Table):
    """`[effort.crossing]`."""

    wider: Amount
    mixed: Amount
    interval: dict[Annotated[int, msgspec.Meta(ge=0, le=36)], Amount]


class FingersTable(Table):
    """`[effort.fingers]`; pairs are written `1-2`, spacings by their words."""

    otherwise: Amount
    more: Amount
    extended: Amount
    pairs: dict[Annotated[str, msgspec.Meta(pattern="^[1-4]-[1-4]$")], dict[str, Amount]]


class PlaceTable(Table):
    """`[effort.place]`."""

    home: HalfSteps
    near: HalfSteps
    below: Amount
    above: Amount
    high_from: HalfSteps
    high: Amount
    round_from: HalfSteps
    round_string: Amount


class ShiftTable(Table):
    """`[effort.shift]`."""

    hand: Amount
    half_step: Amount


class NamesTable(Table):
    """`[effort.names]`."""

    altered: Amount
    unusual: Amount
    double: Amount


class RouteTable(Table):
    """`[effort.route]`."""

    high_lead: Amount
    other_order: Amount
    mirror: Amount
    more_strings: Amount
    skipped: Amount


class EffortTable(Table):
    """`[effort]`."""

    crossing: CrossingTable
    fingers: FingersTable
    place: PlaceTable
    shift: ShiftTable
    names: NamesTable
    stage: dict[int, Amount]
    route: RouteTable


class SharesTable(Table):
    """`[shares]`."""

    new_share: Share
    new_most_minutes: Annotated[float, msgspec.Meta(ge=0, le=60)]
    first_share: Share
    first_most_minutes: Annotated[float, msgspec.Meta(ge=0, le=60)]
    waiting_share: Share
    light_share: Share
    test_items: Annotated[int, msgspec.Meta(ge=0, le=20)]
    stretch: Annotated[float, msgspec.Meta(ge=1, le=4)]


class OrderTable(Table):
    """`[pace.order]`."""

    depth: Amount
    move: Amount
    away: Amount
    known_frame: Amount
    owed_day: Amount
    known_way: Amount


class PaceTable(Table):
    """`[pace]`."""

    firm_days: Annotated[int, msgspec.Meta(ge=1, le=10)]
    hope_days: Annotated[int, msgspec.Meta(ge=1, le=60)]
    rest_days: Annotated[int, msgspec.Meta(ge=1, le=60)]
    least_width: Annotated[int, msgspec.Meta(ge=1, le=100)]
    width_share: Share
    order: OrderTable


class WeightsTable(Table):
    """The whole file."""

    retention: Annotated[float, msgspec.Meta(gt=0.7, lt=1)]
    effort: EffortTable
    shares: SharesTable
    pace: PaceTable


@cache
def read_weights() -> Weights:
    """Read the numbers that come with the package.

    Raises:
        BookgenError: the file is damaged.
    """
    return parse_weights(data_text(FILE), FILE)


def parse_weights(text: str, file: str) -> Weights:
    """Build the weights from the text of their file.

    file: the name under which the user knows it.

    Raises:
        BookgenError: the text is no TOML, a value is missing, unknown or out of bounds.
    """
    table = decoded(text, file, WeightsTable)
    try:
        effort = build_effort(table.effort)
    except ValueError as error:
        raise BookgenError(Finding(within(file, "effort"), why(error), MEND)) from error
    shares = Shares(**msgspec.structs.asdict(table.shares))
    return Weights(effort, shares, build_pace(table.pace), table.retention)


def build_pace(table: PaceTable) -> Pace:
    """The pace as the model's values."""
    rest = msgspec.structs.asdict(table)
    return Pace(**{**rest, "order": Order(**msgspec.structs.asdict(table.order))})


def build_effort(table: EffortTable) -> Effort:
    """The difficulty table as the model's values.

    Raises:
        RefusedError: a spacing has no such word, or a stage is missing.
    """
    pairs = {
        (int(pair[0]), int(pair[-1]), Spacing.parse(word)): amount
        for pair, spacings in table.fingers.pairs.items()
        for word, amount in spacings.items()
    }
    crossing = table.crossing
    return Effort(
        crossing=CrossingEffort(crossing.interval, crossing.wider, crossing.mixed),
        fingers=FingerEffort(
            pairs, table.fingers.otherwise, table.fingers.more, table.fingers.extended
        ),
        place=PlaceEffort(**msgspec.structs.asdict(table.place)),
        shift=ShiftEffort(**msgspec.structs.asdict(table.shift)),
        names=NameEffort(**msgspec.structs.asdict(table.names)),
        stage=table.stage,
        **msgspec.structs.asdict(table.route),
    )
