"""Opening the result."""

from pathlib import Path

import pytest

from bookgen.commands.viewer import open_file
from bookgen.errors import BookgenError


@pytest.mark.parametrize(
    ("platform", "opener"), [("linux", "xdg-open"), ("darwin", "open"), ("win32", "explorer")]
)
def test_each_system_has_its_opener(
    platform: str, opener: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    program = tmp_path / opener
    program.touch(mode=0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    started: list[list[str]] = []

    open_file(tmp_path / "a.pdf", platform=platform, start=started.append)

    assert started == [[str(program), str((tmp_path / "a.pdf").resolve())]]


def test_a_system_without_one_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))

    with pytest.raises(BookgenError, match="no program to open files here"):
        open_file(tmp_path / "a.pdf", platform="linux")
