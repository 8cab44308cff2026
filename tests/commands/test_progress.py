"""A word when work takes more than a moment, and a bar on a terminal."""

import contextlib
import io
import os
import pty
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from bookgen.commands.progress import Telling


def told(*, work_seconds: float, moment: float, quiet: bool = False) -> str:
    stream = io.StringIO()
    with Telling(stream=stream, moment_seconds=moment, quiet=quiet)("engraving …"):
        time.sleep(work_seconds)
    return stream.getvalue()


def test_quick_work_says_nothing() -> None:
    assert not told(work_seconds=0.0, moment=5.0)


def test_long_work_says_so() -> None:
    assert told(work_seconds=0.3, moment=0.01) == "engraving …\n"


def test_quiet_is_quiet() -> None:
    assert not told(work_seconds=0.05, moment=0.01, quiet=True)


class Screen(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


def counted(stream: io.StringIO, *, pieces: int, quiet: bool = False) -> str:
    telling = Telling(quiet=quiet, stream=stream, moment_seconds=0.0)
    with telling.through(pieces) as left:
        for number in range(pieces):
            with left(f"Player {number} [b]")("engraving …"):
                time.sleep(0.15)
    return stream.getvalue()


def test_a_terminal_sees_what_is_left_and_nothing_else() -> None:
    seen = counted(Screen(), pieces=3)
    assert "0/3" in seen
    assert "2/3" in seen
    assert "Player 2 [b]" in seen, "a name is no markup"
    assert "left" in seen
    assert "engraving" not in seen


def test_where_nobody_looks_there_is_no_bar() -> None:
    assert "/3" not in counted(io.StringIO(), pieces=3)
    assert not counted(Screen(), pieces=3, quiet=True)
    assert counted(Screen(), pieces=1) == "engraving …\n"


def read_to_the_end(terminal: int) -> Iterator[str]:
    """What comes to a terminal until nobody writes there any more."""
    with contextlib.suppress(OSError):
        while part := os.read(terminal, 4096):
            yield part.decode(errors="replace")


def test_a_whole_command_shows_its_bar_on_the_error_stream_only(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TERM", "xterm")
    (here / "studio.toml").write_text("[players.Ines]\n[players.Jo]\n", encoding="utf-8")
    words = ["booklet", "--from", "2026-12-01", "--to", "2026-12-01", "--all"]
    reading, writing = pty.openpty()
    with subprocess.Popen(  # noqa: S603  ourselves
        [sys.executable, "-m", "bookgen", *words],
        stdout=subprocess.PIPE,
        stderr=writing,
        text=True,
    ) as command:
        os.close(writing)
        seen = "".join(read_to_the_end(reading))
        paths, _ = command.communicate()
    os.close(reading)
    assert "1/2" in seen
    assert paths.split() == [
        f"output/{name}-2026-12-01{part}.pdf"
        for name in ("ines", "jo")
        for part in ("", "-summary")
    ]


def test_a_sheet_does_not_load_what_draws_the_bar() -> None:
    text = (
        "import sys; from bookgen.cli import run; run(['sheet', '--quiet'])\n"
        "print([name for name in ('rich', 'numpy') if name in sys.modules])"
    )
    command = [sys.executable, "-c", text]
    done = subprocess.run(command, check=True, capture_output=True)  # noqa: S603  ourselves
    assert done.stdout.decode().strip() == "[]", done.stderr
