"""Plan documents from outside, true ones and false ones."""

import json
from contextlib import suppress
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.drills import VIOLIN, plan_of
from kit.planning import planned_from
from kit.shorthand import VIOLA
from msgspec.structs import replace

from bookgen.errors import BookgenError, Finding
from bookgen.model.dimension import Dimension
from bookgen.plan.decoder import decode
from bookgen.plan.document import Character, Echo, Item, Link, Plan, Role, Towards, encode
from bookgen.plan.music import music_of
from bookgen.words.speech import ENGLISH

Json = dict[str, object]

FIND = {"violin": VIOLIN, "viola": VIOLA}.get
ORDINARY = "12-whole-place2-strings4321-stage1-low-same"
SECOND = ORDINARY.replace("stage1", "stage2")
LEAD = ORDINARY.replace("low", "high")


def read(document: Json) -> Plan:
    return decode(json.dumps(document), "plan.json", FIND)


def findings(document: Json) -> list[str]:
    """What is told, place and problem."""
    with pytest.raises(BookgenError) as stopped:
        read(document)
    return [said(finding) for finding in stopped.value.findings]


def said(finding: Finding) -> str:
    return f"{finding.place}: {ENGLISH.line(finding.problem)}"


def json_of(plan: Plan) -> Json:
    document: Json = json.loads(encode(plan))
    return document


def put(document: Json, path: str, value: object) -> Json:
    """Make the value at a path of a document another one."""
    *way, last = path.replace("[", ".[").split(".")
    here: object = document
    for step in way:
        here = here[int(step[1:-1])] if step.startswith("[") else here[step]  # type: ignore[index]
    here[last] = value  # type: ignore[index]
    return document


def changed(path: str, value: object) -> Json:
    """A true document in which the value at the path is another."""
    return put(json_of(linked()), path, value)


def linked() -> Plan:
    """Three drills: the second is linked to the first, and waits for it; the third echoes."""
    plan = plan_of(ORDINARY, SECOND, "23-whole-place4-strings4321-stage1-low-same")
    links = [
        Link(to=None, changes=None),
        Link(to=1, changes=Dimension.STAGE, keeps=("fingers", "place")),
        Link(
            to=1,
            changes=Dimension.PAIR,
            keeps=("spacing", "finger"),
            echo=Echo(interval="P4", number=1),
        ),
    ]
    drills = tuple(replace(e, link=link) for e, link in zip(plan.drills, links, strict=True))
    first, second, third = plan.days[0].items
    waits = replace(second, only_if=1, role=Role.STEP_BACK, towards=Towards(number=3))
    bars = replace(third, role=Role.PASSAGE, towards=Towards(title="Minuet", bars=("5", "8")))
    day = replace(plan.days[0], items=(first, waits, bars), character=Character.LIGHT)
    return replace(plan, drills=drills, days=(day,), title="Advent")


@settings(max_examples=15)
@given(st.integers(0, 3000), st.integers(1, 20), st.integers(3, 40))
def test_what_the_planner_writes_reads_back(days: int, count: int, minutes: int) -> None:
    day = date(2026, 1, 5) + timedelta(days)
    plan = planned_from(day, count + 1, minutes=minutes)

    assert decode(encode(plan), "plan.json", FIND) == plan
    assert encode(decode(encode(plan), "plan.json", FIND)) == encode(plan)


def test_all_facts_read_back() -> None:
    assert decode(encode(linked()), "plan.json", FIND) == linked()


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
        ("order", [1, 2], "[1,2], but it should be null"),
    ],
)
def test_a_lie_is_named_with_its_place(path: str, lie: object, told: str) -> None:
    assert findings(changed(f"drills[0].{path}", lie)) == [f"plan.json, drills[0].{path}: {told}"]


def test_a_frequency_may_be_a_hundredth_off() -> None:
    assert read(changed("drills[0].events[0].stops[0].hz", 220.006)) == linked()


def test_several_lies_are_told_at_once_and_at_most_twenty() -> None:
    document = changed("drills[0].events[0].stops[0].pitch", "B3")
    document["drills"][0]["position"] = "3rd"  # type: ignore[index]
    document["size"] = "9/8"
    assert len(findings(document)) == 3

    for event in document["drills"][0]["events"]:  # type: ignore[index]
        event["stops"][0] |= {"pitch": "B3", "midi": 11}
    assert len(findings(document)) == 20


@pytest.mark.parametrize(
    ("path", "value", "told"),
    [
        ("version", 3, "plan.json, version: Invalid enum value 3"),
        ("version", None, "plan.json, version: Expected `int`"),
        ("format", "song-book", "plan.json, format: Invalid enum value 'song-book'"),
        ("colour", "red", "plan.json, document: Object contains unknown field `colour`"),
        ("drills", [], "plan.json, drills: Expected `array` of length >= 1"),
        ("instrument", "zither", "plan.json, instrument: no instrument zither"),
        ("drills[0].key", "violin-99", "plan.json, drills[0].key: "),
        ("drills[0].key", f"viola-{ORDINARY}", "drills[0].key: a drill for the viola"),
        ("drills[1].number", 1, "drills[1].number: 1 stands twice in this plan"),
        ("drills[1].number", 9, "drills[2].number: 3 comes after 9, but numbers rise"),
        ("drills[1].key", f"violin-{ORDINARY}", f"violin-{ORDINARY} has another number already"),
        ("earlier", [{"number": 2, "key": f"violin-{LEAD}"}], "2 stands twice in this plan"),
        ("earlier", [{"number": 9, "key": f"violin-{SECOND}"}], "has another number already"),
        ("days[0].minutes", 1.0, "days[0].minutes: the drills take more minutes than the day has"),
        ("days[0].items[0].number", 7, "items[0].number: no drill 7 stands in this plan"),
        ("days[0].items[0].number", 2, "items[1].number: No. 2 stands twice on this day"),
        ("days[0].items[0].only_if", 7, "items[0].only_if: no drill 7 stands in this plan"),
        ("days[0].items[0].only_if", 1, "items[0].only_if: No. 1 cannot wait for itself"),
        ("days[0].items[0].towards", {"number": 7}, "items[0].towards.number: no drill 7"),
        ("days[0].items[0].towards", {}, "items[0].towards: an item leads to a drill by"),
        (
            "days[0].items[0].towards",
            {"number": 1, "bars": ["1", "2"]},
            "items[0].towards.bars: bars belong to the title",
        ),
    ],
)
def test_what_is_no_plan_is_refused(path: str, value: object, told: str) -> None:
    assert any(told in line for line in findings(changed(path, value)))


@pytest.mark.parametrize(
    ("part", "value", "told"),
    [
        ("changes", "place", "link.changes: place, but what changes is stage"),
        ("to", 7, "link.to: no drill 7 stands in this plan or in `earlier`"),
        ("to", "nonsense", "link.to: "),
        ("to", f"viola-{ORDINARY}", "link.to: a drill for the viola"),
        ("to", None, "link: `to` and `changes` go together, or both are null"),
        ("keeps", ["spacing"], 'link.keeps: ["spacing"], but it should be ["fingers","place"]'),
        ("keeps", [], 'link.keeps: [], but it should be ["fingers","place"]'),
        ("echo", {"interval": "P4", "number": 7}, "link.echo.number: no drill 7"),
        ("echo", {"interval": "P4", "number": 3}, "link.echo: the crossings of No. 3 do not"),
        ("echo", {"interval": "M6", "number": 1}, "link.echo: the crossings of No. 1 do not"),
    ],
)
def test_a_link_that_is_not_so_is_refused(part: str, value: object, told: str) -> None:
    (line,) = findings(changed(f"drills[1].link.{part}", value))

    assert told in line


def test_a_link_to_the_drill_itself_changes_nothing() -> None:
    (line,) = findings(changed("drills[1].link.to", 2))

    assert line == "plan.json, drills[1].link.changes: stage, but what changes is null"


def test_an_echo_in_the_same_hand_is_none() -> None:
    echo = {"interval": "P4", "number": 1}
    plan = plan_of(ORDINARY, ORDINARY.replace("4321", "432"))
    link = Link(to=1, changes=Dimension.STRINGS, keeps=("fingers", "place"))
    plan = replace(plan, drills=(plan.drills[0], replace(plan.drills[1], link=link)))
    read(json_of(plan))

    assert len(findings(put(json_of(plan), "drills[1].link.echo", echo))) == 1


def test_drills_of_earlier_pages_are_named_by_number_and_key() -> None:
    document = json_of(plan_of(SECOND))
    document["earlier"] = [{"number": 7, "key": f"violin-{ORDINARY}"}]
    link = {"to": 7, "changes": "stage", "keeps": ["fingers", "place"]}
    put(document, "drills[0].link", link)
    put(document, "days[0].items[0].only_if", 7)
    plan = read(document)

    assert plan.linked(plan.drills[0]) == plan.named[7]
    document["earlier"] = []
    assert len(findings(document)) == 2


def test_a_link_to_a_secure_drill_goes_by_its_key() -> None:
    secure = f"violin-{ORDINARY.replace('low-same', 'low-mirror')}"
    link = {"to": secure, "changes": "return", "keeps": ["fingers", "place"]}

    assert read(put(json_of(plan_of(ORDINARY)), "drills[0].link", link)).drills[0].link.to == secure


def test_a_page_of_ours_reads_also_after_the_names_of_notes_have_changed() -> None:
    plan = linked()
    document = json_of(plan)
    put(document, "drills[0].events[0].stops[0].pitch", "G7")
    put(document, "drills[2].link.echo.interval", "M7")

    read_again = decode(json.dumps(document), "log", FIND, {})
    assert read_again.drills[:2] == plan.drills[:2]
    assert read_again.drills[2].link == replace(plan.drills[2].link, echo=None)
    assert len(findings(document)) == 2


def test_a_refused_drill_is_told_once_and_not_by_those_linked_to_it() -> None:
    assert len(findings(changed("drills[0].key", "nonsense"))) == 1


@pytest.mark.parametrize(
    ("on", "told"),
    [("2026-12-01", "2026-12-01 stands twice"), ("2026-11-30", "2026-11-30 comes after a later")],
)
def test_dates_rise(on: str, told: str) -> None:
    document = json_of(plan_of(ORDINARY))
    document["days"].append(document["days"][0] | {"date": on})  # type: ignore[attr-defined, index]

    (line,) = findings(document)
    assert line.startswith(f"plan.json, days[1].date: {told}")


def test_the_same_drill_may_stand_on_many_days() -> None:
    plan = plan_of(ORDINARY)
    (day,) = plan.days
    again = Item(number=1, role=Role.AGAIN, minutes=2.0)
    later = replace(day, date=date(2026, 12, 2), items=(again,))
    plan = replace(plan, days=(day, later))

    assert decode(encode(plan), "plan.json", FIND) == plan


@pytest.mark.parametrize("text", [b"", b"{", b"[1, 2", b"\xff\xfe", b"null", b"[" * 100_000])
def test_what_is_no_json_document_is_refused(text: bytes) -> None:
    with pytest.raises(BookgenError, match=r"plan\.json, "):
        decode(text, "plan.json", FIND)


def ways(value: object, way: str = "") -> list[str]:
    """The paths to all values of a document."""
    inner = value.items() if isinstance(value, dict) else enumerate(value)  # type: ignore[arg-type]
    found = []
    for name, part in inner:
        here = f"{way}[{name}]" if isinstance(value, list) else f"{way}.{name}".lstrip(".")
        found += [here, *(ways(part, here) if isinstance(part, dict | list) else [])]
    return found


ODD: list[object] = [None, -1, 0, 2, 10**30, 1e300, True, [], {}, "", "x", "\ud800", "9999-12-31"]


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_whatever_is_changed_is_refused_or_reads_back(data: st.DataObject) -> None:
    document = json_of(linked())
    for way in data.draw(st.lists(st.sampled_from(ways(document)), min_size=1, max_size=3)):
        with suppress(KeyError, IndexError, TypeError):  # an earlier change took the place away
            put(document, way, data.draw(st.sampled_from(ODD)))
    text = json.dumps(document).encode("utf-8", "surrogatepass")
    told: tuple[Finding, ...] = ()
    plan = None
    try:
        plan = decode(text, "plan.json", FIND)
    except BookgenError as error:
        told = error.findings
    assert plan is None or decode(encode(plan), "plan.json", FIND) == plan
    assert bool(told) == (plan is None)
    assert len(told) <= 20
    assert all(map(said, told))


FLATS = "12-whole-place6-strings43-stage1-low-mirror"


def test_notes_keep_the_names_that_a_document_gives_them() -> None:
    """A drill that leads to a piece is written as the piece is, C sharp as D flat."""
    flat = {"C#4": "Db4", "D#4": "Eb4", "G#4": "Ab4", "A#4": "Bb4"}
    document = json.loads(encode(plan_of(FLATS)).decode())
    text = json.dumps(document)
    assert "C#4" in text
    for sharp, name in flat.items():
        text = text.replace(sharp, name)
    plan = decode(text, "plan.json", FIND)

    assert encode(plan) == encode(decode(encode(plan), "plan.json", FIND))
    names = {str(note.pitch) for event in music_of(plan.drills[0]) for note in event.notes}
    assert names == set(flat.values())


def test_a_note_has_one_name_in_a_drill() -> None:
    document = json.loads(encode(plan_of(FLATS)).decode())
    document["drills"][0]["events"][0]["stops"][0]["pitch"] = "Db4"

    assert 'events[0].stops[0].pitch: "Db4", but it should be "C#4"' in findings(document)[0]


@pytest.mark.parametrize("position", ["3rd", "4th"])
def test_a_position_may_be_called_by_its_place_or_by_its_letter(position: str) -> None:
    """C sharp is a third above the open G string by its letter, D flat a fourth by its own."""
    document = json.loads(encode(plan_of(FLATS)).decode())
    text = json.dumps({**document, "drills": [{**document["drills"][0], "position": position}]})
    if position == "4th":
        for sharp, name in [("C#4", "Db4"), ("D#4", "Eb4"), ("G#4", "Ab4"), ("A#4", "Bb4")]:
            text = text.replace(sharp, name)

    assert decode(text, "plan.json", FIND).drills[0].position == position
