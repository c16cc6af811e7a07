"""What holds for all tests."""

from hypothesis import settings

# how long an example takes says nothing about what is tested, and much about what else the machine is doing
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
