"""A book for the press keeps each rule of PDF/X-4; each rule finds what breaks it."""

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from functools import cache
from io import BytesIO
from typing import Final
from zlib import compress

import pikepdf
import pytest
from kit.books import BOOKS, a_sheet
from kit.pdf_breaks import Break, with_, without
from kit.pdfx import RULES, findings
from kit.shorthand import VIOLIN
from pikepdf import pdfa

from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.prepress.for_press import for_press
from bookgen.binder.prepress.gray_profile import gray_profile
from bookgen.binder.prepress.icc import Profile
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

MOMENT: Final = datetime(2026, 12, 1, 8, 30, tzinfo=UTC)
SUMMARIES: Final = "ISO 15930-7:2010 (PDF/X-4), as public summaries tell it"


@cache
def pressed(book: Callable[[Desk, str], bytes] = a_sheet) -> bytes:
    desk = desk_of(VIOLIN, "4/4", read_layout("ordinary"), "a4", ENGLISH, "Harbour Lane Strings")
    return for_press(book(desk, "Jo"), Profile(gray_profile()), MOMENT)


@pytest.mark.published(SUMMARIES)
@pytest.mark.parametrize("book", BOOKS)
def test_a_book_of_each_kind_keeps_every_rule(book: Callable[[Desk, str], bytes]) -> None:
    with pikepdf.open(BytesIO(pressed(book))) as made:
        assert findings(made) == {}


@pytest.mark.published("qpdf, syntax of PDF")
def test_qpdf_finds_nothing() -> None:
    with pikepdf.open(BytesIO(pressed())) as made:
        assert made.check_pdf_syntax() == []


AS_X_DIFFERS_FROM_A: Final = {
    "pikepdf:schema-OutputIntent": "only GTS_PDFA1 output intents",
    "ISO_19005_2:6.2.4.3-4": "DeviceGray used without a PDF/A OutputIntent",
    "ISO_19005_2:6.6.2.3.1-1": "XMP",
    "ISO_19005_2:6.6.4-1": "no PDF/A identification",
}
"""What PDF/X-4 asks for and PDF/A-2b does not have, by the rules that then complain."""


@pytest.mark.published("ISO 19005-2 (PDF/A-2b), by pikepdf's validator")
def test_fonts_streams_and_structure_are_those_of_an_archive() -> None:
    with pikepdf.open(BytesIO(pressed())) as made:
        found = pdfa.check(made, "2b").findings

    assert {one.rule for one in found} == set(AS_X_DIFFERS_FROM_A)
    assert all(AS_X_DIFFERS_FROM_A[one.rule] in one.message for one in found), found
    xmp = {one.message for one in found if one.rule == "ISO_19005_2:6.6.2.3.1-1"}
    assert all("pdfxid" in message or "pdf:Trapped" in message for message in xmp), xmp


def test_the_same_pages_and_moment_give_the_same_bytes() -> None:
    first = pressed()
    pressed.cache_clear()

    assert pressed() == first


def draw(book: pikepdf.Pdf, *steps: str) -> None:
    """Draw something more on the second page."""
    book.pages[1].contents_add("\n".join(("q", *steps, "Q")).encode())


def state(book: pikepdf.Pdf, **values: float | pikepdf.Object) -> None:
    """A graphics state for the second page."""
    book.pages[1].resources["/ExtGState"] = pikepdf.Dictionary(
        More=pikepdf.Dictionary({f"/{key}": one for key, one in values.items()})
    )


def a_font(book: pikepdf.Pdf) -> pikepdf.Object:
    """A font that stands for all."""
    return next(
        thing
        for thing in book.objects
        if isinstance(thing, pikepdf.Dictionary) and "/FontDescriptor" in thing
    )


def in_packet(book: pikepdf.Pdf, old: bytes, new: bytes) -> None:
    """Write something else into the XMP."""
    book.Root.Metadata.write(book.Root.Metadata.read_bytes().replace(old, new))


def of_a_screen(book: pikepdf.Pdf) -> None:
    stream = book.Root.OutputIntents[0].DestOutputProfile
    stream.write(stream.read_bytes().replace(b"prtr", b"mntr"))


def with_a_picture(book: pikepdf.Pdf) -> None:
    picture = pikepdf.Stream(book, b"\0", Type=pikepdf.Name.XObject, Subtype=pikepdf.Name.Image)
    picture.Width = picture.Height = 1
    picture.ColorSpace, picture.BitsPerComponent = pikepdf.Name.DeviceGray, 8
    book.pages[1].add_resource(picture, pikepdf.Name.XObject)


def with_a_note(book: pikepdf.Pdf) -> None:
    note = pikepdf.Dictionary(Type=pikepdf.Name.Annot, Subtype=pikepdf.Name.Text)
    note.Rect = pikepdf.Array([100, 100, 120, 120])
    book.pages[1].obj["/Annots"] = pikepdf.Array([note])


def with_a_script(book: pikepdf.Pdf) -> None:
    script = pikepdf.Dictionary(S=pikepdf.Name.JavaScript, JS=pikepdf.String("1"))
    book.Root["/OpenAction"] = script


def packed(book: pikepdf.Pdf) -> None:
    data = compress(book.Root.Metadata.read_bytes())
    book.Root.Metadata.write(data, filter=pikepdf.Name.FlateDecode)


def page(book: pikepdf.Pdf) -> pikepdf.Object:
    return book.pages[1].obj


def intent(book: pikepdf.Pdf) -> pikepdf.Object:
    return book.Root.OutputIntents[0]


def info(book: pikepdf.Pdf) -> pikepdf.Object:
    return book.docinfo


def smaller(book: pikepdf.Pdf) -> None:
    page(book)["/TrimBox"] = pikepdf.Array([100, 100, 400, 500])
    page(book)["/BleedBox"] = pikepdf.Array([90, 90, 410, 510])


BREAKS: Final[Mapping[str, tuple[str, Break]]] = {
    "no trailer id": ("identity", without(lambda book: book.trailer, "/ID")),
    "no name of the standard": ("standard", lambda book: in_packet(book, b"PDF/X-4", b"PDF/X-3")),
    "the standard in Info": (
        "standard",
        with_(info, "/GTS_PDFXVersion", pikepdf.String("PDF/X-4")),
    ),
    "no XMP": ("packet", without(lambda book: book.Root, "/Metadata")),
    "a packed XMP": ("packet", packed),
    "no document id": ("packet", lambda book: in_packet(book, b"DocumentID", b"Document")),
    "another title": ("agreement", with_(info, "/Title", pikepdf.String("Theo"))),
    "another date": ("agreement", with_(info, "/ModDate", pikepdf.String("D:20260101000000Z"))),
    "trapping not said": ("trapping", without(info, "/Trapped")),
    "trapping unknown": ("trapping", with_(info, "/Trapped", pikepdf.Name.Unknown)),
    "no press": ("one press", without(lambda book: book.Root, "/OutputIntents")),
    "two presses": ("one press", lambda book: book.Root.OutputIntents.append(intent(book))),
    "no condition": ("one press", without(intent, "/OutputConditionIdentifier")),
    "no words of the press": ("one press", without(intent, "/Info")),
    "no profile": ("profile", without(intent, "/DestOutputProfile")),
    "a monitor's profile": ("profile", of_a_screen),
    "four inks said": ("profile", with_(lambda book: intent(book).DestOutputProfile, "/N", 4)),
    "no trim": ("boxes", without(page, "/TrimBox")),
    "trim and art": ("boxes", with_(page, "/ArtBox", pikepdf.Array([60, 60, 100, 100]))),
    "bleed inside": ("boxes", with_(page, "/BleedBox", pikepdf.Array([60, 60, 100, 100]))),
    "crop inside": ("boxes", with_(page, "/CropBox", pikepdf.Array([60, 60, 100, 100]))),
    "a transition": ("activity", with_(page, "/Trans", pikepdf.Dictionary())),
    "a note": ("activity", with_a_note),
    "a script": ("activity", with_a_script),
    "red": ("colour", lambda book: draw(book, "1 0 0 rg", "9 9 9 9 re f")),
    "four inks": ("colour", lambda book: draw(book, "0 0 0 1 K", "9 9 m 9 20 l S")),
    "a colour space": (
        "colour",
        with_(page, "/Group", pikepdf.Dictionary(CS=pikepdf.Name.DeviceRGB)),
    ),
    "a transfer function": ("halftones", lambda book: state(book, TR=pikepdf.Name.Identity)),
    "a halftone": ("halftones", lambda book: state(book, HTP=pikepdf.Array([0, 0]))),
    "no face": ("faces", without(a_font, "/FontDescriptor")),
    "an outside file": (
        "streams",
        with_(lambda book: book.Root.Metadata, "/F", pikepdf.String("a")),
    ),
    "an unknown operator": ("operators", lambda book: draw(book, "1 zz")),
    "no bleed": ("house: one trim", without(page, "/BleedBox")),
    "a smaller page": ("house: one trim", smaller),
    "a picture": ("house: black alone", with_a_picture),
    "blue": ("house: black alone", lambda book: draw(book, "0 0 1 RG", "9 9 m 9 20 l S")),
    "a screened line": ("house: solid lines", lambda book: draw(book, ".6 G", "9 9 m 9 20 l S")),
    "a screened word": ("house: solid lines", lambda book: draw(book, ".6 g")),
    "a hairline": ("house: solid lines", lambda book: draw(book, "0 w", "9 9 m 9 20 l S")),
    "a veil": ("house: opacity", lambda book: state(book, ca=0.5)),
    "a blend": ("house: opacity", lambda book: state(book, BM=pikepdf.Name.Multiply)),
    "overprint": ("house: knockout", lambda book: state(book, OP=True)),
    "a whole face": ("house: subsets", with_(a_font, "/BaseFont", pikepdf.Name("/Serif"))),
}
"""What is done to a sound file, and the rule that is to find it."""


@pytest.mark.published(SUMMARIES)
@pytest.mark.parametrize(("rule", "break_it"), BREAKS.values(), ids=BREAKS.keys())
def test_a_broken_rule_is_found(rule: str, break_it: Break) -> None:
    with pikepdf.open(BytesIO(pressed())) as made:
        break_it(made)
        assert [*RULES[rule](made)]


@pytest.mark.published(SUMMARIES)
@pytest.mark.parametrize(
    ("rule", "saved"),
    [
        ("version", {"force_version": "1.7"}),
        ("encryption", {"encryption": pikepdf.Encryption(owner="Theo")}),
    ],
)
def test_a_file_of_another_kind_is_found(rule: str, saved: Mapping[str, object]) -> None:
    out = BytesIO()
    with pikepdf.open(BytesIO(pressed())) as made:
        made.save(out, **saved)  # type: ignore[arg-type]
    with pikepdf.open(out) as again:
        assert rule in findings(again)


def test_every_rule_is_broken_once() -> None:
    assert {rule for rule, _ in BREAKS.values()} | {"version", "encryption"} == set(RULES)
