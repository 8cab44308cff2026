"""A data file of the package: its text as a table, or a finding that names the place."""

from importlib import resources
from typing import Final

import msgspec

from bookgen.errors import BookgenError, Finding

MEND: Final = "mend the file; its comments explain every value"


def data_text(name: str) -> str:
    """The text of a file of the package's data."""
    return (resources.files("bookgen") / "data" / name).read_text(encoding="utf-8")


def decoded[Table: msgspec.Struct](text: str, file: str, kind: type[Table]) -> Table:
    """The text of a data file as a table.

    file: the name under which the user knows it.

    Raises:
        BookgenError: the text is no TOML, a value is missing, unknown or out of bounds.
    """
    try:
        return msgspec.toml.decode(text, type=kind)
    except msgspec.DecodeError as error:
        raise BookgenError(finding(file, str(error))) from error


def finding(file: str, message: str) -> Finding:
    """One line from what the decoder says: it names the place as a path behind the problem."""
    problem, _, path = message.partition(" - at ")
    place = path.replace("`", "").replace("key in", "a key of").replace("$.", "")
    plain = problem.replace("Object missing required field", "it lacks the value")
    plain = plain.replace("Object contains unknown field", "it knows no value")
    return Finding(f"{file}, {place}" if place else file, plain, MEND)
