"""Instrument data files become instruments, or a finding that names the place."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from importlib import resources
from importlib.resources.abc import Traversable
from typing import Annotated, Final, Literal

import msgspec

from bookgen.errors import BookgenError, Finding, RefusedError, Said, told, why, within
from bookgen.model.finger import THUMB
from bookgen.model.hand import Extension, Hand, Reach, Span
from bookgen.model.instrument import ClefChoice, Instrument, Size
from bookgen.model.pitch import Pitch
from bookgen.model.position import LetterRule, PositionRule, TableRule
from bookgen.model.spacing import Spacing
from bookgen.model.units import Millimetres, Semitones
from bookgen.readers.data_file import converted, plain
from bookgen.readers.position_tables import position_tables
from bookgen.readers.scordatura import with_reading, with_strings

FOLDER = "instruments"
LIKE: Final = "like"
COMPLETED: Final = ("position", "hand")
MEND: Final = told("mend the file; docs/reference/instruments.md explains every value")
Length = Annotated[float, msgspec.Meta(gt=0, le=2000)]
Height = Annotated[int, msgspec.Meta(ge=0, le=36)]
Finger = Annotated[int, msgspec.Meta(ge=1, le=4)] | Literal["thumb"]


class Table(msgspec.Struct, forbid_unknown_fields=True):
    """A table of an instrument file in which every key is known."""


class ClefTable(Table):
    """`[[clefs]]`."""

    clef: Literal["treble", "alto", "tenor", "bass"]
    up_to: str | None = None
    more_lines: Annotated[float, msgspec.Meta(ge=0, le=4)] = 0.5
    drills_to: str | None = None


class PositionTable(Table):
    """`[position]`."""

    rule: Literal["letters", "table"]
    labels: list[str] | str = []
    fingers: list[int] = []


class ReachTable(Table):
    """`[[hand.reach]]`: pairs and spacings, each with each."""

    pairs: list[tuple[Finger, Finger]]
    spacings: list[str]
    places: tuple[Height, Height]
    stretch: bool
    extends: Literal["back", "forward"] | None = None


class RegionTable(Table):
    """`[[hand.above]]`: the spans from a place of the lowest finger up."""

    place: Height
    ordinary_span: Height
    widest_span: Height


class HandTable(Table):
    """`[hand]`; its spans are those from the nut up."""

    ordinary_span: Height
    widest_span: Height
    reach: list[ReachTable]
    above: list[RegionTable] = []
    drawn_back: Annotated[int, msgspec.Meta(ge=0, le=2)] = 0
    heavy_to: Height = 0
    stretch_tires: bool = False


class InstrumentTable(Table, kw_only=True):
    """The whole file."""

    name: Annotated[str, msgspec.Meta(min_length=1, max_length=60)]
    family: Literal["violin", "viola", "cello", "bass"] | None = None
    strings: list[str]
    sounding: int
    highest_stop: Height
    extension_to: str | None = None
    octave_sign_from: str
    clefs: list[ClefTable]
    sizes: dict[str, Length]
    position: PositionTable
    hand: HandTable
    scordatura: list[str] | None = None
    written: list[str] | None = None


def instrument_keys() -> list[str]:
    """Names of the instruments in the package, in order."""
    return sorted(
        file.name.removesuffix(".toml")
        for file in instrument_folder().iterdir()
        if file.name.endswith(".toml")
    )


def read_instrument(key: str) -> Instrument:
    """Read an instrument of the package by its name.

    Raises:
        BookgenError: there is no such instrument, or its file is damaged.
    """
    if key not in instrument_keys():
        problem = told("no instrument {name}", name=repr(key))
        mend = told("choose {known}", known=", ".join(instrument_keys()))
        raise BookgenError(Finding("--instrument", problem, mend))
    return packaged(key)


@cache
def packaged(key: str) -> Instrument:
    """An instrument of the package, read once.

    Raises:
        BookgenError: its file is damaged.
    """
    file = instrument_folder() / f"{key}.toml"
    return parse_instrument(key, file.read_text(encoding="utf-8"), f"{key}.toml")


def parse_instrument(key: str, text: str, file: str) -> Instrument:
    """Build an instrument from the text of its file.

    file: the name under which the user knows it.

    Raises:
        BookgenError: the text is no TOML, a value has the wrong kind, or makes no instrument.
    """
    table = converted(completed(plain(text, file, MEND), file), file, InstrumentTable, MEND)
    with at(file):
        return tuned(build(key, table, file), table, file)


def completed(values: dict[str, object], file: str) -> dict[str, object]:
    """What a file says, and what it leaves to the instrument of the package that it is like.

    Its tables `position` and `hand` are completed key by key.

    Raises:
        BookgenError: there is no instrument of that name.
    """
    if LIKE not in values:
        return values
    key = values[LIKE]
    if key not in instrument_keys():
        problem = told("no instrument {name}", name=repr(key))
        mend = told("choose {known}", known=", ".join(instrument_keys()))
        raise BookgenError(Finding(within(file, LIKE), problem, mend))
    other = f"{key}.toml"
    text = (instrument_folder() / other).read_text(encoding="utf-8")
    base = completed(plain(text, other, MEND), other)
    own = {name: value for name, value in values.items() if name != LIKE}
    inner = {
        name: {**whole, **part}
        for name in COMPLETED
        for whole, part in [(base.get(name), own.get(name))]
        if isinstance(whole, dict) and isinstance(part, dict)
    }
    return {**base, **own, **inner}


@contextmanager
def at(place: Said) -> Iterator[None]:
    """Add the place in the file to what the model refuses there.

    Raises:
        BookgenError: the model refused the value.
    """
    try:
        yield
    except ValueError as error:
        raise BookgenError(Finding(place, why(error), MEND)) from error


def build(key: str, table: InstrumentTable, file: str) -> Instrument:
    """Turn the table into the model's values; the model refuses what makes no sense."""
    with at(within(file, "strings")):
        strings = tuple(map(Pitch.parse, table.strings))
    with at(within(file, "clefs")):
        clefs = tuple(
            ClefChoice(
                entry.clef,
                None if entry.up_to is None else Pitch.parse(entry.up_to),
                entry.more_lines,
                None if entry.drills_to is None else Pitch.parse(entry.drills_to),
            )
            for entry in table.clefs
        )
    with at(within(file, "octave_sign_from")):
        octave_sign_from = Pitch.parse(table.octave_sign_from)
    with at(within(file, "position")):
        rule = position_rule(table.position)
    with at(within(file, "hand.reach")):
        hand = hand_of(table.hand)
    with at(within(file, "extension_to")):
        extension_to = None if table.extension_to is None else Pitch.parse(table.extension_to)
    return Instrument(
        key=key,
        name=table.name,
        family=table.family,
        strings=strings,
        sounding=Semitones(table.sounding),
        sizes=tuple(Size(name, Millimetres(mm)) for name, mm in table.sizes.items()),
        clefs=clefs,
        octave_sign_from=octave_sign_from,
        highest_stop=Semitones(table.highest_stop),
        position_rule=rule,
        hand=hand,
        extension_to=extension_to,
    )


def tuned(made: Instrument, table: InstrumentTable, file: str) -> Instrument:
    """The instrument with its strings tuned, and its music written, as the table says.

    Raises:
        BookgenError: they are no strings of it.
    """
    if table.scordatura is not None:
        made = with_strings(made, table.scordatura, within(file, "scordatura"))
    if table.written is not None:
        made = with_reading(made, table.written, within(file, "written"))
    return made


def position_rule(table: PositionTable) -> PositionRule:
    """The rule that names places on this instrument.

    Raises:
        RefusedError: there is no table of that name.
    """
    if table.rule == "letters":
        return LetterRule()
    labels = table.labels
    if isinstance(labels, str):
        tables = position_tables()
        if labels not in tables:
            raise RefusedError("position-table", name=labels, tables=[*tables])
        labels = [*tables[labels].labels]
    return TableRule(tuple(labels), tuple(table.fingers))


def hand_of(table: HandTable) -> Hand:
    """What the left hand does on this instrument."""
    return Hand(
        reaches=tuple(reach for entry in table.reach for reach in reaches(entry)),
        spans=tuple(spans(table)),
        drawn_back=Semitones(table.drawn_back),
        heavy_to=Semitones(table.heavy_to),
        stretch_tires=table.stretch_tires,
    )


def spans(table: HandTable) -> Iterator[Span]:
    """How far the hand goes in each region, from the nut up."""
    yield Span(Semitones(table.ordinary_span), Semitones(table.widest_span))
    for one in table.above:
        yield Span(Semitones(one.ordinary_span), Semitones(one.widest_span), Semitones(one.place))


def finger(written: Finger) -> int:
    """A finger as the file writes it."""
    return THUMB if isinstance(written, str) else written


def reaches(entry: ReachTable) -> list[Reach]:
    """Every pair of an entry with every spacing."""
    lowest, highest = entry.places
    return [
        Reach(
            finger(low),
            finger(high),
            Spacing.parse(word),
            Semitones(lowest),
            Semitones(highest),
            entry.stretch,
            None if entry.extends is None else Extension(entry.extends),
        )
        for low, high in entry.pairs
        for word in entry.spacings
    ]


def instrument_folder() -> Traversable:
    """Where the package keeps its instruments."""
    return resources.files("bookgen") / "data" / FOLDER
