"""The house rules that no linter knows."""

import ast
import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "timerboard", "assets", "tests", "sample_menus", "LICENSE"}
CODE = sorted((ROOT / "timerboard").rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("*.py"))


def tracked() -> list[str]:
    """Every path that is committed or about to be; in an unpacked archive every file."""
    found = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    return [line for line in found.stdout.splitlines() if (ROOT / line).exists()]


def test_the_top_level_holds_only_what_belongs_there():
    tops = {path.split("/")[0] for path in tracked()}
    assert {top for top in tops if not top.startswith(".")} <= TOP


@pytest.mark.parametrize("path", CODE, ids=lambda p: str(p.relative_to(ROOT)))
def test_no_module_is_longer_than_400_lines(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400


def test_the_median_module_and_function_are_short():
    lengths = sorted(len(p.read_text(encoding="utf-8").splitlines()) for p in CODE if p.name != "__init__.py")
    assert lengths[len(lengths) // 2] <= 170
    functions = sorted(n for p in CODE for n in _function_lengths(p))
    assert functions[len(functions) // 2] <= 12


def _function_lengths(path: Path) -> list[int]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    kinds = (ast.FunctionDef, ast.AsyncFunctionDef)
    return [(n.end_lineno or n.lineno) - n.lineno + 1 for n in ast.walk(tree) if isinstance(n, kinds)]


@pytest.mark.parametrize("path", CODE + TESTS, ids=lambda p: str(p.relative_to(ROOT)))
def test_nothing_sleeps_and_nothing_is_left_undone(path):
    if path == Path(__file__):
        return
    text = path.read_text(encoding="utf-8")
    found = re.findall(r"time\.sleep|qtbot\.wait\(|TODO|FIXME|XXX|NotImplementedError|pytest\.skip|xfail\(", text)
    assert found == []


def test_only_the_windows_ticker_and_the_waker_own_a_timer():
    allowed = {"timerboard/board/ticker.py", "timerboard/shell/wake.py"}
    users = {str(p.relative_to(ROOT)) for p in CODE if re.search(r"\bQTimer\(", p.read_text(encoding="utf-8"))}
    assert users <= allowed


def test_only_the_clock_reads_a_clock():
    reading = re.compile(r"\btime\.(time|monotonic|clock_gettime)\(|datetime\.(now|utcnow|today)\(")
    readers = {str(p.relative_to(ROOT)) for p in CODE if reading.search(p.read_text(encoding="utf-8"))}
    assert readers <= {"timerboard/shell/clock.py"}
