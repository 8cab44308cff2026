"""A finished file says what is read on its pages: the tree, links, metadata, signs as letters."""

from collections.abc import Iterator, Sequence
from typing import Final
from xml.sax.saxutils import escape

import pikepdf

from bookgen.binder.structure.letters import mend_letters
from bookgen.binder.structure.tag import Box, Role
from bookgen.binder.structure.tree import Content, Element, Tree

POINTS_PER_MM: Final = 72 / 25.4
PRINTED: Final = 4
"""Of an annotation: it is there on paper too (ISO 32000-1, table 165)."""

PACKET: Final = """<?xpacket begin="\N{ZERO WIDTH NO-BREAK SPACE}" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
 <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
  <rdf:Description rdf:about=""
    xmlns:dc="http://purl.org/dc/elements/1.1/"
    xmlns:xmp="http://ns.adobe.com/xap/1.0/"
    xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
   <pdfuaid:part>1</pdfuaid:part>
   <dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
   <dc:creator><rdf:Seq><rdf:li>{author}</rdf:li></rdf:Seq></dc:creator>
   <dc:description><rdf:Alt>
    <rdf:li xml:lang="x-default">{subject}</rdf:li>
   </rdf:Alt></dc:description>
   <dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>
   <xmp:CreatorTool>{creator}</xmp:CreatorTool>
  </rdf:Description>
 </rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>"""


def for_screen(book: pikepdf.Pdf, tree: Tree, folios: Sequence[str]) -> None:
    """Put into a file what its pages tell those who hear them; title and language are in it.

    folios: the pages' printed numbers.
    """
    mend_letters(book)
    writer = Writer(book, tree, folios)
    book.Root["/StructTreeRoot"] = writer.root()
    book.Root["/MarkInfo"] = pikepdf.Dictionary(Marked=True)
    for page in book.pages:
        page.obj["/Tabs"] = pikepdf.Name.S
    packet = book.make_stream(packet_of(book).encode())
    packet["/Type"], packet["/Subtype"] = pikepdf.Name.Metadata, pikepdf.Name.XML
    book.Root["/Metadata"] = packet


def packet_of(book: pikepdf.Pdf) -> str:
    """The file's title, author and language as XMP; no clock is read."""
    info = book.trailer["/Info"]
    said = {key: escape(str(info[f"/{key.title()}"])) for key in ("title", "author", "subject")}
    creator = escape(str(info["/Creator"]))
    return PACKET.format(**said, creator=creator, language=escape(str(book.Root["/Lang"])))


class Writer:
    """Writes a tree into a file (ISO 32000-1, 14.7 and 14.8)."""

    def __init__(self, book: pikepdf.Pdf, tree: Tree, folios: Sequence[str]) -> None:
        """Take a tree; folios: the pages' printed numbers."""
        self.book, self.tree = book, tree
        self.pages = {f"page-{folio}": at for at, folio in enumerate(folios)}
        self.written: dict[Element, pikepdf.Object] = {}
        self.links: list[Element] = []

    def root(self) -> pikepdf.Object:
        """Write everything that is read, from the whole book down."""
        root = self.book.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.StructTreeRoot))
        root["/K"] = self.element(self.tree.root, root)
        numbers: list[int | pikepdf.Object] = []
        for at, marks in enumerate(self.tree.marks[: len(self.book.pages)]):
            if marks:
                self.book.pages[at].obj["/StructParents"] = at
                numbers += [at, pikepdf.Array([self.written[one] for one in marks])]
        for number, link in enumerate(self.links, start=len(self.book.pages)):
            self.annotate(link, number)
            numbers += [number, self.written[link]]
        root["/ParentTree"] = self.book.make_indirect(pikepdf.Dictionary(Nums=numbers))
        root["/ParentTreeNextKey"] = len(self.book.pages) + len(self.links)
        if any(one.role == Role.LOOSE for one in self.written):
            root["/RoleMap"] = pikepdf.Dictionary(Loose=pikepdf.Name.P)
        return root

    def element(self, element: Element, parent: pikepdf.Object) -> pikepdf.Object:
        """Write an element and all that is read in it."""
        found = self.book.make_indirect(
            pikepdf.Dictionary(Type=pikepdf.Name.StructElem, S=self.role(element), P=parent)
        )
        self.written[element] = found
        found["/K"] = pikepdf.Array(list(self.kids(element, found)))
        if element.title:
            found["/T"] = pikepdf.String(element.title)
        if element.alt and element.role == Role.FIGURE:
            found["/Alt"] = pikepdf.String(element.alt)
        attributes = attributes_of(element)
        if attributes is not None:
            found["/A"] = attributes
        if pikepdf.Name.Link == found.S:
            self.links.append(element)
        return found

    def role(self, element: Element) -> pikepdf.Name:
        """The structure type; a link that leads out of the book is plain words."""
        if element.role == Role.LINK and self.goal(element) is None:
            return pikepdf.Name.Span
        return pikepdf.Name(f"/{element.role}")

    def kids(self, element: Element, own: pikepdf.Object) -> Iterator[pikepdf.Object | int]:
        """What is read in an element, marked content with its page."""
        for kid in element.kids:
            if isinstance(kid, Content):
                yield pikepdf.Dictionary(
                    Type=pikepdf.Name.MCR, Pg=self.book.pages[kid.page].obj, MCID=kid.mark
                )
            elif kid.said:
                yield self.element(kid, own)

    def goal(self, link: Element) -> pikepdf.Array | None:
        """Where a link leads; None where that is not in the book."""
        if link.goal in self.pages:
            page = self.book.pages[self.pages[link.goal]].obj
            return pikepdf.Array([page, pikepdf.Name.Fit])
        if link.goal not in self.tree.goals:
            return None
        goal = self.tree.goals[link.goal]
        page, top = self.book.pages[goal.page].obj, round(goal.top * POINTS_PER_MM, 2)
        return pikepdf.Array([page, pikepdf.Name.XYZ, 0, top, 0])

    def annotate(self, link: Element, number: int) -> None:
        """Let a link be followed where its words stand.

        number: of the annotation among what stands in the tree.
        """
        page = self.book.pages[link.page]
        note = self.book.make_indirect(
            pikepdf.Dictionary(
                Type=pikepdf.Name.Annot,
                Subtype=pikepdf.Name.Link,
                Rect=points(link.box or (0, 0, 0, 0)),
                Border=pikepdf.Array([0, 0, 0]),
                F=PRINTED,
                Dest=self.goal(link),
                Contents=pikepdf.String(link.alt),
                StructParent=number,
            )
        )
        if "/Annots" not in page.obj:
            page.obj["/Annots"] = pikepdf.Array()
        page.obj["/Annots"].append(note)
        self.written[link]["/K"].append(
            pikepdf.Dictionary(Type=pikepdf.Name.OBJR, Obj=note, Pg=page.obj)
        )


def attributes_of(element: Element) -> pikepdf.Dictionary | None:
    """What is said of an element besides (ISO 32000-1, 14.8.5)."""
    name = pikepdf.Name
    if element.role == Role.FIGURE and element.box is not None:
        return pikepdf.Dictionary(O=name.Layout, BBox=points(element.box), Placement=name.Block)
    if element.role == Role.OVER:
        return pikepdf.Dictionary(O=name.Table, Scope=name(f"/{element.scope}"))
    if element.rows > 1:
        return pikepdf.Dictionary(O=name.Table, RowSpan=element.rows)
    return None


def points(box: Box) -> pikepdf.Array:
    """A box in points."""
    return pikepdf.Array([round(side * POINTS_PER_MM, 2) for side in box])
