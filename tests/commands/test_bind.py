"""The pages of a plan document."""

import json
from pathlib import Path

import pypdfium2
import pytest
from kit.shell import bookgen, refused

DAY = "2026-12-01"
SPECIMENS = Path(__file__).parents[1] / "specimens" / "plans"
KEY = "violin-12-whole-place2-strings4321-stage5-low-same"
STUDIO = """
name = "Harbour Lane Strings"
paper = "letter"
[players.Ines]
minutes = 4
note = "Listen first."
practice_days = ["Tue", "Thu"]
"""
DECEMBER = ("booklet", "--from", "2026-12-01", "--to", "2026-12-03")
BOOKS = {
    "sheet": ("sheet", "--date", DAY),
    "sheet on other paper": ("sheet", "--date", DAY, "--paper", "a5", "--cents"),
    "sheet from memory": ("sheet", "--date", DAY, "--from-memory"),
    "large print": ("sheet", "--date", DAY, "--layout", "large-print"),
    "booklet": DECEMBER,
    "booklet by day": (*DECEMBER, "--by-day"),
    "booklet from memory": (*DECEMBER, "--from-memory"),
    "folded": (*DECEMBER, "--fold"),
    "drill": ("drill", KEY),
    "drill from memory": ("drill", KEY, "--from-memory"),
}


@pytest.mark.parametrize("words", BOOKS.values(), ids=BOOKS.keys())
def test_a_plan_gives_the_same_bytes_as_the_command_that_wrote_it(words: tuple[str, ...]) -> None:
    Path("studio.toml").write_text(STUDIO, encoding="utf-8")
    assert bookgen(*words, "--plan", "plan.json", "--out", "printed.pdf").code == 0
    Path("studio.toml").unlink()

    assert bookgen("bind", "plan.json").out == "output/plan.pdf\n"
    assert Path("output/plan.pdf").read_bytes() == Path("printed.pdf").read_bytes()


def test_a_plan_that_links_to_earlier_months_binds_again() -> None:
    Path("studio.toml").write_text(STUDIO, encoding="utf-8")
    for day in ("2026-11-03", "2026-11-05", "2026-11-10", "2026-11-12", "2026-11-17"):
        bookgen("sheet", "--date", day)
    bookgen("log", "--secure", "1-3", "--date", "2026-11-05")
    assert bookgen(*DECEMBER, "--plan", "plan.json", "--out", "printed.pdf").code == 0

    plan = json.loads(Path("plan.json").read_text(encoding="utf-8"))
    assert plan["earlier"], "something is linked to a drill of November"
    assert bookgen("bind", "plan.json", "--out", "again.pdf").code == 0
    assert Path("again.pdf").read_bytes() == Path("printed.pdf").read_bytes()


@pytest.mark.parametrize("name", ["booklet", "ladder", "piece"])
def test_a_plan_of_the_first_version_is_bound(name: str) -> None:
    plan = SPECIMENS / f"version-1-{name}.json"
    assert bookgen("bind", str(plan), "--out", "bound.pdf").code == 0

    with pypdfium2.PdfDocument("bound.pdf") as book:
        words = {word for page in book for word in page.get_textpage().get_text_range().split()}
    days = json.loads(plan.read_text(encoding="utf-8"))["days"]
    firsts = {drill["key"]: drill["number"] for day in reversed(days) for drill in day["drills"]}
    assert {str(number) for number in firsts.values()} <= words


def test_options_say_what_is_other() -> None:
    bookgen("sheet", "--date", DAY, "--plan", "plan.json", "--out", "printed.pdf")

    assert bookgen("bind", "plan.json", "--paper", "a5", "--out", "a5.pdf").code == 0
    assert Path("a5.pdf").read_bytes() != Path("printed.pdf").read_bytes()


def test_a_lie_is_told_with_its_place_and_nothing_is_written(here: Path) -> None:
    bookgen("drill", KEY, "--plan", "plan.json", "--out", "drill.pdf")
    (here / "drill.pdf").unlink()
    document = json.loads(Path("plan.json").read_text(encoding="utf-8"))
    document["drills"][0]["events"][1]["within"] = "M6"
    Path("plan.json").write_text(json.dumps(document), encoding="utf-8")

    place = "plan.json, drills[0].events[1].within"
    assert refused("bind", "plan.json").startswith(f'{place}: "M6", but it should be "P4"; ')
    assert [file.name for file in here.iterdir()] == ["plan.json"]


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("missing.json", None, "missing.json: cannot be read (No such file or directory)"),
        ("empty.json", b"", "empty.json, document: no JSON"),
        ("noise.json", b"\x00\xff\x13", "noise.json, document: no JSON"),
        ("other.json", b"{}", "other.json, document: Object missing required field"),
    ],
)
def test_what_is_no_plan_is_told(name: str, content: bytes | None, told: str) -> None:
    if content is not None:
        Path(name).write_bytes(content)

    assert told in refused("bind", name)


def test_a_plan_may_begin_with_a_byte_order_mark() -> None:
    bookgen("drill", KEY, "--plan", "plan.json")
    text = Path("plan.json").read_text(encoding="utf-8")
    Path("plan.json").write_text("\ufeff" + text, encoding="utf-8")

    assert bookgen("bind", "plan.json").code == 0


def test_a_folder_is_no_plan(here: Path) -> None:
    (here / "plan.json").mkdir()

    assert "plan.json: cannot be read (Is a directory)" in refused("bind", "plan.json")


def test_a_file_larger_than_any_plan_is_not_read_through() -> None:
    with Path("huge.json").open("wb") as stream:
        stream.truncate(65 * 1024 * 1024)

    assert "huge.json: larger than any plan" in refused("bind", "huge.json")
