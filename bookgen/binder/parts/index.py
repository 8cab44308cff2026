"""Where each interval lives: fingers and position, with the numbers of the drills that have it."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf, height_of, leaf_of, leaf_under
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.piece import Mark, Piece, Room
from bookgen.binder.page.prose import Look, heading, piece_of, words_of
from bookgen.binder.structure.tag import Role, Tag, item, of_drill
from bookgen.model.interval import Interval
from bookgen.plan.document import DrillEntry
from bookgen.words import index as words
from bookgen.words.names import interval_label, interval_name

FEWEST_DRILLS: Final = 12
"""Own choice: fewer stand on two pages, and are looked through sooner than an index."""

COLUMN_MM: Final = 55.0
"""Least width of a column of the index."""

COLUMN_GAP_MM: Final = 6.0
OVER_WHITE_MM: Final = 4.0
"""Below what stands over the columns."""

HEADING_WHITE_MM: Final = 2.4
ENTRY_WHITE_MM: Final = 0.5
HEADING_MORE_PT: Final = 1.5
HANG_MM: Final = 3.0
CUT_COST: Final = 0.5
"""Of an interval that goes on in another column, where columns are as even as can be (own choice:
columns may end at two heights rather than name an interval twice)."""


@dataclass(frozen=True, slots=True, order=True)
class Home:
    """One way to play an interval from string to string; sorts from the narrowest interval.

    fingers: on the lower string, then on the higher one.
    place, position: where the hand stands, in semitones and by the trade's label.
    """

    semitones: int
    label: str
    fingers: tuple[int, int]
    place: int
    position: str


def homes_of(entry: DrillEntry) -> Iterator[Home]:
    """Every interval of a drill between two strings."""
    for before, event in pairwise((entry.events[0], *entry.events)):
        label = event.within or (event.from_previous if event.crosses else None)
        if label is None:
            continue
        here = event.stops[-1]
        other = event.stops[0] if event.within else before.stops[-1]
        low, high = sorted((other, here), key=lambda stop: -stop.string)
        fingers = (low.finger, high.finger)
        size = Interval.parse(label).semitones
        yield Home(size, label, fingers, entry.place, entry.position)


Index = dict[str, dict[tuple[int, int], dict[str, list[int]]]]
"""By label and fingers: the positions, rising, with the numbers of their drills."""


def index_of(entries: Iterable[DrillEntry]) -> Index:
    """Where each interval lives, from the narrowest to the widest."""
    met = {(home, entry.number) for entry in entries for home in homes_of(entry)}
    found: Index = {}
    for home, number in sorted(met):
        places = found.setdefault(home.label, {}).setdefault(home.fingers, {})
        places.setdefault(home.position, []).append(number)
    return found


def worth_an_index(entries: Sequence[DrillEntry]) -> bool:
    """Whether an index tells a player something.

    It does not where the drills can be looked through, or have one interval only.
    """
    return len(entries) >= FEWEST_DRILLS and len(index_of(entries)) > 1


def index_pieces(
    found: Index, size: float, width: float, desk: Desk, pages: Mapping[int, int] | None
) -> Iterator[Piece]:
    """The index in pieces of a column of that width; an interval cut in two is named again.

    size: in points; pages: of the drills by their numbers, where they are to be told.
    """
    over = Look(size + HEADING_MORE_PT, above=HEADING_WHITE_MM)
    entry = Look(size, above=ENTRY_WHITE_MM, hang=HANG_MM)
    for label, homes in found.items():
        words_over = words.interval_heading(
            interval_name(label, desk.speech), interval_label(label, desk.speech), desk.speech
        )
        name = heading(words_over, over, width, desk, 0.0)
        yield name
        listed = Tag(Role.LIST)
        for place, (fingers, positions) in enumerate(homes.items()):
            told = [place_told(*one, pages, desk) for one in positions.items()]
            said = words.home_words(fingers, told, desk.speech)
            home = words_of(said, entry, width, desk, leading(listed, positions.values()))
            piece = piece_of([home])
            yield replace(piece, again=name, tied=CUT_COST) if place else piece


def leading(listed: Tag, places: Iterable[Sequence[int]]) -> Tag:
    """An item of a list that leads to the first drill it names; places: the drills it names."""
    first = min(number for numbers in places for number in numbers)
    return Tag(Role.LINK, within=item(listed), goal=of_drill(first))


def place_told(
    position: str, numbers: Sequence[int], pages: Mapping[int, int] | None, desk: Desk
) -> str:
    """A position with its drills, and their pages where these are to be told."""
    if pages is None:
        return words.place_words(position, numbers, desk.speech)
    return words.place_pages(position, numbers, [pages[one] for one in numbers], desk.speech)


def columns_of(desk: Desk) -> tuple[int, float, float]:
    """The columns of an index on the desk's paper: how many, and in millimetres gap and width."""
    count = int((desk.sheet.column + COLUMN_GAP_MM) // (COLUMN_MM + COLUMN_GAP_MM))
    return count, COLUMN_GAP_MM, (desk.sheet.column - (count - 1) * COLUMN_GAP_MM) / count


def index_leaves(
    entries: Sequence[DrillEntry],
    frame: Frame,
    above: Piece | None = None,
    pages: Mapping[int, int] | None = None,
) -> list[Leaf]:
    """The pages of the index, in smaller type where that saves a page.

    above: stands over the whole width of the first page, such as the map.
    pages: of the drills by their numbers, where they are to be told.

    Raises:
        NoRoomError: it leaves no room.
    """
    desk = frame.desk
    title = words.index_title(desk.speech)
    look = Look(desk.layout.text.body_pt)
    intro = piece_of([words_of(words.index_intro(desk.speech), look, desk.sheet.column, desk)])
    intro = replace(intro, above=OVER_WHITE_MM, marks=(Mark(title, 0),))
    over = [*([above] if above else []), intro]
    high = height_of(over) + OVER_WHITE_MM
    if high > frame.room:
        raise NoRoomError(title, high, frame.room)
    count, gap, width = columns_of(desk)
    found = index_of(entries)

    def room(page: int) -> Room:
        return Room(count, width, gap, frame.room - (0.0 if page else high))

    ways = [
        flow([*index_pieces(found, size, width, desk, pages)], room)
        for size in (desk.layout.text.body_pt, desk.layout.text.small_pt)
    ]
    first, *rest = min(ways, key=len)
    lower = replace(leaf_of(first, frame.top - high, above.running if above else title), marks=())
    begin = leaf_under(over, lower, frame.top)
    return [begin, *(leaf_of(page, frame.top, title) for page in rest)]


def listed_leaves(
    title: str, said: str, pieces: Callable[[float], Iterable[Piece]], frame: Frame
) -> list[Leaf]:
    """Pages of a list in columns, under a few words.

    title: in the running head and in the contents; pieces: of columns so wide, in millimetres.
    """
    desk = frame.desk
    look = Look(desk.layout.text.body_pt)
    over = replace(
        piece_of([words_of(said, look, desk.sheet.column, desk)]), marks=(Mark(title, 0),)
    )
    high = over.height + OVER_WHITE_MM
    count, gap, width = columns_of(desk)

    def room(page: int) -> Room:
        return Room(count, width, gap, frame.room - (0.0 if page else high))

    first, *rest = flow([*pieces(width)], room)
    begun = leaf_under([over], leaf_of(first, frame.top - high, title), frame.top)
    return [begun, *(leaf_of(page, frame.top, title) for page in rest)]
