"""Tests of the modules: which there are, what each asks, and the beginning of one."""

import secrets

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.my_tests import ModuleTest, begin, my_test, my_tests, rules
from webapp.records.module_results import MODULE, REFRESHER
from webapp.study.marking import needed

views = Blueprint("tests", __name__)


@views.get("/tests")
def show() -> str:
    """The test of each module: what can be taken, when the last one was, and what it came to."""
    return render_template("tests/list.html", tests=my_tests())


@views.get("/tests/<module>/start")
def ready(module: str) -> str:
    """What a test asks, before it is begun."""
    test = _found(module)
    kind = _kind(test)
    pass_mark, must_pass = rules(test.module)
    return render_template(
        "tests/start.html",
        test=test,
        kind=kind,
        how_many=test.how_many(kind),
        lessons=test.lessons_in(kind),
        needed=needed(pass_mark, test.how_many(kind)),
        must=must_pass and any(each.must_pass for each in test.askable(kind)),
    )


@views.post("/tests/<module>/start")
def start(module: str) -> Response:
    """Draw the test and lead to its first question; or to the one that is open."""
    test = _found(module)
    sitting = begin(test.module.id, _kind(test), secrets.randbelow(2**31))
    if sitting is None:
        return redirect(url_for(".ready", module=module), 303)
    return redirect(url_for("sittings.show", sitting=sitting), 303)


def _kind(test: ModuleTest) -> str:
    """The refresher where one is called for, unless the whole module's test is asked for."""
    return REFRESHER if test.called_for and request.values.get("kind") != MODULE else MODULE


def _found(module: str) -> ModuleTest:
    return my_test(module) or abort(404)
