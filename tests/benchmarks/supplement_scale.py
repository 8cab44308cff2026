"""A book of a thousand drills beside LilyPond alone on the same drills, and ten editions of it.

Run by hand from the top folder: `.venv/bin/python -m tests.benchmarks.supplement_scale [ROUNDS]`,
on Linux, which tells what memory processes have together.

Each round makes the book in an empty home folder, then has LilyPond alone engrave the same sources,
shared out to as many processes as there are cores; the median of the rounds counts. The sources
are those that `bookgen bind --keep-ly` writes of the same plan.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage
from typing import Final

from kit.thousand import thousand

from benchmarks.speed import lilypond_alone

RATIO: Final = 1.4
MOST_MB: Final = 500
LOOK_SECONDS: Final = 0.2
EDITIONS: Final = (
    'languages = ["en", "de", "fr", "es", "it"]\neditions = ["student", "teacher"]\n[[chapter]]'
)


@dataclass(frozen=True, slots=True)
class Took:
    """Seconds by the clock and of processors, and the most megabytes at any moment."""

    clock: float
    processors: float
    megabytes: float


def processor_seconds() -> float:
    """What all processes that were started from here, and are over, have used."""
    used = getrusage(RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def family(process: int) -> Iterator[int]:
    """A process and all that it has started."""
    yield process
    for task in Path(f"/proc/{process}/task").glob("*/children"):
        for child in task.read_text(encoding="ascii").split():
            yield from family(int(child))


def megabytes(process: int) -> float:
    """Memory of a process and all below it; what they share is counted once."""
    total = 0
    for one in family(process):
        rollup = Path(f"/proc/{one}/smaps_rollup").read_text(encoding="ascii")
        (pss,) = (line for line in rollup.splitlines() if line.startswith("Pss:"))
        total += int(pss.split()[1])
    return total / 1000


def bookgen(words: Sequence[str], home: Path) -> Took:
    """The whole command in a process of its own, watched while it works."""
    environment = {"PATH": os.defpath, "HOME": str(home), "XDG_CACHE_HOME": str(home)}
    command = [str(Path(sys.executable).parent / "bookgen"), *words, "--quiet"]
    before, begun, most = processor_seconds(), time.perf_counter(), 0.0
    with subprocess.Popen(command, env=environment, cwd=home) as process:  # noqa: S603
        while process.poll() is None:
            try:
                most = max(most, megabytes(process.pid))
            except (FileNotFoundError, ProcessLookupError, ValueError):
                continue  # one has just ended
            time.sleep(LOOK_SECONDS)
    if process.returncode:
        sys.exit(process.returncode)
    return Took(time.perf_counter() - begun, processor_seconds() - before, most)


def raw(files: Sequence[Path], folder: Path) -> Took:
    """LilyPond alone, on all cores."""
    before, begun = processor_seconds(), time.perf_counter()
    lilypond_alone(files, os.cpu_count() or 1, folder)
    return Took(time.perf_counter() - begun, processor_seconds() - before, 0.0)


def sources(spec: Path, home: Path) -> list[Path]:
    """What bookgen hands to LilyPond, written down."""
    bookgen(["supplement", str(spec), "--plans", "plans"], home)
    (plan,) = (home / "plans").iterdir()
    bookgen(["bind", str(plan), "--keep-ly", "kept"], home)
    return sorted((home / "kept").rglob("*.ly"))


def tell(name: str, rounds: Sequence[Took]) -> Took:
    """Print what the rounds took, and hand out their median, with the most memory of all."""
    found = Took(
        statistics.median(one.clock for one in rounds),
        statistics.median(one.processors for one in rounds),
        max(one.megabytes for one in rounds),
    )
    memory = f", {found.megabytes:.0f} MB at most" if found.megabytes else ""
    sys.stdout.write(
        f"{name}: {found.clock:.2f} s, {found.processors:.2f} s of processor time{memory}\n"
    )
    sys.stdout.flush()
    return found


def main() -> int:
    """All measurements. Returns 0 where the goals are met."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    with tempfile.TemporaryDirectory(prefix="scale-") as folder:
        top = Path(folder)

        def home(name: str) -> Path:
            (top / name).mkdir()
            return top / name

        spec, many = top / "thousand.toml", top / "editions.toml"
        spec.write_text(thousand(), encoding="utf-8")
        many.write_text(thousand().replace("[[chapter]]", EDITIONS, 1), encoding="utf-8")
        files = sources(spec, home("sources"))
        make = partial(bookgen, ["supplement", str(spec), "--out", "books"])
        homes = [home(f"ours-{number}") for number in range(rounds)]
        took = [(make(one), raw(files, home(f"raw-{at}"))) for at, one in enumerate(homes)]
        ours, alone = (
            tell(name, each)
            for name, each in zip(
                ("a thousand drills", "LilyPond alone"), zip(*took, strict=True), strict=True
            )
        )
        tell("the same book again", [make(one) for one in homes])
        ten = tell(
            "ten editions in five languages",
            [bookgen(["supplement", str(many), "--out", "books"], home("ten"))],
        )
    ratio, most = ours.clock / alone.clock, max(ours.megabytes, ten.megabytes)
    met = ratio <= RATIO and most <= MOST_MB
    sys.stdout.write(
        f"ratio {ratio:.2f} (goal {RATIO}), of processor time "
        f"{ours.processors / alone.processors:.2f}; {most:.0f} MB (goal {MOST_MB}) "
        f"{'met' if met else 'MISSED'}\n"
    )
    return 0 if met else 1


if __name__ == "__main__":
    sys.exit(main())
