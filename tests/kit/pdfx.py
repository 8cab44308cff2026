"""The rules of PDF/X-4 and of a book in black, each a function that finds what breaks it.

The rules are those of ISO 15930-7 as public summaries tell them (printing handbooks, help pages of
preflight programs); the standard itself was not at hand. "House" stands before rules of our own.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Final
from xml.etree import ElementTree as ET

import pikepdf

MM: Final = 72 / 25.4
SMALL: Final = 0.01
RDF: Final = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"
XMP: Final = {
    "pdfxid": "{http://www.npes.org/pdfx/ns/id/}",
    "pdf": "{http://ns.adobe.com/pdf/1.3/}",
    "dc": "{http://purl.org/dc/elements/1.1/}",
    "xmp": "{http://ns.adobe.com/xap/1.0/}",
    "xmpMM": "{http://ns.adobe.com/xap/1.0/mm/}",
}
DATES: Final = {"/CreationDate": "xmp:CreateDate", "/ModDate": "xmp:ModifyDate"}
INKS: Final = {b"GRAY": 1, b"RGB ": 3, b"CMYK": 4}
SPACES: Final = {"g": 1, "G": 1, "rg": 3, "RG": 3, "k": 4, "K": 4}
OPERATORS: Final = frozenset(
    re.findall(
        r"\S+",
        "b B b* B* BDC BI BMC BT BX c cm CS cs d d0 d1 Do DP EI EMC ET EX f F f* G g gs h i ID j J"
        " K k l m M MP n q Q re RG rg ri s S SC sc SCN scn sh T* Tc Td TD Tf Tj TJ TL Tm Tr Ts Tw"
        " Tz v w W W* y ' \"",
    )
)
"""ISO 32000-1, table A.1."""

Box = tuple[float, ...]
Rule = Callable[[pikepdf.Pdf], Iterator[str]]


def findings(book: pikepdf.Pdf) -> dict[str, list[str]]:
    """What breaks which rule; nothing where all hold."""
    found = {name: list(rule(book)) for name, rule in RULES.items()}
    return {name: broken for name, broken in found.items() if broken}


def parts(book: pikepdf.Pdf) -> Iterator[pikepdf.Object]:
    """Every dictionary and stream of a file, those inside of others too."""
    todo: list[pikepdf.Object] = list(book.objects)
    while todo:
        thing = todo.pop()
        if isinstance(thing, pikepdf.Dictionary | pikepdf.Stream):
            yield thing
            inside: list[object] = [thing[key] for key in thing.keys()]  # noqa: SIM118  no mapping of Python's
        else:
            inside = list(thing) if isinstance(thing, pikepdf.Array) else []
        todo += [one for one in inside if isinstance(one, pikepdf.Object) and not one.is_indirect]


def drawn(book: pikepdf.Pdf) -> Iterator[tuple[str, list[pikepdf.Object]]]:
    """Every operator with its operands, on pages and in forms."""
    forms = [
        thing
        for thing in book.objects
        if isinstance(thing, pikepdf.Stream) and thing.get("/Subtype") == "/Form"
    ]
    for drawing in (*book.pages, *forms):
        for step in pikepdf.parse_content_stream(drawing):
            yield str(step.operator), list(step.operands)


def xmp(book: pikepdf.Pdf, key: str) -> str | None:
    """A property of the XMP packet: simple, or the first of a list."""
    if "/Metadata" not in book.Root:
        return None
    prefix, _, name = key.partition(":")
    tag = XMP[prefix] + name
    for about in ET.fromstring(book.Root.Metadata.read_bytes()).iter(f"{RDF}Description"):  # noqa: S314  made by us
        if tag in about.attrib:
            return about.attrib[tag]
        held = about.find(tag)
        if held is not None:
            first = held.find(f".//{RDF}li")
            return (held if first is None else first).text
    return None


def intents(book: pikepdf.Pdf) -> list[pikepdf.Object]:
    """The output intents for PDF/X."""
    return [one for one in book.Root.get("/OutputIntents", []) if one.get("/S") == "/GTS_PDFX"]


def profile(book: pikepdf.Pdf) -> bytes:
    """The ICC profile of the press; empty where there is none."""
    held = [one.DestOutputProfile for one in intents(book) if "/DestOutputProfile" in one]
    return held[0].read_bytes() if held else b""


def box(page: pikepdf.Page, name: str) -> Box | None:
    """A box of a page, or None."""
    return tuple(float(side) for side in page.obj[name]) if name in page.obj else None


def within(inner: Box, outer: Box) -> bool:
    """Whether a box lies inside of another."""
    low = all(one >= other - SMALL for one, other in zip(inner[:2], outer[:2], strict=True))
    return low and all(
        one <= other + SMALL for one, other in zip(inner[2:], outer[2:], strict=True)
    )


def version(book: pikepdf.Pdf) -> Iterator[str]:
    if tuple(map(int, book.pdf_version.split("."))) > (1, 6):
        yield book.pdf_version


def encryption(book: pikepdf.Pdf) -> Iterator[str]:
    if book.is_encrypted:
        yield "encrypted"


def identity(book: pikepdf.Pdf) -> Iterator[str]:
    if len(book.trailer.get("/ID", [])) != 2:
        yield "no /ID"


def standard(book: pikepdf.Pdf) -> Iterator[str]:
    if xmp(book, "pdfxid:GTS_PDFXVersion") != "PDF/X-4":
        yield "no GTS_PDFXVersion in the XMP"
    if "/GTS_PDFXVersion" in book.docinfo:
        yield "it stands in Info, where PDF/X-4 has it no more"


def packet(book: pikepdf.Pdf) -> Iterator[str]:
    wanted = ("dc:title", *DATES.values(), "xmp:MetadataDate")
    wanted += ("xmpMM:DocumentID", "xmpMM:VersionID", "xmpMM:RenditionClass")
    yield from (key for key in wanted if not xmp(book, key))
    if "/Filter" in book.Root.get("/Metadata", {}):
        yield "packed, so that no other program finds it"


def agreement(book: pikepdf.Pdf) -> Iterator[str]:
    if str(book.docinfo.get("/Title", "")) != (xmp(book, "dc:title") or ""):
        yield "titles"
    for key, other in DATES.items():
        ours, theirs = str(book.docinfo.get(key, "")), xmp(book, other) or ""
        if re.sub(r"\D", "", ours)[:14] != re.sub(r"\D", "", theirs)[:14]:
            yield key


def trapping(book: pikepdf.Pdf) -> Iterator[str]:
    said = str(book.docinfo.get("/Trapped", "")).lstrip("/")
    if said not in {"True", "False"} or xmp(book, "pdf:Trapped") != said:
        yield f"Info says {said!r}, the XMP {xmp(book, 'pdf:Trapped')!r}"


def one_press(book: pikepdf.Pdf) -> Iterator[str]:
    found = intents(book)
    if len(found) != 1:
        yield f"{len(found)} output intents"
    for one in found:
        if not str(one.get("/OutputConditionIdentifier", "")):
            yield "no OutputConditionIdentifier"
        if "/RegistryName" not in one and not str(one.get("/Info", "")):
            yield "neither a register nor words that tell the press"


def press_profile(book: pikepdf.Pdf) -> Iterator[str]:
    data = profile(book)
    if data[36:40] != b"acsp" or int.from_bytes(data[:4]) != len(data):
        yield "no whole ICC profile"
    elif data[12:16] != b"prtr":
        yield f"of a device of the kind {data[12:16]!r}"
    elif INKS.get(data[16:20]) != intents(book)[0].DestOutputProfile.get("/N"):
        yield "/N is not the number of its inks"


def boxes(book: pikepdf.Pdf) -> Iterator[str]:
    for number, page in enumerate(book.pages, start=1):
        media = tuple(float(side) for side in page.mediabox)
        trim, art = box(page, "/TrimBox"), box(page, "/ArtBox")
        bleed, crop = box(page, "/BleedBox") or media, box(page, "/CropBox") or media
        final = trim or art
        if final is None or (trim and art):
            yield f"page {number}: a TrimBox or an ArtBox, not both"
        elif not (within(final, bleed) and within(bleed, media) and within(final, crop)):
            yield f"page {number}: trim in bleed in media"


def activity(book: pikepdf.Pdf) -> Iterator[str]:
    yield from (key for key in ("/AA", "/OpenAction", "/AcroForm") if key in book.Root)
    for page in book.pages:
        yield from (key for key in ("/AA", "/Trans", "/PresSteps") if key in page.obj)
        yield from (str(note.get("/Subtype")) for note in page.obj.get("/Annots", []))
    kinds = {"/JavaScript", "/Launch", "/URI", "/SubmitForm", "/GoToR"}
    yield from (str(thing.S) for thing in parts(book) if str(thing.get("/S")) in kinds)


def colour(book: pikepdf.Pdf) -> Iterator[str]:
    allowed = {1, INKS.get(profile(book)[16:20], 1)}
    yield from {op for op, _ in drawn(book) if SPACES.get(op, 1) not in allowed}
    names = {"/DeviceRGB": 3, "/DeviceCMYK": 4}
    for thing in parts(book):
        used = thing.get("/ColorSpace", thing.get("/CS"))
        if isinstance(used, pikepdf.Name) and names.get(str(used), 1) not in allowed:
            yield str(used)


def halftones(book: pikepdf.Pdf) -> Iterator[str]:
    for thing in parts(book):
        yield from (key for key in ("/TR", "/HTP", "/HalftoneName") if key in thing)
        if "/TR2" in thing and thing.TR2 != "/Default":
            yield "/TR2"


def faces(book: pikepdf.Pdf) -> Iterator[str]:
    for thing in parts(book):
        if thing.get("/Type") == "/Font" and thing.get("/Subtype") not in {"/Type0", "/Type3"}:
            held = thing.get("/FontDescriptor", pikepdf.Dictionary())
            if not any(f"/FontFile{kind}" in held for kind in ("", "2", "3")):
                yield str(thing.get("/BaseFont"))


def streams(book: pikepdf.Pdf) -> Iterator[str]:
    for thing in parts(book):
        if isinstance(thing, pikepdf.Stream):
            filters = thing.get("/Filter", pikepdf.Array())
            names = filters if isinstance(filters, pikepdf.Array) else [filters]
            yield from {str(one) for one in names} & {"/LZWDecode", "/Crypt"}
            yield from (key for key in ("/F", "/OPI", "/Alternates", "/Ref") if key in thing)
            if "/PS" in {str(thing.get("/Subtype")), str(thing.get("/Subtype2"))}:
                yield "PostScript"


def operators(book: pikepdf.Pdf) -> Iterator[str]:
    yield from {op for op, _ in drawn(book)} - OPERATORS - {"INLINE IMAGE"}


def one_trim(book: pikepdf.Pdf) -> Iterator[str]:
    sizes = set()
    for number, page in enumerate(book.pages, start=1):
        trim, bleed = box(page, "/TrimBox"), box(page, "/BleedBox")
        if trim is None or bleed is None:
            yield f"page {number}: no trim or no bleed"
            continue
        sizes.add((round(trim[2] - trim[0], 1), round(trim[3] - trim[1], 1)))
        if any(abs(abs(a - b) - 3 * MM) > SMALL for a, b in zip(trim, bleed, strict=True)):
            yield f"page {number}: another bleed than 3 mm"
    if len(sizes) > 1:
        yield f"trim sizes {sorted(sizes)}"


def black_alone(book: pikepdf.Pdf) -> Iterator[str]:
    yield from {op for op, _ in drawn(book) if op in {"rg", "RG", "k", "K", "cs", "CS", "sh"}}
    if any(thing.get("/Subtype") == "/Image" for thing in parts(book)):
        yield "a picture in dots"
    if any(op == "INLINE IMAGE" for op, _ in drawn(book)):
        yield "a small picture in dots"


def solid_lines(book: pikepdf.Pdf) -> Iterator[str]:
    """No line is screened, no text set in gray, and no line finer than a press holds."""
    for op, given in drawn(book):
        if op in {"g", "G"} and float(given[0]) not in {0.0, 1.0}:
            yield f"{given[0]} {op}"
        if op == "w" and float(given[0]) < 0.25 - SMALL:
            yield f"a line of {given[0]} pt"


def opacity(book: pikepdf.Pdf) -> Iterator[str]:
    for thing in parts(book):
        if any(float(thing.get(key, 1)) < 1 for key in ("/ca", "/CA") if key in thing):
            yield "faint"
        if str(thing.get("/BM", "/Normal")) not in {"/Normal", "/Compatible"}:
            yield str(thing.BM)
        if thing.get("/S") == "/Transparency" or "/SMask" in thing:
            yield "a group or a mask"


def knockout(book: pikepdf.Pdf) -> Iterator[str]:
    """White figures on black vanish where they print over it and do not knock it out."""
    yield from (key for thing in parts(book) for key in ("/OP", "/op") if bool(thing.get(key)))


def subsets(book: pikepdf.Pdf) -> Iterator[str]:
    for thing in parts(book):
        name = str(thing.get("/BaseFont", "/ABCDEF+"))
        if thing.get("/Type") == "/Font" and not re.match(r"/[A-Z]{6}\+", name):
            yield name


RULES: Final[Mapping[str, Rule]] = {
    "version": version,
    "encryption": encryption,
    "identity": identity,
    "standard": standard,
    "packet": packet,
    "agreement": agreement,
    "trapping": trapping,
    "one press": one_press,
    "profile": press_profile,
    "boxes": boxes,
    "activity": activity,
    "colour": colour,
    "halftones": halftones,
    "faces": faces,
    "streams": streams,
    "operators": operators,
    "house: one trim": one_trim,
    "house: black alone": black_alone,
    "house: solid lines": solid_lines,
    "house: opacity": opacity,
    "house: knockout": knockout,
    "house: subsets": subsets,
}
