"""Fits the saturation curves in equipment/tables/refrigerants to CoolProp 8.0.0 (HEOS), and writes the points that the tests hold them to.

    pip install -r scripts/requirements.txt
    python scripts/fit-saturation.py

A curve is T(p) = sum of c[k] * Chebyshev_k(x), with x = ln p scaled to -1..1 over the curve's own pressures; T in K, p in Pa absolute.
The fit uses whole kelvins; the reference points lie between them and are not used by the fit.
"""

import math
from pathlib import Path

import CoolProp
import numpy as np
from CoolProp.CoolProp import AbstractState

ROOT = Path(__file__).resolve().parent.parent
TABLES = ROOT / "equipment" / "tables" / "refrigerants"
REFERENCE = ROOT / "tests" / "outside" / "reference" / "saturation.csv"

COLDEST = 223.15  # -50 °C: R-404A at 0 psig is -45.5 °C, and a freezer's control goes there
HOTTEST = 333.15  # 60 °C
WARMEST_EVAPORATOR = 293.15  # 20 °C dew
LIQUID = (95 + 459.67) / 1.8  # the liquid that the evaporator is fed with: 95 °F
GOOD_ENOUGH = 0.005  # K, at the fitted points

MEMORY = "ASHRAE 34, from memory, not checked"
RULE_26 = "named among the flammable refrigerants of EPA SNAP Rule 26 (89 FR 50410); the class itself from memory of ASHRAE 34"
CHEMISTS = "chemical identity"
PREDEFINED = "CoolProp 8.0.0 predefined mixture, mass fractions"

# name, CoolProp's fluid, composition in mass %, where the composition comes from, safety class, where that comes from
REFRIGERANTS = [
    ("R-134a", "R134a", {"R-134a": 100}, CHEMISTS, "A1", MEMORY),
    ("R-404A", "R404A", {"R-125": 44, "R-143a": 52, "R-134a": 4}, MEMORY, "A1", MEMORY),
    ("R-507A", "R507A", {"R-125": 50, "R-143a": 50}, MEMORY, "A1", MEMORY),
    ("R-290", "Propane", {"R-290": 100}, CHEMISTS, "A3", MEMORY),
    ("R-600a", "IsoButane", {"R-600a": 100}, CHEMISTS, "A3", MEMORY),
    ("R-448A", "R448A.mix", {"R-32": 26, "R-125": 26, "R-1234yf": 20, "R-134a": 21, "R-1234ze(E)": 7}, PREDEFINED, "A1", MEMORY),
    ("R-449A", "R449A.mix", {"R-32": 24.3, "R-125": 24.7, "R-1234yf": 25.3, "R-134a": 25.7}, PREDEFINED, "A1", MEMORY),
    ("R-452A", "R452A.mix", {"R-32": 11, "R-125": 59, "R-1234yf": 30}, PREDEFINED, "A1", MEMORY),
    ("R-513A", "R513A.mix", {"R-1234yf": 56, "R-134a": 44}, PREDEFINED, "A1", MEMORY),
    ("R-407A", "R407A.mix", {"R-32": 20, "R-125": 40, "R-134a": 40}, PREDEFINED, "A1", MEMORY),
    ("R-407C", "R407C", {"R-32": 23, "R-125": 25, "R-134a": 52}, MEMORY, "A1", MEMORY),
    ("R-410A", "R410A", {"R-32": 50, "R-125": 50}, MEMORY, "A1", MEMORY),
    ("R-454C", "R454C.mix", {"R-32": 21.5, "R-1234yf": 78.5}, PREDEFINED, "A2L", RULE_26),
    ("R-455A", "R455A.mix", {"R-744": 3, "R-32": 21.5, "R-1234yf": 75.5}, PREDEFINED, "A2L", RULE_26),
    ("R-744", "CO2", {"R-744": 100}, CHEMISTS, "A1", MEMORY),
    ("R-22", "R22", {"R-22": 100}, CHEMISTS, "A1", MEMORY),
]


def critical_point(state, mixture):
    if mixture:  # of the points that the search finds, the hottest stable one ends the two-phase region
        hottest = max((point for point in state.all_critical_points() if point.stable), key=lambda point: point.T)
        return hottest.T, hottest.p
    return state.T_critical(), state.p_critical()


def saturated(state, quality, temperature):
    state.update(CoolProp.QT_INPUTS, quality, temperature)
    return state.p()


def inlet_temperature(state, pressure, enthalpy):
    """Where liquid of this enthalpy lands when it is throttled to this pressure; bisection on the vapour quality."""
    low, high = 0.0, 1.0
    for _ in range(48):
        middle = (low + high) / 2
        state.update(CoolProp.PQ_INPUTS, pressure, middle)
        low, high = (middle, high) if state.hmass() < enthalpy else (low, middle)
    return state.T()


def points(state, curve, temperatures, enthalpy):
    """(pressure, temperature) along a curve; the inlet's pressures are those of dew at the temperatures asked for."""
    if curve == "inlet":
        pressures = [saturated(state, 1, t) for t in temperatures]
        return [(p, inlet_temperature(state, p, enthalpy)) for p in pressures]
    return [(saturated(state, 1 if curve == "dew" else 0, t), t) for t in temperatures]


def fit(sample):
    pressures = np.array([p for p, _ in sample])
    temperatures = np.array([t for _, t in sample])
    low, high = float(f"{pressures[0]:.7g}"), float(f"{pressures[-1]:.7g}")
    x = (2 * np.log(pressures) - math.log(low) - math.log(high)) / (math.log(high) - math.log(low))
    for degree in range(3, 12):
        coefficients = [float(f"{c:.9g}") for c in np.polynomial.chebyshev.chebfit(x, temperatures, degree)]
        worst = float(np.max(np.abs(np.polynomial.chebyshev.chebval(x, coefficients) - temperatures)))
        if worst <= GOOD_ENOUGH:
            return low, high, coefficients, worst
    raise SystemExit("no fit is good enough")


def table(name, composition, composition_source, safety, safety_source, critical, curves, fluid):
    lines = [
        f"# {name}: what it is, and its saturation curves. Made by scripts/fit-saturation.py; don't edit by hand.",
        "# T(p) = sum of chebyshev[k] * T_k(x), x = ln p scaled to -1..1 over `pressure`; K and Pa absolute.",
        f"name: {name}",
        "composition: # parts of mass",
        *[f"  {component}: {part / 100:.6g}" for component, part in composition.items()],
        f"safety: {safety}",
        f"critical: {{ temperature: {critical[0]:.6g}, pressure: {critical[1]:.0f} }}",
        "sources:",
        f"  composition: {composition_source}",
        f"  safety: {safety_source}",
        f"  saturation: CoolProp {CoolProp.__version__} HEOS, fluid {fluid}, fitted by scripts/fit-saturation.py",
    ]
    for curve, (low, high, coefficients, worst) in curves.items():
        lines += [
            f"{curve}: # {low:.7g} Pa to {high:.7g} Pa; the fit is off by at most {worst * 1000:.1f} mK",
            f"  pressure: [{low:.7g}, {high:.7g}]",
            "  chebyshev:",
            *[f"    - {c:.9g}" for c in coefficients],
        ]
    return "\n".join(lines) + "\n"


def main():
    TABLES.mkdir(parents=True, exist_ok=True)
    REFERENCE.parent.mkdir(parents=True, exist_ok=True)
    rows = [
        f"# CoolProp {CoolProp.__version__} HEOS, by scripts/fit-saturation.py; points that the fit did not use.",
        "refrigerant,curve,pressure_Pa,temperature_K",
    ]
    for name, fluid, composition, composition_source, safety, safety_source in REFRIGERANTS:
        state = AbstractState("HEOS", fluid)
        critical = critical_point(state, fluid.endswith(".mix"))
        hottest = min(HOTTEST, 0.95 * critical[0])
        pure = len(composition) == 1
        enthalpy = None
        if not pure:
            state.update(CoolProp.QT_INPUTS, 0, LIQUID)
            enthalpy = state.hmass()
        curves = {}
        for curve in ("dew",) if pure else ("dew", "bubble", "inlet"):
            top = min(hottest, WARMEST_EVAPORATOR) if curve == "inlet" else hottest
            grid = [*np.arange(COLDEST, top, 1.0), top]
            curves[curve] = fit(points(state, curve, grid, enthalpy))
            between = np.arange(COLDEST + 2.37, top, 5.0)
            rows += [f"{name},{curve},{p:.7g},{t:.7g}" for p, t in points(state, curve, between, enthalpy)]
        text = table(name, composition, composition_source, safety, safety_source, critical, curves, fluid)
        (TABLES / f"{name.lower()}.yaml").write_text(text)
        print(name, {c: (len(v[2]), round(v[3] * 1000, 2)) for c, v in curves.items()})
    REFERENCE.write_text("\n".join(rows) + "\n")


if __name__ == "__main__":
    main()
