"""What holds for every test: a busy machine makes none fail, and English is spoken on any machine."""

import os

from hypothesis import HealthCheck, settings

settings.register_profile("shared", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("shared")
os.environ["LANGUAGE"] = "en"  # for the commands that are run as a process, too
