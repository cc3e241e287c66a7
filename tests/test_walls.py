"""Three wings, one way down: the imports are read from the source, and each wall of the house is held.

webapp    may import course, question_bank
course    may import question_bank
question_bank imports neither
"""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
DATABASE = ("sqlite3", "sqlite_utils")
WEB = ("flask", "werkzeug", "jinja2", "waitress", "click", "argon2")
CLOCK = ("time", "datetime")
SQL = re.compile(
    r"\b(select\s.+\sfrom|insert\s+(or\s+\w+\s+)?into|update\s+\w+\s+set|delete\s+from|pragma\s+\w+|"
    r"create\s+(table|index|view|trigger))\b",
    re.IGNORECASE | re.DOTALL,
)

# Where, what must not be imported there, and which files are let off.
WALLS = [
    pytest.param(
        "question_bank", ("course", "webapp", *WEB, *DATABASE, "fsrs", *CLOCK), (), id="the bank knows nobody"
    ),
    pytest.param("course", ("webapp", *WEB, *DATABASE, "fsrs", *CLOCK), (), id="the course knows only the bank"),
    pytest.param(".", ("pint",), ("question_bank/units.py",), id="pint in one file"),
    pytest.param(".", ("fsrs",), ("webapp/study/memory.py",), id="the scheduling library in one file"),
    pytest.param("webapp/study", ("webapp.records", "webapp.views", "course", *WEB, *DATABASE), (), id="study is pure"),
    pytest.param(
        "webapp/records", ("webapp.views", "webapp.access", "webapp.at_hand", "course", *WEB), (), id="records below"
    ),
    pytest.param("webapp/views", DATABASE, (), id="no database in views"),
    pytest.param("webapp", ("webapp.views",), ("webapp/views/", "webapp/__init__.py"), id="views on top"),
    pytest.param(
        "webapp",
        ("webapp.cli", "webapp.serving", "webapp.create_app"),
        ("webapp/cli.py", "webapp/serving.py"),
        id="nobody calls the commands",
    ),
]


def sources(folder: str) -> list[Path]:
    """The Python files of the three wings below a folder."""
    wings = ("question_bank", "course", "webapp") if folder == "." else (folder,)
    return sorted(path for wing in wings for path in (ROOT / wing).rglob("*.py"))


def imports_of(source: str) -> Iterator[tuple[int, str]]:
    """Line and full name of everything that a source text imports, wherever in it."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, each.name) for each in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"line {node.lineno}: a relative import hides which wing it goes to"
            yield from ((node.lineno, f"{node.module}.{each.name}") for each in node.names)
        elif isinstance(node, ast.Call) and getattr(node.func, "id", getattr(node.func, "attr", "")) == "import_module":
            yield node.lineno, ast.unparse(node.args[0]).strip("f'\"")


def breaches(source: str, forbidden: tuple[str, ...]) -> list[tuple[int, str]]:
    """The imports of a source text that are, or lie below, something forbidden."""
    return [
        (line, name)
        for line, name in imports_of(source)
        if any(name == each or name.startswith(each + ".") for each in forbidden)
    ]


def texts_of(source: str) -> Iterator[tuple[int, str]]:
    """Line and text of every string in a source text that is not a docstring."""
    tree = ast.parse(source)
    docstrings = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef) and ast.get_docstring(node) is not None
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docstrings:
            yield node.lineno, node.value


@pytest.mark.parametrize(("folder", "forbidden", "let_off"), WALLS)
def test_no_import_goes_through_a_wall(folder, forbidden, let_off):
    found = [
        f"{path.relative_to(ROOT)}:{line} imports {name}"
        for path in sources(folder)
        if not path.relative_to(ROOT).as_posix().startswith(let_off or ("-",))
        for line, name in breaches(path.read_text(encoding="utf-8"), forbidden)
    ]
    assert found == []


@pytest.mark.parametrize("let_off", ["question_bank/units.py", "webapp/study/memory.py"])
def test_the_file_that_is_let_off_is_there(let_off):
    """A wall whose only door was moved is no wall."""
    library = {"question_bank/units.py": "pint", "webapp/study/memory.py": "fsrs"}[let_off]
    assert breaches((ROOT / let_off).read_text(encoding="utf-8"), (library,))


def test_sql_is_in_the_records_only():
    """No other file has a string that reads as SQL, or executes one."""
    found = []
    for path in sources("."):
        if path.is_relative_to(ROOT / "webapp" / "records"):
            continue
        source = path.read_text(encoding="utf-8")
        found += [f"{path.relative_to(ROOT)}:{line} {text!r}" for line, text in texts_of(source) if SQL.search(text)]
        found += [
            f"{path.relative_to(ROOT)}:{node.lineno} calls {node.func.attr}"
            for node in ast.walk(ast.parse(source))
            if isinstance(node, ast.Call) and getattr(node.func, "attr", "").startswith("execute")
        ]
    assert found == []


@pytest.mark.parametrize(
    ("source", "caught"),
    [
        ("import pint", True),
        ("import pint.registry as x", True),
        ("from pint import UnitRegistry", True),
        ("def late():\n    from pint.util import x", True),
        ("import_module('pint')", True),
        ("import pinta, os", False),
        ("from os import pint", False),
        ("'import pint'", False),
    ],
)
def test_the_reader_of_imports_sees_what_it_should(source, caught):
    assert bool(breaches(source, ("pint",))) is caught


@pytest.mark.parametrize(
    ("source", "caught"),
    [
        ("x = 'select a from b'", True),
        ("x = f'update people set {a} = 1'", True),
        ("x = 'INSERT OR IGNORE INTO a values (1)'", True),
        ("x = 'pragma synchronous'", True),
        ("def f():\n    'Select what is from the crew.'", False),
        ("x = 'Select a unit.'", False),
        ("x = 'An update of your settings.'", False),
    ],
)
def test_the_reader_of_sql_sees_what_it_should(source, caught):
    assert any(SQL.search(text) for _, text in texts_of(source)) is caught
