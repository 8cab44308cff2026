"""What the docs tell a user to type or to save is right: options, timetable, unit files."""

import configparser
import re
import shlex
import shutil
import subprocess
from pathlib import Path

import pytest
from house.pictures import FOLDER, SHOTS, pages, pictures_on
from kit.fences import DOCS, Block, blocks, commands

from bookgen.cli import parsed, parser

MORNING = DOCS / "how-to" / "each-morning.md"
SHELL = {"sh", "console", "crontab"}
CRON_FIELDS = {"minute": 59, "hour": 23, "day": 31, "month": 12, "weekday": 7}
ANALYZE = shutil.which("systemd-analyze")

LINES = [
    pytest.param(line, id=f"{page.relative_to(DOCS)}:{number}")
    for page in sorted(DOCS.rglob("*.md"))
    for block in blocks(page)
    if block.language in SHELL
    for number, line in commands(block)
    if "bookgen " in line
]


LINK = re.compile(r"\]\((?!https?:)([^)#\s]+)[^)]*\)")


@pytest.mark.parametrize("page", pages(), ids=lambda page: page.name)
def test_every_link_leads_to_a_file(page: Path) -> None:
    goals = [page.parent / goal for goal in LINK.findall(page.read_text(encoding="utf-8"))]

    assert [goal for goal in goals if not goal.exists()] == []


def test_every_picture_is_shown_and_made_by_a_command() -> None:
    shown = {name for page in pages() for name in pictures_on(page)}

    assert shown == {f"{name}.png" for name in SHOTS} == {file.name for file in FOLDER.iterdir()}


def bookgen_words(line: str) -> list[list[str]]:
    """The arguments of every call of bookgen in a line of shell."""
    calls = [shlex.split(part, comments=True) for part in re.split(r"&&|\|\||[;|]", line)]
    return [words[1:] for words in calls if words and words[0].rpartition("/")[2] == "bookgen"]


def morning(language: str) -> list[Block]:
    """The blocks of one language on the page on daily printing."""
    return [block for block in blocks(MORNING) if block.language == language]


def units() -> dict[str, configparser.ConfigParser]:
    """The unit files by name, as systemd's own format reads: letters large and small count."""
    found = {}
    for block in morning("ini"):
        unit = configparser.ConfigParser(interpolation=None, strict=True)
        unit.optionxform = str  # type: ignore[assignment,method-assign]
        unit.read_string(block.text)
        found[block.name] = unit
    return found


@pytest.mark.parametrize("line", LINES)
def test_every_bookgen_line_is_one_that_the_parser_takes(line: str) -> None:
    calls = bookgen_words(line)

    assert calls
    for words in calls:
        parsed(parser(), words)


def test_the_table_for_cron_is_one() -> None:
    (block,) = morning("crontab")
    (line,) = block.lines

    *fields, command = line.split(maxsplit=5)
    for (name, most), field in zip(CRON_FIELDS.items(), fields, strict=True):
        assert re.fullmatch(r"\*|\d+(-\d+)?(,\d+(-\d+)?)*", field), name
        assert all(int(number) <= most for number in re.findall(r"\d+", field)), name
    assert "%" not in command, "cron takes it for the end of the line"
    assert re.match(r'cd "\$HOME/[^"]+" && "\$HOME/', command), "cron knows no folder and no path"
    assert bookgen_words(command) == [["sheet", "--player", "Ines", "--print", "--quiet"]]


def test_the_timer_starts_the_service() -> None:
    found = units()

    assert sorted(found) == ["practice-sheet.service", "practice-sheet.timer"]
    service, timer = (found[name] for name in sorted(found))
    assert timer["Timer"]["Persistent"] == "true"
    assert service["Service"]["Type"] == "oneshot"
    assert service["Service"]["ExecStart"].startswith("%h/")
    (words,) = bookgen_words(service["Service"]["ExecStart"])
    parsed(parser(), words)


def test_the_lines_for_systemctl_name_the_units_shown() -> None:
    (block,) = morning("console")

    named = set(re.findall(r"\S+\.(?:service|timer)", block.text))
    assert named == set(units())


@pytest.mark.skipif(ANALYZE is None, reason="systemd-analyze is not here")
def test_systemd_accepts_the_units(tmp_path: Path) -> None:
    assert ANALYZE is not None
    (tmp_path / "bookgen").touch(mode=0o755)
    for block in morning("ini"):
        text = block.text.replace("%h/bookgen/.venv/bin/bookgen", str(tmp_path / "bookgen"))
        (tmp_path / block.name).write_text(text)

    command = [ANALYZE, "--user", "--man=no", "verify", *(str(tmp_path / name) for name in units())]
    done = subprocess.run(  # noqa: S603
        command,
        check=False,
        capture_output=True,
        text=True,
        env={"HOME": str(tmp_path), "XDG_RUNTIME_DIR": str(tmp_path)},
    )

    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
