"""A finished book is read back: one that is right passes, and each thing that is wrong is found."""

import re
from collections.abc import Callable, Sequence
from pathlib import Path

import pikepdf
import pytest
from fontTools.ttLib import TTFont
from kit.proofs import Finished, Meddling, changed, first_of, page_of, redraw, rewrite, sign_in
from kit.shell import bookgen
from msgspec.structs import replace

from bookgen.binder.page.desk import desk_of
from bookgen.notation.lilypond import find_lilypond
from bookgen.plan.decoder import decode
from bookgen.plan.document import DrillEntry, EventEntry, Plan, StopEntry
from bookgen.proof.book_proof import Setting
from bookgen.proof.signs import ACCIDENTALS, CLEFS, HEADS, THUMBS
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout
from bookgen.words.speech import speech_of

SPEC = """
title = "Close Fingers"
instruments = ["violin", "cello"]
languages = ["en", "de"]
editions = ["student", "from-memory"]
preface = "Half steps first."

[[chapter]]
title = "Half steps"
hands = ["12"]
spacings = ["half"]
positions = ["1st"]
leads = ["low"]

[[chapter]]
title = "A long title for half steps in higher positions, for it has to be broken into two lines"
hands = ["23"]
spacings = ["half"]
positions = ["3rd", "4th"]
stages = [1, 4]

[[chapter]]
title = "The thumb"
instruments = ["cello"]
hands = ["t12"]
stages = [1, 5]
limit = 4
"""
NAMES = ["violin-en-student", "violin-de-from-memory", "cello-en-from-memory", "cello-de-student"]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The books and their plans."""
    made = tmp_path_factory.mktemp("proofs")
    (made / "book.toml").write_text(SPEC, encoding="utf-8")
    words = ["supplement", str(made / "book.toml"), "--plans", str(made), "--quiet"]
    outcome = bookgen(*words, *(word for name in NAMES for word in ("--only", name)))
    assert (outcome.code, outcome.err) == (0, "")
    return made


def finished(folder: Path, name: str) -> Finished:
    file = folder / f"book-{name}.json"
    instrument = read_instrument(name.split("-", maxsplit=1)[0])
    plan = decode(file.read_bytes(), str(file), read_instrument)
    speech = speech_of(name.split("-")[1])
    desk = desk_of(instrument, plan.size, read_layout("ordinary"), "a4", speech)
    setting = Setting(desk.layout.text.number_pt, titled=True, clean=desk.clean)
    pdf = (folder / "output" / f"book-{name}.pdf").read_bytes()
    return Finished(pdf, plan, instrument, setting, speech)


@pytest.fixture(scope="module")
def book(folder: Path) -> Finished:
    return finished(folder, "violin-en-student")


@pytest.mark.parametrize("name", NAMES)
def test_a_book_that_is_right_passes(folder: Path, name: str) -> None:
    assert finished(folder, name).faults() == []


def without_a_page(book: pikepdf.Pdf) -> None:
    book.pages.remove(page_of(book, 1))


def with_a_page_twice(book: pikepdf.Pdf) -> None:
    book.pages.append(page_of(book, 1))


def with_pages_exchanged(book: pikepdf.Pdf) -> None:
    first, second = page_of(book, 1), page_of(book, 3)
    first.obj["/Contents"], second.obj["/Contents"] = second.obj.Contents, first.obj.Contents
    first.obj["/Resources"], second.obj["/Resources"] = second.obj.Resources, first.obj.Resources


def without_music(book: pikepdf.Pdf) -> None:
    rewrite(page_of(book, 1), rb"/Music0 Do", lambda _: b"")


def with_music_of_another(book: pikepdf.Pdf) -> None:
    held = page_of(book, 1).resources.XObject
    held["/Music0"], held["/Music2"] = held["/Music2"], held["/Music0"]


def with_a_head_moved(book: pikepdf.Pdf) -> None:
    form = page_of(book, 1).resources.XObject["/Music0"]
    font, code = sign_in(form, "e0ea")
    set_in = rb"(\S+) Tm\n" + font.encode() + rb" 1 Tf\n<" + code.encode() + rb">"
    found = [*re.finditer(set_in, form.read_bytes())]
    (y, start, end) = (float(found[0][1]), *found[0].span(1))
    drawing = form.read_bytes()
    form.write(drawing[:start] + b"%f" % (y - 2.66) + drawing[end:])


def with_a_sharp_for_a_flat(book: pikepdf.Pdf) -> None:
    form = page_of(book, 1).resources.XObject["/Music0"]
    font, flat = sign_in(form, "e021")
    _, sharp = sign_in(form, "e013")
    set_in = rb"(" + font.encode() + rb" 1 Tf\n<)" + flat.encode() + rb">"
    redraw(form, set_in, lambda found: found[1] + sharp.encode() + b">")


def without_an_accidental(book: pikepdf.Pdf) -> None:
    form = page_of(book, 1).resources.XObject["/Music0"]
    font, flat = sign_in(form, "e021")
    set_in = rb"(" + font.encode() + rb" 1 Tf\n)<" + flat.encode() + rb">Tj"
    redraw(form, set_in, lambda found: found[1])


def with_an_accidental_moved(book: pikepdf.Pdf) -> None:
    form = page_of(book, 1).resources.XObject["/Music0"]
    font, flat = sign_in(form, "e021")
    set_in = rb"(\S+) Tm\n(" + font.encode() + rb" 1 Tf\n<" + flat.encode() + rb">)"
    redraw(form, set_in, lambda one: b"%f Tm\n" % (float(one[1]) - 2.66) + one[2])


HALF_BAR = rb"\S+ \S+ 0\.\d+ 10\.\d+ re f"
WHOLE_BAR = rb"\S+ \S+ 0\.\d+ 21\.\d+ re f"


def without_a_bar(book: pikepdf.Pdf) -> None:
    redraw(page_of(book, 1).resources.XObject["/Music0"], HALF_BAR, lambda _: b"")


def without_half_of_a_double_bar(book: pikepdf.Pdf) -> None:
    redraw(page_of(book, 1).resources.XObject["/Music0"], WHOLE_BAR, lambda _: b"")


def with_a_bar_too_many(book: pikepdf.Pdf) -> None:
    form = page_of(book, 1).resources.XObject["/Music0"]
    redraw(
        form, HALF_BAR, lambda bar: b"%b 1 0 0 1 12 0 cm %b 1 0 0 1 -12 0 cm " % (bar[0], bar[0])
    )


def next_number(code: "re.Match[bytes]") -> bytes:
    return b"<%04x>" % (int(code[1], 16) + 1)


def of_another_lilypond(book: pikepdf.Pdf) -> None:
    """Every sign has the next number in every font of music."""
    for thing in book.objects:
        if isinstance(thing, pikepdf.Dictionary) and "/ToUnicode" in thing:
            said = thing.ToUnicode.read_bytes()
            thing.ToUnicode.write(re.sub(rb"<(e[0-9a-f]{3})>(?=\n)", next_number, said))


def fingerboard_in(book: pikepdf.Pdf) -> pikepdf.Page:
    """The page that has the nut, the thickest of all lines.

    Raises:
        LookupError: there is none.
    """
    for page in book.pages:
        page.contents_coalesce()
        if b"3.968504 w" in page.obj["/Contents"].read_bytes():
            return page
    raise LookupError


SPOT = rb"0 g\nn\n\S+ \S+ m\n(?:(?:\S+ ){6}c\n){4}f\*"


def with_a_stop_moved(book: pikepdf.Pdf) -> None:
    rewrite(fingerboard_in(book), SPOT, lambda spot: b"q 1 0 0 1 0 3 cm " + spot[0] + b" Q")


def with_a_stop_renamed(book: pikepdf.Pdf) -> None:
    rewrite(fingerboard_in(book), rb"( 10 Tf 12 TL )\(A\)", lambda name: name[1] + b"(C)")


def with_other_millimetres(book: pikepdf.Pdf) -> None:
    rewrite(fingerboard_in(book), rb"\(52\) Tj", lambda _: b"(82) Tj")


def without_the_fingerboard(book: pikepdf.Pdf) -> None:
    book.pages.remove(fingerboard_in(book))


def without_answers(book: pikepdf.Pdf) -> None:
    """Nothing is left but the first pages and the chapters, which have six pages."""
    while len(book.pages) > first_of(book) + 6:
        del book.pages[-1]


MEDDLED: list[tuple[Meddling, str]] = [
    (without_a_page, "book.pdf, drill 1: the drill is missing"),
    (with_a_page_twice, "drill 1: the drill stands again on page"),
    (with_pages_exchanged, "the index is without the line"),
    (with_pages_exchanged, "the contents"),
    (without_music, "page 1, drill 1: there are no notes"),
    (with_music_of_another, "page 1, drill 1: note "),
    (with_a_head_moved, "page 1, drill 1: note 7 on the staff is G5, and should be F5"),
    (with_a_sharp_for_a_flat, "drill 1: the accidental at note 2 is #B3, and should be bB3"),
    (without_an_accidental, "drill 1: the accidental at note 2 is \N{EN DASH}, and should be bB3"),
    (with_an_accidental_moved, "notes or accidentals that stand at no place: 1"),
    (without_a_bar, "drill 1: the bar line after note 2 is missing: short"),
    (without_half_of_a_double_bar, "drill 1: the bar line after note 8 is missing: double"),
    (with_a_stop_moved, "a stop lies 17.2 mm from the nut, where none is"),
    (with_a_stop_moved, "stop 1 of the fingerboard has 3 spots for 4 strings"),
    (with_a_stop_renamed, "stop 2 of the fingerboard is called CEBF"),
    (with_other_millimetres, "stop 3 of the fingerboard has 82 mm, and should have 52"),
    (without_the_fingerboard, "the fingerboard is missing, or its scale"),
    (with_a_bar_too_many, "drill 1: a bar line stands after note 3: short"),
]


@pytest.mark.parametrize(("meddling", "said"), MEDDLED)
def test_what_is_wrong_in_the_file_is_found(book: Finished, meddling: Meddling, said: str) -> None:
    found = book.meddled(meddling)
    assert [fault for fault in found if said in fault], found


def test_another_lilypond_is_told_and_no_fault(
    book: Finished, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    assert book.meddled(of_another_lilypond) == []

    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(
        "bookgen.tasks.supplement.press_of",
        lambda *_: lambda pdf: changed(pdf, of_another_lilypond),
    )
    Path("book.toml").write_text(SPEC, encoding="utf-8")
    outcome = bookgen("supplement", "book.toml", "--only", "violin-en-student")
    assert outcome.code == 0
    told = re.search(r"^output/book-violin-en-student.pdf: its music .*", outcome.err, re.MULTILINE)
    assert told
    assert told[0].endswith(
        " are those of another LilyPond; look at the notes, or engrave with 2.24.3."
    )


def first_drill(plan: Plan, change: Callable[[DrillEntry], DrillEntry]) -> Plan:
    first, *others = plan.drills
    return replace(plan, drills=(change(first), *others))


def each_stop(entry: DrillEntry, change: Callable[[StopEntry], StopEntry]) -> DrillEntry:
    def changed(event: EventEntry) -> EventEntry:
        return replace(event, stops=tuple(map(change, event.stops)))

    return replace(entry, events=tuple(map(changed, entry.events)))


def another_note(plan: Plan) -> Plan:
    return first_drill(
        plan,
        lambda entry: each_stop(
            entry,
            lambda stop: replace(stop, pitch="A4" if stop.pitch == "A3" else stop.pitch),
        ),
    )


def another_finger(plan: Plan) -> Plan:
    return first_drill(
        plan,
        lambda entry: each_stop(
            entry, lambda stop: replace(stop, finger=3 if stop.finger == 2 else stop.finger)
        ),
    )


def another_string(plan: Plan) -> Plan:
    return first_drill(
        plan,
        lambda entry: each_stop(
            entry, lambda stop: replace(stop, string=1 if stop.string == 4 else stop.string)
        ),
    )


def another_height(plan: Plan) -> Plan:
    return first_drill(
        plan,
        lambda entry: each_stop(
            entry,
            lambda stop: replace(stop, semitones=stop.semitones + (stop.finger == 2)),
        ),
    )


def another_place(plan: Plan) -> Plan:
    return first_drill(
        plan,
        lambda entry: each_stop(entry, lambda stop: replace(stop, semitones=stop.semitones + 3)),
    )


def another_position(plan: Plan) -> Plan:
    return first_drill(plan, lambda entry: replace(entry, position="5th"))


def another_link(plan: Plan) -> Plan:
    entries = list(plan.drills)
    at = next(at for at, entry in enumerate(entries) if isinstance(entry.link.to, int))
    other = next(
        entry.number
        for entry in entries
        if entry.number != entries[at].link.to
        and len(entry.drill.changes_to(entries[at].drill)) == 1
    )
    entries[at] = replace(entries[at], link=replace(entries[at].link, to=other))
    return replace(plan, drills=tuple(entries))


def another_number(plan: Plan) -> Plan:
    *others, last = plan.drills
    return replace(plan, drills=(*others, replace(last, number=99)))


def another_chapter(plan: Plan) -> Plan:
    assert plan.binding is not None
    assert plan.binding.supplement is not None
    supplement = plan.binding.supplement
    first, second = supplement.chapters
    moved = second.numbers[0]
    chapters = (
        replace(first, numbers=(*first.numbers, moved)),
        replace(second, numbers=second.numbers[1:]),
    )
    book = replace(supplement, chapters=chapters)
    return replace(plan, binding=replace(plan.binding, supplement=book))


CHANGED: list[tuple[Callable[[Plan], Plan], Sequence[str]]] = [
    (another_note, ["page 1, drill 1: note 1 on the staff is A3, and should be A4"]),
    (
        another_finger,
        ["the chart is without finger 3 on string IV", "the chart has finger 2 on string IV"],
    ),
    (another_string, ["the chart has finger 1 on string IV, the drill has not"]),
    (another_height, ["finger 2 of the chart lies 16.", "the figures below the chart are 36 16"]),
    (another_place, ["the figures below the chart are 36 16"]),
    (another_position, ["the words '5th position' are missing"]),
    (another_link, ["are missing"]),
    (another_number, ["drill 99: the drill is missing"]),
    (another_chapter, ["the drill stands outside its chapter", "the contents are without"]),
]


@pytest.mark.parametrize(("change", "said"), CHANGED)
def test_a_book_of_another_plan_is_found(
    book: Finished, change: Callable[[Plan], Plan], said: Sequence[str]
) -> None:
    found = book.faults(plan=change(book.plan))
    for words in said:
        assert [fault for fault in found if words in fault], found


def test_notes_in_a_book_to_be_played_from_memory_are_found(folder: Path) -> None:
    plain = finished(folder, "cello-en-from-memory")
    assert plain.plan.binding is not None
    shown = replace(plain.plan, binding=replace(plain.plan.binding, from_memory=False))

    assert any("there are no notes" in fault for fault in plain.faults(plan=shown))
    assert any("its answer is missing" in fault for fault in plain.meddled(without_answers))


def test_a_book_that_is_wrong_is_not_written(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(
        "bookgen.tasks.supplement.press_of", lambda *_: lambda pdf: changed(pdf, without_a_page)
    )
    Path("book.toml").write_text(SPEC, encoding="utf-8")
    outcome = bookgen("supplement", "book.toml", "--plans", "plans", "--quiet")

    assert outcome.code == 1, "it is our fault, not the user's"
    first, *others = outcome.err.splitlines()
    assert first.startswith("output/book-violin-en-student.pdf, drill 1: the drill is missing; ")
    assert len(others) == 10
    assert others[-1].startswith("output/book-violin-en-student.pdf: more faults: ")
    assert [path.name for path in Path().iterdir()] == ["book.toml"]


@pytest.mark.published("the table of Emmentaler, the music font of LilyPond 2.24.3")
def test_signs_of_music_are_those_of_the_font() -> None:
    share = find_lilypond().resolve().parents[1] / "share"
    (file,) = share.rglob("emmentaler-20.otf")
    names = TTFont(file).getBestCmap()

    assert {names[ord(code)] for code in HEADS} == {f"noteheads.s{kind}" for kind in range(3)}
    assert {names[ord(code)] for code in THUMBS} == {"scripts.thumb"}
    alter = {names[ord(code)]: by for code, by in ACCIDENTALS.items()}
    kinds = {"flatflat": -2, "flat": -1, "natural": 0, "sharp": 1, "doublesharp": 2}
    assert alter == {f"accidentals.{kind}": by for kind, by in kinds.items()}
    assert {names[ord(code)] for code in CLEFS} == {"clefs.G", "clefs.C", "clefs.F"}
    assert {names[ord(code)][-1]: note[0] for code, note in CLEFS.items()} == {
        kind: kind for kind in "GCF"
    }
