"""The invented house is manned: rigs, crews, who coordinates them and who is in them."""

from collections.abc import Mapping
from datetime import time, timedelta

from webapp.demo.history import Stage
from webapp.demo.scenario import Scenario
from webapp.records import crews, rights
from webapp.records.crews import Crew
from webapp.records.people import Person

EARLY = time(6)
COORDINATOR = "rosalind"


def man(stage: Stage, scenario: Scenario, people: Mapping[str, Person]) -> dict[str, Crew]:
    """Make the rigs and crews, put the people in them; the crews by their key in the scenario."""
    lead = people[COORDINATOR].id
    start = stage.at(0, EARLY)
    rights.make_coordinator(stage.store, lead, None, start)
    rigs = {
        key: crews.add_rig(stage.store, rig["name"], rig["rig_type"], lead, start) for key, rig in scenario.rigs.items()
    }
    made = {}
    for key, crew in scenario.crews.items():
        first = stage.first + timedelta(crew["first_day"])
        made[key] = crews.add_crew(
            stage.store, rigs[crew["rig"]], crew["name"],
            days_on=14, days_off=14, first_day=first, nights_from=8, by=lead, now=start,
        )  # fmt: skip
        rights.give(stage.store, lead, made[key].id, "coordinator", lead, start)
    for key, hand in scenario.people.items():
        if hand.crew:
            crews.join(stage.store, people[key], made[hand.crew].id, hand.job, stage.at(hand.joins, EARLY))
    return made
