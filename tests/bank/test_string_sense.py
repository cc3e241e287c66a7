"""What a tool pusher knows of strings, turning, connections and hole fill, for every number in a formula's range."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from question_bank.formulas import formula
from tests.bank.formula_ranges import near, within

# String


@given(within("buoyancy_factor"))
def test_mud_takes_weight_off_steel(values):
    assert formula("buoyancy_factor")(mud_density=0) == 1
    assert 0 < formula("buoyancy_factor")(**values) <= 1
    heavier = values["mud_density"] + 100
    assert formula("buoyancy_factor")(mud_density=heavier) < formula("buoyancy_factor")(**values)


@given(st.floats(900, 2_500))
def test_buoyancy_is_the_weight_of_the_mud_that_the_steel_pushes_away(mud_density):
    """One metre of 1,000 N: displacement times the mud's weight is what buoyancy takes off."""
    displaced = formula("steel_displacement")(weight_per_length=1_000)
    lost = formula("mud_pressure")(mud_density=mud_density, height=1) * displaced
    assert 1_000 - lost == near(1_000 * formula("buoyancy_factor")(mud_density=mud_density))


@given(within("hook_load_with_block"))
def test_block_gear_comes_off_as_it_went_on(values):
    hook_load = formula("hook_load_with_block")(**values)
    found = formula("string_under_block")(hook_load=hook_load, travelling_weight=values["travelling_weight"])
    assert found == near(values["string_weight"])


@given(within("inclined_string_load"))
def test_an_inclined_string_hangs_less(values):
    straight = formula("weight_in_air")(length=values["length"], weight_per_length=values["weight_per_length"])
    in_mud = formula("string_in_mud")(air_weight=straight, buoyancy=values["buoyancy"])
    assert 0 < formula("inclined_string_load")(**values) <= in_mud * (1 + 1e-12)
    assert formula("inclined_string_load")(**{**values, "inclination": 0}) == near(in_mud)


@given(within("string_stretch"))
def test_stretch_leads_back_to_the_length_that_is_free(values):
    stretch = formula("string_stretch")(**values)
    found = formula("free_pipe")(
        stretch=stretch, plain_end_weight=values["plain_end_weight"], pull_difference=values["pull"]
    )
    assert found == near(values["length"])


@given(st.floats(0.09, 0.17), st.floats(0.3, 0.9), st.floats(0.05, 2), st.floats(20_000, 600_000))
def test_free_pipe_is_the_same_from_weight_and_from_wall_area(outside, bore, stretch, pull):
    tube = {"outside": outside, "inside": outside * bore}
    by_weight = formula("free_pipe")(
        stretch=stretch, plain_end_weight=formula("plain_end_weight")(**tube), pull_difference=pull
    )
    by_area = formula("free_pipe_by_area")(
        stretch=stretch, wall_area=formula("wall_area")(**tube), pull_difference=pull
    )
    assert by_weight == near(by_area)


@given(within("wind_up"))
def test_wind_up_grows_with_length_and_a_turn_takes_its_torque(values):
    turns = formula("wind_up")(**values)
    one = {name: values[name] for name in ("shear_modulus", "polar_moment", "length")}
    assert formula("torque_for_a_turn")(**one) * turns == near(values["torque"])
    assert formula("wind_up")(**{**values, "length": 2 * values["length"]}) == near(2 * turns)


@given(within("slip_crush_ratio"))
def test_slips_never_make_pipe_stronger_and_longer_slips_squeeze_less(values):
    ratio = formula("slip_crush_ratio")(**values)
    assert ratio > 1
    assert formula("slip_crush_ratio")(**{**values, "slip_length": 1.5 * values["slip_length"]}) < ratio
    assert formula("slip_limited_load")(tensile_yield=1.0, crush_ratio=ratio) < 1


@given(st.floats(0.03, 0.3))
def test_the_squeeze_is_the_tangent_of_taper_and_friction(friction):
    taper = math.radians(9 + 27 / 60 + 45 / 3_600)
    assert formula("slip_squeeze_factor")(friction=friction) == pytest.approx(
        1 / math.tan(taper + math.atan(friction)), rel=1e-4
    )


# Rotating and connections


@given(within("rotary_power"))
def test_torque_and_power_lead_back_to_each_other(values):
    power = formula("rotary_power")(**values)
    assert formula("torque_at_power")(power=power, turning=values["turning"]) == near(values["torque"])
    assert formula("rotary_power")(torque=values["torque"], turning=0) == 0


@given(within("geared_torque"), st.floats(1, 20))
def test_a_gear_without_loss_changes_no_power(values, turning):
    values["efficiency"] = 1
    torque = formula("geared_torque")(**values)
    slower = formula("geared_speed")(turning=turning, gear_ratio=values["gear_ratio"])
    before = formula("rotary_power")(torque=values["torque"], turning=turning)
    assert formula("rotary_power")(torque=torque, turning=slower) == near(before)


@given(within("tong_torque"))
def test_a_square_line_turns_hardest(values):
    square = formula("square_tong_torque")(line_pull=values["line_pull"], tong_arm=values["tong_arm"])
    torque = formula("tong_torque")(**values)
    assert 0 < torque <= square
    assert formula("tong_torque")(**{**values, "angle": 0.25}) == near(square)
    back = formula("tong_line_pull")(torque=torque, tong_arm=values["tong_arm"], angle=values["angle"])
    assert back == near(values["line_pull"])


@given(within("joint_height_tongs_square"))
def test_opposed_tongs_must_work_lower(values):
    square, opposed = formula("joint_height_tongs_square")(**values), formula("joint_height_tongs_opposed")(**values)
    assert opposed == near(square / math.sqrt(2))


@given(within("connections_for"))
def test_connections_are_whole_and_cover_the_interval(values):
    made = formula("connections_for")(**values)
    assert made == int(made)
    assert (made - 1) * values["added_length"] < values["interval"] * (1 + 1e-8)
    assert made * values["added_length"] >= values["interval"] * (1 - 1e-8)


@given(st.integers(1, 400), st.integers(2_700, 13_500))
def test_whole_stands_are_counted_whole_however_the_floats_fall(stands, hundredths):
    """The tape reads to 0.01 ft; the quotient of two such lengths may come out as 50.00000000000001."""
    foot = 0.3048
    length = hundredths / 100 * foot
    assert formula("connections_for")(interval=stands * hundredths / 100 * foot, added_length=length) == stands
    tank = {"usable_volume": stands * length * 0.004, "stand_length": length, "displacement": 0.004}
    assert formula("stands_a_tank")(**tank) == stands


@given(within("effective_rate"))
def test_connections_always_cost_rate(values):
    assert formula("effective_rate")(**values) < values["drilling_rate"]
    assert formula("effective_rate")(**{**values, "connection_time": 0}) == near(values["drilling_rate"])


@given(within("bearing_life", "rating", "exponent", "turning"))
def test_a_bearing_at_its_rating_lasts_a_million_turns_and_half_the_load_eight_times_as_long_at_least(values):
    life = formula("bearing_life")(load=values["rating"], **values)
    assert formula("turns_made")(turning=values["turning"], time=life) == near(1_000_000)
    assert formula("bearing_life")(load=values["rating"] / 2, **values) >= 8 * life * (1 - 1e-9)


# Stands and hole fill


@given(within("stands_by_weight"))
def test_the_setback_carries_the_stands_counted_and_not_one_more(values):
    stands = formula("stands_by_weight")(**values)
    one = {name: values[name] for name in ("stand_length", "weight_per_length")}
    assert formula("setback_of")(stands=stands, **one) <= values["setback_rating"] * (1 + 1e-8)
    assert formula("setback_of")(stands=stands + 1, **one) > values["setback_rating"] * (1 - 1e-8)


@given(within("annulus_capacity"))
def test_hole_is_annulus_and_pipe_together(values):
    hole, pipe = formula("bore_capacity")(bore=values["hole"]), formula("bore_capacity")(bore=values["pipe"])
    assert formula("annulus_capacity")(**values) == pytest.approx(hole - pipe, rel=1e-9, abs=1e-12)


@given(within("level_drop"))
def test_wet_pipe_drops_the_level_more(values):
    wetter = {**values, "displacement": values["displacement"] * 1.1}
    assert formula("level_drop")(**wetter) > formula("level_drop")(**values) > 0
