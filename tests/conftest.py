"""What all tests share: property tests without a clock, for machines of any speed."""

from hypothesis import settings

settings.register_profile("bookgen", deadline=None, max_examples=60)
settings.load_profile("bookgen")
