"""A real `pinandbox serve` in a process of its own, and a small browser that keeps its cookie."""

import http.client
import re
import subprocess
import sys
import time
import urllib.parse
from pathlib import Path

TOKEN = re.compile(r'name="token" value="([^"]+)"')
ADDRESS = re.compile(r"http://127\.0\.0\.1:(\d+)")


class Served:
    """One server over one records file. Start and kill it as often as you like; the port is taken anew each time."""

    def __init__(self, data: Path):
        self.data = data
        self.process: subprocess.Popen | None = None
        self.port = 0

    def start(self) -> "Served":
        """Start it and wait until it says where it listens."""
        command = [sys.executable, "-m", "webapp.cli", "serve", "--data", str(self.data), "--port", "0"]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        for line in self.process.stdout:
            if found := ADDRESS.search(line):
                self.port = int(found[1])
                return self
        raise RuntimeError("The server ended before it said where it listens.")

    def told(self) -> list[str]:
        """The two lines after that of the address: how somebody becomes the first coordinator."""
        return [self.process.stdout.readline() for _ in range(2)]

    def kill(self) -> None:
        """SIGKILL: no handler runs, nothing is flushed."""
        self.process.kill()
        self.process.wait()
        self.process.stdout.close()

    def stop(self) -> None:
        """An orderly end."""
        self.process.terminate()
        self.process.wait(timeout=20)
        self.process.stdout.close()


class Browser:
    """Sends forms as a browser would, with one cookie. Each call is a connection of its own."""

    def __init__(self, port: int, cookie: str = ""):
        self.port = port
        self.cookie = cookie

    def get(self, path: str) -> tuple[int, str]:
        """Status and text."""
        return self._send("GET", path)

    def post(self, path: str, **fields: str | list[str]) -> tuple[int, str]:
        """Status and text of a form that is sent."""
        return self._send("POST", path, urllib.parse.urlencode(fields, doseq=True))

    def token(self, path: str) -> str:
        """The token in the first form of a page."""
        return TOKEN.search(self.get(path)[1])[1]

    def _send(self, method: str, path: str, body: str | None = None) -> tuple[int, str]:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=10)
        headers = {"Cookie": f"pinandbox={self.cookie}"} if self.cookie else {}
        if body is not None:
            headers["Content-Type"] = "application/x-www-form-urlencoded"
        try:
            connection.request(method, path, body, headers)
            response = connection.getresponse()
            return response.status, response.read().decode()
        finally:
            connection.close()


def wait_until(true, seconds: float = 10) -> None:
    """Wait for a condition, in small steps. Raises TimeoutError."""
    until = time.monotonic() + seconds
    while not true():
        if time.monotonic() > until:
            raise TimeoutError("It did not come true in time.")
        time.sleep(0.02)
