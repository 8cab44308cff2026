"""What a killed run left is swept by the next."""

import os
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from bookgen.tasks.files import write_whole
from bookgen.tasks.leftovers import MACHINE, prefix, sweep, working_folder

KILLED = """
import os, signal, sys
from pathlib import Path
from bookgen.tasks.files import written_beside
from bookgen.tasks.leftovers import working_folder
written_beside(Path(sys.argv[1]) / "a.pdf", b"pages")
with working_folder() as folder:
    (folder / "music.ly").write_text("x")
    print(folder, flush=True)
    os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.fixture
def temporary(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder for temporary files."""
    folder = tmp_path / "temporary"
    folder.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(folder))
    monkeypatch.setenv("TMPDIR", str(folder))
    return folder


def test_a_killed_runs_files_and_folders_are_gone_after_the_next(
    tmp_path: Path, temporary: Path
) -> None:
    out = tmp_path / "out"
    done = subprocess.run([sys.executable, "-c", KILLED, str(out)], check=False)  # noqa: S603
    assert done.returncode == -signal.SIGKILL
    assert len(list(out.iterdir())) == len(list(temporary.iterdir())) == 1

    write_whole([(out / "b.pdf", b"pages")])
    with working_folder() as folder:
        assert list(temporary.iterdir()) == [folder]
    assert [path.name for path in out.iterdir()] == ["b.pdf"]
    assert list(temporary.iterdir()) == []


def test_what_another_run_or_machine_or_program_has_there_stays(tmp_path: Path) -> None:
    other = "000000" if MACHINE != "000000" else "111111"
    names = [
        f".{prefix()}abcd",
        f".bookgen-{MACHINE}-{os.getppid()}-abcd",
        f".bookgen-{other}-999999999-abcd",
        "bookgen-notes.txt",
        ".bookgen-settings",
    ]
    for name in names:
        (tmp_path / name).write_bytes(b"")

    sweep(tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(names)
