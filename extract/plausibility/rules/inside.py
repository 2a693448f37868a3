"""Rules that hold the values of one part against each other."""

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
