"""A test client that looks at each page it is given, and sends forms as a browser does, with the page's token."""

import re
from html import unescape

from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from tests.webapp.page_checks import faults_in

TOKEN = re.compile(r'name="token" value="([^"]+)"')


class Browser(FlaskClient):
    """Every HTML page fetched is checked; a faulty one fails the test with its faults and their cures."""

    token: str | None = None

    def open(self, *args, **kwargs) -> TestResponse:
        response = super().open(*args, **kwargs)
        if "Set-Cookie" in response.headers:
            self.token = None  # the token belongs to the cookie
        if response.mimetype == "text/html" and response.status_code not in (301, 302, 303, 308):
            self._look_at(response)
        return response

    def send(self, path: str, **fields: str | list[str]) -> TestResponse:
        """POST a form with the token of a page that this browser has seen. Dashes in names are written as __."""
        if self.token is None:
            self.get("/glossary")
        data = {name.replace("__", "-"): value for name, value in fields.items()}
        return self.post(path, data={"token": self.token, **data})

    def follow(self, response: TestResponse) -> TestResponse:
        """The page that a form led to."""
        assert response.status_code == 303, f"Expected a form to lead on (303), got {response.status_code}."
        return self.get(response.location.partition("#")[0])

    def _look_at(self, response: TestResponse) -> None:
        html = response.text
        faults = faults_in(html)
        path = response.request.path
        assert not faults, f"{response.request.method} {path} ({response.status_code}) is faulty:\n  " + "\n  ".join(
            faults
        )
        found = TOKEN.search(html)
        if found:
            self.token = found[1]


def words_of(html: str) -> str:
    """The text of a page as one line, without tags, so that a test can look for a sentence."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).replace("\N{NO-BREAK SPACE}", " ").split())
