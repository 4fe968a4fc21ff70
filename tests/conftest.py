"""What holds for every test here."""

from hypothesis import HealthCheck, settings

# A busy machine is no failure: how fast things are is measured in benchmarks/, side by side with a peer.
settings.register_profile("ferrule", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("ferrule")
