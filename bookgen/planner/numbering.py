"""The numbers and the links that a player's drills have, and those that a plan gives."""

from collections.abc import Iterable, Mapping

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.plan.document import Link
from bookgen.plan.record import Record


class Numbering:
    """Numbers and links, each given once.

    numbers: of every drill that has one; drills: the other way about.
    links: of every drill that was printed or planned; it keeps the first one for ever.
    """

    def __init__(
        self, numbers: Mapping[Drill, int], first_number: int, records: Iterable[Record]
    ) -> None:
        """Go on from what the player has.

        first_number: of the first drill that has none.
        """
        self.numbers = dict(numbers)
        self.drills = {number: drill for drill, number in numbers.items()}
        self.next = first_number
        self.links: dict[Drill, Link] = {}
        for record in records:
            if record.link is not None and self.holds(record.link):
                self.links[record.drill] = record.link

    def holds(self, link: Link) -> bool:
        """Every number that a link names is that of a drill."""
        named = {link.to if isinstance(link.to, int) else None, link.echo and link.echo.number}
        return named - {None} <= self.drills.keys()

    def number(self, drill: Drill) -> int:
        """The drill's own number; a new one where it has none."""
        if drill not in self.numbers:
            self.numbers[drill] = self.next
            self.drills[self.next] = drill
            self.next += 1
        return self.numbers[drill]

    def drill(self, number: int) -> Drill:
        """The drill that has a number.

        Raises:
            RefusedError: there is none.
        """
        if number not in self.drills:
            raise RefusedError("plan-no-number", number=number)
        return self.drills[number]
