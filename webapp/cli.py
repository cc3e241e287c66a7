"""The commands: `pinandbox serve`, `demo`, `check`, `rebuild`, `backup`, `restore`, `reset-password`, `setup-address`.

What a command needs is imported where it runs, so that `--help` answers at once.
"""

import os
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from webapp.records.errors import RecordsError

if TYPE_CHECKING:
    from webapp.records.connection import Store

LOOPBACK = ("127.0.0.1", "::1", "localhost")
LOCAL_TIME = Path("/etc/localtime")


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
@click.option(
    "--https",
    is_flag=True,
    help="A proxy with HTTPS on this machine stands in front: trust what it says, and bind the cookies to HTTPS.",
)
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
    _serve(store, host, port, zone, https)


@main.command()
@data_option("pinandbox-demo.sqlite")
@port_option()
@zone_option()
@click.option("--keep", is_flag=True, help="Go on with the demo file as it is, and do not make it afresh.")
def demo(data: Path, port: int, zone: str, keep: bool) -> None:
    """Serve a demo with invented people and answers, to this machine only."""
    from webapp import demo as invented

    there = data.exists()
    if there:
        invented.refuse_real(data)
    if there and keep:
        store = _ready(data)
        click.echo(f"Going on with {data}. The passwords are those that were printed when it was made.")
        click.echo(f"For a new one: pinandbox reset-password NAME --data {data}")
    else:
        store, signs = invented.make_afresh(data, zone)
        click.echo("The rigs, people and answers of the demo are invented. Sign in as one of them:")
        for sign in signs:
            click.echo(f"    {sign.name:24} {sign.password:20} {sign.job}")
    _serve(store, "127.0.0.1", port, zone, https=False)


@main.command()
@click.option(
    "--seeds", type=click.IntRange(1, 10_000), default=50, show_default=True, help="Draws for each item and system."
)
def check(seeds: int) -> None:
    """Check every item, case and lesson: sums, units, mistakes, printed lines, and that what is named is there."""
    from course import load_blueprints, load_course
    from question_bank import BankError, load_bank, load_cases
    from question_bank.check import check_formulas, check_item
    from question_bank.check_cases import check_case
    from webapp.checking import items_by_lesson, misfits

    bank, cases, course, faults = load_bank(), {}, load_course(), []
    blueprints = load_blueprints(course)
    try:
        cases = load_cases(bank)
    except BankError as error:
        faults.append(str(error))
    faults += [str(each) for each in (*check_formulas(), *misfits(bank, cases, course, blueprints))]
    with click.progressbar(bank.values(), label="Items", file=sys.stderr) as items:
        for item in items:
            faults += [str(each) for each in check_item(item, seeds)]
    with click.progressbar(cases.values(), label="Cases", file=sys.stderr) as progress:
        for case in progress:
            faults += [str(each) for each in check_case(case, seeds)]
    for fault in faults:
        click.echo(fault)
    if faults:
        raise click.ClickException(f"There are {len(faults)} faults. Mend each where its line says.")
    for line in items_by_lesson(bank, course):
        click.echo(line)
    click.echo(f"{len(bank)} items and {len(cases)} cases are sound, {seeds} draws each in both systems.")


@main.command()
@data_option()
def rebuild(data: Path) -> None:
    """Work out again what everybody remembers, from their answers."""
    with closing(_opened(data)) as store:
        click.echo(f"{_rebuild(store)} rows of memory are worked out again.")


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@data_option()
def backup(file: Path, data: Path) -> None:
    """Copy the records to a new FILE, while the server runs or not, and check the copy."""
    from webapp.records import copies

    contents = copies.backup(data, file)
    click.echo(f"{file} is sound. People in it: {contents.people}. Attempts: {contents.attempts}.")


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@data_option()
def restore(file: Path, data: Path) -> None:
    """Put a backup FILE in the place of the records. The records before are kept beside it."""
    from webapp.records import copies

    contents, aside = copies.restore(file, data)
    click.echo(f"{data} is restored. People in it: {contents.people}. Attempts: {contents.attempts}.")
    if aside:
        click.echo(f"The file before is kept as {aside}.")


@main.command("reset-password")
@click.argument("name")
@data_option()
def reset_password(name: str, data: Path) -> None:
    """Give the person called NAME a new password, print it once, and end their sessions."""
    from webapp import passwords
    from webapp.records import people

    with closing(_opened(data)) as store:
        person = people.by_name(store, name)
        if person is None:
            raise click.ClickException(f"There is nobody called {name!r} in {data}. Write the whole name.")
        password = passwords.new_password()
        people.set_password(store, person.id, passwords.hash_password(password))
    click.echo(f"The new password of {person.name} is {password}")
    click.echo("It is not kept anywhere else. Every session of theirs has ended.")


@main.command("setup-address")
@data_option()
@click.option("--base", default="http://127.0.0.1:8060", show_default=True, help="How browsers reach the server.")
def setup_address(data: Path, base: str) -> None:
    """Print a new address by which somebody becomes a coordinator. Those printed before end."""
    from datetime import UTC, datetime

    from webapp import setting_up

    with closing(_opened(data)) as store:
        click.echo(setting_up.new_address(store, base.rstrip("/"), datetime.now(UTC)))


def _opened(data: Path, new: bool = False) -> "Store":
    """The records at this program's level. Raises RecordsError."""
    from webapp.records.connection import Store

    if not new and not data.exists():
        raise RecordsError(f"There is no records file {data}. Name it with --data.")
    store = Store(data)
    store.migrate()
    return store


def _ready(data: Path) -> "Store":
    """The records to be served, made where there are none, with memory worked out by today's rule."""
    from webapp.records import memory

    store = _opened(data, new=True)
    if memory.is_stale(store):
        _rebuild(store)
    return store


def _serve(store: "Store", host: str, port: int, zone: str, https: bool) -> None:
    from webapp import serving

    try:
        with closing(store):
            serving.listen(store, host, port, zone, https)
    except serving.ListenError as error:
        raise click.ClickException(str(error)) from error


def _rebuild(store: "Store") -> int:
    from webapp.records import memory

    pairs = memory.pairs(store)
    with click.progressbar(length=pairs, label="Memory", file=sys.stderr, hidden=not pairs) as bar:
        return memory.rebuild(store, lambda done, _: bar.update(1))


if __name__ == "__main__":
    main()
