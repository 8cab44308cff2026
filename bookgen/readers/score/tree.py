"""XML from outside as a tree of the elements we read, within limits and without entities."""

from collections.abc import Collection
from dataclasses import dataclass, field
from typing import Final
from xml.etree.ElementTree import Element
from xml.parsers import expat

from bookgen.errors import BookgenError, Finding, Message, told

MOST_ELEMENTS: Final = 2_000_000
"""Of the whole file; a movement for four strings has about 100,000."""

MOST_KEPT: Final = 1_000_000
DEEPEST: Final = 40
"""Levels; MusicXML 4.0 needs about ten."""

LONGEST_TEXT: Final = 300
"""Letters of one element's text or attribute that are kept."""

NO_SCORE: Final = told("this is no MusicXML score")
SAVE_ANEW: Final = told("save it anew from the notation program, as MusicXML")


class EndlessError(Exception):
    """The file is not worth reading on."""

    def __init__(self, problem: Message) -> None:
        """Say why."""
        super().__init__(str(problem))
        self.problem = problem


@dataclass(slots=True)
class Filter:
    """What the parser has met so far.

    kept: names of the elements that go into the tree, where their parent does too.
    left_out: levels below the first element that is not kept, or 0.
    """

    kept: Collection[str]
    root: Element | None = None
    above: list[Element] = field(default_factory=list)
    text: list[str] = field(default_factory=list)
    left_out: int = 0
    depth: int = 0
    met: int = 0
    taken: int = 0

    def start(self, name: str, attributes: dict[str, str]) -> None:
        """An element begins.

        Raises:
            EndlessError: there are too many, or they lie too deep.
        """
        self.met += 1
        self.depth += 1
        if self.met > MOST_ELEMENTS or self.taken > MOST_KEPT:
            raise EndlessError(told("it has more notes and signs than one file of music"))
        if self.depth > DEEPEST:
            deep = told("its elements lie more than {levels} levels deep", levels=DEEPEST)
            raise EndlessError(deep)
        if self.left_out or name not in self.kept:
            self.left_out += 1
            return
        self.taken += 1
        element = Element(name, {key: text[:LONGEST_TEXT] for key, text in attributes.items()})
        if self.above:
            self.above[-1].append(element)
        else:
            self.root = element
        self.above.append(element)
        self.text = []

    def end(self, _name: str) -> None:
        """An element ends; its text is what stands behind its last child."""
        self.depth -= 1
        if self.left_out:
            self.left_out -= 1
            return
        element = self.above.pop()
        if not len(element):
            element.text = "".join(self.text).strip()[:LONGEST_TEXT]
        self.text = []

    def data(self, text: str) -> None:
        """Text between two tags, or a piece of it."""
        if not self.left_out and len(self.text) < LONGEST_TEXT:
            self.text.append(text[:LONGEST_TEXT])


def tree_of(data: bytes, file: str, kept: Collection[str]) -> Element:
    """Read XML into a tree of the elements that are wanted.

    A document type with declarations of its own is refused before the first of them, and so
    are all entities: no score needs one. Nothing is ever fetched. The parser stops at the first
    thing too many.

    file: the name under which the user knows it.

    Raises:
        BookgenError: it is no XML, declares entities, or goes beyond the limits.
    """
    found = Filter(kept)
    try:
        parser = expat.ParserCreate()
        parser.buffer_text = True
        parser.StartElementHandler = found.start
        parser.EndElementHandler = found.end
        parser.CharacterDataHandler = found.data
        parser.StartDoctypeDeclHandler = refuse_subset
        parser.Parse(data, True)  # noqa: FBT003  the parser takes it by position only
    except EndlessError as error:
        raise BookgenError(Finding(file, error.problem, SAVE_ANEW)) from error
    except expat.ExpatError as error:
        problem = told(
            "broken XML in line {line}, column {column} ({why})",
            line=error.lineno,
            column=error.offset + 1,
            why=expat.ErrorString(error.code),
        )
        raise BookgenError(Finding(file, problem, SAVE_ANEW)) from error
    except (LookupError, ValueError, UnicodeError) as error:
        unknown = told("broken XML, unknown encoding")
        raise BookgenError(Finding(file, unknown, SAVE_ANEW)) from error
    if found.root is None:
        raise BookgenError(Finding(file, NO_SCORE, SAVE_ANEW))
    return found.root


def refuse_subset(_name: str, _system: str | None, _public: str | None, subset: int) -> None:
    """The document type: one with declarations of its own can blow the file up.

    Raises:
        EndlessError: it has some.
    """
    if subset:
        raise EndlessError(
            told("its document type declares entities or the like, which no score needs")
        )
