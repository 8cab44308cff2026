"""The rules of PDF/UA-1 that a program can check and that apply here, each a function.

They are named by the failure conditions of the Matterhorn Protocol 1.1 (PDF Association), which
counts what breaks ISO 14289-1; from memory, and compared with a validator's. "House" stands before
rules of our own.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise
from typing import Final
from xml.etree import ElementTree as ET

import pikepdf
from kit.heard import letters_of, mark_of, steps

Rule = Callable[[pikepdf.Pdf], Iterator[str]]
INK: Final = frozenset({"Tj", "TJ", "'", '"', "S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "Do"})
STANDARD: Final = frozenset(
    re.findall(
        r"\S+",
        "Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private P H H1 H2"
        " H3 H4 H5 H6 L LI Lbl LBody Table TR TH TD THead TBody TFoot Span Quote Note Reference"
        " BibEntry Code Link Annot Ruby RB RT RP Warichu WT WP Figure Formula Form",
    )
)
"""ISO 32000-1, 14.8.4."""

WITHIN: Final[Mapping[str, tuple[str, frozenset[str]]]] = {
    "TR": ("09-004 table", frozenset({"Table", "THead", "TBody", "TFoot"})),
    "TH": ("09-004 table", frozenset({"TR"})),
    "TD": ("09-004 table", frozenset({"TR"})),
    "LI": ("09-005 list", frozenset({"L"})),
    "LBody": ("09-005 list", frozenset({"LI"})),
    "TOCI": ("09-006 contents", frozenset({"TOC"})),
}
KIDS: Final[Mapping[str, tuple[str, frozenset[str]]]] = {
    "Table": ("09-004 table", frozenset({"TR", "THead", "TBody", "TFoot", "Caption"})),
    "TR": ("09-004 table", frozenset({"TH", "TD"})),
    "L": ("09-005 list", frozenset({"L", "LI", "Caption"})),
    "LI": ("09-005 list", frozenset({"Lbl", "LBody"})),
    "TOC": ("09-006 contents", frozenset({"TOC", "TOCI", "Caption"})),
    "TOCI": ("09-006 contents", frozenset({"Lbl", "Reference", "NonStruct", "P", "TOC"})),
}
UA: Final = "{http://www.aiim.org/pdfua/ns/id/}part"
TITLE: Final = "{http://purl.org/dc/elements/1.1/}title"


def findings(book: pikepdf.Pdf) -> dict[str, list[str]]:
    """What breaks which rule; nothing where all hold."""
    found = {name: list(rule(book)) for name, rule in RULES.items()}
    return {name: broken for name, broken in found.items() if broken}


def elements(book: pikepdf.Pdf) -> Iterator[tuple[str, pikepdf.Object, pikepdf.Object | None]]:
    """Every element in reading order: its role, itself, and in which it stands."""

    def below(
        one: pikepdf.Object, parent: pikepdf.Object | None
    ) -> Iterator[tuple[str, pikepdf.Object, pikepdf.Object | None]]:
        yield str(one.S)[1:], one, parent
        for kid in one.get("/K", []):
            if kid.get("/Type") == "/StructElem":
                yield from below(kid, one)

    yield from below(book.Root.StructTreeRoot.K, None)


def marked(page: pikepdf.Page) -> Iterator[tuple[str, list[int | None]]]:
    """What a page draws, each time with the marks that are open; None is an artifact."""
    under: list[int | None] = []
    for operator, operands in steps(page):
        if operator == "BDC":
            under.append(mark_of(operands[1]))
        yield operator, list(under)
        if operator == "EMC":
            under.pop()


def artifact_in_content(book: pikepdf.Pdf) -> Iterator[str]:
    for at, page in enumerate(book.pages):
        for operator, under in marked(page):
            if operator == "BDC" and under[-1] is None and any(one is not None for one in under):
                yield f"page {at}"


def content_in_artifact(book: pikepdf.Pdf) -> Iterator[str]:
    for at, page in enumerate(book.pages):
        for operator, under in marked(page):
            if operator == "BDC" and under[-1] is not None and None in under:
                yield f"page {at}"


def unmarked(book: pikepdf.Pdf) -> Iterator[str]:
    for at, page in enumerate(book.pages):
        yield from (f"page {at}: {op}" for op, under in marked(page) if op in INK and not under)


def suspects(book: pikepdf.Pdf) -> Iterator[str]:
    if book.Root.get("/MarkInfo", pikepdf.Dictionary()).get("/Suspects"):
        yield "suspects"


def not_marked(book: pikepdf.Pdf) -> Iterator[str]:
    if not book.Root.get("/MarkInfo", pikepdf.Dictionary()).get("/Marked"):
        yield "not marked"


def roles(book: pikepdf.Pdf) -> Mapping[str, str]:
    """What types of ours stand for."""
    mapped = book.Root.StructTreeRoot.get("/RoleMap", pikepdf.Dictionary())
    return {key[1:]: str(value)[1:] for key, value in mapped.items()}


def unknown_type(book: pikepdf.Pdf) -> Iterator[str]:
    mapped = roles(book)
    yield from (role for role, *_ in elements(book) if mapped.get(role, role) not in STANDARD)


def standard_type_mapped(book: pikepdf.Pdf) -> Iterator[str]:
    yield from (role for role in roles(book) if role in STANDARD)


def packet(book: pikepdf.Pdf) -> ET.Element:
    """The XMP; an empty one where there is none."""
    if "/Metadata" not in book.Root:
        return ET.Element("nothing")
    return ET.fromstring(book.Root.Metadata.read_bytes())  # noqa: S314  made by us


def no_packet(book: pikepdf.Pdf) -> Iterator[str]:
    if packet(book).tag == "nothing":
        yield "no XMP"


def no_identifier(book: pikepdf.Pdf) -> Iterator[str]:
    if packet(book).findtext(f".//{UA}") != "1":
        yield "no part 1"


def no_title(book: pikepdf.Pdf) -> Iterator[str]:
    said = packet(book).find(f".//{TITLE}")
    words = "".join(said.itertext()).strip() if said is not None else ""
    if not words or words != str(book.docinfo["/Title"]):
        yield words


def window(book: pikepdf.Pdf) -> Iterator[str]:
    if not book.Root.get("/ViewerPreferences", pikepdf.Dictionary()).get("/DisplayDocTitle"):
        yield "the window shows no title"


def syntax(name: str) -> Rule:
    """What stands in what."""

    def check(book: pikepdf.Pdf) -> Iterator[str]:
        for role, _, parent in elements(book):
            above = str(parent.S)[1:] if parent is not None else ""
            rule, allowed = WITHIN.get(role, ("", frozenset()))
            if rule == name and above not in allowed:
                yield f"{role} in {above}"
            rule, allowed = KIDS.get(above, ("", frozenset()))
            if rule == name and role not in allowed:
                yield f"{role} in {above}"

    return check


def language(book: pikepdf.Pdf) -> Iterator[str]:
    if not str(book.Root.get("/Lang", "")):
        yield "no language"


def figure_without_words(book: pikepdf.Pdf) -> Iterator[str]:
    for role, one, _ in elements(book):
        if role == "Figure" and not str(one.get("/Alt", "")).strip():
            yield "a figure"


def levels(book: pikepdf.Pdf) -> list[int]:
    """Of the heads in reading order."""
    return [int(role[1]) for role, *_ in elements(book) if role[:1] == "H" and role[1:].isdigit()]


def first_head(book: pikepdf.Pdf) -> Iterator[str]:
    if levels(book)[:1] != [1]:
        yield f"H{levels(book)[:1]}"


def skipped_level(book: pikepdf.Pdf) -> Iterator[str]:
    found = levels(book)
    yield from (f"H{two} after H{one}" for one, two in pairwise(found) if two > one + 1)


def mixed_heads(book: pikepdf.Pdf) -> Iterator[str]:
    if levels(book):
        yield from (role for role, *_ in elements(book) if role == "H")


def head_of_nothing(book: pikepdf.Pdf) -> Iterator[str]:
    for role, one, _ in elements(book):
        if role == "TH" and "/Scope" not in one.get("/A", pikepdf.Dictionary()):
            yield "a head of a column"


def locked(book: pikepdf.Pdf) -> Iterator[str]:
    if book.is_encrypted and not book.allow.accessibility:
        yield "locked"


def notes(book: pikepdf.Pdf) -> Iterator[tuple[pikepdf.Page, pikepdf.Object]]:
    """Every annotation with its page."""
    for page in book.pages:
        yield from ((page, note) for note in page.obj.get("/Annots", []))


def order_of_tabs(book: pikepdf.Pdf) -> Iterator[str]:
    yield from ("a page" for page, _ in notes(book) if page.obj.get("/Tabs") != "/S")


def link_without_tag(book: pikepdf.Pdf) -> Iterator[str]:
    numbers = dict(numbered(book))
    for _, note in notes(book):
        held = numbers.get(int(note.get("/StructParent", -1)))
        if note.Subtype == "/Link" and (held is None or held.get("/S") != "/Link"):
            yield "a link"


def link_without_words(book: pikepdf.Pdf) -> Iterator[str]:
    yield from ("a link" for _, note in notes(book) if not str(note.get("/Contents", "")))


def numbered(book: pikepdf.Pdf) -> Iterator[tuple[int, pikepdf.Object]]:
    """The tree of parents: by its numbers."""
    flat = list(book.Root.StructTreeRoot.ParentTree.Nums)
    return zip(map(int, flat[::2]), flat[1::2], strict=True)


def marks_in_forms(book: pikepdf.Pdf) -> Iterator[str]:
    for thing in book.objects:
        if isinstance(thing, pikepdf.Stream) and thing.get("/Subtype") == "/Form":
            drawn = (str(step.operator) for step in pikepdf.parse_content_stream(thing))
            yield from (operator for operator in drawn if operator in {"BDC", "BMC"})


def not_embedded(book: pikepdf.Pdf) -> Iterator[str]:
    for font in fonts(book):
        if font.Subtype in {"/Type0", "/Type3"}:
            continue
        held = font.get("/FontDescriptor", pikepdf.Dictionary())
        if not any(key in held for key in ("/FontFile", "/FontFile2", "/FontFile3")):
            yield str(font.BaseFont)


def fonts(book: pikepdf.Pdf) -> Iterator[pikepdf.Object]:
    """Every font."""
    for thing in book.objects:
        if isinstance(thing, pikepdf.Dictionary) and thing.get("/Type") == "/Font":
            yield thing


def no_letters(book: pikepdf.Pdf) -> Iterator[str]:
    parts = {one.objgen for font in fonts(book) for one in font.get("/DescendantFonts", [])}
    for font in fonts(book):
        if font.objgen not in parts and not letters_of(font):
            yield str(font.BaseFont)


def letter(*forbidden: str) -> Rule:
    """No sign stands for one of these."""

    def check(book: pikepdf.Pdf) -> Iterator[str]:
        for font in fonts(book):
            if {*forbidden} & {*letters_of(font).values()}:
                yield str(font.BaseFont)

    return check


def parents(book: pikepdf.Pdf) -> Iterator[str]:
    """Each mark is known to the element that has it, and to no other."""
    pages = {page.obj.objgen: page for page in book.pages}
    own: dict[tuple[tuple[int, int], int], tuple[int, int]] = {}
    for role, one, _ in elements(book):
        for kid in one.get("/K", []):
            if kid.get("/Type") == "/MCR":
                key = kid.Pg.objgen, int(kid.MCID)
                if key in own:
                    yield f"{role}: a mark of two"
                own[key] = one.objgen
    numbers, there = dict(numbered(book)), set()
    for at, page in pages.items():
        drawn = [under[-1] for operator, under in marked(page) if operator == "BDC"]
        for mark in (mark for mark in drawn if mark is not None):
            there.add((at, mark))
            held = numbers[int(page.obj.StructParents)][mark]
            if own.get((at, mark)) != held.objgen:
                yield f"{mark}: another's"
    yield from (f"{key}: not drawn" for key in own.keys() - there)


def loose(book: pikepdf.Pdf) -> Iterator[str]:
    """What was drawn without a tag; it is neither read as what it is nor left out on purpose."""
    yield from (role for role, *_ in elements(book) if role == "Loose")


def figures_in_their_place(book: pikepdf.Pdf) -> Iterator[str]:
    for role, one, _ in elements(book):
        if role != "Figure":
            continue
        box = [float(side) for side in one.A.BBox] if "/A" in one else [0.0] * 4
        page = [float(side) for side in one.K[0].Pg.MediaBox]
        if not (page[0] <= box[0] < box[2] <= page[2] and page[1] <= box[1] < box[3] <= page[3]):
            yield str(one.get("/Alt"))


def sections_begin_with_their_head(book: pikepdf.Pdf) -> Iterator[str]:
    """A section that has a head begins with it; where only the outline names it, it has none."""
    for role, one, _ in elements(book):
        heads = [str(kid.get("/S", ""))[1:2] == "H" for kid in one.K]
        if role == "Sect" and any(heads) and not heads[0]:
            yield str(one.get("/T"))


RULES: Final[Mapping[str, Rule]] = {
    "01-003 artifact in content": artifact_in_content,
    "01-004 content in artifact": content_in_artifact,
    "01-005 neither": unmarked,
    "01-007 suspects": suspects,
    "02-001 unknown type": unknown_type,
    "02-004 standard type mapped": standard_type_mapped,
    "06-001 no packet": no_packet,
    "06-002 no identifier": no_identifier,
    "06-003 no title": no_title,
    "07-002 window": window,
    "09-004 table": syntax("09-004 table"),
    "09-005 list": syntax("09-005 list"),
    "09-006 contents": syntax("09-006 contents"),
    "11-001 language": language,
    "13-004 figure": figure_without_words,
    "14-002 first head": first_head,
    "14-003 skipped level": skipped_level,
    "14-007 mixed heads": mixed_heads,
    "15-003 head of a column": head_of_nothing,
    "26-002 locked": locked,
    "28-009 tabs": order_of_tabs,
    "28-011 link": link_without_tag,
    "28-012 words of a link": link_without_words,
    "30-002 marks in a form": marks_in_forms,
    "31-009 embedded": not_embedded,
    "31-027 letters": no_letters,
    "31-028 no letter": letter("\0"),
    "31-029 no sign": letter("\ufeff", "\ufffe"),
    "6.2 marked": not_marked,
    "house: parents": parents,
    "house: loose": loose,
    "house: place of figures": figures_in_their_place,
    "house: heads of sections": sections_begin_with_their_head,
}
