"""Formatter, linter and type checker find nothing, with the settings in the dotfiles."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.mark.parametrize(
    "words", [("ruff", "format", "--check", "."), ("ruff", "check", "."), ("mypy",)], ids=" ".join
)
def test_nothing_is_found_by(words: tuple[str, ...]):
    ran = subprocess.run(
        [sys.executable, "-m", *words], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr
