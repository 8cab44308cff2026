"""How long bookgen takes, as a ratio to LilyPond alone on the same music in the same run.

Run by hand from the top folder: `.venv/bin/python -m tests.benchmarks.speed`.

Each round runs LilyPond alone and the whole bookgen process one after the other, with an empty
home folder (so no font cache helps either), and the median of the rounds counts. LilyPond alone
is one process with the same back end, fonts and source as ours.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Final

from planning import planned_from

from bookgen.binder.layout import Layout
from bookgen.commands.asking import Wish, asked_of
from bookgen.commands.kept import fresh_plan
from bookgen.commands.roster import NOBODY
from bookgen.notation.engraver import PDF_OPTIONS
from bookgen.notation.lilypond import FONTS_CONFIG, Workshop, find_lilypond
from bookgen.notation.source import lilypond_source
from bookgen.plan.document import Plan
from bookgen.plan.encoder import encode
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout

ROUNDS: Final = 7
START: Final = date(2026, 12, 1)
MANY: Final = 200
GOALS: Final = {"sheet": 2.0, "many": 1.4}
VIOLIN: Final = read_instrument("violin")


def timed(work: Callable[[Path], object]) -> float:
    """Seconds of wall clock for work in an empty folder of its own."""
    with tempfile.TemporaryDirectory() as folder:
        start = time.perf_counter()
        work(Path(folder))
        return time.perf_counter() - start


def bookgen(words: Sequence[str], home: Path) -> None:
    """The whole command in a process of its own, in an empty home."""
    environment = {"PATH": os.defpath, "HOME": str(home), "XDG_CACHE_HOME": str(home)}
    command = [str(Path(sys.executable).parent / "bookgen"), *words]
    subprocess.run(command, check=True, env=environment, cwd=home, stdout=subprocess.DEVNULL)  # noqa: S603


def lilypond_alone(plan: Plan, layout: Layout) -> Callable[[Path], None]:
    """One LilyPond process over all drills of a plan; the source is written beforehand."""
    from bookgen.commands.pages import Look  # noqa: PLC0415

    style = Look(layout, "a4", cents=False, studio=None).style
    drills = [drill for day in plan.days for drill in day.drills]
    source = lilypond_source(drills, VIOLIN, style)

    def run(folder: Path) -> None:
        shop = Workshop(find_lilypond(), folder)
        shop.furnish(style)
        shop.lay_out(FONTS_CONFIG)
        file = folder / "all.ly"
        file.write_text(source, encoding="utf-8")
        command = [str(shop.lilypond), "--loglevel=WARNING", *PDF_OPTIONS, str(file)]
        subprocess.run(command, check=True, cwd=folder, env=shop.environment())  # noqa: S603

    return run


def many_days(count: int) -> Plan:
    """A run of days with just that many drills."""
    plan = planned_from(START, count)
    days, left = [], count
    for day in plan.days:
        days.append(replace(day, drills=day.drills[:left]))
        left -= len(days[-1].drills)
        if not left:
            break
    return replace(plan, days=tuple(days))


def compare(name: str, plan: Plan, words: Sequence[str]) -> bool:
    """Print one line, and say whether the goal is met."""
    alone = lilypond_alone(plan, read_layout("ordinary"))
    ours, raw = [], []
    for _ in range(ROUNDS):
        raw.append(timed(alone))
        ours.append(timed(partial(bookgen, words)))
    ratio = statistics.median(ours) / statistics.median(raw)
    met = ratio <= GOALS[name]
    sys.stdout.write(
        f"{name}: bookgen {statistics.median(ours):.2f} s, LilyPond alone "
        f"{statistics.median(raw):.2f} s, ratio {ratio:.2f} (goal {GOALS[name]}) "
        f"{'met' if met else 'MISSED'}\n"
    )
    return met


def main() -> int:
    """Both comparisons. Returns 0 where both goals are met."""
    sheet = fresh_plan(asked_of(NOBODY, Wish()), [START], None)
    met = [compare("sheet", sheet, ["sheet", "--date", START.isoformat()])]
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "many.json"
        file.write_text(encode(many_days(MANY), VIOLIN), encoding="utf-8")
        met.append(compare("many", many_days(MANY), ["bind", str(file), "--quiet"]))
    return 0 if all(met) else 1


if __name__ == "__main__":
    sys.exit(main())
