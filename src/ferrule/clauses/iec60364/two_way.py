"""Devices between two sources (BS 7671:2018 regulation 530.3.201, IEC 60364-7-712 clause 712.46)."""

from ferrule.working import Trace


class BetweenSources:
    """A device that either side can feed breaks both ways; an inverter can be switched off the network."""

    needs = ("two_way_device", "ac_isolator")

    def both_ways(self, t: Trace) -> bool:
        return t.term("two_way_device") == "both"

    def switch(self, t: Trace) -> bool:
        return t.term("ac_isolator") == "required"
