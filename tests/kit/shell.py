"""Bookgen as the shell runs it, in this process, in a folder of the test's own."""

import contextlib
import io
from dataclasses import dataclass

from bookgen.cli import run

PROGRESS = "drills to engrave: "
"""On a slow machine a word of progress may come before the finding."""


@dataclass(frozen=True)
class Outcome:
    """What a command left: its exit code and what it printed."""

    code: int
    out: str
    err: str


def bookgen(*words: str) -> Outcome:
    """Run one command in the present folder."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = run(words)
    return Outcome(code, out.getvalue(), err.getvalue())


def refused(*words: str) -> str:
    """Run a command that the user has got wrong; return the one line it says."""
    outcome = bookgen(*words)
    assert outcome.code == 2, outcome
    assert not outcome.out
    (line,) = [line for line in outcome.err.splitlines() if not line.startswith(PROGRESS)]
    assert "; " in line, "a finding has a mend"
    return line
