"""The server: the application behind waitress, until somebody stops it."""

import gc
import signal
import socket
import sys

import waitress

from webapp import create_app
from webapp.records.connection import Store
from webapp.setting_up import first_address

THREADS = 8

# With HTTPS a proxy on this machine speaks to the browsers. Nobody else is believed what these headers say.
PROXY = {
    "trusted_proxy": "127.0.0.1",
    "trusted_proxy_headers": "x-forwarded-for x-forwarded-host x-forwarded-proto",
    "url_scheme": "https",
}


class ListenError(Exception):
    """The address or port can't be had. The message says which, and what to do."""


def listen(store: Store, host: str, port: int, zone: str, https: bool) -> None:
    """Serve the records until stopped, and print the address. Raises ListenError.

    `store` is held open meanwhile, so that nobody restores over the file.
    """
    with _bound(host, port) as bound:
        app = create_app({"DATABASE": str(store.path), "ZONE": zone, "HTTPS": https})
        keep_for_good()
        server = waitress.create_server(app, sockets=[bound], threads=THREADS, **(PROXY if https else {}))
        shown = f"[{host}]" if ":" in host else host
        here = f"http://{shown}:{bound.getsockname()[1]}"
        print(f"Pin & Box is at {here} until you press Ctrl+C.", flush=True)
        told = first_address(store, "https://<the name of this house>" if https else here, app.config["CLOCK"]())
        if told:
            print(told, flush=True)
        signal.signal(signal.SIGTERM, lambda *_: sys.exit())
        server.run()


def keep_for_good() -> None:
    """Leave bank and course out of the collecting of garbage: they are there until the end.

    Else each page of some size looks through all of them once more; the matrix of 300 people took half as long again.
    """
    gc.collect()
    gc.freeze()


def _bound(host: str, port: int) -> socket.socket:
    try:
        return socket.create_server((host, port), family=socket.AF_INET6 if ":" in host else socket.AF_INET)
    except OSError as error:
        # Python adds the address to the system's own words; it stands in the message already.
        reason = str(error.strerror).partition(" (")[0]
        raise ListenError(
            f"Can't listen on {host}, port {port}: {reason}. Stop what uses it, or choose another --port."
        ) from error
