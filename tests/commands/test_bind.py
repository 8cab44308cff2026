"""The pages of a plan document."""

import json
from pathlib import Path

import pytest
from drills import VIOLIN, plan_of
from shell import bookgen, refused

from bookgen.plan.encoder import encode

DAY = "2026-12-01"
STAGE_5 = "12-whole-place2-strings4321-stage5-low-same"


def test_a_plan_gives_the_same_pages_as_the_command_that_wrote_it() -> None:
    bookgen("sheet", "--date", DAY, "--plan", "plan.json", "--out", "sheet.pdf")

    assert bookgen("bind", "plan.json").out == "output/plan.pdf\n"
    assert Path("output/plan.pdf").read_bytes() == Path("sheet.pdf").read_bytes()


def test_a_lie_is_told_with_its_place_and_nothing_is_written(here: Path) -> None:
    document = json.loads(encode(plan_of(STAGE_5), VIOLIN))
    document["days"][0]["drills"][0]["events"][1]["within"] = "M6"
    Path("plan.json").write_text(json.dumps(document), encoding="utf-8")

    place = "plan.json, days[0].drills[0].events[1].within"
    assert refused("bind", "plan.json").startswith(f'{place}: "M6", but it should be "P4"; ')
    assert [file.name for file in here.iterdir()] == ["plan.json"]


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("missing.json", None, "missing.json: cannot be read (No such file or directory)"),
        ("empty.json", b"", "empty.json, document: no JSON"),
        ("noise.json", b"\x00\xff\x13", "noise.json, document: no JSON"),
        ("other.json", b"{}", "other.json, document: Object missing required field `format`"),
    ],
)
def test_what_is_no_plan_is_told(name: str, content: bytes | None, told: str) -> None:
    if content is not None:
        Path(name).write_bytes(content)

    assert told in refused("bind", name)


def test_a_plan_may_begin_with_a_byte_order_mark() -> None:
    text = encode(plan_of(STAGE_5), VIOLIN)
    Path("plan.json").write_text("\ufeff" + text, encoding="utf-8")

    assert bookgen("bind", "plan.json").code == 0


def test_a_folder_is_no_plan(here: Path) -> None:
    (here / "plan.json").mkdir()

    assert "plan.json: cannot be read (Is a directory)" in refused("bind", "plan.json")


def test_a_file_larger_than_any_plan_is_not_read_through() -> None:
    with Path("huge.json").open("wb") as stream:
        stream.truncate(65 * 1024 * 1024)

    assert "huge.json: larger than any plan" in refused("bind", "huge.json")
