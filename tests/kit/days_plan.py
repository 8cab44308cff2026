"""Days in the trade's shorthand, and their plan as a page."""

from collections.abc import Sequence
from datetime import date, timedelta
from functools import cache
from io import BytesIO

import numpy as np
import pypdfium2
from numpy.typing import NDArray

from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.page.reportlab_canvas import ReportLabCanvas
from bookgen.binder.parts.days.plan import PlanOfDays, plan_of
from bookgen.plan.document import Character, Day, Item, Role
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

FIRST = date(2026, 12, 1)
STUDIO = "Harbour Lane Strings"
SIGNS = {
    ">": Role.START,
    "+": Role.NEW,
    "*": Role.OTHER_WAY,
    "=": Role.AGAIN,
    "-": Role.STEP_BACK,
    "!": Role.COLD,
    "~": Role.PASSAGE,
}
PX_PER_MM = 8.0


def items(text: str) -> tuple[Item, ...]:
    """`>5 +8?3 =1`: start with 5, then the new 8 if 3 is secure, then 1 again."""
    found = []
    for word in text.split():
        number, _, wait = word[1:].partition("?")
        role, gate = SIGNS[word[0]], int(wait) if wait else None
        found.append(Item(number=int(number), role=role, minutes=1.0, only_if=gate))
    return tuple(found)


def a_day(on: int, text: str, character: Character = Character.ORDINARY) -> Day:
    """A day of December 2026; the 1st is a Tuesday."""
    found = items(text)
    day = FIRST + timedelta(days=on - 1)
    return Day(date=day, minutes=float(len(found)), items=found, character=character)


def a_month(each: int, days: int = 31) -> list[Day]:
    """So many items every day, each drill once, every third one after the one before."""
    found = []
    for on in range(1, days + 1):
        first = (on - 1) * each + 1
        text = [f">{first}"]
        text += [f"+{n}?{n - 1}" if n % 3 == 0 else f"={n}" for n in range(first + 1, first + each)]
        found.append(a_day(on, " ".join(text)))
    return found


@cache
def a_desk(paper: str = "a4", studio: str | None = STUDIO) -> Desk:
    layout = read_layout("ordinary")
    return desk_of(read_instrument("violin"), "4/4", layout, paper, ENGLISH, studio)


def planned(days: Sequence[Day], paper: str = "a4", player: str | None = "Jo") -> PlanOfDays:
    """A plan in which each drill is like the one before it."""
    likes = {item.number: item.number - 1 for day in days for item in day.items}
    return plan_of(days, likes, player, (FIRST, FIRST + timedelta(days=30)), a_desk(paper))


def picture(plan: PlanOfDays, page: int = 0) -> NDArray[np.uint8]:
    """A page in gray, with eight dots to the millimetre."""
    sheet = plan.desk.sheet
    canvas = ReportLabCanvas(plan.desk.fonts, sheet.width, sheet.height)
    plan.draw(canvas, plan.pages[page])
    canvas.next_page()
    document = pypdfium2.PdfDocument(BytesIO(canvas.finish()))
    image = document[0].render(scale=PX_PER_MM * 25.4 / 72).to_pil().convert("L")
    document.close()
    return np.asarray(image)
