"""What a tool pusher knows of tackle, crown, drum, line and brakes, held for every number in a formula's range."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from question_bank.formulas import formula
from tests.bank.formula_ranges import LINES, LOAD, SHEAVE, near, within

# Tackle


@given(SHEAVE, st.integers(1, 15))
def test_more_lines_lose_more_and_pull_the_fast_line_less(sheave_factor, lines):
    efficiency, factor = formula("tackle_efficiency"), formula("fast_line_factor")
    few, more = {"lines": lines, "sheave_factor": sheave_factor}, {"lines": lines + 1, "sheave_factor": sheave_factor}
    assert 0 < efficiency(**more) < efficiency(**few) <= 1
    assert factor(**more) < factor(**few)


@given(st.integers(1, 16))
def test_sheaves_without_friction_lose_nothing(lines):
    assert formula("tackle_efficiency")(lines=lines, sheave_factor=1) == 1
    assert formula("tackle_efficiency")(lines=lines, sheave_factor=1 + 1e-7) == pytest.approx(1, abs=1e-4)
    assert formula("dead_line_pull_hoisting")(hook_load=8.0, lines=lines, sheave_factor=1) == near(8.0 / lines)


@given(LOAD, LINES, SHEAVE)
def test_dead_line_and_fast_line_stand_on_the_two_sides_of_the_even_share(hook_load, lines, sheave_factor):
    share = formula("static_line_pull")(hook_load=hook_load, lines=lines)
    efficiency = formula("tackle_efficiency")(lines=lines, sheave_factor=sheave_factor)
    fast = formula("fast_line_pull")(hook_load=hook_load, lines=lines, efficiency=efficiency)
    dead = formula("dead_line_pull_hoisting")(hook_load=hook_load, lines=lines, sheave_factor=sheave_factor)
    assert dead < share < fast
    assert fast == near(dead * sheave_factor**lines)
    by_factor = formula("fast_line_factor")(lines=lines, sheave_factor=sheave_factor)
    assert formula("fast_line_pull_by_factor")(hook_load=hook_load, fast_line_share=by_factor) == near(fast)


@given(LOAD, LINES, SHEAVE)
def test_the_lines_of_the_block_carry_the_hook_load(hook_load, lines, sheave_factor):
    """Sheave by sheave from the dead line, each line pulls the factor more: together they are the hook load."""
    dead = formula("dead_line_pull_hoisting")(hook_load=hook_load, lines=lines, sheave_factor=sheave_factor)
    assert sum(dead * sheave_factor**at for at in range(int(lines))) == near(hook_load)


@given(LOAD, LINES)
def test_a_perfect_tackle_gives_every_line_its_share_and_the_indicator_gives_it_back(hook_load, lines):
    pull = formula("fast_line_pull")(hook_load=hook_load, lines=lines, efficiency=1)
    assert pull == formula("static_line_pull")(hook_load=hook_load, lines=lines)
    assert formula("indicated_hook_load")(dead_line_pull=pull, lines=lines) == near(hook_load)


@given(within("fast_line_pull", "hook_load", "efficiency"), st.floats(0.1, 3), LINES)
def test_friction_costs_power_and_never_distance(values, block_speed, lines):
    """Fast-line pull times fast-line speed is hook power over efficiency."""
    pull = formula("fast_line_pull")(lines=lines, **values)
    speed = formula("fast_line_speed")(block_speed=block_speed, lines=lines)
    at_hook = formula("hook_power")(hook_load=values["hook_load"], block_speed=block_speed)
    at_drum = formula("drawworks_power")(power_at_hook=at_hook, efficiency=values["efficiency"])
    assert pull * speed == near(at_drum)
    assert formula("hook_power_from_drawworks")(drawworks_output=at_drum, efficiency=values["efficiency"]) == near(
        at_hook
    )
    assert formula("block_speed_at_power")(power_at_hook=at_hook, hook_load=values["hook_load"]) == near(block_speed)


# Crown and mast


@given(LOAD, LINES, st.floats(0.6, 0.99))
def test_the_crown_carries_more_than_the_hook_and_most_while_hoisting(hook_load, lines, efficiency):
    still = formula("derrick_load_static")(hook_load=hook_load, lines=lines)
    up = formula("derrick_load_hoisting")(hook_load=hook_load, lines=lines, efficiency=efficiency)
    heaviest = formula("equivalent_derrick_load")(hook_load=hook_load, lines=lines)
    assert hook_load < still < up
    assert still < heaviest
    assert formula("derrick_load_hoisting")(hook_load=hook_load, lines=lines, efficiency=1) == near(still)
    assert formula("crown_rating_as_hook_load")(crown_rating=still, lines=lines) == near(hook_load)


@given(LOAD, LINES, LINES)
def test_more_lines_allow_more_on_the_hook_at_the_same_crown_load(hook_load, lines, other):
    there = formula("hook_load_at_same_crown_load")
    found = there(hook_load=hook_load, lines=lines, other_lines=other)
    assert (found > hook_load) == (other > lines) or other == lines
    assert there(hook_load=found, lines=other, other_lines=lines) == near(hook_load)
    gross = formula("gross_nominal_capacity")(hook_rating=hook_load, lines=lines)
    assert formula("hook_load_from_gross")(gross_capacity=gross, lines=lines) == near(hook_load)


@given(within("guy_tension"))
def test_a_guy_pulls_more_than_it_holds(values):
    pull, down = formula("guy_tension")(**values), formula("guy_pull_down")(**values)
    assert pull > values["side_load"]
    assert math.hypot(values["side_load"], down) == near(pull)


# Drum, line and brakes


@given(within("capstan_ratio", "friction"), st.floats(0, 4), st.floats(0, 4))
def test_wraps_multiply_and_no_wrap_holds_nothing_back(values, first, second):
    ratio = formula("capstan_ratio")
    assert ratio(wraps=0, **values) == 1
    assert ratio(wraps=first + second, **values) == near(ratio(wraps=first, **values) * ratio(wraps=second, **values))
    left = formula("pull_behind_wraps")(pull=1_000.0, wraps=first, **values)
    assert left * ratio(wraps=first, **values) == near(1_000.0)


@given(within("layer_diameter", "barrel", "rope"), st.integers(1, 5))
def test_upper_layers_are_larger_and_nested_ones_less_so(values, layer):
    stacked, nested = formula("layer_diameter"), formula("nested_layer_diameter")
    assert stacked(layer=layer + 1, **values) > stacked(layer=layer, **values)
    assert nested(layer=1, **values) == near(stacked(layer=1, **values))
    assert nested(layer=layer + 1, **values) < stacked(layer=layer + 1, **values)


@given(within("length_of_laps"))
def test_laps_and_their_length_lead_back_to_each_other(values):
    length = formula("length_of_laps")(**values)
    assert formula("wraps_for")(line=length, wrap_diameter=values["barrel"] + values["rope"]) == near(values["laps"])


@given(within("line_on_drum", "barrel"), st.integers(1, 5), st.integers(20, 60))
def test_a_drum_holds_its_layers(values, layers, wraps):
    """Whole stacked layers, counted wrap by wrap, come to what the spooling formula says."""
    rope = 0.035
    by_layer = (
        formula("length_of_laps")(laps=wraps, rope=0, barrel=formula("layer_diameter")(rope=rope, layer=at, **values))
        for at in range(1, layers + 1)
    )
    spooled = formula("line_on_drum")(depth=layers * rope, face=wraps * rope, rope_as_wound=rope, **values)
    assert sum(by_layer) == near(spooled)


@given(within("round_trip_work"))
def test_a_round_trip_grows_with_depth_and_weight(values):
    trip = formula("round_trip_work")
    for name in ("depth", "pipe_in_mud", "travelling_weight"):
        assert trip(**{**values, name: values[name] * 1.1}) > trip(**values)
    heavier = {**values, "travelling_weight": values["travelling_weight"] + 50_000}
    added = formula("extra_work_a_trip")(depth=values["depth"], extra_weight=50_000)
    assert trip(**heavier) - trip(**values) == pytest.approx(added, rel=1e-6)


@given(within("casing_work"))
def test_setting_casing_is_half_a_round_trip(values):
    trip = formula("round_trip_work")(
        depth=values["depth"],
        stand_length=values["joint_length"],
        pipe_in_mud=values["casing_in_mud"],
        travelling_weight=values["travelling_weight"],
        excess=0,
    )
    assert formula("casing_work")(**values) == near(trip / 2)


@given(st.floats(1e8, 1e10), st.floats(1e8, 1e10))
def test_a_core_counts_as_drilling_without_a_ream_and_a_short_trip_half_of_that(start, end):
    core = formula("coring_work")(trip_at_end=end, trip_at_start=start)
    assert core == near(formula("drilling_work")(factor=2, trip_at_end=end, trip_at_start=start))
    assert core == near(2 * formula("short_trip_work")(trip_from_deep=end, trip_from_top=start))


@given(within("hook_load_for_factor"))
def test_the_hook_limit_of_a_design_factor_leads_to_that_factor(values):
    limit = formula("hook_load_for_factor")(**values)
    pull = formula("fast_line_pull")(hook_load=limit, lines=values["lines"], efficiency=values["efficiency"])
    found = formula("design_factor")(nominal_strength=values["nominal_strength"], line_pull=pull)
    assert found == near(values["least_factor"])


@given(within("stopping_distance"))
def test_twice_the_speed_takes_more_than_twice_the_distance(values):
    distance = formula("stopping_distance")
    assert distance(**values) > formula("run_on")(speed=values["speed"], reaction_time=values["reaction_time"])
    assert distance(**{**values, "speed": 2 * values["speed"]}) > 2 * distance(**values)


@given(within("mean_brake_power"))
def test_brake_heat_is_the_same_by_time_and_by_speed(values):
    speed = values["travel"] / values["time"]
    power = formula("mean_brake_power")(**values)
    assert formula("brake_power")(hook_load=values["hook_load"], lowering_speed=speed) == near(power)
    energy = formula("brake_energy")(hook_load=values["hook_load"], travel=values["travel"])
    assert power * values["time"] == near(energy)
