"""Units against astropy.units, a second library of units, and the constants of scipy (CODATA).

Every unit that both know is converted by both; the imperial and photometric factors are also
held against scipy.constants, whose values are those of CODATA 2022 and of the SI.
"""

from decimal import Decimal

import astropy.units as u
import pytest
from astropy.units import imperial
from scipy import constants

from extract.units import Quantity, unit

SAME = {
    # ours: theirs
    "pF": u.pF,
    "nF": u.nF,
    "µF": u.uF,
    "mF": u.mF,
    "F": u.F,
    "µΩ": u.uOhm,
    "mΩ": u.mOhm,
    "Ω": u.ohm,
    "kΩ": u.kOhm,
    "MΩ": u.MOhm,
    "GΩ": u.GOhm,
    "nH": u.nH,
    "µH": u.uH,
    "mH": u.mH,
    "H": u.H,
    "mS": u.mS,
    "µV": u.uV,
    "mV": u.mV,
    "V": u.V,
    "kV": u.kV,
    "µA": u.uA,
    "mA": u.mA,
    "A": u.A,
    "kA": u.kA,
    "mW": u.mW,
    "W": u.W,
    "kW": u.kW,
    "Hz": u.Hz,
    "kHz": u.kHz,
    "MHz": u.MHz,
    "GHz": u.GHz,
    "mAh": u.mA * u.h,
    "Ah": u.A * u.h,
    "Wh": u.W * u.h,
    "kWh": u.kW * u.h,
    "J": u.J,
    "mJ": u.mJ,
    "µm": u.um,
    "mm": u.mm,
    "cm": u.cm,
    "m": u.m,
    "in": imperial.inch,
    "thou": imperial.mil,
    "ft": imperial.foot,
    "mm²": u.mm**2,
    "cm³": u.cm**3,
    "L": u.L,
    "mL": u.mL,
    "g": u.g,
    "kg": u.kg,
    "oz": imperial.oz,
    "lb": imperial.lb,
    "ns": u.ns,
    "ms": u.ms,
    "s": u.s,
    "min": u.min,
    "h": u.h,
    "d": u.d,
    "yr": u.yr,
    "°": u.deg,
    "%": u.percent,
    "lm": u.lm,
    "cd": u.cd,
    "lx": u.lx,
    "Pa": u.Pa,
    "bar": u.bar,
    "N": u.N,
    "N·m": u.N * u.m,
    "kg·cm": u.kg * u.cm * constants.g * u.m / u.s**2,
    "mT": u.mT,
    "bit": u.bit,
    "kbit": u.kbit,
    "Mbit": u.Mbit,
    "B": u.byte,
    "kB": u.kbyte,
    "MB": u.Mbyte,
    "Mbit/s": u.Mbit / u.s,
    "L/min": u.L / u.min,
    "m³/h": u.m**3 / u.h,
    "cfm": imperial.foot**3 / u.min,
    "m/s": u.m / u.s,
    "km/h": u.km / u.h,
    "lm/W": u.lm / u.W,
    "W/cm³": u.W / u.cm**3,
    "V/µs": u.V / u.us,
}
SI_OF = {
    "Ω": u.ohm,
    "A·s": u.C,
    "N·m": u.N * u.m,
    "m²": u.m**2,
    "m³": u.m**3,
    "m³/s": u.m**3 / u.s,
    "": u.dimensionless_unscaled,
    "bit/s": u.bit / u.s,
    "lm/W": u.lm / u.W,
    "W/m³": u.W / u.m**3,
    "V/s": u.V / u.s,
    "T": u.T,
    "rad": u.rad,
}


@pytest.mark.parametrize("symbol", SAME)
def test_both_libraries_give_the_same_si_magnitude(symbol: str) -> None:
    si = unit(symbol).si
    theirs = (1 * SAME[symbol]).to(SI_OF[si] if si in SI_OF else u.Unit(si))
    assert Quantity(Decimal(1), symbol).si() == pytest.approx((float(theirs.value),), rel=1e-12)


@pytest.mark.parametrize("celsius", [-273.15, -40.0, 0.0, 25.0, 105.0])
def test_temperatures_convert_as_in_astropy(celsius: float) -> None:
    quantity = Quantity(Decimal(str(celsius)), "°C")
    theirs = (celsius * u.deg_C).to(u.K, equivalencies=u.temperature())
    assert quantity.si() == pytest.approx((theirs.value,), abs=1e-9)
    fahrenheit = (celsius * u.deg_C).to(imperial.deg_F, equivalencies=u.temperature())
    assert float(quantity.to("°F").low) == pytest.approx(fahrenheit.value, abs=1e-9)


@pytest.mark.parametrize(
    ("symbol", "factor"),
    [
        ("in", constants.inch),
        ("thou", constants.mil),
        ("ft", constants.foot),
        ("oz", constants.oz),
        ("lb", constants.lb),
        ("L", constants.liter),
        ("bar", constants.bar),
        ("psi", constants.psi),
        ("kgf", constants.kgf),
        ("min", constants.minute),
        ("h", constants.hour),
        ("yr", constants.Julian_year),
        ("km/h", constants.kmh),
        ("°", constants.degree),
    ],
)
def test_factors_are_those_of_scipy_constants(symbol: str, factor: float) -> None:
    assert Quantity(Decimal(1), symbol).si() == pytest.approx((factor,), rel=1e-12)


def test_zero_celsius_is_that_of_scipy_constants() -> None:
    assert Quantity(Decimal(0), "°C").si() == (constants.zero_Celsius,)
    assert Quantity(Decimal(32), "°F").si() == pytest.approx((constants.zero_Celsius,))


def test_derived_quantities_agree_with_electrical_constants() -> None:
    """CODATA: Z0 = µ0·c, and the energy of 1 eV: products of units keep their sense."""
    impedance = Quantity(Decimal(repr(constants.mu_0 * constants.c)), "Ω")
    assert float(impedance.engineering().low) == pytest.approx(
        constants.physical_constants["characteristic impedance of vacuum"][0], rel=1e-9
    )
    charge = Quantity(Decimal(repr(constants.e)), "A·s")
    assert charge.to("mAh").si() == pytest.approx((constants.elementary_charge,))
