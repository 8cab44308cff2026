"""Plan documents from outside, true ones and false ones."""

import json
from dataclasses import replace
from datetime import date, timedelta

import pytest
from drills import VIOLIN, plan_of
from hypothesis import given, settings
from hypothesis import strategies as st
from planning import planned_from

from bookgen.commands.bind import find_instrument
from bookgen.errors import BookgenError
from bookgen.plan.decoder import decode
from bookgen.plan.document import Character, Kind
from bookgen.plan.encoder import encode

Json = dict[str, object]

ORDINARY = "12-whole-place2-strings4321-stage1-low-same"


def read(document: Json) -> None:
    decode(json.dumps(document), "plan.json", find_instrument)


def findings(document: Json) -> list[str]:
    with pytest.raises(BookgenError) as stopped:
        read(document)
    return [str(finding) for finding in stopped.value.findings]


def changed(path: str, value: object) -> Json:
    """A true document in which the value at the path is another."""
    document: Json = json.loads(encode(plan_of(ORDINARY), VIOLIN))
    *way, last = path.replace("[", ".[").split(".")
    here: object = document
    for step in way:
        here = here[int(step[1:-1])] if step.startswith("[") else here[step]  # type: ignore[index]
    here[last] = value  # type: ignore[index]
    return document


@settings(max_examples=15)
@given(st.integers(0, 3000), st.integers(1, 20), st.integers(3, 40))
def test_what_the_planner_writes_reads_back(days: int, count: int, minutes: int) -> None:
    day = date(2026, 1, 5) + timedelta(days)
    plan = planned_from(day, count + 1, minutes=minutes)

    assert decode(encode(plan, VIOLIN), "plan.json", find_instrument) == plan


@pytest.mark.parametrize(
    ("path", "lie", "told"),
    [
        ("events[0].stops[0].pitch", "B3", '"B3", but it should be "A3"'),
        ("events[0].stops[0].midi", 58, "58, but it should be 57"),
        ("events[0].stops[0].hz", 221.0, "221.0, but it should be 220.0"),
        ("events[2].stops[0].finger", 2, "2, but it should be 1"),
        ("events[2].from_previous", "A4", '"A4", but it should be "P4"'),
        ("events[2].crosses", False, "false, but it should be true"),
        ("events[1].stops[0].semitones", 3, "3, but it should be 4"),
        ("position", "2nd", '"2nd", but it should be "1st"'),
        ("strings", [4, 3, 2], "[4,3,2], but it should be [4,3,2,1]"),
        ("stage", 2, "2, but it should be 1"),
    ],
)
def test_a_lie_is_named_with_its_place(path: str, lie: object, told: str) -> None:
    (line,) = findings(changed(f"days[0].drills[0].{path}", lie))

    assert line.startswith(f"plan.json, days[0].drills[0].{path}: {told}; ")


def test_several_lies_are_told_at_once() -> None:
    document = changed("days[0].drills[0].events[0].stops[0].pitch", "B3")
    document["days"][0]["drills"][0]["stage"] = 3  # type: ignore[index]
    document["size"] = "9/8"

    assert len(findings(document)) == 3


@pytest.mark.parametrize(
    ("path", "value", "told"),
    [
        ("version", 2, "plan.json, version: Invalid enum value 2"),
        ("format", "song-book", "plan.json, format: Invalid enum value 'song-book'"),
        ("colour", "red", "plan.json, document: Object contains unknown field `colour`"),
        ("days", [], "plan.json, days: Expected `array` of length >= 1"),
        ("instrument", "zither", "plan.json, instrument: no instrument 'zither'"),
        ("days[0].drills[0].key", "violin-99", "plan.json, days[0].drills[0].key: 'violin-99'"),
        (
            "days[0].drills[0].key",
            "viola-12-whole-place2-strings4321-stage1-low-same",
            "plan.json, days[0].drills[0].key: a drill for the viola",
        ),
        ("days[0].minutes", 1.0, "plan.json, days[0].minutes: the drills take more minutes"),
        ("days[0].drills[0].link.to", 7, "`to` and `changes` go together"),
    ],
)
def test_what_is_no_plan_is_refused(path: str, value: object, told: str) -> None:
    assert any(told in line for line in findings(changed(path, value)))


@pytest.mark.parametrize(
    ("to", "changes", "told"),
    [
        (1, "place", "place, but what changes is stage"),
        (5, "stage", "no drill 5 stands earlier in this plan"),
        ("nonsense", "stage", "'nonsense' is no key of a drill"),
    ],
)
def test_a_link_that_is_not_so_is_refused(to: object, changes: str, told: str) -> None:
    plan = plan_of(ORDINARY, ORDINARY.replace("stage1", "stage2"))
    document = json.loads(encode(plan, VIOLIN))
    document["days"][0]["drills"][1]["link"] = {"to": to, "changes": changes, "text": ""}

    assert any(told in line for line in findings(document))


@pytest.mark.parametrize(
    ("stage", "only_if", "told"),
    [
        (2, 5, "drills[1].only_if: no drill 5 stands earlier in this plan"),
        (1, 1, "drills[1].only_if: No. 1 is neither its stage before nor its link"),
    ],
)
def test_what_must_be_secure_first_is_the_stage_before(stage: int, only_if: int, told: str) -> None:
    plan = plan_of(ORDINARY, ORDINARY.replace("stage1-low", f"stage{stage}-high"))
    document = json.loads(encode(plan, VIOLIN))
    document["days"][0]["drills"][1]["only_if"] = only_if

    assert any(told in line for line in findings(document))


def test_numbers_rise_through_the_days() -> None:
    document = json.loads(encode(plan_of(ORDINARY, ORDINARY.replace("low", "high")), VIOLIN))
    later = json.loads(json.dumps(document["days"][0])) | {"date": "2026-12-02"}
    later["drills"][0]["number"] = 2
    later["drills"][1]["number"] = 1
    document["days"].append(later)

    assert [line.partition("; ")[0] for line in findings(document)] == [
        "plan.json, days[1].drills[0].number: 2 stands twice in this plan",
        "plan.json, days[1].drills[1].number: 1 stands twice in this plan",
    ]


def test_the_character_of_a_day_and_its_gates_read_back() -> None:
    plan = plan_of(ORDINARY, ORDINARY.replace("stage1", "stage2"))
    day = plan.days[0]
    gated = (day.drills[0], replace(day.drills[1], only_if=1, kind=Kind.VARIANT))
    plan = replace(plan, days=(replace(day, drills=gated, character=Character.LIGHT),))

    assert decode(encode(plan, VIOLIN), "plan.json", find_instrument) == plan


def test_a_page_of_ours_reads_back_alone_and_after_the_names_of_notes_have_changed() -> None:
    plan = planned_from(date(2026, 12, 1), 4)
    earlier = {entry.number: entry.drill for day in plan.days[:-1] for entry in day.drills}
    last = replace(plan, days=plan.days[-1:])
    document = json.loads(encode(last, VIOLIN))
    document["days"][0]["drills"][0]["events"][0]["stops"][0]["pitch"] = "G7"

    assert decode(json.dumps(document), "log", find_instrument, earlier) == last
    assert any("but it should be" in line for line in findings(document))


def test_a_refused_drill_is_told_once_and_not_by_those_linked_to_it() -> None:
    plan = plan_of(ORDINARY, ORDINARY.replace("stage1", "stage2"))
    document = json.loads(encode(plan, VIOLIN))
    document["days"][0]["drills"][0]["key"] = "nonsense"
    document["days"][0]["drills"][1]["link"] = {"to": 1, "changes": "stage", "text": ""}

    assert len(findings(document)) == 1


def test_a_date_stands_once() -> None:
    document = json.loads(encode(plan_of(ORDINARY), VIOLIN))
    again = json.loads(json.dumps(document["days"][0]))
    again["drills"][0]["number"] = 2
    document["days"].append(again)

    (line,) = findings(document)
    assert line.startswith("plan.json, days[1].date: 2026-12-01 stands twice in this plan; ")


def test_a_link_to_a_secure_drill_goes_by_its_key() -> None:
    document = json.loads(encode(plan_of(ORDINARY), VIOLIN))
    secure = f"violin-{ORDINARY.replace('low-same', 'low-mirror')}"
    document["days"][0]["drills"][0]["link"] = {"to": secure, "changes": "return", "text": ""}

    read(document)


@pytest.mark.parametrize("text", [b"", b"{", b"[1, 2", b"\xff\xfe", b"null", b"[" * 100_000])
def test_what_is_no_json_document_is_refused(text: bytes) -> None:
    with pytest.raises(BookgenError, match=r"plan\.json, "):
        decode(text, "plan.json", find_instrument)
