"""The instruments of a class: each takes a hand that they share with fingers of its own."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise, product

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.place import place_label
from bookgen.model.position import HAND
from bookgen.model.route import Return
from bookgen.model.spacing import Frame
from bookgen.model.units import Semitones
from bookgen.planner.area import Area
from bookgen.planner.together import Strings, Together


@dataclass(frozen=True, slots=True)
class Member:
    """An instrument of a class, and where its player's hand may lie.

    positions: the trade's labels, those that are taken first in front.
    """

    instrument: Instrument
    positions: tuple[str, ...]

    def hand(
        self, frame: Frame, place: Semitones, strings: Strings, label: str | None = None
    ) -> Drill | None:
        """This instrument's own fingers for a hand of another, as a drill of stage 1.

        Fingers that stand as far apart, at the same place: on the cello 1-3 for a violin's 1-2.

        label: of the other's position, which is taken where that can be.
        """
        count = len(frame.fingers)
        found = []
        for fingers in combinations(range(1, HAND + 1), count):
            own = Frame(fingers, frame.spacings, frame.shift)
            drill = Drill(self.instrument.key, own, fingers, place, strings, 1, Return.SAME)
            if self.takes(drill):
                at = place_label(drill, self.instrument)
                found.append((at != label, self.positions.index(at), fingers, drill))
        return min(found, key=lambda one: one[:3])[-1] if found else None

    def takes(self, drill: Drill) -> bool:
        """Whether the hand plays a drill without a stretch, in one of the positions."""
        if drill.refusal(self.instrument) is not None:
            return False
        still = not self.instrument.stretches(drill.frame, drill.place)
        return still and place_label(drill, self.instrument) in self.positions


def part_of(drill: Drill, member: Member, strings: Strings, label: str) -> Drill | None:
    """A drill of one instrument as another plays it along, or None where it cannot.

    strings: of the other one. label: of the first one's position.
    """
    hand = member.hand(drill.frame, drill.place, strings, label)
    if hand is None:
        return None
    order = tuple(hand.frame.fingers[rank] for rank in drill.ranks())
    own = replace(hand, order=order, stage=drill.stage, back=drill.back)
    return own if own.refusal(member.instrument) is None else None


def shared(
    leader: Instrument,
    members: Sequence[Member],
    runs: Iterable[Together],
    area: Area,
    *,
    alike: bool = False,
) -> list[Drill]:
    """The hands of the first instrument's area that every other one has too, at stage 1.

    alike: only those for which all lie in a position of the same name.
    """
    found: list[Drill] = []
    places = map(Semitones, range(1, leader.highest_stop + 1))
    for one, frame, place in product(runs, area.frames, places):
        own, *others = one.runs
        drill = Drill(leader.key, frame, frame.fingers, place, own, 1, Return.SAME)
        if area.holds(drill, leader):
            label = place_label(drill, leader)
            parts = [
                (part_of(drill, member, strings, label), member.instrument)
                for member, strings in zip(members, others, strict=True)
            ]
            if all(
                part is not None and (not alike or place_label(part, instrument) == label)
                for part, instrument in parts
            ):
                found.append(drill)
    return found


def once(hands: Iterable[Drill]) -> Iterator[Drill]:
    """Of hands that stop the same notes, the first one: a class hears no difference."""
    seen: set[tuple[Semitones, tuple[int, ...], Strings]] = set()
    for drill in hands:
        steps = tuple(
            drill.frame.offset(high) - drill.frame.offset(low)
            for low, high in pairwise(drill.frame.fingers)
        )
        notes = (drill.place, steps, drill.strings)
        if notes not in seen:
            seen.add(notes)
            yield drill
