"""How long bookgen takes, as a ratio to LilyPond alone on the same music in the same run.

Run by hand from the top folder: `.venv/bin/python -m tests.benchmarks.speed`.

Each round runs LilyPond alone and the whole bookgen process one after the other, with an empty
home folder (so no font cache helps either), and the median of the rounds counts. LilyPond alone
gets the sources that bookgen itself keeps with `--keep-ly`, with the same back end and fonts: in
one process for a sheet and for many drills, in two at the same time for the roster's month.
Each round ends with the same command once more, for which all engraving is kept.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Final

from bookgen.notation.engraver import PDF_OPTIONS
from bookgen.notation.lilypond import FONTS_CONFIG, FONTS_FOLDER, Workshop, find_lilypond
from bookgen.plan.decoder import decode
from bookgen.tasks.instruments import finder
from bookgen.tasks.studio_folder import StudioFolder

ROUNDS: Final = 5
AGAIN: Final = 0.25
"""The share of the first time that is the goal of a second one."""

MANY_DAYS: Final = ("--from", "2026-12-01", "--to", "2027-01-14", "--minutes", "60")
"""A run of days with about two hundred different drills."""


@dataclass(frozen=True, slots=True)
class Case:
    """Something that is timed.

    processes: in which LilyPond alone engraves the music; goal: the ratio.
    prepare: commands that come before, in the same folder, and are not timed.
    """

    name: str
    words: tuple[str, ...]
    processes: int
    goal: float
    prepare: tuple[tuple[str, ...], ...] = ()


CASES: Final = (
    Case("a cold sheet", ("sheet", "--date", "2026-12-01"), 1, 1.7),
    Case(
        "many drills, cold",
        ("bind", "many.json"),
        1,
        1.3,
        (("booklet", *MANY_DAYS, "--plan", "many.json"),),
    ),
    Case(
        "the starter roster's month, cold",
        ("booklet", "--month", "2026-12", "--all"),
        2,
        1.4,
        (("new-studio", "."),),
    ),
)


def timed(work: Callable[[], object]) -> float:
    """Seconds of wall clock."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def bookgen(words: Sequence[str], folder: Path, home: Path) -> None:
    """The whole command in a process of its own, with an empty home."""
    environment = {"PATH": os.defpath, "HOME": str(home), "XDG_CACHE_HOME": str(home)}
    command = [str(Path(sys.executable).parent / "bookgen"), *words, "--quiet"]
    subprocess.run(command, check=True, env=environment, cwd=folder)  # noqa: S603


def prepared(case: Case, folder: Path) -> Path:
    """Do what comes before a case in a folder of its own."""
    folder.mkdir(parents=True)
    for words in case.prepare:
        bookgen(words, folder, folder)
    for book in (folder / "output").glob("*"):
        book.unlink()
    return folder


def sources(case: Case, folder: Path) -> list[Path]:
    """What bookgen hands to LilyPond, written down."""
    bookgen([*case.words, "--keep-ly", "kept"], prepared(case, folder), folder)
    return sorted((folder / "kept").rglob("*.ly"))


def shares(files: Sequence[Path], processes: int) -> list[list[Path]]:
    """The sources shared out over processes, so that each has about as much to do."""
    found: list[list[Path]] = [[] for _ in range(processes)]
    for file in sorted(files, key=lambda file: -file.stat().st_size):
        min(found, key=lambda share: sum(one.stat().st_size for one in share)).append(file)
    return found


def lilypond(files: Sequence[Path], folder: Path) -> None:
    """One LilyPond process over these sources."""
    shop = Workshop(find_lilypond(), folder)
    shop.lay_out(FONTS_CONFIG)
    shop.lay_out("bbox.ily")
    (folder / FONTS_FOLDER).symlink_to(files[0].parent / FONTS_FOLDER)
    command = [str(shop.lilypond), "--loglevel=WARNING", *PDF_OPTIONS, *map(str, files)]
    subprocess.run(command, check=True, cwd=folder, env=shop.environment())  # noqa: S603


def lilypond_alone(files: Sequence[Path], processes: int, folder: Path) -> None:
    """LilyPond over all sources, in so many processes at the same time."""
    work = [share for share in shares(files, processes) if share]
    homes = [folder / str(number) for number in range(len(work))]
    for home in homes:
        home.mkdir(parents=True)
    with ThreadPoolExecutor(processes) as pool:
        list(pool.map(lilypond, work, homes))


def compare(case: Case, top: Path) -> bool:
    """Print one line, and say whether the goal is met."""
    files = sources(case, top / "sources")
    ours, raw, again = [], [], []
    for number in range(ROUNDS):
        apart = top / f"raw-{number}"
        raw.append(timed(partial(lilypond_alone, files, case.processes, apart)))
        folder = prepared(case, top / f"ours-{number}")
        home = folder / "home"
        home.mkdir()
        ours.append(timed(partial(bookgen, case.words, folder, home)))
        again.append(timed(partial(bookgen, case.words, folder, home)))
    ratio = statistics.median(ours) / statistics.median(raw)
    sys.stdout.write(
        f"{case.name}: bookgen {statistics.median(ours):.2f} s, LilyPond alone "
        f"{statistics.median(raw):.2f} s, ratio {ratio:.2f} (goal {case.goal}) "
        f"{'met' if ratio <= case.goal else 'MISSED'}\n"
    )
    share = statistics.median(again) / statistics.median(ours)
    sys.stdout.write(
        f"the same again: {statistics.median(again):.2f} s, {share:.2f} of the first time "
        f"(goal {AGAIN}) {'met' if share <= AGAIN else 'MISSED'}\n"
    )
    return ratio <= case.goal and share <= AGAIN


def drills_in(file: Path) -> int:
    """How many different drills a plan document has."""
    return len(decode(file.read_bytes(), file.name, finder(StudioFolder(Path()))).drills)


def main() -> int:
    """All comparisons. Returns 0 where all goals are met."""
    with tempfile.TemporaryDirectory(prefix="speed-") as folder:
        top = Path(folder)
        met = [compare(case, top / str(number)) for number, case in enumerate(CASES)]
        many = drills_in(top / "1" / "sources" / "many.json")
        sys.stdout.write(f"many drills: {many} different ones\n")
    return 0 if all(met) else 1


if __name__ == "__main__":
    sys.exit(main())
