"""What is kept of an engraved drill, and the key that tells whether it is still the same music."""

from collections.abc import Iterator, Sequence
from functools import cache
from hashlib import sha256
from importlib import resources
from importlib.util import find_spec
from pathlib import Path
from typing import Final
from zlib import ZLIB_RUNTIME_VERSION

import msgspec

from bookgen.model.instrument import Instrument
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import Plate
from bookgen.notation.style import Style

CODE: Final = ("notation", "model", "data/engraving")
"""Folders of what makes music of a drill."""

AS_TEXT: Final = msgspec.json.Encoder(enc_hook=str, order="deterministic")


class Kept(msgspec.Struct, frozen=True):
    """An engraved drill.

    text: its music, as it stands in a LilyPond file; case: the key of its type case.
    """

    text: str
    case: str
    plate: Plate


def packed(kept: Kept) -> bytes:
    """The drill as bytes."""
    return msgspec.msgpack.encode(kept)


def unpacked(content: bytes) -> Kept | None:
    """The drill of these bytes, if they are one."""
    try:
        return msgspec.msgpack.decode(content, type=Kept)
    except msgspec.DecodeError:
        return None


def case_key(case: bytes) -> str:
    """The key of a type case: it is told by its content alone."""
    return sha256(case).hexdigest()


def drill_keys(
    scores: Sequence[DrillScore],
    clefs: Sequence[str],
    instrument: Instrument,
    style: Style,
    lilypond: Path,
) -> Iterator[str]:
    """The key of each drill: of its music, its width, its look, and of what engraves it.

    Raises:
        OSError: a font file of the style is missing, or LilyPond is.
    """
    common = sha256(made_by().encode())
    common.update(program(lilypond).encode())
    common.update(AS_TEXT.encode([instrument, style]))
    for file in style.text_files:
        common.update(sha256(Path(file).read_bytes()).digest())
    for score, clef in zip(scores, clefs, strict=True):
        own = common.copy()
        facts = [score.events(instrument), round(score.width_mm, 2), score.written, clef]
        own.update(AS_TEXT.encode(facts))
        yield own.hexdigest()


def program(file: Path) -> str:
    """Which program or library it is: another version has another file, and need not be asked.

    Raises:
        OSError: there is none.
    """
    facts = file.resolve().stat()
    return f"{file.resolve()} {facts.st_size} {facts.st_mtime_ns}"


def library(name: str) -> str:
    """Which version of a library is installed; its own metadata would take longer to read.

    Raises:
        OSError: it has no file.
    """
    found = find_spec(name)
    return program(Path((found and found.origin) or name))


@cache
def made_by() -> str:
    """What of bookgen and of the libraries below it makes plates of drills, as one number."""
    libraries = library("abjad"), library("pikepdf"), ZLIB_RUNTIME_VERSION
    code = sha256(" ".join(libraries).encode())
    for folder in CODE:
        files = (resources.files("bookgen") / folder).iterdir()
        for file in sorted(files, key=lambda file: file.name):
            if file.is_file():
                code.update(sha256(file.read_bytes()).digest())
    return code.hexdigest()
