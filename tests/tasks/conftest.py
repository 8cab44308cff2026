"""Commands run in an empty folder."""

from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The working folder of a command."""
    monkeypatch.chdir(tmp_path)
    return tmp_path
