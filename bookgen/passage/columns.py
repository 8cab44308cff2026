"""The columns of a phrase: for every event all the poses that it can be played in."""

from collections.abc import Iterator, Sequence

from bookgen.passage.cost import Tariff
from bookgen.passage.lattice import NOWHERE, Bundle, Column, Node
from bookgen.passage.placement import Pose
from bookgen.passage.playable import Playable


def columns_of(played: Sequence[Playable], tariff: Tariff) -> list[Column]:
    """A column of nodes for every event; open strings are there once for every last place.

    played: events of which at least one note can be played.
    """
    columns: list[Column] = []
    places: tuple[int, ...] = (NOWHERE,)
    known: dict[tuple[tuple[Pose, ...], tuple[int, ...]], Bundle] = {}
    owns: dict[tuple[Bundle, bool], tuple[float, ...]] = {}
    for index, one in enumerate(played):
        open_to = places if any(not pose.place for pose in one.poses) else ()
        bundle = known.get((one.poses, open_to))
        if bundle is None:
            bundle = Bundle.of(tuple(nodes_of(one.poses, open_to)))
            known[one.poses, open_to] = bundle
        at = (bundle, one.event.lasts >= tariff.limits.open_note)
        if at not in owns:
            owns[at] = tuple(
                tariff.total(tariff.own(node.pose, one.event)) for node in bundle.nodes
            )
        ties = one.ties(played[index - 1]) if index else ()
        manner = tariff.manner(played[index - 1].event if index else None, one.event)
        columns.append(Column(one.event, bundle, owns[at], ties, manner, one.event.kept))
        places = tuple(sorted({node.place for node in bundle.nodes}))
    return columns


def nodes_of(poses: Sequence[Pose], places: Sequence[int]) -> Iterator[Node]:
    """The nodes of an event.

    places: where the hand can have been at the event before.
    """
    for pose in poses:
        if pose.place:
            yield Node(pose, pose.place)
        else:
            for place in places:
                yield Node(pose, place)
