"""The bytes of a passage's file, never more of them than a reader can take."""

import zipfile
from io import BytesIO
from pathlib import Path
from struct import Struct
from typing import Final
from zlib import error as ZlibError  # noqa: N812

from bookgen.errors import BookgenError, Finding, told
from bookgen.readers.score.tree import tree_of
from bookgen.readers.shown import plain

MOST_BYTES: Final = 32 * 2**20
"""Of MusicXML as text; a quartet of five movements has ten million."""

MOST_PACKED: Final = 8 * 2**20
MOST_DIRECTORY: Final = 32 * 2**10
"""Bytes of an archive's list of members: some hundreds of them."""

ARCHIVE: Final = b"PK"
END: Final = Struct("<4s4H2LH")
"""End of central directory record (APPNOTE.TXT, 4.3.16); entry 5 is the list's size."""

CONTAINER: Final = "META-INF/container.xml"
METHODS: Final = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
ENCRYPTED: Final = 1
UNPACK: Final = told("save it anew from the notation program, as .musicxml without compression")


def shown_name(path: Path) -> str:
    """The file's name as it can stand in a line."""
    return plain(path.name)


def file_bytes(path: Path, most: int = MOST_BYTES) -> bytes:
    """The whole of an ordinary file.

    Raises:
        BookgenError: there is no such file, it is a pipe or a device that may never end, or it
            is too large.
    """
    name = shown_name(path)
    try:
        if not path.is_file():
            ordinary, such = told("this is no ordinary file"), told("there is no such file")
            what = ordinary if path.exists() else such
            raise BookgenError(Finding(name, what, told("give the path of a saved file")))
        with path.open("rb") as stream:
            data = stream.read(most + 1)
    except (OSError, ValueError) as error:
        problem = told("the file cannot be read ({why})", why=type(error).__name__)
        raise BookgenError(Finding(name, problem, told("look at the path"))) from error
    if len(data) > most:
        mend = told("save only the part and the bars that you need")
        problem = told("the file has more than {size}", size=size(most))
        raise BookgenError(Finding(name, problem, mend))
    return data


def size(count: int) -> str:
    """Bytes as a reader says them."""
    return f"{count // 2**20} MiB" if count >= 2**20 else f"{count // 2**10} KiB"


def score_text(data: bytes, file: str) -> bytes:
    """The MusicXML text of a file, also where it is packed (.mxl).

    file: the name under which the user knows it.

    Raises:
        BookgenError: the archive is damaged, holds no score, or would unpack to too much.

    Source: MusicXML 4.0, compressed .MXL files.
    """
    if not data.startswith(ARCHIVE):
        return data
    if len(data) > MOST_PACKED:
        problem = told("the archive has more than {size}", size=size(MOST_PACKED))
        raise BookgenError(Finding(file, problem, UNPACK))
    if directory_size(data) > MOST_DIRECTORY:
        raise BookgenError(Finding(file, told("the archive has too many members"), UNPACK))
    try:
        with zipfile.ZipFile(BytesIO(data)) as archive:
            root = root_file(unpacked(archive, CONTAINER, file), file)
            return unpacked(archive, root, file)
    except (zipfile.BadZipFile, ZlibError, EOFError, OSError, ValueError, RuntimeError) as error:
        problem = told("the archive is damaged ({why})", why=str(error))
        raise BookgenError(Finding(file, problem, UNPACK)) from error


def directory_size(data: bytes) -> int:
    """How many bytes an archive says that its list of members has; 0 where it has no end."""
    at = data.rfind(b"PK\x05\x06")
    if at < 0 or at + END.size > len(data):
        return 0
    return int(END.unpack_from(data, at)[5])


def unpacked(archive: zipfile.ZipFile, member: str, file: str) -> bytes:
    """One member of an archive, never more of it than a score may have.

    Raises:
        BookgenError: there is no such member, or it is locked, packed in an unknown way or
            too large.
    """
    try:
        info = archive.getinfo(member)
    except KeyError as error:
        problem = told("the archive holds no {member}", member=plain(member))
        raise BookgenError(Finding(file, problem, UNPACK)) from error
    if info.flag_bits & ENCRYPTED or info.compress_type not in METHODS:
        problem = told(
            "{member} in the archive is locked or packed in an unknown way", member=plain(member)
        )
        raise BookgenError(Finding(file, problem, UNPACK))
    with archive.open(info) as stream:
        data = stream.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        problem = told(
            "{member} in the archive unpacks to more than {size}",
            member=plain(member),
            size=size(MOST_BYTES),
        )
        raise BookgenError(Finding(file, problem, UNPACK))
    return data


def root_file(container: bytes, file: str) -> str:
    """The member that the container names as the score: the first of its root files.

    Raises:
        BookgenError: the container is no XML, or names none.
    """
    tree = tree_of(container, f"{file}, {CONTAINER}", kept={"container", "rootfiles", "rootfile"})
    names = (entry.get("full-path") for entry in tree.iter("rootfile"))
    for name in names:
        if name:
            return name
    raise BookgenError(Finding(f"{file}, {CONTAINER}", told("it names no score"), UNPACK))
