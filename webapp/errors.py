"""Pages for what went wrong: what happened, what is safe, what to do next. All statuses are rendered here."""

from dataclasses import dataclass

from flask import Flask, render_template
from werkzeug.exceptions import HTTPException

KEPT = "All answers that a page has confirmed are saved."
UNCHANGED = f"Nothing was changed. {KEPT}"


@dataclass(frozen=True)
class Trouble:
    """What a page says of one status. `happened` and `next_step` stand where the view said nothing better."""

    title: str
    happened: str
    next_step: str
    safe: str = UNCHANGED


TROUBLES = {
    400: Trouble(
        "This could not be read",
        "Your browser sent something that this page does not understand.",
        "Go back, open the page again, and send it once more.",
    ),
    403: Trouble(
        "This was not accepted",
        "The form was not from a page that you have open now.",
        "Open the page again and send it once more.",
    ),
    404: Trouble(
        "There is no such page",
        "The address is mistyped, or what stood here is gone or belongs to another hand.",
        "Look at the address, or start again from the first page.",
    ),
    405: Trouble(
        "This page can't be opened like that",
        "The address is one that a form sends to. It is no page by itself.",
        "Go back and use the button.",
    ),
    413: Trouble(
        "That was too much at once",
        "You sent more than this page takes. An answer is one line of text.",
        "Go back, shorten what you wrote, and send it again.",
    ),
    429: Trouble(
        "Too many tries",
        "Somebody has tried too often in a short time, from your address or with your name.",
        "Wait some minutes, then try again.",
    ),
    500: Trouble(
        "Something broke on our side",
        "The page could not be made. It is nothing that you did, and it has been written down.",
        "Go back and try once more. If it comes again, tell whoever runs this server at what time it was.",
        safe=KEPT,
    ),
}


def install(app: Flask) -> None:
    """Render every HTTP error as a page of ours, and what broke as well."""
    app.register_error_handler(HTTPException, _refused)
    app.register_error_handler(500, _broken)


def _refused(error: HTTPException) -> tuple[str, int] | HTTPException:
    """An HTTP error. What the view wrote of it is shown; the library's own words are not. Redirects pass."""
    if error.code is None or error.code < 400:
        return error
    trouble = TROUBLES.get(error.code, TROUBLES[400])
    own = error.description if error.description != type(error).description else None
    return _page("base.html", error.code, trouble, own), error.code


def _broken(error: Exception) -> tuple[str, int]:
    """A fault of ours, which Flask has logged. The page asks nothing of the records, so that it can't break too."""
    return _page("bare.html", 500, TROUBLES[500], None), 500


def _page(layout: str, code: int, trouble: Trouble, own: str | None) -> str:
    return render_template(
        "error.html",
        layout=layout,
        code=str(code),
        trouble=trouble,
        happened=own or trouble.happened,
        next_step=None if own else trouble.next_step,
    )
