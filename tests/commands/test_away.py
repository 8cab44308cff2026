"""Days away and lessons: nothing is planned then, and the plan of days shows it."""

import json
from pathlib import Path

import pypdfium2
import pytest
from kit.shell import bookgen, refused

ROSTER = """
[players.Ines]
minutes = 4
lesson = "Thu"
away = ["2026-12-04/05"]

[players.Jo]
minutes = 4
away = ["2026-12-01/P2W"]
"""
DAYS = ("--from", "2026-12-02", "--to", "2026-12-06")


@pytest.fixture(autouse=True)
def roster(here: Path) -> None:
    (here / "studio.toml").write_text(ROSTER, encoding="utf-8")


def text_of(path: str) -> str:
    pages = pypdfium2.PdfDocument(path)
    return "\n".join(page.get_textpage().get_text_bounded() for page in pages)


def test_no_day_is_planned_then_and_the_page_says_so() -> None:
    bookgen("booklet", "--player", "Ines", *DAYS, "--out", "a.pdf", "--plan", "a.json")
    plan = json.loads(Path("a.json").read_text(encoding="utf-8"))

    assert [day["date"][-2:] for day in plan["days"]] == ["02", "03", "06"]
    assert plan["binding"]["calendar"] == {
        "away": [{"first": "2026-12-04", "last": "2026-12-05"}],
        "lesson": 3,
    }
    text = text_of("a.pdf")
    assert ": away" in text
    assert "lesson" in text


def test_the_plan_binds_to_the_same_bytes() -> None:
    bookgen("booklet", "--player", "Ines", *DAYS, "--out", "a.pdf", "--plan", "a.json")
    bookgen("bind", "a.json", "--out", "b.pdf")

    assert Path("a.pdf").read_bytes() == Path("b.pdf").read_bytes()


def test_days_away_that_run_backwards_are_told_of_a_plan_from_outside() -> None:
    bookgen("booklet", "--player", "Ines", *DAYS, "--out", "a.pdf", "--plan", "a.json")
    plan = json.loads(Path("a.json").read_text(encoding="utf-8"))
    plan["binding"]["calendar"]["away"][0]["last"] = "2026-12-01"
    Path("a.json").write_text(json.dumps(plan), encoding="utf-8")

    assert refused("bind", "a.json").startswith(
        "a.json, binding.calendar.away[0]: 2026-12-01 lies before 2026-12-04; "
    )


def test_a_sheet_is_refused_on_a_day_away_unless_it_was_printed_before() -> None:
    day = ("sheet", "--player", "Jo", "--date", "2026-12-03")
    line = refused(*day)
    assert line == (
        'studio.toml, player "Jo", away: 2026-12-03 lies in 2026-12-01/2026-12-14;'
        " choose another day, or change away."
    )
    free = ROSTER.replace('away = ["2026-12-01/P2W"]', "")
    Path("studio.toml").write_text(free, encoding="utf-8")
    bookgen(*day, "--out", "one.pdf")
    Path("studio.toml").write_text(ROSTER, encoding="utf-8")
    assert bookgen(*day, "--out", "two.pdf").code == 0
    assert Path("one.pdf").read_bytes() == Path("two.pdf").read_bytes()


def test_who_is_away_all_the_time_has_no_booklet_and_is_told() -> None:
    outcome = bookgen("booklet", "--all", *DAYS, "--out", "all")

    assert outcome.code == 0
    assert "Jo: away in 2026-12-02-to-2026-12-06, no booklet" in outcome.err + outcome.out
    assert all(path.name.startswith("ines") for path in Path("all").iterdir())
    assert refused("booklet", "--player", "Jo", *DAYS) == (
        'studio.toml, player "Jo", away: no day to practise in 2026-12-02-to-2026-12-06;'
        " choose other days, or change away."
    )
