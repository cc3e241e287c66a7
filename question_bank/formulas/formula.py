"""What a formula is: a function on plain floats in base units, and one printed equation a unit system.

The function's annotations name the registers of what it takes and gives; its docstring says what it is for, when it
holds and where it comes from. A formula is registered by its decorator and checked by question_bank.check.
"""

import inspect
import re
import typing
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from question_bank.equations import Printed
from question_bank.steps import Rule
from question_bank.units import register, unit

Load = typing.Annotated[float, "load"]
Mass = typing.Annotated[float, "mass"]
Length = typing.Annotated[float, "length"]
Area = typing.Annotated[float, "area"]
Volume = typing.Annotated[float, "volume"]
Capacity = typing.Annotated[float, "capacity"]
WeightPerLength = typing.Annotated[float, "weight-per-length"]
Density = typing.Annotated[float, "density"]
Pressure = typing.Annotated[float, "pressure"]
PressurePerLength = typing.Annotated[float, "pressure-per-length"]
Stress = typing.Annotated[float, "stress"]
SectionModulus = typing.Annotated[float, "section-modulus"]
SecondMoment = typing.Annotated[float, "second-moment"]
Torque = typing.Annotated[float, "torque"]
Energy = typing.Annotated[float, "energy"]
LineWork = typing.Annotated[float, "line-work"]
LineWorkPerLength = typing.Annotated[float, "line-work-per-length"]
Power = typing.Annotated[float, "power"]
Speed = typing.Annotated[float, "speed"]
Turning = typing.Annotated[float, "turning"]
Turns = typing.Annotated[float, "turns"]
Time = typing.Annotated[float, "time"]
Acceleration = typing.Annotated[float, "acceleration"]
Ratio = typing.Annotated[float, "ratio"]
Count = typing.Annotated[float, "count"]


@dataclass(frozen=True)
class Formula:
    """One registered formula. Call it with its values in base units."""

    name: str
    function: Callable[..., float]
    takes: Mapping[str, str]
    gives: str
    symbols: Mapping[str, str]
    us: Printed
    metric: Printed
    holds: Mapping[str, tuple[float, float, str]]
    source: str

    def __call__(self, **values: float) -> float:
        return self.function(**values)

    @property
    def doc(self) -> str:
        """The function's docstring."""
        return inspect.getdoc(self.function) or ""

    @property
    def limits(self) -> str:
        """When it holds and what it leaves out, for a hand: those sentences of the docstring."""
        doc = _in_words(self.doc)
        return doc[doc.index("Holds ") : doc.index("Source: ")].strip()

    @property
    def says(self) -> str:
        """What it finds, for a hand: the docstring's first paragraph."""
        return _in_words(self.doc.partition("\n\n")[0])

    @property
    def title(self) -> str:
        """Its name in words: 'Fast line pull'."""
        words = self.name.replace("bha_", "BHA_").replace("_", " ")
        return words[:1].upper() + words[1:]

    def printed(self, system: str) -> Printed:
        """The printed equation of that system ('us' or 'metric')."""
        return self.us if system == "us" else self.metric

    def holds_in_base(self, name: str) -> tuple[float, float]:
        """The range in which the formula holds for one of its values, in base units."""
        low, high, symbol = self.holds[name]
        factor = unit(symbol, self.takes[name]).factor
        return low * factor, high * factor

    def rule(self) -> Rule:
        """The formula as a step expression may call it."""
        takes = tuple(register(each).dimension for each in self.takes.values())
        return Rule(self.function, takes, register(self.gives).dimension)


def _in_words(doc: str) -> str:
    """A docstring as running text, `hook_load` in it as hook load."""
    return re.sub(r"`(\w+)`", lambda found: found[1].replace("_", " "), " ".join(doc.split()))


FORMULAS: dict[str, Formula] = {}


def registered(
    *,
    symbols: str,
    us: Printed,
    metric: Printed,
    holds: Mapping[str, tuple[float, float, str]],
    source: str,
) -> Callable[[Callable[..., float]], Callable[..., float]]:
    """Register a function as a formula under its own name.

    `symbols` are its result's and then its arguments' symbols, parted by spaces; `holds` gives each argument's range.
    """

    def keep(function: Callable[..., float]) -> Callable[..., float]:
        hints = typing.get_type_hints(function, include_extras=True)
        named = {name: hint.__metadata__[0] for name, hint in hints.items()}
        gives = named.pop("return")
        letters = dict(zip(["return", *named], symbols.split(), strict=True))
        FORMULAS[function.__name__] = Formula(
            function.__name__, function, MappingProxyType(named), gives, MappingProxyType(letters), us, metric,
            MappingProxyType(dict(holds)), source,
        )  # fmt: skip
        return function

    return keep
