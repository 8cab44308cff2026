"""What is wrong with a value of layout.toml, and what it may be."""

from math import isfinite
from typing import Final

import msgspec
from msgspec.inspect import (
    BoolType,
    FloatType,
    IntType,
    ListType,
    LiteralType,
    StrType,
    StructType,
    Type,
    VarTupleType,
    type_info,
)

from bookgen.errors import Said, told

LONGEST_SHOWN: Final = 40


def fault(value: object, kind: object) -> tuple[Said, Said] | None:
    """What is wrong with a value, and what mends it; None where it can be taken."""
    wrong = isinstance(value, float) and not isfinite(value)
    try:
        msgspec.convert(value, kind)
    except msgspec.ValidationError:
        wrong = True
    if not wrong:
        return None
    shown = str(value)[:LONGEST_SHOWN]
    return told("{value} cannot be taken here", value=shown), wanted(type_info(kind))


def wanted(kind: Type) -> Said:
    """What a value must be."""
    mend = told("give what the ordinary layout gives there")
    match kind:
        case FloatType(ge=least, le=most) | IntType(ge=least, le=most):
            bounds = {"least": f"{least:g}", "most": f"{most:g}"}
            mend = told("give a number from {least} to {most}", **bounds)
        case BoolType():
            mend = told("give true or false")
        case StrType():
            mend = told("give a text in quotes")
        case LiteralType(values=values):
            mend = told("give one of {values}", values=", ".join(map(str, values)))
        case (
            ListType(item_type=LiteralType(values=values))
            | VarTupleType(item_type=LiteralType(values=values))
        ):
            mend = told("give a list of any of {values}", values=", ".join(map(str, values)))
        case StructType():
            mend = told("give a table")
        case _:
            pass
    return mend
