"""The front end's JavaScript: types (from its JSDoc) and lint, as each widget joins its modules.

Deno checks and lints; nothing is fetched. One widget's modules are one module in the browser, so
they are checked so; lint looks at each file, whose top-level names other files use.
"""

import importlib
import os
import pkgutil
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from deno import find_deno_bin

import navlib
import navlib.widgets
from navlib.classroom.web import PAGE, WEB
from navlib.front import joined
from navlib.widgets.shown import Shown

HERE = Path(navlib.__file__).parent
FILES = sorted([*HERE.glob("widgets/**/*.js"), *WEB.glob("*.js")])
CHECKED = """\
{"compilerOptions": {"checkJs": true, "strict": true, "lib": ["dom", "dom.iterable", "esnext"]},
 "lint": {"rules": {"exclude": ["no-window", "no-window-prefix"]}}}"""


for module in pkgutil.walk_packages(navlib.widgets.__path__, "navlib.widgets."):
    importlib.import_module(module.name)


def widgets(above: type = Shown) -> Iterator[type]:
    for kind in above.__subclasses__():
        if kind.__module__.startswith("navlib.") and isinstance(getattr(kind, "_esm", None), str):
            yield kind
        yield from widgets(kind)


def deno(folder: Path, *words: str) -> None:
    """Run Deno over what lies in a folder, without a network and without a place of its own."""
    (folder / "deno.json").write_text(CHECKED)
    alone = {"DENO_DIR": str(folder / ".cache"), "DENO_NO_UPDATE_CHECK": "1", "NO_COLOR": "1"}
    ran = subprocess.run(
        [find_deno_bin(), *words],
        cwd=folder,
        env=os.environ | alone,
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr


def test_every_widget_is_rightly_typed(tmp_path: Path):
    kinds = {kind.__name__: kind for kind in widgets()}
    assert {"Card", "ChartTable", "Steps"} <= set(kinds)
    for name, kind in kinds.items():
        (tmp_path / f"{name}.js").write_text(kind._esm, encoding="utf-8")
    (tmp_path / "page.js").write_text(joined(*PAGE), encoding="utf-8")
    deno(tmp_path, "check", "--no-remote", "--no-npm", "page.js", *(f"{name}.js" for name in kinds))


def test_the_linter_finds_nothing(tmp_path: Path):
    for file in FILES:
        text = file.read_text(encoding="utf-8")
        names = (
            []
            if "export default" in text
            else re.findall(r"^(?:const|let|(?:async )?function) (\w+)", text, re.M)
        )
        given = f"\nexport {{ {', '.join(names)} }};\n" if names else ""
        (tmp_path / "-".join(file.relative_to(HERE).parts)).write_text(text + given, "utf-8")
    deno(tmp_path, "lint", "--compact", *(str(f) for f in tmp_path.glob("*.js")))


@pytest.mark.parametrize("fault", ["const x = 1;\nx.nothing();\n", "within('a', 1, 2);\n"])
def test_a_wrong_type_is_found(tmp_path: Path, fault: str):
    text = (HERE / "widgets" / "table" / "stage.js").read_text(encoding="utf-8")
    within = text[text.index("/** @param {number} value @param {number} low") :].split(";\n")[0]
    (tmp_path / "fault.js").write_text(f"// @ts-check\n{within};\n{fault}", "utf-8")
    with pytest.raises(AssertionError, match="TS2"):
        deno(tmp_path, "check", "--no-remote", "--no-npm", "fault.js")
