"""LilyPond's PDF taken apart: what is drawn on each page, and the type case for all of them."""

import re
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Final

import pikepdf

from bookgen.errors import EngravingError, told
from bookgen.notation.lilypond import defect

RGB_BLACK: Final = re.compile(rb"(?<![^\s])0 0 0 (rg|RG)(?![^\s])")
"""The engraver's black is RGB; print shops want plain black ink (ISO 32000-1, 8.6.4.2)."""

TYPE: Final = re.compile(
    rb"/(?P<font>\S+) \S+ Tf|<(?P<codes>[0-9a-f]+)>|\((?P<text>(?:[^\\()]|\\.)*)\)", re.DOTALL
)
"""What chooses a font, and what is set in it (ISO 32000-1, 9.4)."""

CODES: Final = re.compile(rb"[0-9a-f]{2,4}")
LETTERS: Final = re.compile(rb"\\[0-7]{3}|\\.|.", re.DOTALL)

Sign = tuple[bytes, bytes]
"""The name of a font, and a sign's code in it."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """The pages of one PDF.

    case: a PDF of one empty page with all fonts.
    drawings: what is drawn on each page, deflated, and the height of the page in points.
    pure: they are set in the signs of the type case alone.
    """

    case: bytes
    drawings: tuple[tuple[bytes, float], ...]
    pure: bool


def drawn(file: bytes, *, cased: bool) -> Drawn:
    """Take a PDF apart.

    cased: the first page is the type case, and none of its pages.

    Raises:
        EngravingError: the file is no PDF.
    """
    try:
        pdf = pikepdf.open(BytesIO(file))
    except pikepdf.PdfError as error:
        problem = told("its PDF cannot be read: {why}", why=str(error))
        raise EngravingError(defect(problem)) from error
    with pdf:
        contents = [contents_of(page) for page in pdf.pages]
        heights = [float(page.mediabox[3]) for page in pdf.pages]
        case = case_of(pdf)
    pages = [
        (zlib.compress(RGB_BLACK.sub(gray, one)), height)
        for one, height in zip(contents, heights, strict=True)
    ]
    return Drawn(case, tuple(pages[int(cased) :]), cased and is_pure(contents))


def contents_of(page: pikepdf.Page) -> bytes:
    """The operators that draw a page; none where it is empty."""
    page.contents_coalesce()
    return page.obj["/Contents"].read_bytes() if "/Contents" in page.obj else b""


def resources_of(pdf: pikepdf.Pdf) -> dict[str, dict[str, pikepdf.Object]]:
    """Fonts and all else that drawings speak of, by kind and name: the same on all pages."""
    found: dict[str, dict[str, pikepdf.Object]] = {}
    for page in pdf.pages:
        for kind, named in page.resources.items():
            found.setdefault(kind, {}).update(named.items())
    return found


def case_of(pdf: pikepdf.Pdf) -> bytes:
    """A PDF of one empty page with all that the drawings of another one speak of."""
    out = BytesIO()
    with pikepdf.new() as case:
        page = case.add_blank_page()
        kinds = {
            kind: pikepdf.Dictionary(dict(sorted(named.items())))
            for kind, named in sorted(resources_of(pdf).items())
        }
        with_all = pdf.make_indirect(pikepdf.Dictionary(kinds))
        page.obj["/Resources"] = case.copy_foreign(with_all)
        case.save(out, deterministic_id=True)
    return out.getvalue()


def is_pure(contents: Sequence[bytes]) -> bool:
    """All pages are set in the signs of the first one, which so come first in every such PDF."""
    case, *others = map(signs, contents)
    return set().union(*others) <= case


def signs(content: bytes) -> set[Sign]:
    """The signs that are set on a page, with their fonts."""
    found: set[Sign] = set()
    font = b""
    for match in TYPE.finditer(content):
        font = match["font"] or font
        codes = [*CODES.findall(match["codes"] or b""), *LETTERS.findall(match["text"] or b"")]
        found.update((font, code) for code in codes)
    return found


def gray(found: re.Match[bytes]) -> bytes:
    """The gray operator for an RGB black one."""
    return b"0 g" if found[1] == b"rg" else b"0 G"
