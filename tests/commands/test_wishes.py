"""Wishes for today, on `sheet` and `booklet`."""

import json
from pathlib import Path

import pypdfium2
import pytest
from kit.shell import bookgen, refused

ROSTER = """
[players.Ines]
minutes = 10
positions = ["1st", "2nd"]
highest_stage = 4

[[players.Ines.known]]
positions = ["1st"]
stage = 2
"""
DAY = ("--date", "2026-12-01")


@pytest.fixture(autouse=True)
def roster(here: Path) -> None:
    (here / "studio.toml").write_text(ROSTER, encoding="utf-8")


def plan_of(*words: str) -> dict[str, list[dict[str, object]]]:
    bookgen(*words, "--out", "a.pdf", "--plan", "a.json")
    found: dict[str, list[dict[str, object]]] = json.loads(Path("a.json").read_text("utf-8"))
    return found


def text_of(path: str) -> str:
    document = pypdfium2.PdfDocument(path)
    return "\n".join(page.get_textpage().get_text_bounded() for page in document)


def test_a_wished_sheet_says_so_and_its_plan_binds_to_the_same_bytes() -> None:
    plan = plan_of("sheet", *DAY, "--interval", "P4", "--pairs", "12,23", "--stage", "2")

    assert plan["days"][0]["wish"] == {"stage": 2, "hands": [[1, 2], [2, 3]], "interval": "P4"}
    *known, new = plan["drills"]
    assert {drill["stage"] for drill in known} == {2}
    assert (new["stage"], new["position"]) == (1, "2nd"), "all of 1st position is known"
    words = "Wished the perfect fourth, cross on 2nd note and fingers 1\u20132 and 2\u20133."
    assert words in " ".join(text_of("a.pdf").split())
    bookgen("bind", "a.json", "--out", "b.pdf")
    assert Path("a.pdf").read_bytes() == Path("b.pdf").read_bytes()


def test_what_is_not_open_yet_is_told_on_the_page_and_with_the_way_there() -> None:
    outcome = bookgen("sheet", *DAY, "--stage", "4", "--out", "a.pdf")

    assert outcome.code == 0
    assert "notes overlap: not open yet; what leads there: No. " in outcome.err
    assert "cross on every note); then " in outcome.err
    assert "Wished notes overlap: these drills lead there." in " ".join(text_of("a.pdf").split())


def test_the_log_counts_a_wished_day_like_any_other() -> None:
    plan = plan_of("sheet", "--date", "2025-12-01", "--stage", "3")
    number = plan["drills"][-1]["number"]

    assert bookgen("log", "--secure", str(number)).code == 0
    after = plan_of("sheet", "--date", "2025-12-02", "--stage", "3")
    assert after["days"][0]["items"][0]["number"] == number, "secure ones first"  # type: ignore[index]
    shown = bookgen("log", "--show").out
    assert all(f"\n{drill['number']:>3}  " in shown for drill in plan["drills"])


def test_a_day_that_is_printed_already_stays_as_it_was() -> None:
    bookgen("sheet", *DAY, "--position", "2nd", "--out", "one.pdf")

    bookgen("sheet", *DAY, "--out", "two.pdf")
    bookgen("sheet", *DAY, "--position", "2nd", "--minutes", "10", "--out", "three.pdf")
    assert len({Path(f"{name}.pdf").read_bytes() for name in ("one", "two", "three")}) == 1
    assert refused("sheet", *DAY, "--position", "1st") == (
        "--position 1st: the pages of Ines for 2026-12-01 were printed otherwise;"
        " add --anew to plan them again, or leave the option out."
    )
    assert bookgen("sheet", *DAY, "--position", "1st", "--anew").code == 0


def test_a_plain_day_is_not_printed_again_as_a_wished_one() -> None:
    bookgen("sheet", *DAY)

    assert refused("sheet", *DAY, "--double-stops").startswith("--double-stops: ")
    bookgen("sheet", *DAY, "--stage", "2", "--anew")
    plan = plan_of("booklet", "--from", "2026-12-01", "--to", "2026-12-03")
    assert ["wish" in day for day in plan["days"]] == [True, False, False]


def test_a_booklet_has_one_new_a_day() -> None:
    days = ("--from", "2026-12-01", "--to", "2026-12-04")
    plan = plan_of("booklet", *days, "--stage", "3", "--pairs", "12")
    roles = [[item["role"] for item in day["items"]] for day in plan["days"]]  # type: ignore[attr-defined]

    assert len(roles) == 4
    assert all(sum(role in {"new", "other way"} for role in day) == 1 for day in roles)


def test_frames_are_wished_as_pairs_are(here: Path) -> None:
    hands = 'hands = ["12", "23", "34", "123", "1234"]'
    roster = ROSTER.replace("highest_stage = 4", f"highest_stage = 4\n{hands}")
    (here / "studio.toml").write_text(roster, encoding="utf-8")

    plan = plan_of("sheet", *DAY, "--pairs", "123", "--minutes", "12")
    assert plan["days"][0]["wish"] == {"hands": [[1, 2, 3]]}
    assert [len(str(drill["fingers"])) for drill in plan["drills"]].count(9) >= 1
    refusal = refused("sheet", *DAY, "--pairs", "124").split(";")[0]
    wrong = roster.replace('"123"', '"124"')
    (here / "studio.toml").write_text(wrong, encoding="utf-8")
    assert refusal.removeprefix("--pairs: ") in refused("sheet", *DAY), "one text for both"


def test_somebody_unknown_may_wish_for_a_frame(here: Path) -> None:
    (here / "studio.toml").unlink()
    plan = plan_of("sheet", *DAY, "--pairs", "234", "--minutes", "20")

    assert plan["drills"][-1]["fingers"] == [2, 3, 4]
    assert "fingers 2\u20133\u20134" in " ".join(text_of("a.pdf").split())


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("--stage", "9"), "--stage: '9' is no stage; give 1 to 5."),
        (("--stage", "5"), "--stage: 5 lies above the highest stage, 4; wish for less, or change"),
        (("--double-stops",), "--double-stops: 5 lies above the highest stage, 4; "),
        (("--double-stops", "--stage", "2"), "--double-stops: stage 2 has no double stops; give"),
        (("--position", "frist"), "--position: no violin position 'frist'; choose half, 1st"),
        (
            ("--position", "3rd"),
            "--position: '3rd' is not among the player's positions; choose one of them, or add",
        ),
        (("--pairs", "32"), "--pairs: no violin hand '32'; "),
        (("--pairs", "12345"), "--pairs: no violin hand '12345'; "),
        (("--pairs", "1234"), "--pairs: '1234' is not among the player's hands; "),
        (("--pairs", "24"), "--pairs: '24' is not among the player's pairs; "),
        (("--interval", "X4"), "--interval: 'X4' is no interval; "),
        (
            ("--interval", "P5"),
            "command line: no drill of the player's area is that: the perfect fifth; wish for",
        ),
    ],
)
def test_what_cannot_be_wished_is_told_with_its_mend(words: tuple[str, ...], line: str) -> None:
    assert refused("sheet", *DAY, *words).startswith(line)


def test_an_interval_is_taken_as_the_pages_mark_it() -> None:
    plan = plan_of("sheet", *DAY, "--interval", "aug4")

    assert plan["days"][0]["wish"] == {"interval": "A4"}


def test_somebody_unknown_may_wish_for_anything(here: Path) -> None:
    (here / "studio.toml").unlink()
    plan = plan_of("sheet", *DAY, "--double-stops", "--minutes", "20", "--position", "2nd")

    stages = [int(str(drill["stage"])) for drill in plan["drills"]]
    assert stages == sorted(stages)
    assert (plan["drills"][-1]["stage"], plan["drills"][-1]["position"]) == (5, "2nd")
