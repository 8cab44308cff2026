"""Files on their way to a printer: what the print command is told, and what a real CUPS does."""

import argparse
import shutil
import subprocess
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from kit.print_shop import open_print_shop, printed
from reportlab.pdfgen.canvas import Canvas

from bookgen.binder.page.fold import fold
from bookgen.commands.printing import add_print_argument, print_file, print_if_wanted
from bookgen.errors import BookgenError

MM = 72 / 25.4
A4, A5 = (210.0, 297.0), (148.0, 210.0)
HALF_LETTER, LETTER = (139.7, 215.9), (215.9, 279.4)


def a_file(size: tuple[float, float] = A4, pages: int = 1, name: str = "ines.pdf") -> Path:
    """Numbered pages in the working folder."""
    canvas = Canvas(name, (size[0] * MM, size[1] * MM), invariant=1)
    for number in range(1, pages + 1):
        canvas.drawString(50, 50, f"page {number}")
        canvas.showPage()
    canvas.save()
    return Path(name)


@dataclass
class System:
    """Stands in for the system's print commands: answers as told, and remembers its orders."""

    stderr: str = ""
    known: str = ""
    running: bool = True
    orders: list[list[str]] = field(default_factory=list)

    def run(self, command: Sequence[str]) -> "subprocess.CompletedProcess[str]":
        name, *words = [Path(command[0]).name, *command[1:]]
        if name == "lp":
            self.orders.append(words)
            return subprocess.CompletedProcess(command, 1 if self.stderr else 0, "", self.stderr)
        state = "running" if self.running else "not running"
        answers = {"-r": f"scheduler is {state}\n", "-e": self.known}
        return subprocess.CompletedProcess(command, 0, answers[words[0]], "")


@pytest.fixture
def programs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The print commands are there, whether or not this machine has them."""
    folder = tmp_path / "programs"
    folder.mkdir()
    for name in ("lp", "lpstat"):
        (folder / name).touch(mode=0o755)
    monkeypatch.setenv("PATH", str(folder))


def told(path: Path, printer: str | None = None) -> str:
    """The print command's orders for a file, as one line."""
    system = System()
    print_file(path, printer, run=system.run)
    (order,) = system.orders
    return " ".join(order)


def finding(printer: str | None, system: System) -> str:
    """What a user is told when the file cannot be printed."""
    path = a_file()
    with pytest.raises(BookgenError) as caught:
        print_file(path, printer, run=system.run)
    assert caught.value.exit_code == 2
    assert path.exists()
    (one,) = caught.value.findings
    return str(one)


@pytest.mark.usefixtures("programs")
def test_the_file_goes_to_the_printer_in_actual_size(here: Path) -> None:
    options = "-o print-scaling=none -o media=iso_a4_210x297mm"

    assert told(a_file(), "Stand") == f"-d Stand {options} {here / 'ines.pdf'}"
    assert told(a_file()) == f"{options} {here / 'ines.pdf'}"


@pytest.mark.published("PWG 5101.1 Media Standardized Names, table 4")
@pytest.mark.usefixtures("programs")
@pytest.mark.parametrize(
    ("size", "media"),
    [
        (A4, "iso_a4_210x297mm"),
        (A5, "iso_a5_148x210mm"),
        (LETTER, "na_letter_8.5x11in"),
        (HALF_LETTER, "na_invoice_5.5x8.5in"),
    ],
)
def test_the_job_names_the_files_own_paper(size: tuple[float, float], media: str) -> None:
    assert f"-o media={media} " in told(a_file(size))
    assert f"-o media={media} " in told(a_file((size[1], size[0]))), "also lying across"


@pytest.mark.usefixtures("programs")
def test_of_a_paper_without_a_name_nothing_is_said() -> None:
    assert "media" not in told(a_file((100.0, 150.0)))


@pytest.mark.published("RFC 8011, 5.2.8: sides")
@pytest.mark.usefixtures("programs")
def test_a_folded_booklet_is_turned_over_on_the_short_edge() -> None:
    path = a_file(A5, pages=8)
    path.write_bytes(fold(path.read_bytes()))

    assert "-o media=iso_a4_210x297mm -o sides=two-sided-short-edge " in told(path)


@pytest.mark.published("ISO 32000-1, 12.2: viewer preferences")
@pytest.mark.usefixtures("programs")
@pytest.mark.parametrize(
    ("duplex", "sides"), [("/Simplex", "one-sided"), ("/DuplexFlipLongEdge", "two-sided-long-edge")]
)
def test_the_sides_are_those_that_the_file_asks_for(duplex: str, sides: str) -> None:
    path = a_file()
    with pikepdf.open(path, allow_overwriting_input=True) as book:
        book.Root["/ViewerPreferences"] = pikepdf.Dictionary(Duplex=pikepdf.Name(duplex))
        book.save(path)

    assert f"-o sides={sides} " in told(path)


@pytest.mark.usefixtures("programs")
def test_a_name_that_looks_like_an_option_stays_a_name(here: Path) -> None:
    assert told(a_file(name="-n9.pdf"), "-x").endswith(f" {here / '-n9.pdf'}")
    assert told(a_file(), "-x").startswith("-d -x ")


def test_a_system_that_cannot_print_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "")

    assert finding("Stand", System()) == (
        "--print Stand: ines.pdf is kept but not printed: there is no print command (lp) here; "
        "print it from its viewer, in actual size."
    )


@pytest.mark.usefixtures("programs")
def test_a_printer_that_is_not_there_is_told_with_those_that_are() -> None:
    system = System("lp: Error - The printer or class does not exist.\n", "Stand\nAttic\n")

    assert finding("stnd", system) == (
        "--print stnd: ines.pdf is kept but not printed: no printer 'stnd'; "
        "perhaps Stand; choose Stand, Attic."
    )


@pytest.mark.usefixtures("programs")
def test_where_no_printer_is_the_usual_one_it_must_be_named() -> None:
    system = System("lp: Error - No default destination.\n", "Stand\nAttic\n")

    assert finding(None, system) == (
        "--print: ines.pdf is kept but not printed: no printer is the usual one; "
        "name one: --print Stand or Attic."
    )


@pytest.mark.usefixtures("programs")
@pytest.mark.parametrize(
    ("system", "words"),
    [
        (System("lp: Error - No default destination.\n"), "no printer is set up here; set one up"),
        (
            System("lp: Error - The printer or class does not exist.", "", running=False),
            "no print server answers (The printer or class does not exist); start CUPS",
        ),
        (System("lp: the roof is on fire\n", "Stand\n"), "says 'the roof is on fire'; see `lpstat"),
        (System("\n", "Stand\n"), "'the print command gave no reason'; see `lpstat"),
    ],
)
def test_whatever_else_goes_wrong_is_told(system: System, words: str) -> None:
    assert words in finding("Stand", system)


@pytest.mark.usefixtures("programs")
@pytest.mark.parametrize(
    ("error", "words"),
    [
        (subprocess.TimeoutExpired("lp", 60), "did not answer in 60 seconds"),
        (OSError(8, "Exec format error"), "does not start (Exec format error)"),
    ],
)
def test_a_print_command_that_does_not_come_back_is_told(error: Exception, words: str) -> None:
    def broken(_: Sequence[str]) -> "subprocess.CompletedProcess[str]":
        raise error

    with pytest.raises(BookgenError) as caught:
        print_file(a_file(), None, run=broken)
    assert words in str(caught.value)


@pytest.mark.parametrize(
    ("words", "printer"), [([], None), (["--print"], ""), (["--print", "Stand"], "Stand")]
)
def test_the_option_may_name_a_printer(words: list[str], printer: str | None) -> None:
    parser = argparse.ArgumentParser()
    add_print_argument(parser)

    given = parser.parse_args(words)

    assert given.print == printer


def test_what_nobody_wants_printed_is_not(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "")

    print_if_wanted(Path("nowhere.pdf"), argparse.Namespace(print=None))
    with pytest.raises(BookgenError, match=r"--print: nowhere\.pdf is kept"):
        print_if_wanted(Path("nowhere.pdf"), argparse.Namespace(print=""))


@pytest.fixture
def print_shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The folder of a real CUPS; the test's print commands talk to it."""
    folder = tmp_path / "cups"
    monkeypatch.setenv("CUPS_SERVER", str(folder / "s"))
    monkeypatch.setenv("HOME", str(tmp_path))  # no one's own choice of a printer counts here
    for name in ("LPDEST", "PRINTER"):
        monkeypatch.delenv(name, raising=False)
    with open_print_shop(folder):
        yield folder


def test_a_booklet_comes_out_of_a_real_printer(print_shop: Path) -> None:
    path = a_file(A5, pages=8)
    path.write_bytes(fold(path.read_bytes()))

    print_file(path, "Stand")

    paper = printed(print_shop)
    with pypdfium2.PdfDocument(paper) as book:
        words = [page.get_textpage().get_text_bounded().split("page ") for page in book]
    assert [[word.strip() for word in side if word] for side in words] == [
        ["8", "1"],
        ["2", "7"],
        ["6", "3"],
        ["4", "5"],
    ]
    options = (print_shop / "options").read_text().split()
    wanted = {"print-scaling=none", "media=iso_a4_210x297mm", "sides=two-sided-short-edge"}
    assert wanted <= set(options)


def test_a_real_print_server_says_what_is_wrong(print_shop: Path) -> None:
    path = a_file()

    for printer, words in [
        (None, "no printer is the usual one; name one: --print "),
        ("Stnad", "no printer 'Stnad'; perhaps Stand; choose "),
        ("Closed", "the print command says "),
    ]:
        with pytest.raises(BookgenError) as caught:
            print_file(path, printer)
        assert words in str(caught.value)
    assert not (print_shop / "printed.pdf").exists()


@pytest.mark.skipif(shutil.which("lp") is None, reason="no print command here (cups-client)")
def test_a_print_server_that_is_not_there_is_told(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CUPS_SERVER", str(here / "nobody"))

    with pytest.raises(BookgenError, match=r"no print server answers .*; start CUPS"):
        print_file(a_file(), "Stand")
