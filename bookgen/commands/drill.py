"""`bookgen drill KEY`: one drill, in the form that the ending of --out asks for."""

import argparse
import tempfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from bookgen.commands.arguments import (
    Commands,
    PageArguments,
    add_page_arguments,
    page_arguments,
    read_date,
    unknown,
)
from bookgen.commands.output import OUTPUT
from bookgen.commands.pages import LEAST_SECONDS, Look, engraved, look, publish
from bookgen.errors import BookgenError, Finding
from bookgen.model.drill import KEY_EXAMPLE, Drill
from bookgen.model.instrument import Instrument
from bookgen.notation.lilypond import Workshop, find_lilypond
from bookgen.plan.document import Day, Kind, Link, Plan, PlannedDrill, planned
from bookgen.planner.minutes import minutes_of
from bookgen.readers.instrument import instrument_keys, read_instrument


@dataclass(frozen=True, slots=True)
class Order:
    """What is to be made of one drill."""

    plan: Plan
    instrument: Instrument
    look: Look

    @property
    def entry(self) -> PlannedDrill:
        """The drill itself."""
        return self.plan.days[0].drills[0]


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser(
        "drill",
        help="make one drill as PDF, PNG, SVG, LilyPond, MusicXML or MIDI",
        epilog=f"A key looks like {KEY_EXAMPLE}. The ending of --out chooses the form: "
        f"{', '.join(MAKERS)}.",
    )
    parser.add_argument("key", metavar="KEY", help="the drill's key")
    parser.add_argument("--size", metavar="S", help="e.g. 3/4; the full size if not given")
    parser.add_argument("--plan", type=Path, metavar="FILE", help="write the plan document too")
    add_page_arguments(parser)
    parser.set_defaults(run=run_drill)


def run_drill(given: argparse.Namespace) -> Path:
    """Make one drill. Returns the path of the file.

    Raises:
        BookgenError: the key names no drill that can be played, or the ending no form.
    """
    pages = page_arguments(given)
    path = pages.out or OUTPUT / f"{given.key}.pdf"
    plan, instrument = plan_of(given.key, given.size)
    make = maker(path)
    made = make(Order(plan, instrument, look(pages)), pages)
    return publish(made, path, plan, instrument, pages)


def plan_of(key: str, size: str | None) -> tuple[Plan, Instrument]:
    """A plan that holds nothing but this drill, and its instrument.

    Raises:
        BookgenError: the key names no drill, or one that the hand or instrument cannot play.
    """
    try:
        drill = Drill.parse_key(key)
        instrument = instrument_of(drill)
        size = size or instrument.sizes[0].name
        instrument.size(size)
        entry = planned(
            drill,
            instrument,
            number=1,
            kind=Kind.NEW,
            minutes=minutes_of(drill),
            link=Link(None, None, ""),
        )
    except ValueError as error:
        finding = Finding("KEY", str(error), "give the key of a drill that can be played")
        raise BookgenError(finding) from error
    day = Day(read_date(None), entry.minutes, (entry,))
    return Plan(instrument.key, size, None, 0, (day,)), instrument


def instrument_of(drill: Drill) -> Instrument:
    """The instrument that a key names.

    Raises:
        BookgenError: there is none of that name.
    """
    if drill.instrument not in instrument_keys():
        raise BookgenError(unknown("KEY", "instrument", drill.instrument, instrument_keys()))
    return read_instrument(drill.instrument)


def maker(path: Path) -> "Make":
    """What makes a file with this ending.

    Raises:
        BookgenError: nothing does.
    """
    ending = path.suffix.lower()
    if ending not in MAKERS:
        raise BookgenError(unknown("--out", "form with the ending", ending, list(MAKERS)))
    return MAKERS[ending]


def as_pdf(order: Order, pages: PageArguments) -> bytes:
    """The drill's block on a page cut to it."""
    engraving = engraved(order.plan, order.instrument, pages, order.look)

    from bookgen.binder.sheet import bind_block  # noqa: PLC0415  loaded while LilyPond worked

    wanted = order.look
    return bind_block(order.plan, order.instrument, engraving, wanted.layout, wanted.options)


def as_png(order: Order, pages: PageArguments) -> bytes:
    """The block as a picture."""
    from bookgen.binder.picture import png  # noqa: PLC0415

    return png(as_pdf(order, pages))


def as_lilypond(order: Order, pages: PageArguments) -> bytes:
    """The LilyPond source of the notation; fonts are looked for in `fonts` beside it."""
    del pages
    from bookgen.notation.source import lilypond_source  # noqa: PLC0415

    return lilypond_source([order.entry], order.instrument, order.look.style).encode()


def as_svg(order: Order, pages: PageArguments) -> bytes:
    """The notation as a scalable picture."""
    del pages
    from bookgen.notation.engraver import svg_of  # noqa: PLC0415

    with tempfile.TemporaryDirectory(prefix="bookgen-") as folder:
        shop = Workshop(find_lilypond(), Path(folder))
        made = svg_of(order.entry, order.instrument, order.look.style, shop, timeout=LEAST_SECONDS)
    return made.encode()


def as_midi(order: Order, pages: PageArguments) -> bytes:
    """The drill to be listened to, slowly."""
    del pages
    from bookgen.notation.engraver import midi_of  # noqa: PLC0415

    with tempfile.TemporaryDirectory(prefix="bookgen-") as folder:
        shop = Workshop(find_lilypond(), Path(folder))
        return midi_of(order.entry, order.instrument, shop, timeout=LEAST_SECONDS)


def as_musicxml(order: Order, pages: PageArguments) -> bytes:
    """The drill for a notation program."""
    del pages
    from bookgen.notation.musicxml import musicxml_of  # noqa: PLC0415

    return musicxml_of(order.entry, order.instrument).encode()


Make = Callable[[Order, PageArguments], bytes]

MAKERS: Final[Mapping[str, Make]] = {
    ".pdf": as_pdf,
    ".png": as_png,
    ".svg": as_svg,
    ".ly": as_lilypond,
    ".musicxml": as_musicxml,
    ".xml": as_musicxml,
    ".mid": as_midi,
    ".midi": as_midi,
}
