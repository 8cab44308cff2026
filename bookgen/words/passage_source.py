"""What a passage's head says of where it comes from: who wrote it, and how fast it goes."""

from bookgen.plan.passage import Passage


def source_line(passage: Passage) -> str:
    """Composer and tempo as the file has them; empty where it says neither.

    These are the file's own words, in whatever language.
    """
    tempo = passage.phrase.bars[0].tempo
    return " · ".join(filter(None, (passage.composer, tempo.words if tempo else "")))
