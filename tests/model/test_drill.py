"""Drills and their keys."""

from dataclasses import replace
from itertools import permutations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from kit.refusing import refused, said
from kit.shorthand import VIOLIN, drills, frame, pair, strings

from bookgen.model.dimension import Dimension
from bookgen.model.drill import OCTAVE, Drill
from bookgen.model.music import play
from bookgen.model.route import Return
from bookgen.model.spacing import Spacing
from bookgen.model.units import Semitones

KEY = "violin-12-whole-place2-strings4321-stage1-low-same"
START = Drill.parse_key(KEY)
SCALE = Drill.parse_key("violin-1234-whole.half.whole-place2-strings4321-stage1-low-same")


@given(drills(VIOLIN))
def test_a_key_reads_back_as_the_same_drill(drill: Drill) -> None:
    assert Drill.parse_key(drill.key) == drill


@given(drills(VIOLIN), drills(VIOLIN))
def test_different_drills_have_different_keys(one: Drill, other: Drill) -> None:
    assert (one == other) == (one.key == other.key)


@pytest.mark.parametrize(
    ("key", "order"),
    [
        ("violin-12-whole-place2-strings4321-stage1-high-same", (2, 1)),
        ("violin-13-minor-third-place2-strings43-stage5-low-mirror", (1, 3)),
        ("violin-1234-whole.half.whole-place2-strings4321-stage2-order1324-same", (1, 3, 2, 4)),
        ("six_string_viol-124-half.whole-place10-strings654321-stage3-order214-same", (2, 1, 4)),
    ],
)
def test_keys_as_they_are_written(key: str, order: tuple[int, ...]) -> None:
    drill = Drill.parse_key(key)

    assert drill.order == order
    assert drill.key == key


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("violin-", ""),
        ("violin", "Violin"),
        ("-12-", "-1-"),
        ("-12-", "-21-"),
        ("-12-", "-123-"),
        ("-12-", "-15-"),
        ("whole", "broad"),
        ("whole", "whole.half"),
        ("whole", ""),
        ("place2", "place"),
        ("place2", "place02"),
        ("place2", "place-2"),
        ("place2", "place٢"),
        ("place2", "place100"),
        ("4321", "4"),
        ("4321", "1234"),
        ("4321", "421"),
        ("4321", "44"),
        ("place2", "place2to2"),
        ("place2", "place7to2"),
        ("place2", "place2to"),
        ("4321", "4320"),
        ("4321", "87"),
        ("stage1", "stage0"),
        ("stage1", "stage6"),
        ("low", "middle"),
        ("low", "order12"),
        ("low", "order34"),
        ("same", "back"),
        ("same", "same\n"),
        ("same", "same-"),
        (KEY, ""),
    ],
)
def test_a_malformed_key_is_refused(old: str, new: str) -> None:
    key = KEY.replace(old, new)

    assert key != KEY
    with refused(r"is no |make no |do not |have \d|are not|is written|finger"):
        Drill.parse_key(key)


@pytest.mark.parametrize("lead", ["order1234", "order4321"])
def test_a_second_spelling_of_a_key_is_refused(lead: str) -> None:
    with refused("is written violin-1234-"):
        Drill.parse_key(SCALE.key.replace("low", lead))


@given(st.text(max_size=60) | st.from_regex(r"violin-[1-4]{2,4}-[a-z.]+-place\d+-strings\d+-.*"))
def test_any_other_text_is_refused_or_is_the_key_of_what_it_makes(text: str) -> None:
    try:
        drill = Drill.parse_key(text)
    except ValueError as refused:
        assert len(str(refused)) > 10  # noqa: PT017
    else:
        assert drill.key == text


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"order": (1, 3)}, "is no order of the fingers"),
        ({"order": (1,)}, "is no order of the fingers"),
        ({"stage": 6}, "6 is no stage"),
        ({"strings": strings("4")}, "are not two or more neighbours"),
        ({"strings": strings("12")}, "are not two or more neighbours"),
        ({"place": Semitones(-1)}, "names no instrument, place or string"),
        ({"place": Semitones(100)}, "names no instrument, place or string"),
        ({"instrument": "Violin!"}, "names no instrument, place or string"),
        ({"strings": strings("87")}, "names no instrument, place or string"),
    ],
)
def test_what_is_no_drill_on_any_instrument(change: dict[str, object], reason: str) -> None:
    with refused(reason):
        replace(START, **change)  # type: ignore[arg-type]


def test_lead_is_where_the_first_finger_lies() -> None:
    leads = {order: replace(SCALE, order=order).lead for order in permutations((1, 2, 3, 4))}

    assert all((lead == "low") == (order[0] < order[-1]) for order, lead in leads.items())
    assert [START.lead, replace(START, order=(2, 1)).lead] == ["low", "high"]


@settings(suppress_health_check=[HealthCheck.filter_too_much])
@given(drills(VIOLIN).filter(lambda drill: drill.refusal(VIOLIN) is None))
def test_the_octave_sibling_plays_the_same_an_octave_higher(drill: Drill) -> None:
    sibling = drill.octave_sibling()

    assert sibling.place == drill.place + OCTAVE
    if sibling.refusal(VIOLIN) is not None:
        assert sibling.upper_place + sibling.frame.span > VIOLIN.highest_stop - 2
        return
    for low, high in zip(play(drill, VIOLIN), play(sibling, VIOLIN), strict=True):
        assert [note.pitch.midi + 12 for note in low.notes] == [
            note.pitch.midi for note in high.notes
        ]
        assert low.duration == high.duration


def test_the_octave_sibling_keeps_the_names() -> None:
    sibling = play(START.octave_sibling(), VIOLIN)

    assert [event.notes[0].pitch.name for event in sibling] == [
        event.notes[0].pitch.name for event in play(START, VIOLIN)
    ]


@pytest.mark.parametrize(
    ("other", "changes"),
    [
        (START, ()),
        (replace(START, frame=pair("12", Spacing.HALF)), ("spacing",)),
        (replace(START, frame=pair("23", Spacing.WHOLE), order=(2, 3)), ("pair",)),
        (replace(START, place=Semitones(3)), ("place",)),
        (START.octave_sibling(), ("octave",)),
        (replace(START, strings=strings("43")), ("strings",)),
        (replace(START, order=(2, 1)), ("lead",)),
        (replace(START, back=Return.MIRROR), ("return",)),
        (replace(START, stage=2), ("stage",)),
        (replace(START, stage=2, back=Return.MIRROR), ("return", "stage")),
        (replace(START, place=Semitones(4), stage=3), ("place", "stage")),
        (replace(START, frame=pair("34", Spacing.HALF), order=(4, 3)), ("spacing", "pair", "lead")),
    ],
)
def test_the_one_thing_or_more_in_which_two_drills_differ(
    other: Drill, changes: tuple[str, ...]
) -> None:
    assert set(START.changes_to(other)) == set(changes)
    assert all(isinstance(change, Dimension) for change in START.changes_to(other))


@pytest.mark.parametrize(
    ("few", "many", "changes"),
    [
        ("12-whole-place2-low", "123-whole.half-place2-low", ("fingers",)),
        ("23-half-place4-high", "123-whole.half-place2-high", ("fingers",)),
        ("123-whole.half-place2-low", "1234-whole.half.whole-place2-low", ("fingers",)),
        ("12-whole-place2-low", "123-whole.half-place2-high", ("fingers", "lead")),
        ("12-half-place2-low", "123-whole.half-place2-low", ("pair", "spacing", "lead")),
        ("12-whole-place2-low", "1234-whole.half.whole-place2-low", ("pair", "spacing", "lead")),
    ],
)
def test_a_finger_that_joins_others_is_one_change(
    few: str, many: str, changes: tuple[str, ...]
) -> None:
    one, other = (
        Drill.parse_key(f"violin-{hand}-strings4321-stage1-{lead}-same")
        for hand, lead in (text.rsplit("-", 1) for text in (few, many))
    )
    assert set(one.changes_to(other)) == set(other.changes_to(one)) == set(changes)


@given(drills(VIOLIN), drills(VIOLIN))
def test_changes_are_the_same_both_ways_and_none_only_to_itself(one: Drill, other: Drill) -> None:
    assert one.changes_to(other) == other.changes_to(one)
    assert (one.changes_to(other) == ()) == (one == other)


@given(drills(VIOLIN), st.integers(1, 5), st.sampled_from(Return))
def test_another_stage_or_return_is_one_change(drill: Drill, stage: int, back: Return) -> None:
    assert drill.changes_to(replace(drill, stage=stage)) == (
        () if stage == drill.stage else (Dimension.STAGE,)
    )
    assert drill.changes_to(replace(drill, back=back)) == (
        () if back == drill.back else (Dimension.RETURN,)
    )


@pytest.mark.parametrize(
    ("order", "run", "stage", "told"),
    [
        ((1, 2, 3, 4), "43", 3, "2 strings leave 2 of 4 fingers without a note at stage 3"),
        ((1, 2, 3, 4), "432", 5, "3 strings leave 1 of 4 fingers without a note at stage 5"),
        ((1, 2, 3, 4), "4321", 5, None),
        ((1, 2, 3, 4), "43", 2, None),
    ],
)
def test_every_finger_of_a_frame_must_get_a_note(
    order: tuple[int, ...], run: str, stage: int, told: str | None
) -> None:
    drill = Drill("violin", frame("WHW"), order, Semitones(2), strings(run), stage, Return.SAME)

    assert said([drill.refusal(VIOLIN)]) == [told]
