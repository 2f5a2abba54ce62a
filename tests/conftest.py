"""Hypothesis without deadlines: how long an example takes on a busy machine is not what a test is about."""

from hypothesis import settings

settings.register_profile("brimful", deadline=None)
settings.load_profile("brimful")
