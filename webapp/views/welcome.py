"""The first page, and the switches of the top bar."""

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.access import next_page, open_to_all
from webapp.at_hand import ENTRY, THEME, UNITS, me, store
from webapp.records import people

views = Blueprint("welcome", __name__)

A_YEAR = 31_536_000


@views.get("/")
@open_to_all
def show() -> Response | str:
    """Two ways in, and what needs no account. Who is signed in goes to Today."""
    return redirect(url_for("today.show"), 303) if me() else render_template("welcome.html")


@views.post("/theme")
@open_to_all
def theme() -> Response:
    """A light page, a dark one, or as the device has it: kept in the browser."""
    return _remembered(THEME, _one_of("theme", "day", "night", "device"))


@views.post("/units")
@open_to_all
def units() -> Response:
    """US or metric first, from the next question on: a setting of the person, or kept in a visitor's browser."""
    system = _one_of("system", "us", "metric")
    if me() is None:
        return _remembered(UNITS, system)
    people.change_settings(store(), me().id, system=system)
    return _back()


@views.post("/entry")
@open_to_all
def entry() -> Response:
    """Number and unit in two fields or typed freely in one: a setting of the person, or kept in the browser."""
    way = _one_of("entry", "free", "fields")
    if me() is None:
        return _remembered(ENTRY, way)
    people.change_settings(store(), me().id, free_entry=way == "free")
    return _back()


def _one_of(field: str, *values: str) -> str:
    value = request.form.get(field)
    if value not in values:
        abort(400)
    return value


def _remembered(cookie: str, value: str) -> Response:
    response = _back()
    secure = request.is_secure
    response.set_cookie(cookie, value, max_age=A_YEAR, httponly=True, samesite="Lax", secure=secure)
    return response


def _back() -> Response:
    """To the page where the switch was pressed. The form says which; another site's address is not gone to."""
    return redirect(next_page(request.values.get("back"), otherwise="/"), 303)
