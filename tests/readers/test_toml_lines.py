"""The lines on which keys of a TOML file stand."""

from bookgen.readers.toml_lines import Lines

TEXT = '''title = "x"
text.en = """
title = "not a key"
[[chapter]]
"""
[[chapter]] # the first
title = "a"
"take" = "way"

[[chapter]]
  title.de = "b"
note = """one line"""
limit = 3
'''


def test_each_key_has_its_line() -> None:
    lines = Lines(TEXT)

    assert lines.of("title") == 1
    assert lines.of("text") == 2
    assert lines.of("title", "chapter", 0) == 7
    assert lines.of("take", "chapter", 0) == 8
    assert lines.of("title", "chapter", 1) == 11
    assert lines.of("limit", "chapter", 1) == 13


def test_a_key_that_is_not_there_has_the_line_of_its_table() -> None:
    lines = Lines(TEXT)

    assert lines.of("limit", "chapter", 0) == 6
    assert lines.of("limit") is None
    assert lines.of("chapter") == 6
    assert lines.of("limit", "chapter", 2) is None
