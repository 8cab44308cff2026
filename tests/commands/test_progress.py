"""A word when work takes more than a moment."""

import io
import time

from bookgen.commands.progress import told_after_a_moment


def told(*, work_seconds: float, moment: float, quiet: bool = False) -> str:
    stream = io.StringIO()
    with told_after_a_moment("engraving …", quiet=quiet, stream=stream, moment=moment):
        time.sleep(work_seconds)
    return stream.getvalue()


def test_quick_work_says_nothing() -> None:
    assert not told(work_seconds=0.0, moment=5.0)


def test_long_work_says_so() -> None:
    assert told(work_seconds=0.3, moment=0.01) == "engraving …\n"


def test_quiet_is_quiet() -> None:
    assert not told(work_seconds=0.05, moment=0.01, quiet=True)
