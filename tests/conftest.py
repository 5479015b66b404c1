"""Random tests may take their time: on a busy machine the first call of many reads a table."""

from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
