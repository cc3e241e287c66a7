"""The lint rules of pyproject.toml hold, and no file or function outgrows its reader."""

import ast
import subprocess
import sys
from pathlib import Path

HOUSE = Path(__file__).parents[1]
WINGS = ("question_bank", "course", "webapp")
LONGEST_FILE, LONGEST_FUNCTION, LONGEST_VIEW = 300, 45, 35
WITH_A_REASON = {
    "webapp/records/migrations/m0001_first_tables.py",  # one function: the tables as they first were
}


def sources():
    """Every Python file of the three wings, by its path in the house."""
    return {str(path.relative_to(HOUSE)): path for wing in WINGS for path in sorted((HOUSE / wing).rglob("*.py"))}


def test_ruff_is_content():
    found = subprocess.run(
        [sys.executable, "-m", "ruff", "check", "--no-cache", "."], cwd=HOUSE, capture_output=True, text=True
    )
    assert found.returncode == 0, found.stdout


def test_files_are_of_a_size_to_be_read():
    lengths = {name: len(path.read_text(encoding="utf-8").splitlines()) for name, path in sources().items()}
    assert {name: length for name, length in lengths.items() if length > LONGEST_FILE} == {}


def test_functions_fit_a_screen():
    """Docstrings are not counted."""
    long = []
    for name, path in sources().items():
        most = LONGEST_VIEW if name.startswith("webapp/views/") else LONGEST_FUNCTION
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef) and name not in WITH_A_REASON:
                first = node.body[1] if ast.get_docstring(node) and len(node.body) > 1 else node.body[0]
                if node.end_lineno - first.lineno + 1 > most:
                    long.append(f"{name}: {node.name} has {node.end_lineno - first.lineno + 1} lines")
    assert long == []
