"""What is kept of engraved music, and the key that tells whether it is still the same music."""

from collections.abc import Iterator, Sequence
from functools import cache
from hashlib import sha256
from importlib import resources
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Final
from zlib import ZLIB_RUNTIME_VERSION

import msgspec

from bookgen.model.instrument import Instrument
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import Engraving, Plate
from bookgen.notation.style import Style
from bookgen.plan.passage import Passage
from bookgen.plan.passage_excerpt import Excerpt
from bookgen.plan.passage_facts import changes_of

if TYPE_CHECKING:
    from hashlib import _Hash as Hash

CODE: Final = ("notation", "model", "data/engraving")
"""Folders of what makes music."""

AS_TEXT: Final = msgspec.json.Encoder(enc_hook=str, order="deterministic")


class Kept(msgspec.Struct, frozen=True):
    """An engraved drill.

    text: its music, as it stands in a LilyPond file; case: the key of its type case.
    """

    text: str
    case: str
    plate: Plate


class KeptBars(msgspec.Struct, frozen=True):
    """Engraved bars of a piece, or its hard spots, with a type case of their own.

    sources: the LilyPond texts.
    """

    sources: tuple[str, ...]
    engraving: Engraving


def packed(kept: Kept | KeptBars) -> bytes:
    """What is kept as bytes."""
    return msgspec.msgpack.encode(kept)


def unpacked[K: (Kept, KeptBars)](content: bytes, kind: type[K]) -> K | None:
    """What is kept in these bytes, if it is of that kind."""
    try:
        return msgspec.msgpack.decode(content, type=kind)
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
    common = look_of(instrument, style, lilypond)
    for score, clef in zip(scores, clefs, strict=True):
        own = common.copy()
        facts = [score.events(instrument), round(score.width_mm, 2), score.written, clef]
        own.update(AS_TEXT.encode(facts))
        yield own.hexdigest()


def bars_key(facts: object, instrument: Instrument, style: Style, lilypond: Path) -> str:
    """The key of bars: of what they are written from, their look, and what engraves them.

    Raises:
        OSError: a font file of the style is missing, or LilyPond is.
    """
    key = look_of(instrument, style, lilypond)
    key.update(AS_TEXT.encode(facts))
    return key.hexdigest()


def facts_of(passage: Passage, width_mm: float) -> object:
    """All of a passage that stands on its staff."""
    best = passage.best
    changes = sorted(changes_of(best).items())
    return [passage.phrase, best, changes, passage.spots, round(width_mm, 2)]


def facts_of_excerpts(excerpts: Sequence[tuple[Excerpt, float]]) -> object:
    """All that stands on their staves.

    excerpts: each with the width of its line in millimetres.
    """
    return [
        [one.number, one.phrase, one.fingering, sorted(one.changes.items()), round(width_mm, 2)]
        for one, width_mm in excerpts
    ]


def look_of(instrument: Instrument, style: Style, lilypond: Path) -> "Hash":
    """What all music of a look has in common, to go on from.

    Raises:
        OSError: a font file of the style is missing, or LilyPond is.
    """
    common = sha256(made_by().encode())
    common.update(program(lilypond).encode())
    common.update(AS_TEXT.encode([instrument, style]))
    for file in style.text_files:
        common.update(sha256(Path(file).read_bytes()).digest())
    return common


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
