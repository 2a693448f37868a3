"""Rules that hold the values of one part against each other."""

from math import pi

from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say, times
from extract.resources import load_yaml


def clamping_order(piece: Piece) -> Doubt | None:
    """U_clamp > U_breakdown > U_standoff, in V; of a varistor U_breakdown > 1.35 · U_AC."""
    clamp = piece.get("clamping_voltage")
    breakdown = piece.get("breakdown_voltage")
    rated = piece.get("rated_voltage")
    least = 1.35 if piece.is_a("varistor") else 1.0
    if breakdown and rated and breakdown <= least * rated:
        message = (
            f"it breaks down at {say(breakdown, 'V')}, which must be "
            f"{'well over' if least > 1 else 'over'} the {say(rated, 'V')} it stands"
        )
        return Doubt("values.breakdown_voltage", message, (least * rated, 3 * rated))
    under = breakdown or rated
    if clamp and under and clamp <= under:
        message = f"it clamps at {say(clamp, 'V')}, which must be over {say(under, 'V')}"
        return Doubt("values.clamping_voltage", message, (under, 3 * under))
    return None


def trip_over_hold(piece: Piece) -> Doubt | None:
    """I_trip / I_hold of a resettable fuse lies within 1.4 to 3.5."""
    ratio = piece["trip_current"] / piece["hold_current"]
    if 1.3 <= ratio <= 3.8:
        return None
    hold = piece["hold_current"]
    message = (
        f"it trips at {piece.text('trip_current')}, {times(ratio)} times the "
        f"{piece.text('hold_current')} it holds; such fuses trip at about twice that"
    )
    return Doubt("values.trip_current", message, (1.4 * hold, 3.5 * hold))


def surge_over_rated(piece: Piece) -> Doubt | None:
    """I_surge > I_rated, in A."""
    rated = piece["rated_current"]
    if piece["surge_current"] > rated:
        return None
    message = (
        f"a surge current of {piece.text('surge_current')} is no more than the rated "
        f"{piece.text('rated_current')}"
    )
    return Doubt("values.surge_current", message, (5 * rated, 100 * rated))


def leakage_below_rated(piece: Piece) -> Doubt | None:
    """I_leakage < 0.01 · I_rated, in A."""
    rated = piece["rated_current"]
    if piece["leakage_current"] < 0.01 * rated:
        return None
    message = (
        f"a leakage of {piece.text('leakage_current')} is over a hundredth of the rated "
        f"{piece.text('rated_current')}"
    )
    return Doubt("values.leakage_current", message, (0.0, 0.01 * rated))


def over_temperature(piece: Piece) -> Doubt | None:
    """The heat that was measured on a part is not over what it is rated for, in °C."""
    if (
        piece.is_a("thermal fuse", "thermostat")
        or piece["temperature"] <= piece["temperature_rating"]
    ):
        return None
    message = (
        f"it was at {piece.text('temperature')}, but is rated {piece.text('temperature_rating')}"
    )
    return Doubt("values.temperature", message)


def wire_area(piece: Piece) -> Doubt | None:
    """A = π/4 · (0.127 mm · 92^((36 - n)/39))² of a wire of gauge n, in mm²: within 15 %."""
    area = _area_of_gauge(piece["wire_gauge"])
    if abs(piece["wire_cross_section"] / area - 1) <= 0.15:
        return None
    section = piece.text("wire_cross_section")
    message = f"{piece.text('wire_gauge')} is {area * 1e6:.2g} mm², not {section}"
    return Doubt("values.wire_cross_section", message, (0.85 * area, 1.15 * area))


def _area_of_gauge(gauge: float) -> float:
    diameter: float = 0.127e-3 * 92 ** ((36 - gauge) / 39)
    return pi / 4 * diameter**2


def wire_current(piece: Piece) -> Doubt | None:
    """I over the area of a wire, in A/mm²: not over 24, twice what cords and harnesses carry."""
    area = piece.get("wire_cross_section")
    if area is None and "wire_gauge" in piece.sizes:
        area = _area_of_gauge(piece["wire_gauge"])
    if area is None or piece["rated_current"] <= 24e6 * area:
        return None
    message = (
        f"{piece.text('rated_current')} through {area * 1e6:.2g} mm²; about 10 A a mm² are usual"
    )
    return Doubt("values.rated_current", message, (1e6 * area, 16e6 * area))


def saturation_near_rated(piece: Piece) -> Doubt | None:
    """I_sat lies within 0.3 to 4 times I_rated, in A."""
    rated = piece["rated_current"]
    if 0.3 <= piece["saturation_current"] / rated <= 4:
        return None
    message = (
        f"a saturation current of {piece.text('saturation_current')} beside a rated current of "
        f"{piece.text('rated_current')}; they are mostly alike"
    )
    return Doubt("values.saturation_current", message, (0.3 * rated, 4 * rated))


def on_resistance_floor(piece: Piece) -> Doubt | None:
    """R_DS(on) in Ω for the voltage class: not below what is made."""
    if (row := _class(piece)) is None or piece["on_resistance"] >= row[1]:
        return None
    volts, least, most = row
    message = (
        f"an on-resistance of {piece.text('on_resistance')} is below what is made for "
        f"{volts:.0f} V, about {say(least, 'Ω')} at least"
    )
    return Doubt("values.on_resistance", message, (least, most))


def on_resistance_ceiling(piece: Piece) -> Doubt | None:
    """R_DS(on) in Ω for the voltage class: not above what is put into a power case."""
    case = piece.part.package or ""
    if case not in load_yaml("cases.yaml")["power"] or (row := _class(piece)) is None:
        return None
    volts, least, most = row
    if piece["on_resistance"] <= most:
        return None
    message = (
        f"an on-resistance of {piece.text('on_resistance')} is high for a {volts:.0f} V transistor "
        f"in {case}, {say(most, 'Ω')} at most"
    )
    return Doubt("values.on_resistance", message, (least, most))


def _class(piece: Piece) -> tuple[float, float, float] | None:
    """The voltage class of a transistor, and the least and greatest on-resistance of it."""
    volts = piece.get("withstand_voltage", "rated_voltage")
    sort = (
        "gan" if piece.is_a("gan transistor") else "sic" if piece.is_a("sic mosfet") else "silicon"
    )
    for top, (least, most) in load_yaml("cases.yaml")["classes"][sort].items():
        if volts is not None and volts <= top:
            return volts, least, most
    return None


def conduction_loss(piece: Piece) -> Doubt | None:
    """P = I² · R_DS(on) at the rated current, in W: not over 400 W."""
    power = piece["rated_current"] ** 2 * piece["on_resistance"]
    if power <= 400:
        return None
    message = (
        f"{piece.text('rated_current')} through {piece.text('on_resistance')} would make "
        f"{say(power, 'W')}"
    )
    return Doubt("values.on_resistance", message, (0.0, 200 / piece["rated_current"] ** 2))
