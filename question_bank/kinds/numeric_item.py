"""A numeric item: what its file states, compiled once, and the draw."""

import re
from collections.abc import Mapping
from typing import Any

from question_bank.drawing import Drawing, Numbers, Width, width_of
from question_bank.formulas import all_formulas
from question_bank.givens import Drawn, Given
from question_bank.item import Item
from question_bank.item_fields import Fields
from question_bank.kinds.meanings import read_meanings
from question_bank.kinds.numeric import NumericQuestion, Slip
from question_bank.kinds.numeric_fields import read_givens, read_mistakes, read_steps, read_tolerance, read_units
from question_bank.kinds.own_numbers import Work, work
from question_bank.numbers import show
from question_bank.picking import Picker
from question_bank.tolerance import Tolerance
from question_bank.units import Unit, register
from question_bank.working import lines

TRIES = 50
SAID = {"in": "inches"}
"""What a stem says for a unit whose symbol is a word of its own: 'in inches' and not 'in in'."""
DECIMALS = re.compile(r"Give (\w+) decimals?\.")
WORDS = {1: "one", 2: "two", 3: "three", 4: "four"}
NAMED = re.compile(r"(?<!\{)\{(\w+)\}(?!\})")


class NumericItem(Item):
    """Drawn on the grid of the hand's own system; the steps run on floats in base units."""

    kind = "numeric"
    usual_seconds = 90
    own_fields = (
        "asks", "unit", "register", "tolerance", "decimals", "check", "plausible", "alone", "givens", "steps",
        "mistakes", "warn", "allowed", "beside",
    )  # fmt: skip

    def read(self, fields: Fields) -> None:
        self._drawings: dict[tuple[str, frozenset[str]], Drawing] = {}
        self.units = read_units(fields)
        self.register = self.units["us"].register
        self.tolerance = self._tolerance(fields)
        self.decimals = self._decimals(fields)
        self.givens: dict[str, Given] = read_givens(fields)
        self.steps = read_steps(fields, self.givens, self.units, all_formulas())
        self.mistakes = read_mistakes(fields, self.givens, self.steps, self.register, all_formulas())
        self.meanings = read_meanings(fields, self.givens, self.steps)
        self.allowed, self.beside = self._allowed(fields), fields.text("beside")
        self.is_conversion = all(step.is_conversion for step in self.steps)
        self._check_stem()
        self.alone = fields.flag("alone") or self.is_conversion
        if self.steps[-1].name != fields.needed("asks"):
            raise self.fault(
                "asks", f"the last step finds {self.steps[-1].name!r}. Ask for that, or put its step last."
            )

    def draw(self, seed: int, system: str = "us", fixed: Mapping[str, Any] | None = None) -> NumericQuestion:
        """The question of that seed. `fixed` fixes givens: a number in the grid's unit or '300,000 lbf'.

        Raises BankError where no draw of 50 keeps the known wrong ways apart, KeyError for a given that is not there.
        """
        return self._question(seed, system, self.picked(seed, system, fixed or {}))

    def picked(self, seed: int, system: str, fixed: Mapping[str, Any]) -> Numbers:
        """The numbers that a draw of that seed is made of. Raises as `draw` does."""
        if unknown := fixed.keys() - self.givens.keys():
            raise KeyError(f"{self.id} has no given {sorted(unknown)}. Its givens are {list(self.givens)}.")
        decided = self._decided(system, fixed)
        drawing = self.drawing(system, frozenset(decided))
        picker = Picker(seed)
        for _ in range(TRIES):
            numbers = drawing.numbers(picker, decided)
            if numbers is not None and self._is_good(numbers, system):
                return numbers
        raise self.fault(
            "mistakes",
            f"{TRIES} tries in {system!r} gave none that keeps the mistakes apart from the answer and from each other.",
        )

    def drawing(self, system: str, fixed: frozenset[str] = frozenset()) -> Drawing:
        """The compiled draw of a system, kept after its first use."""
        kept = self._drawings.get((system, fixed))
        if kept is None:
            kept = self._drawings[system, fixed] = Drawing(
                self.givens,
                {step.name: step.expression for step in self.steps},
                {each.name: each.formulas[system] for each in self.mistakes if system in each.formulas},
                self._width(system),
                system,
                fixed,
            )
        return kept

    def _decided(self, system: str, fixed: Mapping[str, Any]) -> dict[str, Drawn]:
        """The givens that are not drawn: the fixed ones, and those that a table gives for them."""
        found: dict[str, Drawn] = {}
        for name, given in self.givens.items():
            if name in fixed:
                found[name] = given.fixed(fixed[name], system)
            elif given.by in found:
                number = found[given.by].number
                if number not in given.table:
                    raise self.fault(f"givens {name}", f"its table has no row for {given.by} = {number}.")
                found[name] = given.fixed(given.table[number], system)
        return found

    def worked(self, givens: Mapping[str, float]) -> dict[str, float]:
        """Givens and every step's value, in base units. Raises ExpressionError."""
        values = dict(givens)
        for step in self.steps:
            values[step.name] = step.expression.evaluate(values)
        return values

    def work(
        self, given: Mapping[str, str], system: str = "us", comma: bool = False, chosen: Mapping[str, str] | None = None
    ) -> Work:
        """The same steps with numbers as typed; a bare one takes the chosen unit, or the given's own.

        Raises NumbersError, an AnswerError, for texts and ExpressionError for a sum without an answer.
        """
        return work(self, given, system, comma, chosen)

    def labels(self, system: str) -> dict[str, str]:
        """What each given is called in a working of that system."""
        return {name: given.labels[system] for name, given in self.givens.items()}

    def _question(self, seed: int, system: str, numbers: Numbers) -> NumericQuestion:
        unit = self.units[system]
        value = numbers.values[self.steps[-1].name] / unit.factor
        key = self.key(value, unit, system)
        # A rig sheet may say 250 st where this item reckons in kN: both stand there, and the working turns it first.
        own = {name: each.own_unit(system) for name, each in self.givens.items()}
        shown = {
            name: each.text if self.alone and each.unit == own[name] else each.beside(system)
            for name, each in numbers.givens.items()
        }
        relative = self.tolerance.is_share
        return NumericQuestion(
            **self.in_common(seed, system, self.put_in(shown, system)),
            register=self.register,
            unit=unit.symbol,
            units=self._offered(unit),
            value=value,
            half_width=self.tolerance.half_width(1.0 if relative else value, unit, system),
            relative=relative,
            side=self.tolerance.side,
            conversion=self.is_conversion,
            wanted=self.tolerance.in_words(system),
            key_text=key,
            key_both=self.key_both(value, unit, key, system),
            givens=[[self.labels(system)[name], text] for name, text in shown.items()],
            working=lines(self.steps, numbers.givens, self.labels(system), numbers.values, system, key, own),
            mistakes=[
                Slip(
                    each.name,
                    each.title,
                    numbers.slips[each.name] / unit.factor,
                    self.filled(each.tell[system], system),
                )
                for each in self.mistakes
                if each.name in numbers.slips
            ],
        )

    def _width(self, system: str) -> Width:
        return width_of(self.tolerance, self.units[system], system)

    def _is_good(self, numbers: Numbers, system: str) -> bool:
        """What a kind asks of a pick beyond its slips standing apart by the width."""
        return True

    def _tolerance(self, fields: Fields) -> Tolerance:
        return read_tolerance(fields, self.units)

    def _decimals(self, fields: Fields) -> int | None:
        """How many decimals the stem asks for and the key has, idle zeros too; None where the stem asks for none."""
        said = DECIMALS.search(self.stem)
        if said is None and "decimals" not in fields.table:
            return None
        number = fields.decimal("decimals")
        if said is None or WORDS.get(number) != said[1]:
            raise self.fault("decimals", "write in the stem 'Give three decimals.', and here decimals = 3.")
        if self.tolerance.side != "either":
            raise self.fault("decimals", "what is rounded to the safe side has its figures from the tolerance.")
        return int(number)

    def put_in(self, shown: Mapping[str, str], system: str) -> str:
        """The stem with each given as it is shown, and the asked unit, in their places."""
        asked = self.units[system].symbol
        texts = {**shown, "asked": SAID.get(asked, asked)}
        return NAMED.sub(lambda found: texts[found[1]], self.stem)

    def _allowed(self, fields: Fields) -> bool:
        """Whether the answer is what a rating or a rule allows or needs, so that its rounding is to the safe side."""
        if fields.flag("allowed") and self.tolerance.side == "either":
            raise self.fault("allowed", "only an answer that is rounded down or up can be to the safe side.")
        return fields.flag("allowed")

    def _check_stem(self) -> None:
        """The stem names each given once, in the file's order, and last 'in {asked}': a slip there is then seen."""
        names = NAMED.findall(self.stem)
        wanted = [*self.givens, "asked"] if self.units["us"].symbol else list(self.givens)
        if names != wanted:
            told, needed = (", ".join(f"{{{name}}}" for name in each) for each in (names, wanted))
            raise self.fault("stem", f"it names {told}; it must name {needed}, each once and in this order.")
        if "asked" in wanted and "in {asked}" not in self.stem:
            raise self.fault("stem", "write the unit that is asked as 'in {asked}'.")

    def key(self, value: float, unit: Unit, system: str) -> str:
        """The answer as printed: with the decimals that the stem asks for, else the figures the tolerance is worth."""
        if self.decimals is not None:
            return f"{value:,.{self.decimals}f} {unit.symbol}".strip()
        return f"{self.tolerance.print_key(value, unit, system)} {unit.symbol}".strip()

    def printed_key(self, value: float, system: str) -> str:
        """A value in base units as this item prints its answer, with the asked unit."""
        unit = self.units[system]
        return self.key(value / unit.factor, unit, system)

    def key_both(self, value: float, unit: Unit, key: str, system: str) -> str:
        """The asked unit first, its companion beside it: '44,590 lbf (198.3 kN)'."""
        if unit.pair is None:
            return key
        other = register(self.register).unit(unit.pair)
        beside = value * unit.factor / other.factor
        # A tally that is right to 0.01 ft needs more than four figures in metres, too.
        fine = self.tolerance.kind == "absolute"
        text = self.tolerance.print_key(beside, other, system) if fine else show(beside, 4, self.tolerance.side)
        return f"{key} ({text} {other.symbol})"

    def _offered(self, unit: Unit) -> list[str]:
        """The units of the select, the asked one first; of a conversion there is no other.

        A plain number, the unit '', is offered where it is asked and there are others; where it is not, a number alone
        is read in the asked unit.
        """
        if self.is_conversion:
            return [unit.symbol]
        offered = register(self.register).offered(unit.symbol)
        return offered if any(offered) else []
