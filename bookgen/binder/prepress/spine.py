"""How thick a book is: its leaves, by the paper that they are of."""

from dataclasses import dataclass
from typing import Final

GRAMS: Final = (40.0, 300.0)
"""Papers of books, in grams a square metre (own choice)."""

BULK: Final = (0.7, 2.5)
"""From dense coated to bulky uncoated papers, in cubic centimetres a gram (own choice)."""

LEAST_PRINTED_MM: Final = 6.0
"""Own choice: on a narrower spine words would slip onto the covers."""


@dataclass(frozen=True, slots=True)
class Stock:
    """A paper, as its maker tells it.

    grams: a square metre; bulk: in cubic centimetres a gram, about 1.25 for uncoated offset paper.
    """

    grams: float
    bulk: float

    def __post_init__(self) -> None:
        """Refuse what no book is printed on.

        Raises:
            ValueError: it is such a paper.
        """
        for value, (least, most) in ((self.grams, GRAMS), (self.bulk, BULK)):
            if not least <= value <= most:
                msg = f"{value:g} lies outside of {least:g} to {most:g}"
                raise ValueError(msg)

    @property
    def leaf_mm(self) -> float:
        """Thickness of a leaf in millimetres: weight of a square metre by volume of a gram."""
        return self.grams * self.bulk / 1000

    def spine_mm(self, pages: int) -> float:
        """Width of the spine in millimetres, without the cover's own board and the glue.

        >>> round(Stock(90.0, 1.25).spine_mm(96), 2)
        5.4
        """
        return -(-pages // 2) * self.leaf_mm
