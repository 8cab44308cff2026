"""A data file: its text as a table, or a finding that names the place."""

import re
from importlib import resources
from typing import Final

import msgspec

from bookgen.errors import BookgenError, Finding, Message, Said, told, within

MEND: Final = told("mend the file; its comments explain every value")

LACKS: Final = re.compile(r"Object missing required field (`.*`)")
EXTRA: Final = re.compile(r"Object contains unknown field (`.*`)")


def data_text(name: str) -> str:
    """The text of a file of the package's data."""
    return (resources.files("bookgen") / "data" / name).read_text(encoding="utf-8")


def decoded[Table: msgspec.Struct](
    text: str, file: str, kind: type[Table], mend: Message = MEND
) -> Table:
    """The text of a data file as a table.

    file: the name under which the user knows it.

    Raises:
        BookgenError: the text is no TOML, a value is missing, unknown or out of bounds.
    """
    return converted(plain(text, file, mend), file, kind, mend)


def plain(text: str, file: str, mend: Message = MEND) -> dict[str, object]:
    """The text of a data file as it stands.

    Raises:
        BookgenError: the text is no TOML.
    """
    try:
        return msgspec.toml.decode(text, type=dict[str, object])
    except (msgspec.DecodeError, RecursionError) as error:
        raise BookgenError(Finding(file, str(error), mend)) from error


def converted[Table: msgspec.Struct](
    values: dict[str, object], file: str, kind: type[Table], mend: Message = MEND
) -> Table:
    """The values of a data file as a table.

    Raises:
        BookgenError: a value is missing, unknown or out of bounds.
    """
    try:
        return msgspec.convert(values, kind, str_keys=True)
    except msgspec.ValidationError as error:
        problem, _, path = str(error).partition(" - at ")
        place = within(file, path_words(path)) if path else file
        raise BookgenError(Finding(place, problem_words(problem), mend)) from error


def path_words(path: str) -> Said:
    """Where in the file a value stands, from the decoder's path to it."""
    plain = path.replace("`", "").replace("$.", "")
    key = plain.removeprefix("key in ")
    return plain if key == plain else told("a key of {table}", table=key)


def problem_words(problem: str) -> Said:
    """What is wrong with a value, from what the decoder says."""
    if lacks := LACKS.fullmatch(problem):
        return told("it lacks the value {name}", name=lacks[1])
    if extra := EXTRA.fullmatch(problem):
        return told("it knows no value {name}", name=extra[1])
    return problem
