"""The hand's own page of hands-on tasks: what is asked, what was seen, who signed. It prints as evidence."""

from flask import Blueprint, render_template

from webapp import hands_on

views = Blueprint("my_tasks", __name__)


@views.get("/record/tasks")
def show() -> str:
    """All hands-on tasks of who is asking."""
    member, tasks = hands_on.mine()
    return render_template("signoffs/my_tasks.html", member=member, hands_on=tasks)
