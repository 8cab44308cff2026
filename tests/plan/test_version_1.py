"""Documents that the first bookgen wrote, read as plans of version 2."""

import json
from pathlib import Path

import pytest
from kit.drills import VIOLIN
from kit.shorthand import VIOLA

from bookgen.errors import BookgenError
from bookgen.model.drill import Drill
from bookgen.plan.decoder import decode
from bookgen.plan.document import Echo, Plan, Role, Towards, encode

SPECIMENS = Path(__file__).parents[1] / "specimens" / "plans"
FIND = {"violin": VIOLIN, "viola": VIOLA}.get
KEYS = {
    1: "violin-12-half-place2-strings4321-stage1-low-mirror",
    2: "violin-12-half-place2-strings4321-stage2-low-mirror",
}


def text(name: str) -> bytes:
    return (SPECIMENS / f"version-1-{name}.json").read_bytes()


def read(name: str) -> Plan:
    return decode(text(name), f"{name}.json", FIND)


def kept(name: str) -> Plan:
    """A day that the practice log kept, with the drills of the player's other pages."""
    told = json.loads(text(f"{name}-printed"))
    printed = {int(number): Drill.parse_key(key) for number, key in told.items()}
    return decode(text(name), name, FIND, printed)


@pytest.mark.parametrize("name", ["booklet", "ladder", "piece"])
def test_a_document_reads_and_is_then_one_of_version_2(name: str) -> None:
    plan = read(name)
    old = json.loads(text(name))

    assert decode(encode(plan), "new.json", FIND) == plan
    assert [str(day.date) for day in plan.days] == [day["date"] for day in old["days"]]
    assert [(entry.key, item.minutes) for _, item, entry in plan.items()] == [
        (drill["key"], drill["minutes"]) for day in old["days"] for drill in day["drills"]
    ]


def test_a_drill_that_was_printed_under_several_numbers_has_the_lowest() -> None:
    plan = read("booklet")

    assert [(entry.number, entry.key) for entry in plan.drills][:2] == [*KEYS.items()]
    assert [[item.number for item in day.items] for day in plan.days] == [
        [1, 2],
        [2],
        [1, 5],
        [5, 7],
        [7, 9],
        *[[item.number for item in day.items] for day in plan.days[5:]],
    ]
    assert plan.by_number[7].link.to == 5, "No. 6 was No. 5 again"
    assert plan.days[0].items[1].only_if == 1


def test_kinds_are_roles_now() -> None:
    roles = [item.role for _, item, _ in kept("day").items()]

    assert roles == [Role.START, Role.NEW, Role.AGAIN]
    assert [item.role for _, item, _ in kept("ladder").items()] == [
        Role.START,
        Role.STEP_BACK,
        Role.NEW,
        Role.NEW,
        Role.OTHER_WAY,
    ]


def test_a_kept_day_names_drills_of_other_pages_by_their_own_numbers() -> None:
    plan = kept("day")
    printed = json.loads(text("day-printed"))
    lowest = {key: min(int(n) for n, k in printed.items() if k == key) for key in printed.values()}

    assert all(entry.number == lowest[entry.key] for entry in plan.drills)
    assert all(one.number == lowest[one.key] for one in plan.earlier)
    gates = [item.only_if for _, item, _ in plan.items() if item.only_if is not None]
    assert gates == [lowest[printed["15"]]]
    assert plan.by_number[lowest[printed["18"]]].link.to == gates[0]
    assert decode(encode(plan), "kept", FIND) == plan


def test_where_a_ladder_leads_stood_in_the_words_of_its_link() -> None:
    plan = kept("ladder")
    rung = next(item for _, item, _ in plan.items() if item.role is Role.STEP_BACK)
    printed = json.loads(text("ladder-printed"))

    assert rung.towards is not None
    assert rung.towards.number is not None
    assert plan.named[rung.towards.number].key == printed["10"]


def test_a_ladder_whose_goal_is_not_told_leads_nowhere() -> None:
    (rung,) = [i for _, i, _ in read("ladder").items() if i.role is Role.STEP_BACK]

    assert rung.towards is None


def test_steps_towards_a_piece_say_so() -> None:
    items = [item for _, item, _ in read("piece").items()]

    assert [item.role for item in items][:2] == [Role.START, Role.PASSAGE]
    assert items[1].towards == Towards(title="Minuet", bars=("5", "8"))


@pytest.mark.parametrize(
    ("words", "title", "bars"),
    [
        ("On the way to Minuet, bars 5 to 8. As No. 1: x", "Minuet", ("5", "8")),
        ("On the way to Minuet, bar 5. As No. 1: x", "Minuet", ("5", "5")),
        ("On the way to Suite No. 2, Air. As you know it: x", "Suite No. 2, Air", None),
    ],
)
def test_the_bars_of_a_piece_are_read_from_the_words(
    words: str, title: str, bars: tuple[str, str] | None
) -> None:
    document = json.loads(text("piece"))
    document["days"][0]["drills"][1]["link"]["text"] = words
    plan = decode(json.dumps(document), "piece.json", FIND)

    assert plan.days[0].items[1].towards == Towards(title=title, bars=bars)


def test_an_echo_is_read_from_the_words() -> None:
    document = json.loads(text("booklet"))
    drills = [drill for day in document["days"] for drill in day["drills"]]
    narrower = next(drill for drill in drills if drill["number"] == 7)
    narrower["link"]["text"] += " Hear fourths up, as in No. 6 in 1st position."
    plan = decode(json.dumps(document), "booklet.json", FIND)
    crossed = [event["from_previous"] for event in narrower["events"] if event["crosses"]]

    link = plan.by_number[7].link
    assert link.echo == Echo(interval=crossed[0], number=5)
    narrower["link"]["text"] = "Hear fourths up, as in No. 4 with fingers 1 and 2."
    plan = decode(json.dumps(document), "booklet.json", FIND)
    assert plan.by_number[7].link.echo is None, "words were not checked, and are not now"


@pytest.mark.parametrize(
    ("path", "lie", "place"),
    [
        ("position", "5th", "days[2].drills[1].position"),
        ("number", 3, "days[2].drills[1].number"),
        ("key", "violin-99", "days[2].drills[1].key"),
        ("link", {"to": 99, "changes": "spacing", "text": ""}, "days[2].drills[1].link.to"),
        ("link", {"to": 4, "changes": "stage", "text": ""}, "days[2].drills[1].link.changes"),
        ("only_if", 99, "days[2].drills[1].only_if"),
        ("minutes", 99.0, "days[2].minutes"),
    ],
)
def test_a_lie_is_named_with_its_place_in_the_old_document(
    path: str, lie: object, place: str
) -> None:
    document = json.loads(text("booklet"))
    document["days"][2]["drills"][1][path] = lie
    with pytest.raises(BookgenError) as stopped:
        decode(json.dumps(document), "old.json", FIND)

    assert f"old.json, {place}" in {finding.place for finding in stopped.value.findings}


def test_what_is_no_document_of_version_1_is_refused() -> None:
    document = json.loads(text("piece"))
    document["days"][0]["drills"][0]["kind"] = "encore"

    with pytest.raises(BookgenError, match=r"old\.json, days\[0\]\.drills\[0\]\.kind: "):
        decode(json.dumps(document), "old.json", FIND)
