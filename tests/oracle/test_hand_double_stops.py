"""Every two fingers of the hands of cello and bass together on two strings, beside the tables."""

import pytest
from kit.sources import published_words

from bookgen.model.drill import Drill
from bookgen.model.finger import fingers_in
from bookgen.model.music import play
from bookgen.model.route import Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones, StringNumber
from bookgen.readers.instrument import read_instrument

HANDS = published_words("hand_double_stops", "hands")
HEARD = published_words("hand_double_stops", "heard")
TOGETHER = 5


def struck(hand: str, low: int, high: int) -> tuple[int, str | None] | None:
    """Half steps and name of two fingers together; None where their spacing has no name."""
    key, at, signs, *steps = HANDS.values[hand].split()
    fingers, instrument = fingers_in(signs), read_instrument(key)
    heights = {
        finger: int(at) + sum(map(int, steps[:index])) for index, finger in enumerate(fingers)
    }
    lowest, highest = sorted((low, high))
    apart = heights[highest] - heights[lowest]
    named = [one for one in Spacing if one.semitones == apart]
    frames = (
        [Frame((low,), ())] if not apart else [Frame.pair(lowest, highest, one) for one in named]
    )
    place, strings = Semitones(heights[lowest]), (StringNumber(2), StringNumber(1))
    order = (low,) if low == high else (low, high)
    for frame in frames:
        drill = Drill(key, frame, order, place, strings, TOGETHER, Return.SAME)
        if drill.refusal(instrument) is None:
            first, second = play(drill, instrument)[0].notes
            return second.pitch.midi - first.pitch.midi, play(drill, instrument)[0].within
    return None


@pytest.mark.published(HEARD.title)
@pytest.mark.parametrize(("case", "heard"), HEARD.values.items())
def test_two_fingers_sound_as_the_table_says(case: str, heard: str) -> None:
    hand, _, pair = case.partition(": ")
    low, high = (fingers_in(sign)[0] for sign in pair.split())
    semitones, *names = heard.split()

    found = struck(hand, low, high)

    assert found is not None
    assert found[0] == int(semitones)
    assert found[1] in names
