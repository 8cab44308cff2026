"""`bookgen sheet --class`: one page for several instruments that play together."""

import json
from itertools import pairwise
from pathlib import Path

import pypdfium2
import pytest
from kit.shell import bookgen, refused
from music21 import pitch

from bookgen.model.drill import Drill
from bookgen.model.music import play
from bookgen.readers.instrument import read_instrument

DAY = ("--date", "2026-12-01")
STUDIO = """
name = "Harbour Lane Strings"
[players.Ines]
instrument = "violin"
minutes = 20
language = "de"
positions = ["3rd"]
[players.Theo]
instrument = "cello"
minutes = 6
"""


def sheet(*words: str) -> dict[str, object]:
    """Make the page of a class. Returns its plan; the page is `class.pdf`."""
    outcome = bookgen("sheet", *DAY, "--out", "class.pdf", "--plan", "class.json", *words)
    assert outcome.code == 0, outcome.err
    plan: dict[str, object] = json.loads(Path("class.json").read_text())
    return plan


def parts(plan: dict[str, object]) -> list[tuple[str, list[str]]]:
    """Each instrument with the keys of its drills, the first one's first."""
    first = (plan["instrument"], [drill["key"] for drill in plan["drills"]])  # type: ignore[attr-defined]
    others = [(part["instrument"], part["keys"]) for part in plan["binding"]["parts"]]  # type: ignore[index]
    return [first, *others]


def sounding(key: str) -> list[list[int]]:
    """What sounds in a drill, as MIDI numbers by music21."""
    drill = Drill.parse_key(key)
    instrument = read_instrument(drill.instrument)
    return [
        [pitch.Pitch(str(note.pitch)).midi + instrument.sounding for note in event.notes]
        for event in play(drill, instrument)
    ]


def text(page: int = 0) -> str:
    """The words of a page."""
    found = pypdfium2.PdfDocument("class.pdf")[page].get_textpage().get_text_bounded()
    return " ".join(str(found).split())


@pytest.mark.parametrize("seed", range(3))
def test_violin_viola_and_cello_play_the_same_notes_in_octaves(seed: int) -> None:
    plan = sheet("--class", "violin, viola, cello", "--seed", str(seed), "--minutes", "30")
    (_, first), *others = parts(plan)
    assert [name for name, _ in others] == ["viola", "cello"]
    for _, keys in others:
        for key, other in zip(first, keys, strict=True):
            for here, there in zip(sounding(key), sounding(other), strict=True):
                assert [(a - b) % 12 for a, b in zip(here, there, strict=True)] == [0] * len(here)
    assert "unison and octaves" in text()


def test_a_bass_has_the_same_steps_under_them() -> None:
    plan = sheet("--class", "violin, double bass")
    (_, first), (_, bass) = parts(plan)
    for key, other in zip(first, bass, strict=True):
        here, there = (
            [b - a for a, b in pairwise(n[0] for n in sounding(one))] for one in (key, other)
        )
        drill = Drill.parse_key(key)
        if drill.stage == 1:
            assert here[0::2] == there[0::2], "the spacing within a string"
    assert "minor third, perfect fourth, perfect fifth and major sixth" in text()


def test_the_page_names_each_instrument_with_its_own_fingers() -> None:
    sheet("--class", "violin, cello", "--pairs", "12", "--interval", "P4")
    words = text()
    assert "Violin and cello" in words
    assert "Violin · 1st position · fingers 1\N{EN DASH}2" in words
    assert "Cello · 1st position · fingers 1\N{EN DASH}3" in words
    assert "Whole step · strings G, D and A" in words


@pytest.mark.parametrize(
    ("layout", "paper"), [("ordinary", "a5"), ("chart-first", "a4"), ("large-print", "letter")]
)
def test_its_plan_binds_to_the_same_bytes(layout: str, paper: str) -> None:
    sheet("--class", "cello, violin 3/4", "--layout", layout, "--paper", paper, "--minutes", "5")
    assert bookgen("bind", "class.json", "--out", "again.pdf").code == 0
    assert Path("again.pdf").read_bytes() == Path("class.pdf").read_bytes()


def test_a_player_lends_minutes_language_and_the_area_of_the_instrument() -> None:
    Path("studio.toml").write_text(STUDIO)
    plan = sheet("--class", "violin, cello", "--player", "Ines")
    assert {drill["position"] for drill in plan["drills"]} == {"3rd"}  # type: ignore[attr-defined]
    assert plan["days"][0]["minutes"] == 20.0  # type: ignore[index]
    assert "Violine und Cello" in text()
    plan = sheet("--class", "violin, cello", "--player", "Theo")
    assert plan["days"][0]["minutes"] == 6.0  # type: ignore[index]
    assert "Harbour Lane Strings" in text()
    assert not Path("practice.sqlite").exists()
    sheet("--class", "violin, viola")


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (["violin"], "a class has 2 to 6 instruments, not 1"),
        (["violin, violin"], "the violin stands twice"),
        (["violin, kazoo"], "no instrument 'kazoo'"),
        (["violin 5/9, viola"], "no violin size '5/9'"),
        (["violin, viola, double bass", "--pairs", "13"], "the double_bass cannot play that"),
        (["violin, cello", "--position", "9th"], "the cello cannot play that along: 9th position"),
        (["violin, cello", "--size", "3/4"], "--size: a class page does not take it"),
        (["violin, cello", "--from-memory"], "--from-memory: a class page"),
        (["violin, cello", "--out", "day.mid"], "day.mid"),
    ],
)
def test_what_makes_no_class_is_told_in_one_line(words: list[str], named: str) -> None:
    assert named in refused("sheet", *DAY, "--class", *words)


@pytest.mark.parametrize(
    ("place", "value", "named"),
    [
        (("instrument",), "kazoo", "binding.parts[0].instrument: no instrument"),
        (("size",), "9/9", "binding.parts[0].size"),
        (("keys",), [], "keys"),
        (
            ("keys", 0),
            "cello-12-half-place2-strings21-stage1-low-same",
            "keys[0]: it is not played",
        ),
        (("keys", 0), "viola-12-half-place2-strings21-stage1-low-same", "a drill for the viola"),
        (("keys", 0), "cello-34-whole-place2-strings21-stage1-low-same", "keys[0]: "),
    ],
)
def test_a_plan_of_a_class_that_is_not_so_is_told(
    place: tuple[str | int, ...], value: object, named: str
) -> None:
    plan = sheet("--class", "violin, cello", "--minutes", "3")
    table = plan["binding"]["parts"][0]  # type: ignore[index]
    for key in place[:-1]:
        table = table[key]
    table[place[-1]] = value
    Path("odd.json").write_text(json.dumps(plan))
    assert named in refused("bind", "odd.json")
