"""Instruments by the name of one in the package, or by the path of a file of one's own."""

import re
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, Said, told, within
from bookgen.model.instrument import Instrument
from bookgen.readers.hands import first_position
from bookgen.readers.instrument import MEND, instrument_keys, parse_instrument, read_instrument
from bookgen.readers.names import named
from bookgen.readers.shown import shown, unknown
from bookgen.readers.variant import variant_in

ENDING: Final = ".toml"
KEY: Final = re.compile(r"[a-z0-9_]+")
"""The names that the key of a drill can hold."""

WORDS_APART: Final = str.maketrans(" -", "__")


def is_file(name: str) -> bool:
    """Whether a name is the path of an instrument file.

    >>> is_file("./mine.toml"), is_file("cello")
    (True, False)
    """
    return name.endswith(ENDING)


def key_of(name: str) -> str | None:
    """The key of an instrument that a user names, or None where the package has none of the name.

    >>> key_of("Double Bass"), key_of("./mine.toml"), key_of("kazoo")
    ('double_bass', 'mine', None)
    >>> key_of("cello G3 D3 G2 C2")
    'cello_g3_d3_g2_c2'
    """
    if is_file(name):
        return Path(name).stem
    variant = variant_in(name)
    if variant is not None:
        base = key_of(variant.base)
        return base and variant.key(base)
    return named(name.strip().translate(WORDS_APART), instrument_keys())


def instrument_at(name: str, folder: Path, place: Said) -> Instrument:
    """The instrument that a user names, by its key or by the path of a file.

    A file that lies in the folder goes by its key too. Behind the name may stand what is
    otherwise: the notes of the strings from I, or `by` and a table of positions.

    folder: to which the path is relative. place: where the name was given.

    Raises:
        BookgenError: there is none of that name, or its file is damaged.
    """
    if is_file(name):
        return read_own(name, folder, place)
    key, file = key_of(name), f"{name}{ENDING}"
    if key is None and KEY.fullmatch(name) and (folder / file).is_file():
        return read_own(file, folder, place)
    variant = variant_in(name)
    if variant is not None:
        return variant.make(instrument_at(variant.base, folder, place), place)
    if key is None:
        problem = told("no instrument {name}", name=shown(name))
        raise BookgenError(unknown(place, problem, name, tuple(instrument_keys())))
    return read_instrument(key)


def read_own(name: str, folder: Path, place: Said) -> Instrument:
    """The instrument of a file of one's own; its key is the file's name without the ending.

    Raises:
        BookgenError: the file cannot be read or is damaged, or its name cannot be a key.
    """
    key = Path(name).stem
    if KEY.fullmatch(key) is None:
        problem = told("{name} cannot stand in the key of a drill", name=repr(key))
        mend = told("name the file with small letters from a to z, digits and _")
        raise BookgenError(Finding(place, problem, mend))
    if key in instrument_keys():
        problem = told("bookgen has a {name} of its own", name=key)
        raise BookgenError(Finding(place, problem, told("give the file another name")))
    try:
        text = (folder / name).read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        reason = error.strerror if isinstance(error, OSError) else error
        problem = told("{name} cannot be read ({reason})", name=name, reason=reason)
        mend = told("give the path of an instrument file, a text in UTF-8")
        raise BookgenError(Finding(place, problem, mend)) from error
    instrument = parse_instrument(key, text, name)
    if first_position(instrument) is None:
        problem = told("no two fingers take a half or a whole step without a stretch")
        raise BookgenError(Finding(within(name, "hand.reach"), problem, MEND))
    if not instrument.name.isprintable():
        problem = told("it holds characters that cannot be printed")
        raise BookgenError(Finding(within(name, "name"), problem, told("take them out")))
    return instrument
