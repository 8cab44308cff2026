"""A hard spot by itself."""

from dataclasses import replace
from fractions import Fraction

from kit.passages import by_hand, passage

from bookgen.plan.passage import Passage, Spot
from bookgen.plan.passage_excerpt import Excerpt, excerpts_of, other_excerpt
from bookgen.plan.passage_other import Instead


def with_spots(one: Passage, *runs: tuple[int, int]) -> Passage:
    spots = (Spot(at, *run, run[1], {}, 1.0) for at, run in enumerate(runs, start=1))
    return replace(one, spots=tuple(spots))


def names(excerpt: Excerpt) -> list[str]:
    sounds = (sound for _, sound in excerpt.phrase.sounds())
    return ["+".join(str(note.pitch) for note in sound.notes) for sound in sounds if sound.notes]


def test_a_spot_has_its_own_sounds_with_their_fingering() -> None:
    one = with_spots(passage(), (1, 4), (8, 10))
    first, second = excerpts_of(one)

    assert (first.number, second.number) == (1, 2)
    assert names(first) == ["B4", "C#5", "D5", "E5"]
    for spot, excerpt in zip(one.spots, (first, second), strict=True):
        own = one.best.placed[spot.first : spot.last + 1]
        assert [placed.stops for placed in excerpt.fingering.placed] == [p.stops for p in own]
        for placed in excerpt.fingering.placed:
            sound = excerpt.phrase.bars[placed.bar].sounds[placed.sound]
            assert len(sound.notes) == len(placed.stops)


def test_it_begins_and_ends_with_its_sounds_and_shows_no_meter_but_its_key() -> None:
    one = by_hand("A4 B4 C5 D5 | E5 F5 G5 A5", "II0 II1 II2 II3 I0 I1 I2 I3", sharps=-1)
    (cut,) = excerpts_of(with_spots(one, (2, 5)))
    first, last = cut.phrase.bars

    assert [sound.at for sound in first.sounds] == [Fraction(0), Fraction(1, 8)]
    assert (first.length, last.length) == (Fraction(1, 4), Fraction(1, 4))
    assert (first.meter, first.sharps) == (None, -1)


def test_no_first_note_is_tied() -> None:
    one = by_hand("A4 | ~A4 B4", "II0 II1")
    (cut,) = excerpts_of(with_spots(one, (0, 1)))
    assert not any(note.tied for note in cut.phrase.bars[0].sounds[0].notes)


def test_grace_notes_that_close_a_bar_stand_after_the_note_before_them() -> None:
    one = by_hand("A4 gB4 | C5 D5", "II0 II1 II2 II3")
    (cut,) = excerpts_of(with_spots(one, (1, 3)))

    assert names(cut) == ["A4", "B4", "C5", "D5"]
    assert [len(bar.sounds) for bar in cut.phrase.bars] == [2, 2]


def test_without_spots_there_is_nothing_to_cut_out() -> None:
    assert excerpts_of(passage()) == []


def test_another_way_has_its_positions_as_brackets() -> None:
    one = by_hand("A4 B4 C5 D5", "II0 II1 II2 II3")
    other = by_hand("A4 B4 C5 D5", "III4 III4 II1 II1", [(0, 1), (2, 3)])
    groups = tuple(replace(group, position="3rd") for group in other.best.groups)
    way = replace(other.best, groups=groups)
    cut = other_excerpt(one.phrase, way, Instead(1, 3, {}, {}))

    assert names(cut) == ["B4", "C5", "D5"]
    assert [(g.letter, g.first, g.last) for g in cut.fingering.groups] == [("3rd", 0, 2)]
