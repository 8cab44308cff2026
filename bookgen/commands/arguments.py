"""What the user asked for on the command line, as values that have been checked."""

import argparse
import os
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any, NoReturn, Protocol

from bookgen.commands.complaints import complaint
from bookgen.commands.press_arguments import press_wish
from bookgen.commands.progress import Telling
from bookgen.commands.screen import say
from bookgen.errors import BookgenError, Finding, told
from bookgen.notation.played import TEMPI
from bookgen.tasks.cache import Cache
from bookgen.tasks.look import PageWish
from bookgen.tasks.span import read_day
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import Wish
from bookgen.tasks.wishes import ForToday
from bookgen.words.speech import languages

LONGEST_SEED = 15
"""Digits; a seed is kept in eight bytes."""


class Help(argparse.HelpFormatter):
    """The shape of a help text, with its first word in the language of the command."""

    def add_usage(self, usage: Any, actions: Any, groups: Any, prefix: str | None = None) -> None:  # type: ignore[explicit-any]  # noqa: ANN401
        """Add the line that shows how a command is written."""
        super().add_usage(usage, actions, groups, say("usage: ") if prefix is None else prefix)


class Parser(argparse.ArgumentParser):
    """An argument parser whose complaints are findings like all others."""

    def __init__(self, **settings: Any) -> None:  # type: ignore[explicit-any]  # noqa: ANN401
        """Take argparse's settings; options are written out, so that new ones break nothing."""
        ours = {"allow_abbrev": False, "add_help": False, "formatter_class": Help}
        super().__init__(**{**ours, **settings})
        self._positionals.title = say("arguments")
        self._optionals.title = say("options")
        self.add_argument("-h", "--help", action="help", help=say("show this and end"))

    def error(self, message: str) -> NoReturn:
        """Say what is wrong with the command line.

        Raises:
            BookgenError: always.
        """
        mend = told("see `{command} --help`", command=self.prog)
        raise BookgenError(Finding(told("command line"), complaint(message), mend))


class Commands(Protocol):
    """Where each command adds its own parser; what argparse gives has no public type."""

    def add_parser(self, name: str, *, help: str, epilog: str | None = None) -> Parser:  # noqa: A002
        """Add the parser of one command."""


def here() -> StudioFolder:
    """The folder in which the command was called."""
    return StudioFolder(Path())


def now() -> datetime:
    """This moment in the time zone of this machine."""
    return datetime.now(UTC).astimezone()


def making() -> datetime:
    """The moment at which a file says it was made: SOURCE_DATE_EPOCH where it is set, else now."""
    seconds = os.environ.get("SOURCE_DATE_EPOCH", "")
    return datetime.fromtimestamp(int(seconds), UTC) if seconds.isdecimal() else now()


def machine_locale() -> str | None:
    """The locale whose dates this machine writes, e.g. "de_DE"; None where it does not say."""
    named = (os.environ.get(name) for name in ("LC_ALL", "LC_TIME", "LANG"))
    locale = next(filter(None, named), "").partition(".")[0].partition("@")[0]
    return None if locale in {"", "C", "POSIX"} else locale


def read_date(text: str | None) -> date:
    """The date that was given, or today's.

    Raises:
        BookgenError: the text is no date.
    """
    return now().date() if text is None else read_day("--date", text)


def busy(given: argparse.Namespace) -> Telling:
    """Says what takes more than a moment, unless nothing is to be said."""
    return Telling(quiet=given.quiet)


def add_player_argument(parser: argparse.ArgumentParser) -> None:
    """The option that says who plays."""
    parser.add_argument(
        "--player", metavar="P", help=say("who plays, from studio.toml; not needed for a lone one")
    )


def add_page_arguments(parser: argparse.ArgumentParser) -> None:
    """Options of every command that makes pages."""
    parser.add_argument("--out", type=Path, metavar="FILE", help=say("where the result goes"))
    parser.add_argument(
        "--paper", metavar="PAPER", help=say("a4 (usual), a5, letter or half-letter")
    )
    parser.add_argument(
        "--layout", metavar="NAME|DIR", help=say("a page layout, or a folder with one")
    )
    parser.add_argument(
        "--language",
        metavar="LL",
        help=say("of the pages: {languages}", languages=", ".join(languages())),
    )
    parser.add_argument(
        "--keep-ly",
        type=Path,
        metavar="DIR",
        help=say("keep the LilyPond source in this folder"),
    )
    parser.add_argument(
        "--cents",
        action="store_true",
        help=say("double stops: print just intonation in cents and the difference tone"),
    )
    parser.add_argument("--quiet", action="store_true", help=say("print nothing but errors"))
    parser.add_argument("--open", action="store_true", help=say("open the result in its viewer"))


def add_memory_argument(parser: argparse.ArgumentParser) -> None:
    """The option that leaves the notes out."""
    parser.add_argument(
        "--from-memory",
        action="store_true",
        help=say("chart and words, intervals to be named; the notes stand at the end"),
    )


def add_plan_argument(parser: argparse.ArgumentParser) -> None:
    """The option that has the plan document written too."""
    parser.add_argument(
        "--plan", type=Path, metavar="FILE", help=say("write the plan document too (.json)")
    )


def add_tempo_argument(parser: argparse.ArgumentParser) -> None:
    """The option of commands whose result can sound."""
    parser.add_argument(
        "--tempo",
        type=tempo_number,
        metavar="N",
        help=say("quarter notes a minute, 20 to 300, in a file that sounds; 60 if not given"),
    )


def tempo_number(text: str) -> int:
    """How many quarter notes go into a minute.

    Raises:
        ArgumentTypeError: it is no whole number, or none at which a drill is played.
    """
    if not text.isascii() or not text.isdigit() or int(text[:9]) not in TEMPI:
        raise argparse.ArgumentTypeError(say("{text} is no tempo; give 20 to 300", text=repr(text)))
    return int(text)


def page_wish(given: argparse.Namespace) -> PageWish:
    """The page options of a parsed command line.

    Raises:
        BookgenError: something that is said of a press cannot be.
    """
    return PageWish(
        out=given.out,
        paper=given.paper,
        layout=given.layout,
        language=given.language,
        plan=getattr(given, "plan", None),
        keep_ly=given.keep_ly,
        cents=given.cents,
        from_memory=getattr(given, "from_memory", False),
        tempo=getattr(given, "tempo", None),
        cache=user_cache(),
        press=press_wish(given, making()),
        screen=getattr(given, "screen", False),
    )


def add_instrument_argument(parser: argparse.ArgumentParser) -> None:
    """The option that says which of a player's instruments is meant."""
    parser.add_argument(
        "--instrument",
        metavar="I",
        help=say(
            "violin (usual), viola, cello, double_bass, another that `bookgen check` lists, or the"
            " path of an instrument file (.toml)"
        ),
    )


def add_file_argument(parser: argparse.ArgumentParser) -> None:
    """The option of commands that find an instrument by the name that stands in a key."""
    parser.add_argument(
        "--instrument",
        metavar="FILE",
        help=say("an instrument file of your own that is not in this folder or in studio.toml"),
    )


def user_cache() -> Cache:
    """Where this user's engraved music is kept."""
    from platformdirs import user_cache_path  # noqa: PLC0415  not every command keeps something

    return Cache(user_cache_path("bookgen", appauthor=False) / "engraving")


def add_instrument_arguments(parser: argparse.ArgumentParser) -> None:
    """The options that say on what is played."""
    add_instrument_argument(parser)
    parser.add_argument("--size", metavar="S", help=say("e.g. 3/4; the full size if not given"))


def add_wish_arguments(parser: argparse.ArgumentParser) -> None:
    """Options of the commands that plan."""
    add_player_argument(parser)
    parser.add_argument("--minutes", metavar="N", help=say("practice time, 3 to 120"))
    add_instrument_arguments(parser)
    parser.add_argument(
        "--seed", type=seed_number, default=0, metavar="N", help=say("another run of days")
    )
    parser.add_argument(
        "--anew", action="store_true", help=say("plan again what was printed for the day already")
    )
    add_plan_argument(parser)
    add_today_arguments(parser)


def add_today_arguments(parser: argparse.ArgumentParser) -> None:
    """Options that say which drills the days are to have."""
    parser.add_argument("--stage", metavar="N", help=say("only this stage, 1 to 5"))
    parser.add_argument("--position", metavar="P", help=say("only this position, e.g. 3rd"))
    parser.add_argument(
        "--pairs",
        nargs="+",
        default=[],
        metavar="PAIR",
        help=say("only these fingers, e.g. 23 or 123"),
    )
    parser.add_argument(
        "--interval",
        metavar="I",
        help=say("only drills in which it sounds, e.g. P4: secure ones first, then one new"),
    )
    parser.add_argument(
        "--double-stops", action="store_true", help=say("only double stops; with --interval of it")
    )


def today_of(given: argparse.Namespace) -> ForToday:
    """What the command line says of the drills of the days."""
    return ForToday(
        stage=given.stage,
        position=given.position,
        pairs=tuple(part for word in given.pairs for part in word.split(",") if part),
        interval=given.interval,
        double_stops=given.double_stops,
    )


def wish_of(given: argparse.Namespace) -> Wish:
    """What the command line says of what is to be planned."""
    return Wish(
        instrument=given.instrument,
        size=given.size,
        minutes=given.minutes,
        seed=given.seed,
        player=given.player,
        anew=given.anew,
        today=today_of(given),
    )


def seed_number(text: str) -> int:
    """A seed that fits the plan document and the practice log.

    Raises:
        ArgumentTypeError: it is no whole number, or too large.
    """
    if not text.removeprefix("-").isascii() or not text.removeprefix("-").isdigit():
        raise argparse.ArgumentTypeError(say("{text} is no whole number", text=repr(text)))
    if len(text) > LONGEST_SEED:
        raise argparse.ArgumentTypeError(say("give at most {most} digits", most=LONGEST_SEED))
    return int(text)
