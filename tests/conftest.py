"""What all tests share: properties are given the time they need, also on a busy machine."""

from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
