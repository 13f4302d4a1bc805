"""Writes what dials and head gauges mean, worked out with CoolProp 8.0.0 (HEOS) and the US Standard Atmosphere 1976; the tests hold ours to it.

    pip install -r scripts/requirements.txt
    python scripts/pressure-control-points.py

From our tables come the refrigerants' names only, and what CoolProp calls them: each figure is asked of CoolProp at its own pressure, and no curve is fitted.
"""

import re
from pathlib import Path

import CoolProp
from CoolProp.CoolProp import AbstractState

ROOT = Path(__file__).resolve().parent.parent
TABLES = ROOT / "equipment" / "tables" / "refrigerants"
POINTS = ROOT / "tests" / "outside" / "reference" / "pressure-control.csv"

PSI = 6894.757293
ALTITUDES = [0, 1000, 5280, 7000]  # ft
COILS = [-10, 20]  # °F, dew at sea level of the dials that are asked about
ENTERING = [60, 78, 92]  # °F, air that enters the condenser
SPLIT = 27  # °F


def kelvin(fahrenheit):
    return (fahrenheit + 459.67) / 1.8


def fahrenheit(kelvins):
    return kelvins * 1.8 - 459.67


def atmosphere(feet):
    """US Standard Atmosphere 1976, below 11 km, geopotential height: 288.15 K at the sea, 6.5 K a km, g0 M / (R L) = 5.255877."""
    return 101325 * (1 - 0.0065 * feet * 0.3048 / 288.15) ** 5.255877


def at(state, pressure, quality):
    state.update(CoolProp.PQ_INPUTS, pressure, quality)
    return state.T()


def between(low, high, below):
    """The figure at which `below` ends to be true."""
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if below(middle) else (low, middle)
    return low


def inlet(state, pressure, enthalpy):
    def wetter(quality):
        state.update(CoolProp.PQ_INPUTS, pressure, quality)
        return state.hmass() < enthalpy

    return at(state, pressure, between(0.0, 1.0, wetter))


def saturated(state, temperature, quality):
    state.update(CoolProp.QT_INPUTS, quality, temperature)
    return state.p()


def evaporating(name, state, pure):
    enthalpy = None
    if not pure:
        state.update(CoolProp.QT_INPUTS, 0, kelvin(95))
        enthalpy = state.hmass()
    for coil in COILS:
        dial = round((saturated(state, kelvin(coil), 1) - 101325) / PSI)
        for feet in ALTITUDES:
            pressure = dial * PSI + atmosphere(feet)
            dew = at(state, pressure, 1)
            mean = dew if pure else (dew + inlet(state, pressure, enthalpy)) / 2
            yield f"coil,{name},{dial},{feet},{fahrenheit(mean):.3f},{fahrenheit(dew):.3f},"


def condensing(name, state, critical):
    for air in ENTERING:
        target = kelvin(air + SPLIT)
        if target > 0.95 * critical:
            continue
        bubble, dew = saturated(state, target, 0), saturated(state, target, 1)
        mean = between(dew * 0.999, bubble * 1.001, lambda p: (at(state, p, 0) + at(state, p, 1)) / 2 < target)
        psig = [f"{(p - 101325) / PSI:.3f}" for p in (mean, dew, bubble)]
        yield f"head,{name},{air},{SPLIT},{','.join(psig)}"


def main():
    rows = [
        f"# CoolProp {CoolProp.__version__} HEOS and the US Standard Atmosphere 1976, by scripts/pressure-control-points.py",
        "# coil: refrigerant, dial psig, altitude ft, mean evaporating °F (liquid at 95 °F), dew °F",
        "# head: refrigerant, air entering °F, split °F, psig at sea level at which that is the mean, the dew and the bubble",
    ]
    for file in sorted(TABLES.iterdir()):
        text = file.read_text()
        name, fluid, critical = (re.search(at, text)[1] for at in (r"name: (.+)", r"fluid ([^,]+),", r"critical: \{ temperature: ([\d.]+)"))
        state = AbstractState("HEOS", fluid)
        rows += [*evaporating(name, state, "bubble:" not in text), *condensing(name, state, float(critical))]
    POINTS.write_text("\n".join(row.rstrip(",") for row in rows) + "\n")


if __name__ == "__main__":
    main()
