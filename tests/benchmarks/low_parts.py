"""Every cello part of music21's quartets, as it is and as a bass line an octave lower.

Run by hand from the top folder: `PYTHONPATH=tests .venv/bin/python -m tests.benchmarks.low_parts`;
with `35-51` behind it only these of the 51 scores.
"""

import sys
import warnings
from collections.abc import Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

from kit.low_parts import CORPUS, Whole, whole

from benchmarks.quartets import of_range, quartets
from bookgen.errors import BookgenError
from bookgen.readers.instrument import read_instrument

KEYS = ("cello", "double_bass_low_c")


def row(found: Whole) -> str:
    """What stands in the table of a part."""
    best = found.passage.best
    return (
        f"{len(found.passage.phrase.bars):5} bars {len(best.placed):5} sounds, "
        f"not playable {len(best.unplayable):3}, outside the hand {len(found.outside):2}, "
        f"false {len(found.false)}, written otherwise {len(found.differing)}"
    )


def main(arguments: Sequence[str]) -> int:
    """Print the table; returns how many parts failed."""
    failed = 0
    for file in of_range(quartets(), arguments):
        name = str(file.relative_to(CORPUS))
        for key in KEYS:
            try:
                with TemporaryDirectory() as folder:
                    found = whole(name, read_instrument(key), Path(folder))
                failed += bool(found.outside or found.false or found.differing)
                print(f"{name:42} {key:18} {row(found)}", flush=True)  # noqa: T201
            except BookgenError as error:
                failed += 1
                print(name, key, "FAILED", error, flush=True)  # noqa: T201
    print(failed, "failed")  # noqa: T201
    return failed


if __name__ == "__main__":
    warnings.simplefilter("ignore")
    sys.exit(main(sys.argv[1:]) > 0)
