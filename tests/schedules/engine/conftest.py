"""Random networks are the same in every run, so that a red test stays red."""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "laws",
    deadline=None,
    derandomize=True,
    max_examples=150,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
settings.load_profile("laws")
