"""What holds for every test: a busy machine makes none of them fail."""

from hypothesis import HealthCheck, settings

settings.register_profile("shared", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("shared")
