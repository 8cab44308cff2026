"""Engraved drills: the drawing of each, the type it is set in, and where its ink lies."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class InkBox:
    """The ink of one engraved drill on its page, in points, from the page's top left, y down.

    staff_top: top line of the first staff; staff_bottom: bottom line of the last one.
    systems: how many lines of music there are.
    """

    left: float
    top: float
    right: float
    bottom: float
    staff_top: float
    staff_bottom: float
    systems: int

    @property
    def width(self) -> float:
        """Width of the ink in points."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height of the ink in points."""
        return self.bottom - self.top


@dataclass(frozen=True, slots=True)
class Plate:
    """One engraved page, from which it can be printed again and again.

    drawing: a PDF's operators in gray ink, deflated; height: of the page, in points.
    """

    drawing: bytes
    height: float
    box: InkBox


@dataclass(frozen=True, slots=True)
class EngravedDrill:
    """One drill: its plate, and which type case of the engraving it is drawn with."""

    case: int
    plate: Plate

    @property
    def box(self) -> InkBox:
        """Its ink."""
        return self.plate.box


@dataclass(frozen=True, slots=True)
class Engraving:
    """All engraved drills, in the order in which they were asked for.

    cases: PDFs of one empty page that has the fonts of which drawings speak.
    pure: every run of the engraver draws them in the same bytes, whatever else it engraves.
    """

    cases: tuple[bytes, ...]
    drills: tuple[EngravedDrill, ...]
    pure: bool = True


def put_together(*engravings: Engraving) -> Engraving:
    """Engravings as one, the drills of each after those of the ones before it."""
    cases = list(dict.fromkeys(case for one in engravings for case in one.cases))
    drills = (
        EngravedDrill(cases.index(one.cases[drill.case]), drill.plate)
        for one in engravings
        for drill in one.drills
    )
    return Engraving(tuple(cases), tuple(drills), all(one.pure for one in engravings))
