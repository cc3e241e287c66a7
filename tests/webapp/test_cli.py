"""The commands, called as a shell calls them."""

import re
import socket
import sqlite3
from datetime import UTC, datetime

import pytest
from click.testing import CliRunner

import question_bank
from question_bank import load_bank, load_cases
from tests.bank import cases
from tests.webapp.records.samples import attempt, join, memory_rows, record_all
from tests.webapp.serving import Browser, Served
from webapp import cli, codes, passwords, serving, setting_up
from webapp.records import house, memory, people, rights, sessions, setup_addresses
from webapp.records.connection import Store

NOW = datetime.now(UTC)
COMMANDS = ("serve", "demo", "check", "rebuild", "backup", "restore", "reset-password", "setup-address")


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Run a command in an empty folder; its result."""
    monkeypatch.chdir(tmp_path)
    return lambda *arguments: CliRunner().invoke(cli.main, [str(each) for each in arguments])


@pytest.fixture
def data(tmp_path):
    """A records file with one person and three attempts, closed."""
    store = Store(tmp_path / "pinandbox.sqlite")
    store.migrate()
    person = join(store, "Marek Osei-Lund")
    record_all(store, [attempt(store, person.id, item, days=days) for item, days in [("a", 0), ("a", 3), ("b", 1)]])
    store.close()
    return store.path


@pytest.fixture
def listened(monkeypatch):
    """Commands that serve say what they would serve, and end."""
    calls = []
    monkeypatch.setattr(serving, "listen", lambda *arguments: calls.append(arguments))
    return calls


def fine(result) -> str:
    assert result.exit_code == 0, result.output
    return result.output


def refused(result, message: str) -> None:
    """It ended with one sentence for the person at the keyboard, and no trace."""
    assert result.exit_code in (1, 2), result.output
    assert isinstance(result.exception, SystemExit), result.exception
    assert re.search(message, result.output), result.output
    assert "Traceback" not in result.output
    assert result.output.rstrip().endswith(".")


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_has_help_for_itself_and_every_option(run, command):
    text = fine(run(command, "--help"))
    assert f"Usage: main {command}" in text
    assert cli.main.commands[command].help.strip().count("\n") < 5
    assert all(option.help for option in cli.main.commands[command].params if option.param_type_name == "option")


def test_no_command_is_left_out_of_these_tests(run):
    assert set(cli.main.commands) == set(COMMANDS)
    assert all(command in fine(run("--help")) for command in COMMANDS)


def test_a_backup_goes_out_and_comes_back(run, data, tmp_path):
    """Round trip through both commands; what was recorded meanwhile is in the file put aside."""
    assert "copy.sqlite is sound. People in it: 1. Attempts: 3." in fine(run("backup", "copy.sqlite"))
    store = Store(data)
    record_all(store, [attempt(store, people.by_name(store, "Marek Osei-Lund").id, days=9)])
    store.close()
    text = fine(run("restore", "copy.sqlite"))
    assert "pinandbox.sqlite is restored. People in it: 1. Attempts: 3." in text
    assert "The file before is kept as pinandbox.sqlite.before-restore-1." in text
    with sqlite3.connect(tmp_path / "pinandbox.sqlite.before-restore-1") as conn:
        assert conn.execute("select count(*) from attempts").fetchone() == (4,)
    conn.close()


def test_a_backup_is_restored_where_there_was_no_file(run, data):
    run("backup", "copy.sqlite")
    text = fine(run("restore", "copy.sqlite", "--data", "fresh.sqlite"))
    assert "fresh.sqlite is restored. People in it: 1. Attempts: 3." in text
    assert "kept as" not in text


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        pytest.param(["backup", "b", "--data", "no.sqlite"], "There is no file no.sqlite", id="backup of nothing"),
        pytest.param(
            ["rebuild", "--data", "no.sqlite"], "There is no records file no.sqlite.*--data", id="rebuild nothing"
        ),
        pytest.param(
            ["reset-password", "Marek", "--data", "no.sqlite"], "There is no records file", id="reset in nothing"
        ),
        pytest.param(["setup-address", "--data", "no.sqlite"], "There is no records file", id="set up nothing"),
        pytest.param(["restore", "no.sqlite"], "There is no file no.sqlite", id="restore nothing"),
        pytest.param(["backup", "b", "--data", "text.txt"], "text.txt is not a sound SQLite file", id="backup of text"),
        pytest.param(["restore", "text.txt"], "text.txt is not a sound SQLite file", id="restore text"),
        pytest.param(["rebuild", "--data", "text.txt"], "text.txt can't be used as a records file", id="rebuild text"),
        pytest.param(["serve", "--data", "text.txt"], "text.txt can't be used as a records file", id="serve text"),
        pytest.param(["demo", "--data", "text.txt"], "text.txt is not a sound SQLite file", id="demo of text"),
        pytest.param(["backup", "text.txt"], "text.txt is there already.*never written over", id="backup over a file"),
        pytest.param(["backup", "no/folder/b"], "can't be written to no/folder", id="backup to nowhere"),
        pytest.param(["serve", "--data", "no/folder/x"], "no/folder/x can't be opened", id="serve nowhere"),
        pytest.param(["demo", "--data", "pinandbox.sqlite"], "real records and no demo", id="demo over real records"),
        pytest.param(["reset-password", "Nobody"], "There is nobody called 'Nobody'", id="reset nobody"),
        pytest.param(
            ["serve", "--zone", "Mars/Base"], "'Mars/Base' is not a time zone.*Europe/Oslo", id="no such zone"
        ),
        pytest.param(["serve", "--zone", "../etc/passwd"], "is not a time zone", id="a path for a zone"),
        pytest.param(["serve", "--port", "99999"], "99999 is not in the range", id="no such port"),
        pytest.param(["check", "--seeds", "0"], "0 is not in the range", id="no seeds"),
    ],
)
def test_what_cannot_be_done_is_said_in_a_sentence(run, data, tmp_path, listened, arguments, message):
    """And nothing is done: the files are the same as before."""
    (tmp_path / "text.txt").write_text("name,score\n" * 500)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    refused(run(*arguments), message)
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before
    assert listened == []


def test_rebuild_works_memory_out_again(run, data):
    store = Store(data)
    before = memory_rows(store)
    with store.writing() as db:
        db.execute("update memory set days_to_ninety = 99")
    assert "2 rows of memory are worked out again." in fine(run("rebuild"))
    assert memory_rows(store) == before
    store.close()


def test_a_new_password_is_printed_and_ends_the_sessions(run, data):
    store = Store(data)
    person = people.by_name(store, "Marek Osei-Lund")
    sessions.open_session(store, "a", person.id, NOW)
    text = fine(run("reset-password", "marek osei-lund"))
    password = re.search(r"The new password of Marek Osei-Lund is (\S+)\n", text)[1]
    password_hash, code_hash = people.secrets_of(store, person.id)
    assert passwords.matches(password_hash, password)
    assert code_hash == "code"
    assert sessions.find(store, "a", NOW) is None
    store.close()


def test_a_server_tells_the_first_address_until_there_is_a_coordinator(data):
    store = Store(data)
    told = setting_up.first_address(store, "http://here", NOW)
    assert re.search(r"works once, for 48 hours:\n    http://here/set-up/[0-9A-Z-]{19}$", told)
    rights.make_coordinator(store, people.by_name(store, "Marek Osei-Lund").id, None, NOW)
    assert setting_up.first_address(store, "http://here", NOW) is None
    store.close()


def test_a_demo_tells_no_set_up_address(data):
    store = Store(data)
    house.mark_demo(store)
    assert setting_up.first_address(store, "http://here", NOW) is None
    store.close()


def test_a_set_up_address_is_printed_and_ends_the_one_before(run, data):
    store = Store(data)
    addresses = [
        re.search(r"^    https://course.example/set-up/(\S+)$", fine(run(*command)), re.MULTILINE)[1]
        for command in 2 * [("setup-address", "--base", "https://course.example/")]
    ]
    states = [setup_addresses.state(store, codes.hashed(each), datetime.now(UTC)) for each in addresses]
    assert states == ["ended", "open"]
    store.close()


def test_check_passes_the_bank_and_the_course(run):
    text = fine(run("check", "--seeds", "1"))
    assert re.search(r"^2\.4 +Slips: \d+ items – \d+ \w+, ", text, re.MULTILINE)
    bank = load_bank()
    said = f"{len(bank)} items and {len(load_cases(bank))} cases are sound, 1 draws each in both systems."
    assert said in text


def test_check_names_each_fault_and_fails(run, tmp_path, monkeypatch):
    """An item of no lesson, one with a wrong worked value, and lessons whose items are gone."""
    folder = tmp_path / "items" / "units"
    folder.mkdir(parents=True)
    source = question_bank.bank.FOLDER / "units" / "force-mass-weight.toml"
    spoilt = source.read_text(encoding="utf-8").replace(
        'lesson = "units/force-mass-weight"', 'lesson = "units/gone"', 1
    )
    spoilt = re.sub(r'(check = \{[^\n]*gives = ")[\d,.]+', r"\g<1>1", spoilt, count=1)
    (folder / "force-mass-weight.toml").write_text(spoilt, encoding="utf-8")
    faulty = load_bank(tmp_path / "items")
    monkeypatch.setattr(question_bank, "load_bank", lambda: faulty)
    result = run("check", "--seeds", "1")
    assert "there is no lesson 'units/gone'" in result.output
    assert "worked by hand it is" in result.output
    assert "there is no 'safety.tool-aloft'" in result.output
    refused(result, r"There are \d+ faults")


@pytest.mark.parametrize(
    "old, new, message",
    [
        pytest.param("units.which-ton", "units.gone", "there is no item 'units.gone'", id="no such item"),
        pytest.param('module = "units"', 'module = "attic"', "there is no module 'attic'", id="no such module"),
        pytest.param('story = "', 'story = "{{5}} ', "has no unit", id="a story that can't be told"),
    ],
)
def test_check_names_the_faults_of_a_case(run, tmp_path, monkeypatch, old, new, message):
    bank = cases.bank()
    (tmp_path / "tried.toml").write_text(cases.changed(cases.CASE, (old, new)), encoding="utf-8")
    monkeypatch.setattr(question_bank, "load_bank", lambda: bank)
    monkeypatch.setattr(question_bank, "load_cases", lambda bank: load_cases(bank, tmp_path))
    result = run("check", "--seeds", "1")
    assert message in result.output and "tried" in result.output
    refused(result, r"There are \d+ faults")


def test_serve_makes_a_new_file_and_says_so(run, tmp_path, listened):
    text = fine(run("serve", "--data", "new.sqlite", "--port", "8123", "--zone", "Europe/Oslo", "--https"))
    assert "Making a new records file, new.sqlite." in text
    [(store, *rest)] = listened
    assert rest == ["127.0.0.1", 8123, "Europe/Oslo", True]
    assert store.migrate() == []
    store.close()


def test_serve_brings_memory_up_to_todays_rule(run, data, listened, monkeypatch):
    """Rows computed with another release are worked out again before anybody sees them."""
    store = Store(data)
    memory.rebuild(store)
    before = memory_rows(store)
    with store.writing() as db:
        db.execute("update memory set days_to_ninety = 99")
    fine(run("serve"))
    assert memory_rows(store) != before
    house.write(store, memory.MODEL_NAME, "another release")
    fine(run("serve"))
    assert memory_rows(store) == before
    for each, *_ in listened:
        each.close()
    store.close()


@pytest.mark.parametrize(
    ("arguments", "warned"), [((), False), (("--host", "0.0.0.0"), True), (("--host", "0.0.0.0", "--https"), False)]
)
def test_serving_a_network_in_the_clear_is_said_aloud(run, listened, arguments, warned):
    assert ("passwords too" in fine(run("serve", *arguments))) is warned
    listened[0][0].close()


@pytest.mark.parametrize(
    ("named", "zone"), [("America/Chicago", "America/Chicago"), (":Europe/Oslo", "Europe/Oslo"), ("<+03>-3", "UTC")]
)
def test_without_a_zone_the_machines_own_is_taken(run, listened, monkeypatch, named, zone):
    """One that the machine names in another way is UTC."""
    monkeypatch.setenv("TZ", named)
    fine(run("serve"))
    assert listened[0][3] == zone
    listened[0][0].close()


def test_the_demo_is_made_afresh_at_each_start(run, tmp_path, listened):
    """New passwords, the same invented people, on this machine only; with --keep what was answered stays."""
    texts = []
    for number in range(2):
        texts.append(fine(run("demo", "--zone", "UTC")))
        listened[number][0].close()
    signs = [re.findall(r"^    (\S.*\S) +(\w{4}-\w{4}-\w{4}) ", text, re.MULTILINE) for text in texts]
    assert len(signs[0]) == 5
    assert [name.strip() for name, _ in signs[0]] == [name.strip() for name, _ in signs[1]]
    assert not {password for _, password in signs[0]} & {password for _, password in signs[1]}
    store = listened[1][0]
    assert store.path.name == "pinandbox-demo.sqlite"
    assert listened[1][1] == "127.0.0.1"
    assert house.is_demo(store)
    join(store, "Newcomer")
    store.close()
    kept = fine(run("demo", "--keep"))
    assert "Going on with pinandbox-demo.sqlite" in kept
    assert people.by_name(listened[2][0], "Newcomer")
    listened[2][0].close()
    assert "invented" in fine(run("demo"))
    assert people.by_name(listened[3][0], "Newcomer") is None
    listened[3][0].close()


def test_a_demo_in_use_is_not_made_afresh(run, listened):
    """A second start while the first one serves says so and leaves the file."""
    fine(run("demo"))
    store = listened[0][0]
    join(store, "Newcomer")
    refused(run("demo"), "pinandbox-demo.sqlite is in use")
    assert people.by_name(store, "Newcomer")
    store.close()


def test_a_port_that_is_taken_is_said(run, data):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        refused(run("serve", "--port", port), f"Can't listen on 127.0.0.1, port {port}.*another --port")


def test_a_server_is_not_restored_over_and_ends_in_order(run, data, tmp_path, monkeypatch, pytestconfig):
    """The real thing in a process of its own: pages come, restore refuses, backup works, SIGTERM ends it."""
    with monkeypatch.context() as there:
        there.chdir(pytestconfig.rootpath)
        server = Served(data).start()
    try:
        status, page = Browser(server.port).get("/sign-in")
        assert (status, "Pin &amp; Box" in page) == (200, True)
        fine(run("backup", "copy.sqlite"))
        refused(run("restore", "copy.sqlite"), "is in use")
        assert re.fullmatch(r"    http://127\.0\.0\.1:\d+/set-up/[0-9A-Z]{4}(-[0-9A-Z]{4}){3}\n", server.told()[1])
    finally:
        server.stop()
    assert server.process.returncode == 0
    fine(run("restore", "copy.sqlite"))
