"""The hand's own page of hands-on tasks: what is asked, what was seen, who signed. It prints as evidence."""

from flask import Blueprint, render_template

from webapp import hands_on
from webapp.at_hand import me, store
from webapp.records import crews

views = Blueprint("my_tasks", __name__)


@views.get("/record/tasks")
def show() -> str:
    """All hands-on tasks of who is asking."""
    member = crews.membership_now(store(), me().id)
    tasks = hands_on.of_hand(me().id, member.crew.rig if member else None)
    return render_template("signoffs/my_tasks.html", hands_on=tasks, member=member)
