"""A book for the screen keeps each rule of PDF/UA-1; each rule finds what breaks it."""

from collections.abc import Mapping
from io import BytesIO
from typing import Final

import pikepdf
import pytest
from kit.pdf_breaks import Break, with_, without
from kit.pdfua import RULES, elements, findings
from kit.supplements import KINDS, LANGUAGES, a_supplement

MATTERHORN: Final = "Matterhorn Protocol 1.1 (ISO 14289-1), from memory"
BOOKS: Final = [f"violin-{language}-student" for language in LANGUAGES]
BOOKS.extend(f"cello-en-{kind}" for kind in KINDS)
SOUND: Final = "violin-en-teacher"


@pytest.mark.published(MATTERHORN)
@pytest.mark.parametrize("name", BOOKS)
def test_a_book_in_each_language_and_edition_keeps_every_rule(name: str) -> None:
    with pikepdf.open(BytesIO(a_supplement(name))) as made:
        assert findings(made) == {}


@pytest.mark.published("ISO 14289-1 (PDF/UA-1), by page-validation")
@pytest.mark.parametrize("name", BOOKS)
def test_a_validator_of_others_finds_nothing(name: str) -> None:
    page = pytest.importorskip("page", reason="page-validation is in the extra dev")
    report = page.validate_pdf_bytes(a_supplement(name), profile="ua1")

    assert [(one.rule_id, one.message) for one in report.failures] == []
    assert report.rules.total > 100


@pytest.mark.published("qpdf, syntax of PDF")
def test_qpdf_finds_nothing() -> None:
    with pikepdf.open(BytesIO(a_supplement(SOUND))) as made:
        assert made.check_pdf_syntax() == []


def first(book: pikepdf.Pdf, role: str) -> pikepdf.Object:
    """The first element of a role."""
    return next(one for found, one, _ in elements(book) if found == role)


def last(book: pikepdf.Pdf, role: str) -> pikepdf.Object:
    """The last one."""
    return [one for found, one, _ in elements(book) if found == role][-1]


def drawn(steps: bytes) -> Break:
    """Draw something more on the second page that has words."""
    return lambda book: book.pages[4].contents_add(steps)


def called(role: str, other: str) -> Break:
    """Call the first element of a role by another one."""
    return with_(lambda book: first(book, role), "/S", pikepdf.Name(f"/{other}"))


def how_to_use(book: pikepdf.Pdf) -> pikepdf.Object:
    """The head of the part that has heads of its own."""
    return next(one.K[0] for _, one, _ in elements(book) if one.get("/T") == "How to use this book")


def root(book: pikepdf.Pdf) -> pikepdf.Object:
    return book.Root


def tree(book: pikepdf.Pdf) -> pikepdf.Object:
    return book.Root.StructTreeRoot


def a_link(book: pikepdf.Pdf) -> pikepdf.Object:
    return book.pages[4].obj.Annots[0]


def a_font(book: pikepdf.Pdf) -> pikepdf.Object:
    return next(
        thing
        for thing in book.objects
        if isinstance(thing, pikepdf.Dictionary) and "/FontDescriptor" in thing
    )


def said(old: bytes, new: bytes) -> Break:
    """Write something else into the XMP."""

    def put(book: pikepdf.Pdf) -> None:
        packet = book.Root.Metadata
        packet.write(packet.read_bytes().replace(old, new))

    return put


def stands_for(code: bytes) -> Break:
    """Let a sign of a font stand for a letter."""

    def put(book: pikepdf.Pdf) -> None:
        table = a_font(book).ToUnicode
        more = b"1 beginbfchar\n<ff> " + code + b"\nendbfchar\nendcmap"
        table.write(table.read_bytes().replace(b"endcmap", more))

    return put


def in_a_form(book: pikepdf.Pdf) -> None:
    form = next(
        thing
        for thing in book.objects
        if isinstance(thing, pikepdf.Stream) and thing.get("/Subtype") == "/Form"
    )
    form.write(b"/P <</MCID 0>> BDC EMC")


def two_for_a_mark(book: pikepdf.Pdf) -> None:
    first(book, "H2")["/K"].append(first(book, "H1").K[0])


BREAKS: Final[Mapping[str, tuple[str, Break]]] = {
    "a rule within words": (
        "01-003 artifact in content",
        drawn(b"/P <</MCID 0>> BDC /Artifact <</Type /Layout>> BDC EMC EMC"),
    ),
    "words within a rule": (
        "01-004 content in artifact",
        drawn(b"/Artifact <</Type /Layout>> BDC /P <</MCID 0>> BDC EMC EMC"),
    ),
    "a line of nothing": ("01-005 neither", drawn(b"0 0 m 9 9 l S")),
    "suspects": (
        "01-007 suspects",
        with_(lambda book: book.Root.MarkInfo, "/Suspects", value=True),
    ),
    "a type of one's own": ("02-001 unknown type", called("P", "Verse")),
    "a paragraph is a head": (
        "02-004 standard type mapped",
        with_(tree, "/RoleMap", pikepdf.Dictionary(P=pikepdf.Name.H1)),
    ),
    "no XMP": ("06-001 no packet", without(root, "/Metadata")),
    "another part": (
        "06-002 no identifier",
        said(b"<pdfuaid:part>1", b"<pdfuaid:part>2"),
    ),
    "another title": ("06-003 no title", said(b"Close Fingers", b"Open Fingers")),
    "a window without title": ("07-002 window", without(root, "/ViewerPreferences")),
    "a row of its own": ("09-004 table", called("Table", "Sect")),
    "a paragraph in a list": ("09-005 list", called("LI", "P")),
    "a paragraph in the contents": ("09-006 contents", called("TOCI", "P")),
    "no language": ("11-001 language", without(root, "/Lang")),
    "a figure without words": (
        "13-004 figure",
        without(lambda book: first(book, "Figure"), "/Alt"),
    ),
    "a second head first": ("14-002 first head", called("H1", "H2")),
    "a level left out": ("14-003 skipped level", called("H2", "H4")),
    "a head without level": ("14-007 mixed heads", called("H2", "H")),
    "a column without scope": (
        "15-003 head of a column",
        without(lambda book: first(book, "TH"), "/A"),
    ),
    "tabs as they come": ("28-009 tabs", without(lambda book: book.pages[4].obj, "/Tabs")),
    "a link outside of the tree": ("28-011 link", without(a_link, "/StructParent")),
    "a link without words": ("28-012 words of a link", without(a_link, "/Contents")),
    "marks in a form": ("30-002 marks in a form", in_a_form),
    "no face": ("31-009 embedded", without(a_font, "/FontDescriptor")),
    "no letters": ("31-027 letters", without(a_font, "/ToUnicode")),
    "a sign for nothing": ("31-028 no letter", stands_for(b"<0000>")),
    "a sign for a mark of bytes": ("31-029 no sign", stands_for(b"<FEFF>")),
    "not marked": ("6.2 marked", without(root, "/MarkInfo")),
    "a mark of two": ("house: parents", two_for_a_mark),
    "a loose paragraph": ("house: loose", called("P", "Loose")),
    "a figure off the page": (
        "house: place of figures",
        with_(lambda book: last(book, "Figure").A, "/BBox", pikepdf.Array([0, 0, 9000, 9])),
    ),
    "words before a head": (
        "house: heads of sections",
        with_(how_to_use, "/S", pikepdf.Name.P),
    ),
}
"""What is done to a sound file, and the rule that is to find it."""


@pytest.mark.published(MATTERHORN)
@pytest.mark.parametrize(("rule", "break_it"), BREAKS.values(), ids=BREAKS.keys())
def test_a_broken_rule_is_found(rule: str, break_it: Break) -> None:
    with pikepdf.open(BytesIO(a_supplement(SOUND))) as made:
        break_it(made)
        assert [*RULES[rule](made)]


@pytest.mark.published(MATTERHORN)
def test_a_locked_file_is_found() -> None:
    out = BytesIO()
    with pikepdf.open(BytesIO(a_supplement(SOUND))) as made:
        allow = pikepdf.Permissions(accessibility=False)
        made.save(
            out,
            encryption=pikepdf.Encryption(
                owner="Theo", R=3, aes=False, metadata=False, allow=allow
            ),
        )
    with pikepdf.open(out) as again:
        assert "26-002 locked" in findings(again)


def test_every_rule_is_broken_once() -> None:
    assert {rule for rule, _ in BREAKS.values()} | {"26-002 locked"} == set(RULES)
