"""What a player is to cover is checked against the instrument's own hand and places."""

import pytest
from kit.shorthand import SPECIMEN_KEYS, VIOLA, VIOLIN, specimen

from bookgen.model.instrument import Instrument
from bookgen.model.place import place_label
from bookgen.model.spacing import Frame, Spacing
from bookgen.readers.hands import fingers_of, more_of, pairs_of, positions_of, spacings_of
from bookgen.readers.instrument import read_instrument
from bookgen.readers.studio.area import Cover, Start, cover_of, start_drills
from bookgen.readers.studio.tables import PlayerTable, StartTable

EVERY = [VIOLIN, VIOLA, *map(specimen, SPECIMEN_KEYS)]


def cover(
    table: PlayerTable, start: StartTable | None = None, instrument: Instrument = VIOLIN
) -> Cover:
    found = cover_of(table, start or StartTable(), instrument, "here")
    assert isinstance(found, Cover), found
    return found


def told(
    table: PlayerTable, start: StartTable | None = None, instrument: Instrument = VIOLIN
) -> list[str]:
    found = cover_of(table, start or StartTable(), instrument, "here")
    assert isinstance(found, list)
    return [str(finding) for finding in found]


def test_left_out_it_is_the_plain_hand_in_first_position() -> None:
    assert cover(PlayerTable()) == Cover(
        positions=("1st",),
        pairs=((1, 2), (2, 3), (3, 4)),
        spacings=(Spacing.HALF, Spacing.WHOLE),
        fewest_strings=3,
        highest_stage=5,
        start=Start((1, 2), Spacing.WHOLE, "1st", 0),
    )


@pytest.mark.published("cello and double bass methods: the closed hand; common practice")
@pytest.mark.parametrize(
    ("key", "pairs", "start", "frames"),
    [
        ("cello", "12 13 23 24 34", "13", "t12 t13 123 124 134 234 t123 1234"),
        ("double_bass", "12 14 24", "14", "t12 t13 t23 123 124 t123"),
        ("double_bass_134", "13 14 34", "14", "t12 t13 t23 123 134 t123"),
        ("five_string_violin", "12 23 34", "12", "123 234 1234"),
    ],
)
def test_left_out_it_is_each_instruments_own_hand(
    key: str, pairs: str, start: str, frames: str
) -> None:
    instrument = read_instrument(key)
    found = cover(PlayerTable(), instrument=instrument)

    assert found.pairs == tuple(map(fingers_of, pairs.split()))
    assert found.start == Start(fingers_of(start), Spacing.WHOLE, "1st", 0)
    assert more_of(instrument) == tuple(frames.split())


def test_half_steps_in_a_row_are_the_hand_only_where_it_is_closed() -> None:
    table = PlayerTable(hands=("12", "123"))
    halves = Frame((1, 2, 3), (Spacing.HALF, Spacing.HALF))

    assert halves in cover(table, instrument=read_instrument("cello")).frames(
        read_instrument("cello")
    )
    assert halves not in cover(table).frames(VIOLIN)


def test_the_start_follows_from_the_area() -> None:
    table = PlayerTable(pairs=("34", "12"), spacings=("half",), positions=("3rd", "2nd"))

    assert cover(table).start == Start((3, 4), Spacing.HALF, "3rd", 0)


@pytest.mark.parametrize(
    ("key", "names"),
    [
        ("violin", {"12", "13", "23", "24", "34"}),
        ("cello", {"t1", "t2", "t3", "12", "13", "14", "23", "24", "34"}),
        ("double_bass", {"t1", "t2", "t3", "12", "13", "14", "23", "24"}),
    ],
)
def test_pairs_are_those_of_the_instruments_hand(key: str, names: set[str]) -> None:
    instrument = VIOLIN if key == "violin" else specimen(key)
    assert set(pairs_of(instrument)) == names


def test_spacings_that_are_stretches_are_none_to_practise() -> None:
    assert spacings_of(VIOLIN) == ("half", "whole", "minor-third", "major-third")


@pytest.mark.parametrize("instrument", EVERY, ids=lambda instrument: instrument.key)
def test_positions_are_the_labels_that_pages_print(instrument: Instrument) -> None:
    labels = positions_of(instrument)

    assert len(set(labels)) == len(labels)
    assert labels[0] == "half"
    for label in labels:
        table = PlayerTable(positions=(label,))
        found = cover_of(table, StartTable(), instrument, "here")
        if isinstance(found, Cover):
            drill = start_drills(found, instrument)[0]
            assert place_label(drill, instrument) == label


def test_the_start_is_where_open_strings_ring_most() -> None:
    """First finger a whole step above the open strings: A and E ring, A flat and E flat do not."""
    assert start_drills(cover(PlayerTable()), VIOLIN)[0].place == 2


@pytest.mark.parametrize(
    ("table", "lines"),
    [
        (PlayerTable(pairs=("14",)), ["here, pairs: no violin finger pair '14'; choose 12, 13"]),
        (PlayerTable(positions=("99th", "1st")), ["here, positions: no violin position '99th'; "]),
        (PlayerTable(spacings=("augmented",)), ["here, spacings: no violin spacing 'augmented'; "]),
        (
            PlayerTable(fewest_strings=6),
            ["here, fewest_strings: the violin has 4 strings; give 2 to 4."],
        ),
    ],
)
def test_what_the_instrument_does_not_have_is_told(table: PlayerTable, lines: list[str]) -> None:
    found = told(table)
    assert len(found) == len(lines)
    assert all(line.startswith(start) for line, start in zip(found, lines, strict=True))


@pytest.mark.parametrize(
    ("start", "line"),
    [
        (StartTable(fingers="34"), "here, start.fingers: '34' is not among the player's pairs; "),
        (
            StartTable(spacing="half"),
            "here, start.spacing: 'half' is not among the player's spacings",
        ),
        (
            StartTable(position="5th"),
            "here, start.position: '5th' is not among the player's positions",
        ),
        (
            StartTable(secure_to_stage=4),
            "here, start.secure_to_stage: 4 lies above the highest stage, 3; give 0 to 3.",
        ),
    ],
)
def test_a_start_outside_the_area_is_told(start: StartTable, line: str) -> None:
    table = PlayerTable(pairs=("12", "23"), spacings=("whole",), highest_stage=3)
    (only,) = told(table, start)
    assert only.startswith(line)


def test_a_pair_that_takes_none_of_the_spacings_is_told_with_those_it_takes() -> None:
    problem = "fingers 1 and 3 take none of the chosen spacings"
    mend = "add one of minor-third, major-third to the spacings, or leave the pair out"
    assert told(PlayerTable(pairs=("12", "13"))) == [f"here, pairs: {problem}; {mend}."]


def test_a_start_that_the_hand_does_not_reach_is_told() -> None:
    table = PlayerTable(positions=("13th",), pairs=("12", "34"))
    (line,) = told(table, StartTable(fingers="34"))
    problem = "the hand does not take fingers 34, whole step, in 13th position"
    assert line == f"here, start: {problem}; choose other fingers or another position."


def test_the_cellos_whole_step_is_not_taken_by_third_and_fourth_finger() -> None:
    table = PlayerTable(pairs=("34",), spacings=("whole",))
    line = told(table, None, specimen("cello"))[0]
    assert "fingers 3 and 4 take none of the chosen spacings" in line


def test_hands_of_more_fingers_have_the_spacings_of_their_pairs_but_no_two_half_steps() -> None:
    hands = ("12", "23", "34", "123", "1234")
    found = cover(PlayerTable(hands=hands))
    plain = cover(PlayerTable(pairs=hands[:3]))
    assert isinstance(found, Cover)
    assert isinstance(plain, Cover)
    frames = list(found.frames(VIOLIN))
    shapes = {(one.fingers, *(s.word[0] for s in one.spacings)) for one in frames}

    assert frames[: len(hands[:3]) * 2] == list(plain.frames(VIOLIN))
    assert {shape[1:] for shape in shapes if shape[0] == (1, 2, 3)} == {
        *(("w", "w"), ("w", "h"), ("h", "w"))
    }
    assert {shape[1:] for shape in shapes if shape[0] == (1, 2, 3, 4)} >= {
        *(("w", "h", "w"), ("h", "w", "w"), ("w", "w", "h"))
    }
    assert found.start == plain.start


@pytest.mark.parametrize(
    ("table", "problem"),
    [
        (PlayerTable(hands=("12", "123"), pairs=("12",)), "here, pairs: the pairs are among the"),
        (PlayerTable(hands=("123",)), "here, hands: there is no pair to begin with; add one"),
        (PlayerTable(hands=("12", "134")), "here, hands: no violin hand '134'; perhaps 1234"),
    ],
)
def test_hands_begin_with_a_pair_and_stand_instead_of_the_pairs(
    table: PlayerTable, problem: str
) -> None:
    assert told(table)[0].startswith(problem)
