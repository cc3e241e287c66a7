"""Steel as the trade's formulas take it, in base units."""

from question_bank.formulas.gravity import STANDARD_GRAVITY

POUND, FOOT, INCH, GALLON = 0.45359237, 0.3048, 0.0254, 0.003785411784
"""kg, m, m and m3 (NIST SP 811, B.8, exact)."""

PSI = POUND * STANDARD_GRAVITY / INCH**2

STEEL_DENSITY = 65.5 * POUND / GALLON
"""65.5 lb/gal (7,850 kg/m3): the density in the buoyancy factor and in pipe displacement."""

STEEL_WEIGHT = 3.4 * POUND * STANDARD_GRAVITY / FOOT / INCH**2
"""3.4 lb/ft for each in2 of wall, as the stretch formula takes it. It is 0.1 % under 65.5 lb/gal."""

STEEL_STIFFNESS = 30_000_000 * PSI
"""Modulus of elasticity, 30 million psi (206.8 GPa)."""

SHEAR_SHARE = 0.577
"""Yield in shear as a share of yield in tension (1/√3, as API RP 7G rounds it)."""

SLIP_TAPER = 1 / 6
"""Slope of slips and bowl against the pipe: 4 in on the diameter for each foot, 9° 27′ 45″."""
