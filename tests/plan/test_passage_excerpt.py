"""A group's own notes, evenly and in their rhythm."""

from dataclasses import replace
from fractions import Fraction

from kit.passages import passage

from bookgen.plan.passage import Ladder, Passage
from bookgen.plan.passage_excerpt import Excerpt, excerpts_of

QUARTER = Fraction(1, 4)


def with_ladders(text: str | None = None) -> Passage:
    one = passage() if text is None else passage(text)
    return replace(one, ladders=tuple(Ladder(g.letter, (), ()) for g in one.best.groups))


def names(excerpt: Excerpt) -> list[str]:
    sounds = (sound for _, sound in excerpt.phrase.sounds())
    return ["+".join(str(note.pitch) for note in sound.notes) for sound in sounds if sound.notes]


def test_every_group_comes_evenly_and_in_rhythm() -> None:
    one = with_ladders()
    found = excerpts_of(one)
    letters = [group.letter for group in one.best.groups if group.last - group.first >= 2]

    assert [excerpt.letter for excerpt in found] == [x for x in letters for _ in range(2)]
    for even, rhythm in zip(found[::2], found[1::2], strict=True):
        assert names(even) == names(rhythm) or len(names(even)) < len(names(rhythm))
        assert {sound.duration for _, sound in even.phrase.sounds()} == {QUARTER}


def test_the_fingering_goes_along() -> None:
    one = with_ladders()
    groups = {group.letter: group for group in one.best.groups}
    for excerpt in excerpts_of(one):
        group = groups[excerpt.letter]
        own = one.best.placed[group.first : group.last + 1]

        assert [placed.stops for placed in excerpt.fingering.placed] == [p.stops for p in own]
        for placed in excerpt.fingering.placed:
            sound = excerpt.phrase.bars[placed.bar].sounds[placed.sound]
            assert len(sound.notes) == len(placed.stops)


def test_an_excerpt_knows_its_key_and_meter() -> None:
    one = with_ladders("A4 B4 C#5 D5 E5 F#5 G#5 A5 | A4 B4 C#5 D5 E5 F#5 G#5 A5")
    first = replace(one.phrase.bars[0], sharps=3, meter=(4, 4))
    one = replace(one, phrase=replace(one.phrase, bars=(first, *one.phrase.bars[1:])))

    for excerpt in excerpts_of(one):
        assert excerpt.phrase.bars[0].sharps == 3
    assert excerpts_of(one)[1].phrase.bars[0].meter == (4, 4)


def test_no_first_note_is_tied() -> None:
    for excerpt in excerpts_of(with_ladders()):
        first = excerpt.phrase.bars[0].sounds[0]
        assert not any(note.tied for note in first.notes)


def test_without_ladders_there_is_nothing_to_lead_to() -> None:
    assert excerpts_of(passage()) == []
