"""The body of a device: how large and heavy it is, the room it wants, and what weather it bears."""

from typing import Annotated, Any, Literal

from pydantic import Field, ValidationInfo, field_validator

from ferrule.document import Record, refused
from ferrule.fact import Fact, Unknown, missing
from ferrule.parts.fixing import Mounting
from ferrule.parts.pieces import Piece
from ferrule.physics.climate import DeratingPctPerK
from ferrule.quantity import LengthMm, SoundDba, TemperatureC, Unit

IpCode = Annotated[str, Field(pattern="^IP[0-6X][0-9X]$", description="such as IP65")]
Clearance = Fact[LengthMm | Literal["unstated"]]
SideMm = Annotated[float, Unit("mm", 1, 5_000)]
BodyKg = Annotated[float, Unit("kg", 0.05, 2_000)]

# Covers and screws may be left out of the pieces, no more.
_LEAST_OF_WHOLE = 0.8


class Clearances(Record):
    """Free space the maker asks for around a device. One that its manual leaves open is 'unstated', which is
    not the same as a manual that nobody has read.
    """

    above_mm: Clearance = missing("free space above it, from its manual, or 'unstated' if that names none")
    below_mm: Clearance = missing("free space below it, from its manual, or 'unstated' if that names none")
    side_mm: Clearance = missing(
        "free space at each side of it, from its manual, or 'unstated' if that names none"
    )
    front_mm: Clearance = missing("free space before it, from its manual, or 'unstated' if that names none")


class Body(Record):
    """What a device's sheet says of its body."""

    width_mm: Fact[SideMm] = missing("width of the device, from its sheet")
    height_mm: Fact[SideMm] = missing("height of the device, from its sheet")
    depth_mm: Fact[SideMm] = missing("depth of the device off the wall, from its sheet")
    mass_kg: Fact[BodyKg] = missing("mass of the device as it hangs, from its sheet")
    mount: Fact[Literal["wall", "floor"]] = missing("whether it hangs on a wall or stands on the floor")
    clear: Clearances = Clearances()
    controls_mm: LengthMm | None = Field(
        default=None, description="height of its display and switches above its lower edge, where it has any"
    )
    ip: Fact[IpCode] = missing("its IP code, from its sheet")
    entries: Fact[Literal["below", "side", "above"]] = missing("from which side its cables enter")
    ambient_low_c: Fact[TemperatureC] = missing("coldest air it may work in, from its sheet")
    ambient_high_c: Fact[TemperatureC] = missing("hottest air it may work in, from its sheet")
    full_power_high_c: Fact[TemperatureC] = missing("hottest air in which it still gives full power")
    derating_pct_per_k: Fact[DeratingPctPerK] = missing(
        "power it loses for each kelvin above that, from its sheet"
    )
    sun: Fact[Literal["allowed", "shade"]] = missing("whether its maker allows direct sun")
    noise_dba: Fact[SoundDba] = missing("its noise at 1 m, from its sheet")
    mounting: Mounting = Mounting()
    pieces: Fact[list[Piece]] = missing("the pieces in which it is lifted, from its manual; one if whole")

    @field_validator("mounting")
    @classmethod
    def _weighs_within_itself(cls, given: Mounting, info: ValidationInfo) -> Mounting:
        """No body has its centre of gravity outside the box around it."""
        for key, side in (("out", "depth"), ("across", "width"), ("up", "height")):
            at_mm, side_mm = getattr(given, f"gravity_{key}_mm"), info.data.get(f"{side}_mm")
            if isinstance(at_mm, Unknown) or not isinstance(side_mm, float) or at_mm < side_mm:
                continue
            raise refused(
                "Body", f"less than its {side}, which is {side_mm:g} mm", f"{at_mm:g} mm", f"gravity_{key}"
            )
        return given

    @field_validator("pieces")
    @classmethod
    def _make_up_the_whole(cls, given: Any, info: ValidationInfo) -> Any:
        if isinstance(given, list):
            names = [piece.name for piece in given]
            if not names or len(set(names)) < len(names):
                raise ValueError("at least one piece, each with a name of its own")
            whole_kg = info.data.get("mass_kg")
            masses_kg = [piece.mass_kg for piece in given]
            if isinstance(whole_kg, float) and None not in masses_kg:
                sum_kg = sum(piece.count * (piece.mass_kg or 0.0) for piece in given)
                if sum_kg < _LEAST_OF_WHOLE * whole_kg:
                    raise ValueError(f"pieces that make up the mass of {whole_kg:g} kg, not {sum_kg:g} kg")
        return given
