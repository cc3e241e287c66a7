"""Standard gravity, the constant that turns a mass into the weight that stands on every rating plate."""

STANDARD_GRAVITY = 9.80665
"""m/s2, exact by definition (NIST SP 811, B.8)."""
