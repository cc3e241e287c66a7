"""Which numbers of a rig sheet may not be exceeded. Apart from rig_sheet.py, because items are read by it too."""

import functools
import tomllib
from pathlib import Path

TABLE = Path(__file__).with_name("rig_sheet.toml")


@functools.cache
def rig_limits() -> frozenset[str]:
    """The fields of a sheet that are limits: said in another unit, they are rounded down."""
    return frozenset(name for name, row in tomllib.loads(TABLE.read_text(encoding="utf-8")).items() if row.get("limit"))
