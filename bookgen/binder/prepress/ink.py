"""The ink of a file for the press: black alone, lines never screened, nothing see-through."""

from collections.abc import Iterator, Sequence
from typing import Final

import pikepdf

from bookgen.errors import Message, RefusedError, told

FINEST_PT: Final = 0.25
"""The finest line that a press holds for certain (common practice, no source)."""

COLOURED: Final = frozenset({"rg", "RG", "k", "K", "cs", "CS", "sc", "SC", "scn", "SCN", "sh"})
"""Operators that choose another colour space than gray (ISO 32000-1, table 74)."""

Step = pikepdf.ContentStreamInstruction | pikepdf.ContentStreamInlineImage
Drawing = pikepdf.Page | pikepdf.Object


class NotForPressError(RefusedError):
    """A book holds what no press prints in black."""


def drawings(book: pikepdf.Pdf) -> Iterator[tuple[Message, Drawing]]:
    """Each page and each form, with its place in the file."""
    for number, page in enumerate(book.pages, start=1):
        yield told("page {number}", number=number), page
    for thing in book.objects:
        if isinstance(thing, pikepdf.Stream) and thing.get("/Subtype") == "/Form":
            yield told("object {number} of the file", number=thing.objgen[0]), thing


def blacken(book: pikepdf.Pdf) -> None:
    """Make every screened line of a book solid, and as much finer as it was lighter.

    A screen breaks a fine line up into dots; a finer line has the same weight on the page.

    Raises:
        NotForPressError: something is drawn in colour, is a picture in dots, lets shine through
            or prints over what lies below it.
    """
    for place, drawing in drawings(book):
        steps = list(pikepdf.parse_content_stream(drawing))
        refuse(place, drawing, steps)
        if any(screens(step) for step in steps):
            solid = pikepdf.unparse_content_stream(list(made_solid(steps)))
            if isinstance(drawing, pikepdf.Page):
                drawing.obj["/Contents"] = book.make_stream(solid)
            else:
                drawing.write(solid)


def screens(step: Step) -> bool:
    """Whether lines are gray from here on, neither black nor white."""
    return str(step.operator) == "G" and 0 < float(step.operands[0]) < 1


def made_solid(steps: Sequence[Step]) -> Iterator[Step]:
    """The same drawing with its gray lines in black and finer."""
    gray, width = 0.0, 1.0
    kept: list[tuple[float, float]] = []
    for step in steps:
        operator = str(step.operator)
        if operator == "q":
            kept.append((gray, width))
        elif operator == "Q":
            gray, width = kept.pop()
        elif operator == "G":
            gray = float(step.operands[0])
        elif operator == "w":
            width = float(step.operands[0])
        if operator == "G":
            yield instruction(gray if gray in {0.0, 1.0} else 0.0, "G")
        if operator in {"G", "w"}:
            yield instruction(finer(width, gray), "w")
        else:
            yield step


def instruction(value: float, operator: str) -> pikepdf.ContentStreamInstruction:
    """One number for one operator."""
    return pikepdf.ContentStreamInstruction([round(value, 4)], pikepdf.Operator(operator))


def finer(width: float, gray: float) -> float:
    """How wide a solid line is that weighs as much as a gray one; black and white ones stay.

    >>> finer(0.8, 0.5), finer(0.4, 0.6), finer(0.1, 0.6), finer(0.8, 0.0)
    (0.4, 0.25, 0.1, 0.8)
    """
    if gray in {0.0, 1.0}:
        return width
    return min(width, max(FINEST_PT, width * (1 - gray)))


def refuse(place: Message, drawing: Drawing, steps: Sequence[Step]) -> None:
    """Refuse what black ink cannot print, or not as it was drawn.

    Raises:
        NotForPressError: there is such a thing.
    """
    found = sorted(COLOURED & {str(step.operator) for step in steps})
    if found:
        raise NotForPressError("press-colour", place=place, operators=" ".join(found))
    held = drawing.get("/Resources", pikepdf.Dictionary())
    pictures = [one for one in held.get("/XObject", {}).values() if one.get("/Subtype") == "/Image"]
    if pictures or any(isinstance(step, pikepdf.ContentStreamInlineImage) for step in steps):
        raise NotForPressError("press-picture", place=place)
    for state in held.get("/ExtGState", {}).values():
        if see_through(state) or state.get("/OP") or state.get("/op"):
            raise NotForPressError("press-shine", place=place)


def see_through(state: pikepdf.Object) -> bool:
    """Whether a graphics state lets what lies below shine through (ISO 32000-1, 11.6.4)."""
    faint = any(float(state.get(key, 1)) < 1 for key in ("/ca", "/CA"))
    blended = str(state.get("/BM", "/Normal")) not in {"/Normal", "/Compatible"}
    return faint or blended or str(state.get("/SMask", "/None")) != "/None"
