"""What stands behind the chapters of a book: answers, hands, indexes, pages to copy."""

from collections.abc import Mapping, Sequence

from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import BLANK, Leaf, leaves_of
from bookgen.binder.parts.answers import answer_pieces
from bookgen.binder.parts.atlas.pages import atlas_leaves
from bookgen.binder.parts.drills import Drills
from bookgen.binder.parts.hand_pages import hand_leaves
from bookgen.binder.parts.hands_index import hands_leaves
from bookgen.binder.parts.index import index_leaves, worth_an_index
from bookgen.binder.parts.interval_answers import answer_leaves
from bookgen.binder.parts.log_page import log_leaves
from bookgen.binder.parts.pictures import Picture
from bookgen.binder.parts.plan_page import plan_leaves


def back_leaves(
    drills: Drills,
    music: Sequence[Picture],
    located: Mapping[int, int],
    first: int,
    frame: Frame,
    *,
    teacher: bool,
) -> list[Leaf]:
    """All of these pages.

    music: of each drill, where it is not shown in the chapters; located: the page of each drill.
    first: how many pages stand before; teacher: it is the teacher's edition.
    """
    entries = [setting.entry for setting in drills.settings]
    found: list[Leaf] = []
    if music:
        answers = [*answer_pieces(entries, music, drills.desk)]
        found += leaves_of(flow(answers, lambda _: drills.room(frame)), frame.top)
    if teacher:
        found += answer_leaves(drills.settings, frame)
    hands, board = hand_leaves(drills, frame), atlas_leaves(frame)
    if len(board) == 1 and len(hands) > 1 and not (first + len(found)) % 2:
        found += board  # then the hands stand on pages that face each other
        board = []
    told = pages_of(hands, first + len(found))
    found += hands
    if len(board) > 1 and not (first + len(found)) % 2:
        found.append(BLANK)  # its two pages face each other
    found += board
    if worth_an_index(entries):
        found += index_leaves(entries, frame, pages=located)
    found += hands_leaves(entries, located, told, frame)
    found += plan_leaves(frame)
    found += log_leaves(frame)
    return found


def pages_of(leaves: Sequence[Leaf], first: int) -> dict[str, int]:
    """On which page each entry of the outline first stands, by its title.

    first: how many pages stand before.
    """
    found: dict[str, int] = {}
    for page, leaf in enumerate(leaves, start=first + 1):
        for mark in leaf.marks:
            found.setdefault(mark.title, page)
    return found
