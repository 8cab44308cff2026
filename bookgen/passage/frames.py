"""The frames of a placement: which fingers play in it, and how they stand on each string."""

from collections import Counter
from collections.abc import Mapping

from bookgen.model.spacing import Frame
from bookgen.model.stop import Stop
from bookgen.passage.shape import Shape


def frames_of(counts: Mapping[Stop, int], shape: Shape) -> list[Frame]:
    """The frames of a placement, the one with the most notes first.

    Each string has its frame: the fingers of the whole placement, each where it stands most
    often on that string, or else where it stands most often at all. So a low 2 on one string
    and a high 2 on another give two frames of one placement. A finger that the hand cannot
    have beside the others, because it went somewhere else meanwhile, is left out.

    counts: how often each stop is played, open strings left out, in the order of time.
    """
    usual = usual_spots(counts)
    weights: Counter[Frame] = Counter()
    for string in dict.fromkeys(stop.string for stop in counts):
        here = {stop: count for stop, count in counts.items() if stop.string == string}
        frame = fitting({**usual, **usual_spots(here)}, weights_of(counts), shape)
        if frame is not None:
            weights[frame] += sum(here.values())
    return [frame for frame, _ in weights.most_common()]


def usual_spots(counts: Mapping[Stop, int]) -> dict[int, int]:
    """By finger the semitones at which it stands most often; of equals the first."""
    spots: dict[int, Counter[int]] = {}
    for stop, count in counts.items():
        spots.setdefault(stop.finger, Counter())[stop.semitones] += count
    return {finger: found.most_common(1)[0][0] for finger, found in spots.items()}


def weights_of(counts: Mapping[Stop, int]) -> Counter[int]:
    """How many notes each finger plays."""
    found: Counter[int] = Counter()
    for stop, count in counts.items():
        found[stop.finger] += count
    return found


def fitting(spots: Mapping[int, int], weights: Mapping[int, int], shape: Shape) -> Frame | None:
    """The frame of these fingers, without those that keep it from being one; the rarest go first.

    None where fewer than two fingers are left.
    """
    left = dict(spots)
    while len(left) > 1:
        frame = shape.frame(left)
        if frame is not None:
            return frame
        del left[min(left, key=lambda finger: weights[finger])]
    return None
