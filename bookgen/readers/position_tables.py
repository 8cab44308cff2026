"""Published tables of positions, by which a place may be called instead of in the usual way."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from typing import Final

import msgspec

from bookgen.errors import BookgenError, Finding, Said, told
from bookgen.model.instrument import Instrument
from bookgen.model.position import TableRule
from bookgen.readers.data_file import data_text

FILE: Final = "positions.toml"


class NamesTable(msgspec.Struct, forbid_unknown_fields=True):
    """A table of `positions.toml`; labels: of finger 1, from one semitone above the open string."""

    family: str
    labels: tuple[str, ...]


@cache
def position_tables() -> Mapping[str, NamesTable]:
    """Every published table by its name."""
    return msgspec.toml.decode(data_text(FILE), type=dict[str, NamesTable])


def called_by(instrument: Instrument, name: str, place: Said) -> Instrument:
    """The instrument with its positions called by a published table; its key says which.

    Raises:
        BookgenError: there is no such table for an instrument of its family.
    """
    rule, tables = instrument.position_rule, position_tables()
    known = [key for key, table in tables.items() if table.family == instrument.family]
    if not isinstance(rule, TableRule) or name not in known:
        problem = told(
            "no table {name} of positions for the {instrument}",
            name=repr(name),
            instrument=instrument.key,
        )
        mend = told("choose {known}", known=", ".join(known)) if known else told("leave it out")
        raise BookgenError(Finding(place, problem, mend))
    labels = tables[name].labels
    if rule.labels[: len(labels)] == labels:
        return instrument
    more = rule.labels[len(labels) :]
    called = replace(rule, labels=(*labels, *more))
    return replace(instrument, key=f"{instrument.key}_by_{name}", position_rule=called)
