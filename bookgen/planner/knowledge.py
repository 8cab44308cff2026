"""What a player knows, from the log and from the days that are already planned."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from datetime import date as Date  # noqa: N812

from bookgen.model.drill import Drill
from bookgen.plan.document import Role
from bookgen.plan.record import Played, Printed, Record, Result
from bookgen.planner.graph import Graph
from bookgen.planner.progress import Progress, hand_of
from bookgen.planner.review import Memory, first_memory


class Knowledge:
    """What counts as known on a day.

    A printed day of which the log says nothing at all counts as played and secure, whether it
    lies earlier in the same plan or was a sheet of its own: so a day planned by itself is that
    day of a run. On a day with any result the drills without one were not played.

    secure: drills whose last result is secure, that the player is said to know, or that stand
        on a day of which nothing is said.
    presumed: those of them that are secure by that hope alone.
    failed: drills whose last result is not yet, with its day.
    met: every drill with a result, and all that are secure.
    secured: the last day on which a drill was secure.
    progress: how far the hands have come; covered: the moves of all drills that were met.
    memories: how well each drill with a result, or presumed, is kept in mind.
    printed: every drill that was printed or planned, met or not, the last one last.
    openings: what opened each day so far, in the order of the days.
    """

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self.secure: dict[Drill, None] = {}
        self.presumed: set[Drill] = set()
        self.failed: dict[Drill, Date] = {}
        self.met: set[Drill] = set()
        self.secured: dict[Drill, Date] = {}
        self.progress = Progress(graph)
        self.covered = self.progress.covered
        self.memories: dict[Drill, Memory] = {}
        self.printed: dict[Drill, None] = {}
        self.openings: list[Drill] = []

    def trust(self, drills: Iterable[Drill]) -> None:
        """Take drills as secure of which no result is known."""
        for drill in drills:
            self.secure[drill] = None
            self.met.add(drill)
            self.progress.trust(drill, self.graph.weights.pace.firm_days)

    def read(self, records: Iterable[Record], before: Date) -> None:
        """Take in what was printed before a day and the results up to it.

        What was played on another instrument tells nothing: its stops are others.
        """
        own = [r for r in records if r.drill.instrument == self.graph.instrument.key]
        for _, drill in printings(own, before):
            self.stand(drill)
        self.openings.extend(openings_in(own, before))
        said = [(one.date, one.result, drill) for one, drill in results(own) if one.date <= before]
        hoped = [(date, None, drill) for date, drill in unheard(own, before)]
        for date, result, drill in sorted([*said, *hoped], key=lambda one: one[0]):
            if result is None:
                self.presume(drill, date)
            else:
                self.take(drill, result, date)

    def stand(self, drill: Drill) -> None:
        """Note that a drill is the last one that was printed or planned."""
        self.printed.pop(drill, None)
        self.printed[drill] = None

    def take(self, drill: Drill, result: Result, date: Date) -> None:
        """Take in one result."""
        self.met.add(drill)
        self.progress.play(drill, date, secure=result is Result.SECURE)
        self.presumed.discard(drill)
        self.remember(drill, result, date)
        if result is Result.SECURE:
            self.secure[drill] = None
            self.secured[drill] = date
            self.failed.pop(drill, None)
        else:
            self.secure.pop(drill, None)
            self.failed[drill] = date

    def presume(self, drill: Drill, date: Date) -> None:
        """Go on as if a drill of a day of which nothing is said were secure."""
        presumed = drill in self.presumed or drill not in self.secure
        self.take(drill, Result.SECURE, date)
        if presumed:
            self.presumed.add(drill)

    def remember(self, drill: Drill, result: Result, date: Date) -> None:
        """Let a result count for when the drill is due again."""
        memory = self.memories.get(drill)
        retention = self.graph.weights.retention
        self.memories[drill] = (
            first_memory(date, result, retention) if memory is None else memory.after(date, result)
        )

    def is_new_hand(self, drill: Drill) -> bool:
        """The player has met the drill's frame nowhere or in other places only."""
        return hand_of(drill) not in self.progress.top

    def lateness(self, drill: Drill, date: Date) -> float:
        """How far the time to a drill's next review has run: 1 when it is due."""
        memory = self.memories.get(drill)
        if memory is None:
            return 1.0
        return (date - memory.last).days / max((memory.due - memory.last).days, 1)

    def passed(self, drill: Drill) -> bool:
        """The same drill is secure at the next stage or on more strings: that includes it."""
        following = self.graph.following(drill)
        if following is not None and following in self.secure:
            return True
        return any(wider in self.secure for wider in self.graph.wider(drill))


def unheard(records: Iterable[Record], before: Date) -> Iterator[tuple[Date, Drill]]:
    """The drills of every day printed before a date of which the log says nothing at all.

    A result belongs to the last page before it, or of its own day, that has the drill. In the
    order of the days, and on a day in that of the page.
    """
    records = tuple(records)
    heard: set[Date] = set()
    for record in records:
        pages = [page.date for page in record.printed]
        told = (bisect_right(pages, one.date) for one in record.results if one.date <= before)
        heard.update(pages[after - 1] for after in told if after)
    for page, drill in printings(records, before):
        if page.date not in heard:
            yield page.date, drill


def printings(records: Iterable[Record], before: Date) -> list[tuple[Printed, Drill]]:
    """Every printing for a day before a date with its drill, in the order of the pages."""
    found = [
        (day, record.number, record.drill)
        for record in records
        for day in record.printed
        if day.date < before
    ]
    found.sort(key=lambda entry: (entry[0].date, entry[0].order, entry[1]))
    return [(day, drill) for day, _, drill in found]


def results(records: Iterable[Record]) -> list[tuple[Played, Drill]]:
    """Every result with its drill, in the order of their days."""
    found = [(day, record.number, record.drill) for record in records for day in record.results]
    found.sort(key=lambda entry: (entry[0].date, entry[1]))
    return [(day, drill) for day, _, drill in found]


def openings_in(records: Iterable[Record], before: Date) -> list[Drill]:
    """The drill that opened each day before a date, in the order of the days."""
    first: dict[Date, Drill] = {}
    for day, drill in printings(records, before):
        if day.role in {Role.START, Role.COLD}:
            first.setdefault(day.date, drill)
    return list(first.values())
