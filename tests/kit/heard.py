"""A tagged PDF read back as it is heard: its structure, with the words that are marked in it."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO
from typing import Final

import pikepdf

BLOCK: Final = re.compile(r"begin(bfchar|bfrange)(.*?)endbf", re.DOTALL)
CODES: Final = re.compile(r"<([0-9A-Fa-f]*)>")
Letters = dict[int, str]
Marks = dict[tuple[int, int], str]
"""By a page, from 0, and the number of a mark on it: the words under the mark."""


@dataclass
class Heard:
    """Something that is read, from the file.

    role: its structure type; page: of its first mark; link: the page to which it leads.
    """

    role: str
    title: str = ""
    alt: str = ""
    own: str = ""
    page: int | None = None
    link: int | None = None
    kids: list["Heard"] = field(default_factory=list)

    @property
    def text(self) -> str:
        """All its words; what is drawn of a figure is not heard."""
        if self.role == "Figure":
            return self.alt
        return " ".join(filter(None, [self.own, *(kid.text for kid in self.kids)]))

    def every(self, *roles: str) -> Iterator["Heard"]:
        """It and all that is read in it, of these roles or of all."""
        if not roles or self.role in roles:
            yield self
        for kid in self.kids:
            yield from kid.every(*roles)


def heard(pdf: bytes) -> Heard:
    """The whole book."""
    with pikepdf.open(BytesIO(pdf)) as book:
        pages = {page.obj.objgen: at for at, page in enumerate(book.pages)}
        return heard_in(book.Root.StructTreeRoot.K, words_of(book), pages)


def heard_in(element: pikepdf.Object, words: Marks, pages: dict[tuple[int, int], int]) -> Heard:
    """An element with all that is read in it."""
    found = Heard(
        str(element.S)[1:], title=str(element.get("/T", "")), alt=str(element.get("/Alt", ""))
    )
    for kid in element.get("/K", []):
        match str(kid.get("/Type")):
            case "/MCR":
                page = pages[kid.Pg.objgen]
                found.page = page if found.page is None else found.page
                found.own += words.get((page, int(kid.MCID)), "")
            case "/OBJR":
                found.link = pages[kid.Obj.Dest[0].objgen]
            case _:
                found.kids.append(heard_in(kid, words, pages))
    return found


def words_of(book: pikepdf.Pdf) -> Marks:
    """The words under each mark of each page."""
    found: Marks = {}
    for at, page in enumerate(book.pages):
        fonts = {name: letters_of(font) for name, font in fonts_of(page).items()}
        under: list[int | None] = []
        letters: Letters = {}
        for operator, operands in steps(page):
            match operator:
                case "BDC":
                    under.append(mark_of(operands[1]))
                case "EMC":
                    under.pop()
                case "Tf":
                    letters = fonts[str(operands[0])]
                case "Tj" if under and under[-1] is not None:
                    said = "".join(letters[code] for code in bytes(operands[0]))
                    key = at, under[-1]
                    found[key] = found.get(key, "") + said
                case _:
                    pass
    return found


def steps(page: pikepdf.Page) -> Iterator[tuple[str, list[pikepdf.Object]]]:
    """What a page draws."""
    for step in pikepdf.parse_content_stream(page):
        yield str(step.operator), list(step.operands)


def fonts_of(page: pikepdf.Page) -> dict[str, pikepdf.Object]:
    """The fonts of a page by their names there."""
    return dict(page.resources.get("/Font", pikepdf.Dictionary()).items())


def mark_of(properties: pikepdf.Object) -> int | None:
    """The number of a mark; None of an artifact."""
    return int(properties["/MCID"]) if "/MCID" in properties else None


def letters_of(font: pikepdf.Object) -> Letters:
    """The letters of a font by their codes, as its own table says (ISO 32000-1, 9.10.3)."""
    found: Letters = {}
    if "/ToUnicode" not in font:
        return found
    table = font["/ToUnicode"].read_bytes().decode("latin-1")
    for kind, rows in BLOCK.findall(table):
        for row in rows.splitlines():
            codes = CODES.findall(row)
            if not codes:
                continue
            if kind == "bfchar":
                found[int(codes[0], 16)] = letter(codes[1])
                continue
            low, high = (int(code, 16) for code in codes[:2])
            for at, code in enumerate(range(low, high + 1)):
                listed = "[" in row
                found[code] = letter(codes[2 + at]) if listed else chr(int(codes[2], 16) + at)
    return found


def letter(code: str) -> str:
    """A letter by its code in hexadecimal figures."""
    return bytes.fromhex(code).decode("utf-16-be")
