"""One run of LilyPond: where the program is, what it may see, how long it may take."""

import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from threading import Thread
from typing import Final, Protocol

from bookgen.errors import BookgenError, EngravingError, Finding, Message, told
from bookgen.notation.source import engraving_file, font_names
from bookgen.notation.style import Style

FONTS_FOLDER: Final = "fonts"
FONTS_CONFIG: Final = "fonts.conf"
MEND: Final = told(
    "this is a defect of bookgen: report it with the source that --keep-ly DIR writes"
)


HOARDING: Final = {"GC_DONT_GC": "1"}
"""What keeps LilyPond from looking for memory that it has done with, until its source says so.

By itself it looks so often that a sheet takes twice as long (measured; the variable is that of the
collector below Guile). Without it a drill takes some 2 MB.
"""

HARMLESS: Final = (
    "programming error: no solution found for Bezier intersection\ncontinuing, cross fingers",
)
"""A sign beside a steep slur is set where it would stand without it (seen in LilyPond 2.24.3)."""


class Launch(Protocol):
    """Starts a program in a folder, with nothing of our environment but what is given."""

    def __call__(
        self, command: Sequence[str], *, folder: Path, environment: Mapping[str, str]
    ) -> "subprocess.Popen[str]":
        """Start the program; it reads its input from a pipe and tells its errors to one."""


def launch_apart(
    command: Sequence[str], *, folder: Path, environment: Mapping[str, str]
) -> "subprocess.Popen[str]":
    """Start a program without a shell, in a process group of its own."""
    return subprocess.Popen(  # noqa: S603  the command is ours; no user text is in it
        command,
        cwd=folder,
        env=dict(environment),
        stdin=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        encoding="utf-8",
        errors="replace",
        start_new_session=True,
    )


def from_wheel() -> Path | None:
    """LilyPond as a Python package brings it, if that package is there."""
    try:
        import lilypond  # noqa: PLC0415  not every platform has the package
    except ImportError:
        return None
    return Path(lilypond.executable())


def from_path() -> Path | None:
    """LilyPond as the shell would find it."""
    found = shutil.which("lilypond")
    return Path(found) if found else None


def find_lilypond(*places: Callable[[], Path | None]) -> Path:
    """Where LilyPond is: in its Python package, else on the PATH.

    places: where to look, in order; by default these two.

    Raises:
        BookgenError: there is none.
    """
    for place in places or (from_wheel, from_path):
        found = place()
        if found is not None and found.is_file():
            return found
    mend = told(
        "install it with `pip install lilypond`, or from lilypond.org so that it is on PATH"
    )
    raise BookgenError(Finding("LilyPond", told("the music engraver is not installed"), mend))


@dataclass(frozen=True, slots=True)
class Workshop:
    """LilyPond and the folder in which it works and sees nothing else of ours.

    lilypond: the program; folder: exists and is ours alone.
    machine: variables that the system itself needs, such as SYSTEMROOT on Windows.
    """

    lilypond: Path
    folder: Path
    launch: Launch = launch_apart
    machine: Mapping[str, str] = field(default_factory=dict)

    def furnish(self, style: Style) -> None:
        """Lay out the text face and what lists the ink boxes.

        Raises:
            FileNotFoundError: a font file of the style is missing.
        """
        lay_fonts(style, self.folder)
        self.lay_out("bbox.ily")

    def begin_in(self, style: Style, name: str, *options: str, hoarding: bool = False) -> "Run":
        """Start the program with the text face of a style at hand; hoarding: as in `begin`.

        Raises:
            FileNotFoundError: a font file of the style is missing.
            BookgenError: the program cannot be started.
        """
        self.furnish(style)
        return self.begin(name, *options, hoarding=hoarding)

    def lay_out(self, name: str) -> None:
        """Copy a file of our engraving style into the folder."""
        (self.folder / name).write_text(engraving_file(name), encoding="utf-8")

    def environment(self) -> dict[str, str]:
        """All that the program learns of the machine."""
        home = str(self.folder)
        return {
            **self.machine,
            "HOME": home,
            "XDG_CACHE_HOME": home,
            "FONTCONFIG_FILE": str(self.folder / FONTS_CONFIG),
            "PATH": os.defpath,
            "LC_ALL": "C.UTF-8",
        }

    def begin(self, name: str, *options: str, hoarding: bool = False) -> "Run":
        """Start the program on a source that is still to come, and let it warm up.

        It finds no fonts but its own and those of the style.

        hoarding: it lets go of memory where its source says so, and nowhere else.

        Raises:
            BookgenError: the program cannot be started.
        """
        self.lay_out(FONTS_CONFIG)
        for left_over in self.folder.glob(f"{name}.*"):
            left_over.unlink()
        command = [str(self.lilypond), "--loglevel=WARNING", *options, f"--output={name}", "-"]
        environment = self.environment() | (HOARDING if hoarding else {})
        try:
            process = self.launch(command, folder=self.folder, environment=environment)
        except OSError as error:
            problem = told("LilyPond does not start ({why})", why=error.strerror)
            finding = Finding(str(self.lilypond), problem, told("install it anew"))
            raise BookgenError(finding) from error
        return Run(process, self.folder / name)


def lay_fonts(style: Style, folder: Path) -> None:
    """Copy the text face to where a source looks for it.

    Raises:
        FileNotFoundError: a font file of the style is missing.
    """
    fonts = folder / FONTS_FOLDER
    fonts.mkdir(parents=True, exist_ok=True)
    for name, file in zip(font_names(style), style.text_files, strict=True):
        shutil.copyfile(file, fonts / name)


class Run:
    """A LilyPond that has been started, and the name of what it writes, without an ending."""

    def __init__(self, process: "subprocess.Popen[str]", output: Path) -> None:
        """Take over a process that waits for its input."""
        self.process = process
        self.output = output
        self.told = ""
        self.talk: Thread | None = None

    def feed(self, source: str) -> None:
        """Hand the source over and go on; LilyPond reads it when it is ready."""
        self.talk = Thread(target=self.converse, args=(source,), daemon=True)
        self.talk.start()

    def converse(self, source: str) -> None:
        """Write the source and read what is told until the process ends."""
        _, self.told = self.process.communicate(source)

    def over(self) -> bool:
        """The process has ended and nothing holds its pipes any more."""
        talking = self.talk is not None and self.talk.is_alive()
        return self.process.poll() is not None and not talking

    def finish(self, seconds: float) -> None:
        """Wait for the end, at most that long.

        Raises:
            EngravingError: LilyPond took too long, failed, or warned.
        """
        if self.talk is not None:
            self.talk.join(max(0.0, seconds))
        if not self.over():
            self.stop()
            late = told("it was not done in time and was stopped ({name})", name=self.output.name)
            raise EngravingError(defect(late))
        said, code = serious(self.told), self.process.returncode
        if said or code != 0:
            first = said.partition("\n")[0] or told("it says nothing")
            raise EngravingError(defect(told("exit code {code}: {first}", code=code, first=first)))

    def stop(self) -> None:
        """End the process and all it has started, at once, and let go of its pipes."""
        if not self.over():
            self.kill()
        if self.talk is not None:
            self.talk.join()
            return
        for pipe in (self.process.stdin, self.process.stderr):
            if pipe is not None:
                pipe.close()
        self.process.wait()

    def kill(self) -> None:
        """End the process and all it has started."""
        if sys.platform == "win32":
            self.process.kill()
        else:
            with suppress(ProcessLookupError):  # it has just ended by itself
                os.killpg(self.process.pid, signal.SIGKILL)

    def written(self, ending: str, book: int = 0) -> bytes:
        """The file that LilyPond wrote.

        book: which of several in one source, from 0.

        Raises:
            EngravingError: it wrote none, or an empty one.
        """
        name = f"{self.output.name}-{book}" if book else self.output.name
        file = self.output.with_name(f"{name}{ending}")
        if not file.is_file() or not file.stat().st_size:
            raise EngravingError(defect(told("it wrote no {name}", name=file.name)))
        return file.read_bytes()


def serious(words: str) -> str:
    r"""What LilyPond has told, without what does no harm.

    >>> serious("programming error: no solution found for Bezier intersection\n"
    ...         "continuing, cross fingers\n")
    ''
    >>> serious("programming error: bad\ncontinuing, cross fingers\n").partition("\n")[0]
    'programming error: bad'
    """
    for one in HARMLESS:
        words = words.replace(one, "")
    return words.strip()


def defect(problem: Message) -> Finding:
    """LilyPond did not do what we meant it to do: our fault."""
    return Finding("LilyPond", problem, MEND)
