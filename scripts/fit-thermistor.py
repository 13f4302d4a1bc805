"""Fits the Steinhart-Hart coefficients of equipment/tables/sensors/ntc-10k-beta-3435.yaml to the resistance table of the type.

    pip install -r scripts/requirements.txt
    python scripts/fit-thermistor.py

The table: 10 kohm at 25 °C, 1.451 kohm at 85 °C (so beta 3435), as three public reproductions print it alike.
"""

import numpy as np

TABLE = {-40: 188500, -30: 111300, -20: 67770, -10: 42470, 0: 27280, 10: 17960, 20: 12090, 25: 10000, 30: 8313, 40: 5827, 50: 4160, 60: 3020}

kelvin = np.array(list(TABLE)) + 273.15
log = np.log(np.array(list(TABLE.values())))
terms = np.stack([np.ones_like(log), log, log**3], axis=1)
weight = kelvin**2  # so that the residual of 1/T is one of T
coefficients, *_ = np.linalg.lstsq(terms * weight[:, None], weight / kelvin, rcond=None)
print("a, b, c:", *[f"{c:.9g}" for c in coefficients])
print("largest error, K:", np.max(np.abs(1 / (terms @ coefficients) - kelvin)))
