"""The commands: `pinandbox serve`, `demo`, `check`, `rebuild`, `backup`, `restore`, `reset-password`.

What a command needs is imported where it runs, so that `--help` answers at once.
"""

import os
import signal
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from webapp.records.errors import RecordsError

if TYPE_CHECKING:
    from webapp.records.connection import Store

LOOPBACK = ("127.0.0.1", "::1", "localhost")
LOCAL_TIME = Path("/etc/localtime")
THREADS = 8
PROXY = {
    "trusted_proxy": "127.0.0.1",
    "trusted_proxy_headers": "x-forwarded-for x-forwarded-host x-forwarded-proto",
    "url_scheme": "https",
}


class Plainly(click.Group):
    """Commands whose own errors end in one sentence and no trace."""

    def invoke(self, ctx: click.Context) -> Any:
        from course import CourseError
        from question_bank import BankError

        try:
            return super().invoke(ctx)
        except (RecordsError, BankError, CourseError) as error:
            raise click.ClickException(str(error)) from error


def data_option(default: str = "pinandbox.sqlite") -> Callable:
    """--data FILE: the records file."""
    file = click.Path(dir_okay=False, path_type=Path)
    return click.option("--data", type=file, default=default, show_default=True, help="The records file.")


def port_option() -> Callable:
    """--port: where to listen."""
    port = click.IntRange(0, 65535)
    return click.option("--port", type=port, default=8060, show_default=True, help="The port; 0 takes a free one.")


def _zone(ctx: click.Context, param: click.Parameter, value: str | None) -> str:
    """The zone asked for, or this machine's, or UTC. Raises BadParameter."""
    from zoneinfo import ZoneInfo

    for name in (value,) if value else (_machines_zone(), "UTC"):
        try:
            ZoneInfo(name)
        except (KeyError, ValueError, OSError):
            continue
        return name
    raise click.BadParameter(f"{value!r} is not a time zone. Write it like Europe/Oslo or America/Chicago.")


def _machines_zone() -> str:
    """The zone that this machine's clock is set to, by its name; empty where it does not say."""
    return os.environ.get("TZ", "").lstrip(":") or str(LOCAL_TIME.resolve()).rpartition("zoneinfo/")[2]


def zone_option() -> Callable:
    """--zone: whose 04:00 begins a study day."""
    return click.option(
        "--zone", callback=_zone, help="Time zone whose 04:00 begins a study day. [default: this machine's, or UTC]"
    )


@click.group(cls=Plainly)
@click.version_option(package_name="pin-and-box", prog_name="pinandbox")
def main() -> None:
    """Pin & Box: a self-study course on the rotating and hoisting systems of a drilling rig.

    A training aid: the maker's rating plate, the rig's procedures, local codes and licensed practice govern.
    """


@main.command()
@data_option()
@click.option("--host", default="127.0.0.1", show_default=True, help="The address to listen on; 0.0.0.0 is all.")
@port_option()
@zone_option()
@click.option("--https", is_flag=True, help="A proxy with HTTPS on this machine stands in front: trust what it says, and bind the cookies to HTTPS.")
def serve(data: Path, host: str, port: int, zone: str, https: bool) -> None:
    """Serve the course. The records file is made at the first start."""
    if not data.exists():
        click.echo(f"Making a new records file, {data}.")
    store = _ready(data)
    if host not in LOOPBACK and not https:
        click.echo(
            "Everybody on this network can read what is sent, passwords too. "
            "Put a proxy with HTTPS in front and add --https.",
            err=True,
        )
    _listen(store, host, port, zone, https)


@main.command()
@data_option("pinandbox-demo.sqlite")
@port_option()
@zone_option()
@click.option("--keep", is_flag=True, help="Go on with the demo file as it is, and do not make it afresh.")
def demo(data: Path, port: int, zone: str, keep: bool) -> None:
    """Serve a demo with invented people and answers, to this machine only."""
    there = data.exists()
    if there:
        _refuse_real(data)
    if there and keep:
        store = _ready(data)
        click.echo(f"Going on with {data}. The passwords are those that were printed when it was made.")
        click.echo(f"For a new one: pinandbox reset-password NAME --data {data}")
    else:
        store = _fresh_demo(data, zone)
    _listen(store, "127.0.0.1", port, zone, https=False)


@main.command()
@click.option("--seeds", type=click.IntRange(1, 10_000), default=50, show_default=True, help="Draws for each item and system.")
def check(seeds: int) -> None:
    """Check every item and lesson: sums, units, mistakes, printed lines, and that what a lesson names is there."""
    from question_bank import load_bank
    from question_bank.check import check_formulas, check_item

    bank = load_bank()
    faults = [str(each) for each in (*check_formulas(), *_course_faults(bank))]
    with click.progressbar(bank.values(), label="Items", file=sys.stderr) as items:
        for item in items:
            faults += [str(each) for each in check_item(item, seeds)]
    for fault in faults:
        click.echo(fault)
    if faults:
        raise click.ClickException(f"There are {len(faults)} faults. Mend each where its line says.")
    click.echo(f"{len(bank)} items are sound, {seeds} draws each in both systems.")


@main.command()
@data_option()
def rebuild(data: Path) -> None:
    """Work out again what everybody remembers, from their answers."""
    pairs = _rebuild(_ready(data, new=False))
    click.echo(f"{pairs} rows of memory are worked out again.")


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@data_option()
def backup(file: Path, data: Path) -> None:
    """Copy the records to a new FILE, while the server runs or not, and check the copy."""
    from webapp.records import copies

    contents = copies.backup(data, file)
    click.echo(f"{file} holds {contents.people} people and {contents.attempts} attempts, and is sound.")


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@data_option()
def restore(file: Path, data: Path) -> None:
    """Put a backup FILE in the place of the records. The records before are kept beside it."""
    from webapp.records import copies

    contents, aside = copies.restore(file, data)
    click.echo(f"{data} now holds {contents.people} people and {contents.attempts} attempts.")
    if aside:
        click.echo(f"The file before is kept as {aside}.")


@main.command("reset-password")
@click.argument("name")
@data_option()
def reset_password(name: str, data: Path) -> None:
    """Give the person called NAME a new password, print it once, and end their sessions."""
    from webapp import passwords
    from webapp.records import people

    store = _ready(data, new=False)
    person = people.by_name(store, name)
    if person is None:
        raise click.ClickException(f"There is nobody called {name!r} in {data}. Write the name as it was joined with.")
    password = passwords.new_password()
    people.set_password(store, person.id, passwords.hash_password(password))
    click.echo(f"The new password of {person.name} is {password}")
    click.echo("It is not kept anywhere else. Every session of theirs has ended.")


def _ready(data: Path, new: bool = True) -> "Store":
    """The records at this program's level, with memory worked out by today's rule. Raises RecordsError."""
    from webapp.records import memory
    from webapp.records.connection import Store

    if not new and not data.exists():
        raise RecordsError(f"There is no records file {data}. Name it with --data.")
    store = Store(data)
    store.migrate()
    if memory.is_stale(store):
        _rebuild(store)
    return store


def _rebuild(store: "Store") -> int:
    from webapp.records import memory

    pairs = memory.pairs(store)
    with click.progressbar(length=pairs, label="Memory", file=sys.stderr, hidden=not pairs) as bar:
        return memory.rebuild(store, lambda done, _: bar.update(1))


def _refuse_real(data: Path) -> None:
    from webapp.records import copies, house
    from webapp.records.connection import Store

    copies.check(data)
    store = Store(data)
    invented = house.is_demo(store)
    store.close()
    if not invented:
        raise RecordsError(f"{data} holds real records and no demo: it stays as it is. Choose another file with --data.")


def _fresh_demo(data: Path, zone: str) -> "Store":
    from zoneinfo import ZoneInfo

    from course import load_course
    from question_bank import load_bank
    from webapp import demo
    from webapp.records import copies

    copies.remove(data)
    store = _ready(data)
    signs = demo.fill(store, load_bank(), load_course(), datetime.now(UTC), ZoneInfo(zone))
    click.echo("The people and answers of the demo are invented. Sign in as one of them:")
    for sign in signs:
        click.echo(f"    {sign.name:24} {sign.password}")
    return store


def _course_faults(bank: Any) -> list[str]:
    """What a lesson shows and nobody has, and what items are of a lesson that is not there."""
    from course import load_course
    from course.reading_room import CautionHere, FigureHere, QuestionHere, read_lesson
    from question_bank.cautions import caution
    from question_bank.figures import figure

    course = load_course()
    lookups = {
        QuestionHere: lambda block: bank[block.item],
        FigureHere: lambda block: figure(block.id),
        CautionHere: lambda block: caution(block.id),
    }
    faults = [
        f"{item.file}, item {item.id!r}: there is no lesson {item.lesson!r}. Mend the name."
        for item in bank.values()
        if item.lesson not in {each.id for each in course.lessons}
    ]
    for lesson in course.lessons:
        for block in (each for part in read_lesson(lesson, "us") for each in part.blocks if type(each) in lookups):
            try:
                lookups[type(block)](block)
            except LookupError:
                faults.append(f"Lesson {lesson.number}: {block} is not there. Mend the name, or write it.")
    return faults


def _listen(store: "Store", host: str, port: int, zone: str, https: bool) -> None:
    """Serve until stopped. The store is held meanwhile, so that nobody restores over an open file."""
    import waitress

    from webapp import create_app

    app = create_app({"DATABASE": str(store.path), "ZONE": zone, "HTTPS": https})
    try:
        server = waitress.create_server(app, host=host, port=port, threads=THREADS, **(PROXY if https else {}))
    except (OSError, ValueError) as error:
        raise click.ClickException(
            f"Can't listen on {host}, port {port}: {error}. Stop what uses it, or choose another --port."
        ) from error
    signal.signal(signal.SIGTERM, lambda *_: sys.exit())
    # A name such as localhost can stand for several addresses, and then there are several sockets.
    listening = getattr(server, "effective_listen", None) or [(host, server.effective_port)]
    shown = f"[{host}]" if ":" in host else host
    click.echo(f"Pin & Box is at http://{shown}:{listening[0][1]} until you press Ctrl+C.")
    server.run()


if __name__ == "__main__":
    main()
