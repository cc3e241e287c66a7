"""Who is asking, and what may they do: sessions, form tokens, the slowing of guesses, and headers.

Every page is closed until its view carries `@open_to_all`. `install(app)` puts all of it in force.
"""

import hashlib
import hmac
import math
import secrets
from collections.abc import Callable
from datetime import timedelta
from urllib.parse import urlencode, urlsplit

from flask import Flask, Response, abort, current_app, g, redirect, request

from webapp.at_hand import now, store
from webapp.records import house, sessions, tries
from webapp.records.people import Person, name_key

READING = ("GET", "HEAD", "OPTIONS")
TOKEN_FIELD = "token"
COOKIE_LENGTH = 43

WINDOW = timedelta(minutes=15)
# Failed tries in one window: by name and address together, by name from anywhere, by address for any name.
LIMITS = {"pair": 5, "name": 20, "address": 60}
# Codes that nobody was given, in one window from one address: a slip is read badly now and then, by a whole crew.
MOST_CODES = 20

HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; "
        "connect-src 'self'; manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; "
        "frame-ancestors 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    # Not no-referrer: with that, browsers send the origin of our own forms as null, and we check it.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=(), browsing-topics=()",
}
HSTS = "max-age=31536000"


def install(app: Flask) -> None:
    """Close all pages but the open ones, check every form, bound what is sent, and set the headers."""
    app.config["MAX_CONTENT_LENGTH"] = 64 * 1024
    app.config["MAX_FORM_MEMORY_SIZE"] = 64 * 1024
    app.config["MAX_FORM_PARTS"] = 200
    app.before_request(_make_room)
    app.before_request(_find_person)
    app.before_request(_check_form)
    app.before_request(_closed_by_default)
    app.after_request(_set_cookie)
    app.after_request(_set_headers)
    app.add_template_global(csrf_token, "csrf_token")
    if app.has_static_folder:
        open_to_all(app.view_functions["static"])


def open_to_all(view: Callable) -> Callable:
    """Mark a view that needs nobody signed in. Put it right under the route decorators."""
    view.open_to_all = True
    return view


def sign_in(person: Person, show_once: str | None = None) -> None:
    """Begin a session with a new id for this browser; one that it had before ends."""
    sign_out()
    value = secrets.token_urlsafe(32)
    sessions.open_session(store(), _hash(value), person.id, now(), show_once)
    g.person = person
    g.cookie = value


def sign_out() -> None:
    """End this browser's session on the server and take its cookie away."""
    if g.get("person") is not None:
        sessions.end(store(), _hash(_cookie()))
    g.person = None
    g.cookie = ""


def take_show_once() -> str | None:
    """The text that waits for this session to be shown once, such as a recovery code, or None."""
    return sessions.take_show_once(store(), _hash(_cookie()))


def csrf_token() -> str:
    """What every form sends back in the field `token`. A visitor without a cookie gets one, but no row."""
    if not _cookie():
        g.cookie = secrets.token_urlsafe(32)
    g.token_shown = True
    return _token(_cookie())


def next_page(path: str | None, otherwise: str = "/today") -> str:
    """Where to go after signing in: the path that was asked for if it is one of ours, else the other."""
    if not path or not path.startswith("/") or path.startswith(("//", "/\\")) or not path.isprintable():
        return otherwise
    return path


def throttle(name: str, address: str) -> int:
    """The seconds to wait before the next try to sign in as that name from that address; 0 is at once."""
    at, waits = now(), [0]
    for kind, key in _keys(name, address).items():
        failed = tries.since(store(), key, at - WINDOW)
        if len(failed) >= LIMITS[kind]:
            until = failed[-LIMITS[kind]] + WINDOW
            waits.append(math.ceil((until - at).total_seconds()))
    return max(waits)


def failed_try(name: str, address: str) -> None:
    """Count a failed try to sign in or to use a recovery code."""
    tries.add(store(), list(_keys(name, address).values()), now(), forget_before=now() - WINDOW)


def good_try(name: str, address: str) -> None:
    """Forget the failed tries at that name. Those of the address stay: others may be guessing from there."""
    keys = _keys(name, address)
    tries.clear(store(), [keys["pair"], keys["name"]])


def throttle_codes(address: str) -> int:
    """The seconds to wait before the next code of a slip or a set-up address is looked at; 0 is at once."""
    failed = tries.since(store(), _signed(f"code {address}"), now() - WINDOW)
    if len(failed) < MOST_CODES:
        return 0
    return math.ceil((failed[-MOST_CODES] + WINDOW - now()).total_seconds())


def failed_code(address: str) -> None:
    """Count a code that nobody was given."""
    tries.add(store(), [_signed(f"code {address}")], now(), forget_before=now() - WINDOW)


def waiting(seconds: int) -> str:
    """The sentence for somebody who has to wait so long."""
    minutes = math.ceil(seconds / 60)
    return f"Too many tries. Wait {minutes} {'minute' if minutes == 1 else 'minutes'}, then try again."


def takes_much(most: int) -> Callable:
    """Mark a view that takes a form of so many bytes. Put it right under the route decorators."""

    def mark(view: Callable) -> Callable:
        view.takes_much = most
        return view

    return mark


def _make_room() -> None:
    most = getattr(current_app.view_functions.get(request.endpoint), "takes_much", None)
    if most:
        request.max_content_length = request.max_form_memory_size = most


def _find_person() -> None:
    g.person = None
    if request.endpoint == "static":
        return  # A style sheet is the same for all, and browsers may keep it.
    value = _cookie()
    session = sessions.find(store(), _hash(value), now()) if value else None
    g.person = session and session.person


def _check_form() -> None:
    """Refuse what changes something unless it comes from a form of ours, shown to this very browser."""
    if request.method in READING:
        return
    sent = request.form.get(TOKEN_FIELD, "")
    known = _cookie() and hmac.compare_digest(sent.encode(), _token(_cookie()).encode())
    if not _from_our_pages() or (not known and not _will_be_asked_to_sign_in()):
        abort(403, "This form was not from a page that you have open now. Open the page again and send it once more.")


def _from_our_pages() -> bool:
    """What the browser says of where a form came from; a browser that says nothing is judged by its token alone."""
    site = request.headers.get("Sec-Fetch-Site")
    if site is not None:
        return site in ("same-origin", "none")
    origin = request.headers.get("Origin")
    return origin is None or urlsplit(origin).netloc == request.host


def _will_be_asked_to_sign_in() -> bool:
    return g.person is None and not _is_open()


def _closed_by_default() -> Response | None:
    if request.endpoint is None or g.person is not None or _is_open():
        return None
    asked = "?" + urlencode({"next": request.full_path.rstrip("?")}) if request.method in READING else ""
    return redirect("/sign-in" + asked, 303)


def _is_open() -> bool:
    return getattr(current_app.view_functions.get(request.endpoint), "open_to_all", False)


def _set_cookie(response: Response) -> Response:
    if "cookie" not in g:
        return response
    value = g.cookie
    secure = current_app.config.get("HTTPS", False)
    flags = {"path": "/", "httponly": True, "samesite": "Lax", "secure": secure}
    if value:
        # Gone when the browser closes, unless somebody is signed in.
        response.set_cookie(_cookie_name(), value, max_age=sessions.LONGEST if g.get("person") else None, **flags)
    else:
        response.delete_cookie(_cookie_name(), **flags)
    return response


def _set_headers(response: Response) -> Response:
    response.headers.update(HEADERS)
    if current_app.config.get("HTTPS", False):
        response.headers["Strict-Transport-Security"] = HSTS
    if g.get("person") is not None or "token_shown" in g or "cookie" in g:
        response.headers["Cache-Control"] = "no-store"
    return response


def _cookie() -> str:
    """The value of our cookie as this response will leave it; empty if there is none that could be ours."""
    if "cookie" in g:
        return g.cookie
    value = request.cookies.get(_cookie_name(), "")
    return value if len(value) == COOKIE_LENGTH and value.isascii() else ""


def _cookie_name() -> str:
    return "__Host-pinandbox" if current_app.config.get("HTTPS", False) else "pinandbox"


def _hash(value: str) -> str:
    return hashlib.sha256(value.encode()).hexdigest()


def _token(value: str) -> str:
    return _signed(f"form {value}")


def _keys(name: str, address: str) -> dict[str, str]:
    """The keys that a try counts under, signed: what somebody types into a name field may be a password."""
    name = name_key(name)
    texts = {"pair": f"pair {address} {name}", "name": f"name {name}", "address": f"address {address}"}
    return {kind: _signed(text) for kind, text in texts.items()}


def _signed(text: str) -> str:
    return hmac.new(house.server_key(store()), text.encode(), hashlib.sha256).hexdigest()
