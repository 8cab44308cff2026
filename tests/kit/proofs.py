"""Finished books that somebody has meddled with, for the proof to find out."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO

import pikepdf

from bookgen.model.instrument import Instrument
from bookgen.plan.document import Plan
from bookgen.proof.book_proof import Setting, faults_of, read_book
from bookgen.words.speech import Speech

Meddling = Callable[[pikepdf.Pdf], None]


@dataclass(frozen=True)
class Finished:
    """A book as it was written, and all that its proof needs."""

    pdf: bytes
    plan: Plan
    instrument: Instrument
    setting: Setting
    speech: Speech

    def faults(self, pdf: bytes | None = None, plan: Plan | None = None) -> list[str]:
        """What its proof finds, where the file or the plan is another."""
        found = faults_of(
            read_book(
                self.pdf if pdf is None else pdf, plan or self.plan, self.instrument, self.setting
            ),
            plan or self.plan,
            self.instrument,
            self.setting,
            self.speech,
        )
        return [str(fault.finding("book.pdf")) for fault in found]

    def meddled(self, meddling: Meddling) -> list[str]:
        """What its proof finds, where somebody has changed the file."""
        return self.faults(changed(self.pdf, meddling))


def changed(pdf: bytes, meddling: Meddling) -> bytes:
    """A file that somebody has changed."""
    with pikepdf.open(BytesIO(pdf)) as book:
        meddling(book)
        out = BytesIO()
        book.save(out)
    return out.getvalue()


def first_of(book: pikepdf.Pdf) -> int:
    """Where the body begins, from 0: pages before it have Roman numbers."""
    return max(int(at) for at in list(book.Root.PageLabels.Nums)[::2])


def page_of(book: pikepdf.Pdf, number: int) -> pikepdf.Page:
    """The page of the body with that number."""
    return book.pages[first_of(book) + number - 1]


def rewrite(page: pikepdf.Page, old: bytes, new: Callable[["re.Match[bytes]"], bytes]) -> None:
    """Change the first place in a page's drawing that is like that."""
    page.contents_coalesce()
    drawing = page.obj["/Contents"].read_bytes()
    changed, count = re.subn(old, new, drawing, count=1)
    assert count == 1
    page.obj["/Contents"].write(changed)


def redraw(form: pikepdf.Object, old: bytes, new: Callable[["re.Match[bytes]"], bytes]) -> None:
    """Change the first place in the drawing of a piece of music that is like that."""
    drawn, count = re.subn(old, new, form.read_bytes(), count=1)
    assert count == 1
    form.write(drawn)


def sign_in(form: pikepdf.Object, letter: str) -> tuple[str, str]:
    """The name of the font in which a sign is set, and the sign's code in it.

    letter: the sign in Unicode, as four digits.

    Raises:
        LookupError: none of the form's fonts has it.
    """
    for name, font in form.Resources.Font.items():
        if "/ToUnicode" in font:
            codes = font.ToUnicode.read_bytes().decode()
            found = re.search(rf"<(\w+)> <{letter}>", codes)
            if found:
                return name, found[1]
    raise LookupError(letter)
