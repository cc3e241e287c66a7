"""The forecast on a page of its own: plot and table, what it counts on, and what will not be asked in time."""

from flask import Blueprint, render_template

from webapp.at_hand import me, store
from webapp.forecast_shown import pictured
from webapp.my_readiness import TOO_EARLY, my_readiness, never_asked_by_lesson
from webapp.planning import my_rotation
from webapp.reading import readings
from webapp.records import attempts
from webapp.study.forecast import KEPT_OFF, KEPT_ON

views = Blueprint("forecast", __name__)


@views.get("/record/forecast")
def show() -> str:
    """What is foretold of the mark on the exam day."""
    ready = my_readiness()
    unread = [each for each in readings() if not each.is_done]
    return render_template(
        "record/forecast.html",
        ready=ready,
        picture=ready and pictured(ready),
        answers=attempts.studied(store(), me().id).answers,
        too_early=TOO_EARLY,
        rotation=my_rotation(),
        kept_on=KEPT_ON,
        kept_off=KEPT_OFF,
        unread=len(unread),
        minutes_to_read=sum(each.minutes_left for each in unread),
        never=never_asked_by_lesson(ready) if ready else [],
    )
