"""Rules for the energy that a capacitor holds."""

from math import pi

from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say
from extract.resources import load_yaml


def can_energy(piece: Piece) -> Doubt | None:
    """C · U² / 2 over π · d² · h / 4 of a can, in J/cm³: not over 2 and not under 0.02."""
    least, most, _ = load_yaml("cases.yaml")["can"]
    return _can(piece, least, most)


def can_energy_limit(piece: Piece) -> Doubt | None:
    """C · U² / 2 over π · d² · h / 4 of a can, in J/cm³: never over 10."""
    return _can(piece, 0, load_yaml("cases.yaml")["can"][2])


def _can(piece: Piece, least: float, most: float) -> Doubt | None:
    volume = pi / 4 * piece["diameter"] ** 2 * piece["height"] * 1e6  # cm³
    energy = 0.5 * piece["capacitance"] * piece["rated_voltage"] ** 2
    if volume <= 0 or (energy / volume <= most and (energy / volume >= least or volume < 2)):
        return None
    how = "cannot be held by" if energy / volume > most else "is very little for"
    message = (
        f"{say(energy, 'J')} at {piece.text('rated_voltage')} {how} a can of "
        f"{say(volume, 'cm³')}: {say(energy / volume, 'J')} in a cubic centimetre, 0.05 J to 1.4 J "
        "are usual"
    )
    unit = 2 * volume / piece["rated_voltage"] ** 2
    return Doubt("values.capacitance", message, (0.05 * unit, 1.4 * unit))


def large_capacitor(piece: Piece) -> Doubt | None:
    """C · U² / 2 of an electrolytic behind a converter, in J: not over 60 J and a
    quarter of a joule for each watt of the device."""
    energy = 0.5 * piece["capacitance"] * piece["rated_voltage"] ** 2
    watts = piece.circuit.output_watts or piece.circuit.rated_watts
    heats = bool(piece.circuit.of("heating element"))
    most = 60.0 if watts is None or heats else max(60.0, 0.25 * watts)
    if watts is None or energy <= most:
        return None
    message = (
        f"{piece.text('capacitance')} at {piece.text('rated_voltage')} would hold "
        f"{say(energy, 'J')} in a device of {say(watts, 'W')}"
    )
    most *= 2 / piece["rated_voltage"] ** 2
    return Doubt("values.capacitance", message, (most * 1e-5, most))


def stored_energy(piece: Piece) -> Doubt | None:
    """E = C · U² / 2 at the rated voltage, in J: a caution from 0.1 J at 60 V and more, off the
    mains from 1 J at 100 V."""
    energy = 0.5 * piece["capacitance"] * piece["rated_voltage"] ** 2 * piece.count
    volts, joules = (60, 0.1) if piece.circuit.mains else (100, 1.0)
    if piece["rated_voltage"] < volts or energy < joules:
        return None
    if piece.is_a("x capacitor", "y capacitor") or energy > 1e4:
        return None
    message = (
        f"charged to its {piece.text('rated_voltage')} it holds {say(energy, 'J')}, also after the "
        f"{'plug is out' if piece.circuit.mains else 'supply is off'}; measure before touching"
    )
    return Doubt("values.rated_voltage", message)
