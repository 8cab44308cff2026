"""One run of LilyPond, and programs that stand in for it and fail."""

import os
import time
from pathlib import Path

import pytest
from kit.bench import STYLE, stand_in

from bookgen.errors import BookgenError, EngravingError
from bookgen.notation.lilypond import Workshop, find_lilypond, from_wheel


def test_lilypond_is_found_in_its_package() -> None:
    assert find_lilypond() == from_wheel()


def test_without_lilypond_the_user_is_told_what_to_install() -> None:
    with pytest.raises(BookgenError, match="pip install lilypond") as stopped:
        find_lilypond(lambda: None, lambda: Path("/nowhere/lilypond"))

    assert stopped.value.exit_code == 2


def test_lilypond_on_the_path_is_the_second_choice(tmp_path: Path) -> None:
    program = tmp_path / "lilypond"
    program.touch()

    assert find_lilypond(lambda: None, lambda: program) == program


def test_a_run_that_says_nothing_and_ends_well_is_done(tmp_path: Path) -> None:
    run = stand_in(tmp_path, 'cat > "$out.pdf"').begin("day")
    run.feed("notes")
    run.finish(10.0)

    assert run.written(".pdf") == b"notes"


@pytest.mark.parametrize(
    ("script", "problem"),
    [
        ("cat > /dev/null; echo 'day.ly:3: warning: bar check failed' >&2", "bar check failed"),
        ("cat > /dev/null; echo 'fatal error' >&2; exit 1", "exit code 1: fatal error"),
        ("exit 3", "exit code 3: it says nothing"),
        ("kill -SEGV $$", "exit code -11"),
    ],
)
def test_a_crash_and_a_warning_are_our_defect(tmp_path: Path, script: str, problem: str) -> None:
    run = stand_in(tmp_path, script).begin("day")
    run.feed("notes" * 100_000)  # more than a pipe holds: nobody may wait for a reader that is gone

    with pytest.raises(EngravingError, match=problem) as stopped:
        run.finish(10.0)

    assert stopped.value.exit_code == 1


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="needs a list of processes")
@pytest.mark.parametrize(
    "script", ["sleep 60 & echo $! > child; wait", "sleep 60 & echo $! > child"]
)
def test_a_hang_is_ended_with_all_its_children(tmp_path: Path, script: str) -> None:
    run = stand_in(tmp_path, script).begin("day")
    run.feed("notes")
    child = tmp_path / "child"
    while not (child.exists() and child.read_text(encoding="ascii").strip()):
        time.sleep(0.01)

    with pytest.raises(EngravingError, match="not done in time"):
        run.finish(0.3)

    assert not alive(int(child.read_text(encoding="ascii")))


def test_a_file_that_was_not_written_is_missed(tmp_path: Path) -> None:
    (tmp_path / "day.pdf").write_bytes(b"of yesterday")
    run = stand_in(tmp_path, "cat > /dev/null").begin("day")
    run.feed("notes")
    run.finish(10.0)

    with pytest.raises(EngravingError, match=r"wrote no day\.pdf"):
        run.written(".pdf")


def test_the_program_learns_nothing_of_the_users_machine(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BOOKGEN_SECRET", "private")
    shop = stand_in(tmp_path, 'cat > /dev/null; env > "$out.env"; pwd > "$out.folder"')
    run = Workshop(shop.lilypond, tmp_path, machine={"SYSTEMROOT": "C:\\Windows"}).begin("day")
    run.feed("notes")
    run.finish(10.0)
    told = dict(line.split("=", 1) for line in run.written(".env").decode().splitlines())

    assert "BOOKGEN_SECRET" not in told
    assert told["HOME"] == str(tmp_path)
    assert told["SYSTEMROOT"] == "C:\\Windows"
    assert run.written(".folder").decode().strip() == os.path.realpath(tmp_path)


def test_a_program_that_ended_before_it_was_fed_leaves_no_open_pipe(tmp_path: Path) -> None:
    run = stand_in(tmp_path, "exit 0").begin("day")
    run.process.wait(10.0)
    run.stop()

    pipes = (run.process.stdin, run.process.stderr)
    assert [pipe.closed for pipe in pipes if pipe is not None] == [True, True]


def test_the_workshop_holds_the_text_face_and_no_system_font(tmp_path: Path) -> None:
    shop = stand_in(tmp_path, "exit 0")
    shop.furnish(STYLE)
    shop.begin("day").stop()
    faces = sorted(file.name for file in (tmp_path / "fonts").iterdir())

    assert faces == [f"text-{index}.ttf" for index in range(4)]
    assert "<dir" not in (tmp_path / "fonts.conf").read_text(encoding="utf-8")


def alive(process: int) -> bool:
    """Whether a process still runs after a while; one that only waits to be buried does not.

    The kernel ends a killed process when it finds the time, which on a busy machine it may not
    do at once.
    """
    until = time.monotonic() + 10.0
    while runs(process):
        if time.monotonic() > until:
            return True
        time.sleep(0.01)
    return False


def runs(process: int) -> bool:
    """Whether a process runs at this moment."""
    status = Path(f"/proc/{process}/stat")
    if not status.exists():
        return False
    return status.read_text(encoding="ascii").rpartition(")")[2].split()[0] not in {"Z", "X"}
