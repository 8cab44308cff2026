"""Hard spots: what a teacher would circle, and how many of a kind."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.fingered import solved
from kit.knowing import short
from kit.phrases import phrase
from kit.shorthand import VIOLIN

from bookgen.model.move import Move
from bookgen.model.spot_weights import SpotWeights
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.passage.groups import grouped
from bookgen.passage.points import Judge, Point, pair_effort
from bookgen.passage.secure import Secure
from bookgen.passage.sounds import Sounds
from bookgen.passage.spots import Search
from bookgen.plan.passage import Spot
from bookgen.readers.spots import read_spots
from bookgen.readers.weights import read_weights

TABLE = read_spots()
NOTHING = Secure.of([])
SINGLE = ("G3", "B3", "D4", "F#4", "A4", "B4", "C5", "C#5", "E5", "G5", "B5", "r")
TONES = st.sampled_from([*SINGLE, "G3+E4", "D4+B4", "A4+F5"])


def judged(text: str, secure: Secure = NOTHING, each: Fraction = Fraction(1, 8)) -> Judge:
    written = phrase(text, each)
    fingering = grouped(solved(written).best, written, VIOLIN)
    sounds = Sounds.of(fingering, written, VIOLIN)
    return Judge(sounds, TABLE, read_weights().effort, secure)


def searched(text: str, most: int = 8, table: SpotWeights = TABLE) -> Search:
    judge = judged(text)
    search = Search(judge.sounds, judge.points(), table, most)
    search.run()
    return search


def points(text: str, each: Fraction = Fraction(1, 8)) -> list[Point]:
    return judged(text, each=each).points()


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("harder", "easier"),
    [
        ("D5:3@II B5:4@I", "D5:3@II E5:4@II"),  # across a sixth, along
        ("C5:2@II C#5:2@II", "B4:1@II C#5:2@II"),  # a finger that goes high
        ("G3:0@IV A4:0@II", "D4:0@III A4:0@II"),  # a skipped string
        ("F#5:1@I D6:1@I", "F#5:1@I G5:2@I"),  # a shift
    ],
)
def test_what_a_player_stumbles_over_scores_more(harder: str, easier: str) -> None:
    assert points(harder)[1].score > points(easier)[1].score


def test_two_fingers_at_once_score_more_than_one_after_the_other() -> None:
    assert points("B4 D4+B4:1@II F4+D5")[2].kind == "together"
    assert points("B4 F4+D5")[1].score > points("F4 D5")[1].score


def test_an_open_string_counts_more_in_fast_notes() -> None:
    slow, fast = (
        points("B4:1@II E5:0 B4:1@II", each)[1] for each in (Fraction(1, 4), Fraction(1, 16))
    )

    assert fast.parts["cross"] > slow.parts["cross"]
    assert fast.score > 2 * slow.score


def test_what_is_secure_counts_half_and_in_another_place_three_quarters() -> None:
    text = "B4:1@II C5:2@II B4:1@II"
    plain = judged(text).points()[1]
    here, there = (
        judged(text, Secure.of([short(f"12H{place} 4321 1 mirror")])).points()[1]
        for place in (2, 5)
    )

    assert plain.moves == (
        Move(Stop(StringNumber(2), 1, Semitones(2)), Stop(StringNumber(2), 2, Semitones(3))),
    )
    assert here.score == pytest.approx(TABLE.secure.all * plain.score)
    assert there.score == pytest.approx(TABLE.secure.elsewhere * plain.score)


def test_what_comes_often_counts_more() -> None:
    once = points("D5:3@II B5:4@I r r")[1]
    thrice = points("D5:3@II B5:4@I r D5:3@II B5:4@I r D5:3@II B5:4@I")[1]
    assert thrice.score > once.score


def test_two_fingers_without_a_word_in_the_table_are_a_stretch_or_a_plain_fourth() -> None:
    effort = read_weights().effort
    one, four, third = (Stop(StringNumber(1), f, Semitones(h)) for f, h in ((1, 2), (4, 7), (3, 9)))

    assert pair_effort(one, four, effort) < effort.fingers.otherwise
    assert pair_effort(one, third, effort) == effort.fingers.otherwise


def test_a_hard_crossing_is_a_spot_with_what_stands_around_it() -> None:
    search = searched("D5 D5 D5 D5 | D5:3@II B4 F#5:1@I D5:3@II | D5 D5 D5 D5")
    (spot,) = search.spots()

    assert spot.number == 1
    assert 4 <= spot.first <= spot.peak <= spot.last <= 8
    assert max(spot.parts, key=lambda part: spot.parts[part]) == "cross"


def test_the_same_sounds_elsewhere_are_one_spot() -> None:
    bar = "D5:3@II B4 F#5:1@I D5:3@II"
    (spot, *more) = searched(f"{bar} r r r r | {bar}").spots()

    assert spot.others or more == []
    assert all(other != spot.first for other in spot.others)


def test_no_kind_takes_more_than_its_share_and_what_is_left_is_counted() -> None:
    chords = "D4+B4 r D4+C5 r E4+C5 r F4+D5 r G4+B4 r G4+C5 r E4+B4 r A4+F5 r"
    search = searched(f"{chords} G3 F#5 | D5:3@II B5:4@I r C5:2@II C#5:2@II", most=4)
    kinds = Counter(max(spot.parts, key=lambda part: spot.parts[part]) for spot in search.spots())

    assert kinds["together"] <= 2
    assert len(search.easier) > 0


def test_an_easy_line_has_no_spot() -> None:
    table = msgspec.structs.replace(TABLE, chosen=msgspec.structs.replace(TABLE.chosen, least=5.0))
    assert searched("A4 B4 A4 B4", table=table).spots() == ()


def overlaps(one: Spot, other: Spot) -> bool:
    return one.first <= other.last and other.first <= one.last


@settings(max_examples=20, deadline=None)
@given(st.lists(TONES, min_size=1, max_size=30), st.integers(1, 8))
def test_spots_are_short_apart_and_hold_no_rest(words: list[str], most: int) -> None:
    search = searched(" ".join(words), most)
    spots = search.spots()

    assert len(spots) <= most
    assert [spot.number for spot in spots] == list(range(1, len(spots) + 1))
    for at, spot in enumerate(spots):
        assert spot.first <= spot.peak <= spot.last
        assert spot.last - spot.first < TABLE.chosen.widest
        assert not any(overlaps(spot, other) for other in spots[:at])
        inside = range(spot.first + 1, spot.last + 1)
        assert not any(search.sounds.events[index].silence for index in inside)
        for other in spot.others:
            here, there = (
                [search.stops(start + step) for step in range(spot.last - spot.first + 1)]
                for start in (spot.first, other)
            )
            assert here == there


def test_the_table_is_read_from_its_file_and_a_movement_has_more_places() -> None:
    assert TABLE.chosen.places(40) < TABLE.chosen.places(4000)
    assert TABLE.time.speed(0.03125) == TABLE.time.fastest
    assert TABLE.time.speed(2.0) == TABLE.time.slowest
    assert replace(searched("A4 B4").points[0], parts={}).kind == ""
