"""The reference pages say what the code does."""

import subprocess
import sys

import pytest
from house.reference import FOLDER, PAGES, ROOT


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_what_the_code_says(name: str) -> None:
    command = [sys.executable, "-m", "tests.house.reference", name]
    made = subprocess.run(command, check=True, cwd=ROOT, capture_output=True, encoding="utf-8")  # noqa: S603

    written = (FOLDER / name).read_text(encoding="utf-8")
    assert written == made.stdout, "write it anew: python -m tests.house.reference"
