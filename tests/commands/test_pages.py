"""The way from a plan to its pages, and what can stop it."""

import os
from pathlib import Path

import pytest
from kit.shell import bookgen, refused

from bookgen.commands import telling
from bookgen.notation import lilypond
from bookgen.tasks import engraving

DAY = ("--date", "2026-12-01")


def stand_in(monkeypatch: pytest.MonkeyPatch, folder: Path, script: str) -> None:
    """Put another program in LilyPond's place."""
    program = folder / "stand-in"
    program.write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
    program.chmod(0o755)
    monkeypatch.setattr(lilypond, "from_wheel", lambda: program)


def left(here: Path) -> list[str]:
    return sorted(path.name for path in here.rglob("*") if path.name != "stand-in")


def test_no_lilypond_is_told_and_nothing_is_written(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(lilypond, "from_wheel", lambda: None)
    monkeypatch.setenv("PATH", str(here))

    assert refused("sheet", *DAY).startswith("LilyPond: the music engraver is not installed; ")
    assert left(here) == []


@pytest.mark.parametrize(
    ("script", "told"),
    [
        ("cat >/dev/null; echo 'warning: odd' >&2", "warning: odd"),
        ("cat >/dev/null; kill -SEGV $$", "exit code -11"),
        ("exit 3", "exit code 3"),
        ("cat >/dev/null", "it wrote no part-0.pdf"),
    ],
)
def test_a_lilypond_that_fails_is_our_fault_and_leaves_nothing(
    here: Path, monkeypatch: pytest.MonkeyPatch, script: str, told: str
) -> None:
    stand_in(monkeypatch, here, script)

    outcome = bookgen("sheet", *DAY)
    assert outcome.code == 1
    assert told in outcome.err.splitlines()[-1]
    assert left(here) == []


@pytest.mark.parametrize(("mode", "text"), [(0o644, "#!/bin/sh\n"), (0o755, "\x7fELF")])
def test_a_program_that_cannot_be_started_is_told(
    here: Path, monkeypatch: pytest.MonkeyPatch, mode: int, text: str
) -> None:
    stand_in(monkeypatch, here, "")
    (here / "stand-in").write_text(text, encoding="utf-8")
    (here / "stand-in").chmod(mode)

    assert "stand-in: LilyPond does not start (" in refused("sheet", *DAY)
    assert left(here) == []


def test_a_lilypond_that_hangs_is_stopped(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(monkeypatch, here, "sleep 60")
    monkeypatch.setattr(engraving, "LEAST_SECONDS", 0.2)
    monkeypatch.setattr(engraving, "SECONDS_A_DRILL", 0.0)

    outcome = bookgen("sheet", *DAY)
    assert outcome.code == 1
    assert "not done in time and was stopped" in outcome.err
    assert left(here) == []


@pytest.mark.parametrize(
    ("option", "told"),
    [
        ("--out", "--out file/inside.pdf: file is no folder; choose another place."),
        ("--plan", "--plan file/inside.json: file is no folder; choose another place."),
        ("--keep-ly", "file is no folder; choose another place."),
    ],
)
def test_a_place_that_cannot_be_written_is_told_and_nothing_is(
    here: Path, option: str, told: str
) -> None:
    (here / "file").write_text("mine", encoding="utf-8")

    ending = {"--plan": "json"}.get(option, "pdf")
    assert told in refused("sheet", *DAY, option, f"file/inside.{ending}")
    assert left(here) == ["file"]
    assert (here / "file").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("name", ["sheet.png", "sheet", "sheet.PDF.txt", ""])
def test_a_pdf_goes_into_no_file_of_another_kind(here: Path, name: str) -> None:
    assert "--out" in refused("sheet", *DAY, "--out", name)
    assert left(here) == []


def test_two_results_do_not_go_into_one_file() -> None:
    Path("b.json").symlink_to("a.pdf")
    line = refused("sheet", *DAY, "--out", "a.pdf", "--plan", "b.json")

    assert line == "--plan b.json: the same place as --out; choose another place."


def test_a_pipe_or_device_is_not_replaced_by_a_file(here: Path) -> None:
    os.mkfifo(here / "pipe.pdf")

    assert "it is no ordinary file" in refused("sheet", *DAY, "--out", "pipe.pdf")
    assert (here / "pipe.pdf").is_fifo()


def test_a_drill_that_does_not_fit_its_page_is_the_layouts_fault(here: Path) -> None:
    (here / "mine").mkdir()
    text = "[music]\nstaff_height_mm = 16.0\n[text]\nlink_pt = 60.0\n"
    (here / "mine" / "layout.toml").write_text(text, encoding="utf-8")

    line = refused("sheet", *DAY, "--layout", "mine", "--paper", "a5")
    assert line.startswith("layout mine: ")
    assert "; choose larger paper, or a smaller staff or type in layout.toml." in line
    assert left(here) == ["layout.toml", "mine"]


def test_the_source_that_is_kept_is_the_one_that_was_engraved(here: Path) -> None:
    assert bookgen("sheet", *DAY, "--keep-ly", "ly").code == 0

    assert sorted(path.name for path in (here / "ly").iterdir()) == ["drills-1.ly", "fonts"]
    assert "\\version" in (here / "ly" / "drills-1.ly").read_text(encoding="utf-8")


def test_the_result_is_opened_where_wanted(monkeypatch: pytest.MonkeyPatch) -> None:
    opened: list[Path] = []
    monkeypatch.setattr(telling, "open_file", opened.append)

    bookgen("sheet", *DAY, "--open", "--out", "a.pdf")
    assert opened == [Path("a.pdf")]
