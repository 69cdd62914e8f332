"""One press for all printed documents: a template of `pages/`, data in, the bytes of a PDF out.

How to add a document
---------------------
1. Write `pages/NAME.typ`. It begins with `#import "common.typ": *` and `#show: sheets-of-paper`, which
   give it the common look: paper size, margins, letters, head and foot with page x of y. Everything
   that it prints comes from `data`, a dictionary.
2. Call `typeset("NAME", data)`. The data are plain (str, int, float, bool, None, list, dict) and
   reach the template as JSON, never as markup, so that a name such as `#read("x")` is printed as it
   stands. All of them have `title` (of the document, shown by readers too) and `code` (in the foot);
   `large` (18 point letters, tables 16), `page` ("a4" or "a3"), `language` and `note` (behind the
   code) may be left out.
3. A drawing is an SVG text: `picture(svg)` gives the name to put into the data, and in the template
   `drawing(name, width, height, alt)` places it at its true size. Lengths are numbers in
   millimetres. A large drawing that many documents share is made a plate first, `picture(plate(svg,
   width, height))`; for a sheet that a question shows, `overlay.base` has done that.
4. Write numbers in Python (f"{x:.1f}"): the template prints a negative number otherwise.

What is held for every document: tagged for screen readers (PDF/UA-1, so every picture needs words,
and headings go down a step at a time), only the fonts shipped with the libraries, no network, no
dates, and the same bytes for the same data. Viewers are asked to print at true size.
"""

import io
import json
import re
import tempfile
import threading
import unicodedata
from collections.abc import Mapping, Sequence
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

import matplotlib
import pikepdf
import segno
import typst
from matplotlib.ft2font import FT2Font

from navlib.paper.lettering import as_printed
from navlib.paper.plates import Plate, made_plate, put_in

PAGES = Path(__file__).parent / "pages"
LONGEST = 2000
"""Characters of one text that are printed; the rest is left out, with a sign that it was."""
MISSING = "\N{WHITE SQUARE}"
"""Printed for a character that no shipped font has."""

_FONTS = Path(matplotlib.get_data_path()) / "fonts" / "ttf"
_WIDEST = ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf")  # every other font falls back on these
_BREAK = "\N{ZERO WIDTH SPACE}"
_LONG_WORD = re.compile(r"\S{31,}")
_CONTROLS = {"Cc", "Cf", "Cs", "Co", "Cn"}
_MARKS_ON_A_LETTER = 3
_FORGET = 4
"""Empty documents set after each: the compiler keeps what it worked out for the last ten, and of a
large class's papers that would be 150 MB."""


def typeset(template: str, data: Mapping[str, Any]) -> bytes:
    """Return the PDF that `pages/TEMPLATE.typ` makes of `data`, the same bytes each time.

    Raises ValueError for a template that there is not, and typst.TypstError for one that cannot be
    set with these data.
    """
    return _press().set(template, data)


def picture(drawing: str | bytes) -> str:
    """Return the name by which a template finds a drawing, SVG or a plate; it has one name."""
    return _press().take(drawing)


def plate(svg: str, width_mm: float, height_mm: float) -> bytes:
    """Return a large drawing made ready for print, to be given to `picture`; it may be kept."""
    return _press().plate(svg, width_mm, height_mm)


def code_square(text: str) -> str:
    """Return the name of a drawing of `text` as a QR square (ISO/IEC 18004, error level M)."""
    out = io.BytesIO()
    segno.make(text, error="m", micro=False).save(
        out, kind="svg", border=2, xmldecl=False, svgns=True, omitsize=True
    )
    return picture(out.getvalue().decode())


def plain(text: str, most: int = LONGEST) -> str:
    """Return a text as it can be printed: `most` characters at most, and nothing that steers.

    Control characters and those that turn the writing round are left out, line ends stay; what no
    font has becomes a square; over-long words may break anywhere.
    """
    text = unicodedata.normalize("NFC", text.replace("\r\n", "\n"))
    letters, marks = [], 0
    for letter in text[: most + most // 2 + 50]:
        kind = unicodedata.category(letter)
        marks = marks + 1 if kind == "Mn" else 0
        if letter == "\n":
            letters.append(letter)
        elif kind in {"Zl", "Zp", "Zs"} or letter == "\t":
            letters.append(letter if letter == "\N{NO-BREAK SPACE}" else " ")
        elif kind not in _CONTROLS and marks <= _MARKS_ON_A_LETTER:
            letters.append(letter if letter in _printable() else MISSING)
    whole = "".join(letters)
    if len(whole) > most:
        whole = whole[: most - 1].rstrip() + "…"
    return _LONG_WORD.sub(lambda word: _BREAK.join(re.findall(".{1,12}", word[0])), whole)


@cache
def _printable() -> frozenset[str]:
    fonts = (FT2Font(str(_FONTS / name)).get_charmap() for name in _WIDEST)
    return frozenset(map(chr, set.intersection(*map(set, fonts))))


def _plain_throughout(data: Any) -> Any:
    match data:
        case str():
            return as_printed(plain(data))
        case Mapping():
            return {key: _plain_throughout(value) for key, value in data.items()}
        case list() | tuple():
            return [_plain_throughout(value) for value in data]
        case _:
            return data


class _Press:
    """A compiler and the folder that it may read: templates and pictures, nothing else."""

    def __init__(self) -> None:
        self._folder = tempfile.TemporaryDirectory(prefix="navlib-press-")
        self._root = Path(self._folder.name)
        self._one_at_a_time = threading.Lock()
        self._plates: dict[str, Plate] = {}
        for template in sorted(PAGES.glob("*.typ")):
            (self._root / template.name).write_bytes(template.read_bytes())
        for folder in ("pictures", "packages"):
            (self._root / folder).mkdir()
        self._compiler = typst.Compiler(
            root=self._root,
            font_paths=typst.Fonts(include_system_fonts=False, font_paths=[_FONTS]),
            ignore_system_fonts=True,
            package_path=self._root / "packages",
            package_cache_path=self._root / "packages",
        )

    def take(self, drawing: str | bytes) -> str:
        if isinstance(drawing, str):
            name = f"{sha256(drawing.encode()).hexdigest()[:24]}.svg"
            self._write(name, drawing)
            return name
        with self._one_at_a_time:
            taken = Plate(len(self._plates), drawing)
            self._plates.setdefault(taken.name, taken)
        self._write(taken.name, self._plates[taken.name].box())
        return taken.name

    def _write(self, name: str, drawing: str) -> None:
        file = self._root / "pictures" / name
        if not file.exists():
            file.write_text(drawing, encoding="utf-8")

    def plate(self, svg: str, width_mm: float, height_mm: float) -> bytes:
        data = {"drawing": self.take(svg), "width": width_mm, "height": height_mm}
        return made_plate(self._compiled("plate", data, tagged=False))

    def set(self, template: str, data: Mapping[str, Any]) -> bytes:
        if not (PAGES / f"{template}.typ").exists():
            known = ", ".join(sorted(file.stem for file in PAGES.glob("*.typ")))
            raise ValueError(f"There is no template called “{template}”. There are: {known}.")
        words = _plain_throughout(data)
        made = self._compiled(template, words, tagged=True)
        plates = [self._plates[name] for name in sorted(_texts(words) & set(self._plates))]
        return _finished(made, plates)

    def _compiled(self, template: str, data: Any, tagged: bool) -> bytes:
        words = json.dumps(data, ensure_ascii=False, allow_nan=False)
        with self._one_at_a_time:
            made, warnings = self._compiler.compile_with_warnings(
                input=self._root / f"{template}.typ",
                format="pdf",
                sys_inputs={"data": words},
                pdf_standards=["ua-1"] if tagged else [],
                pdf_tags=tagged,
                timestamp=0,
            )
            for _ in range(_FORGET):
                self._compiler.compile(input=b"", format="svg")
        if warnings:
            raise ValueError(f"{template}.typ: {'; '.join(str(w) for w in warnings)}")
        assert isinstance(made, bytes)
        return made


@cache
def _press() -> _Press:
    return _Press()


def _texts(data: Any) -> set[str]:
    """Return all texts in plain data."""
    match data:
        case str():
            return {data}
        case dict():
            return set().union(*map(_texts, data.values()))
        case list():
            return set().union(*map(_texts, data))
        case _:
            return set()


def _finished(pdf: bytes, plates: Sequence[Plate]) -> bytes:
    """Return a PDF with its plates in, that asks viewers not to shrink it, and for the right paper.

    ISO 32000-1, 12.2, table 150: PrintScaling and PickTrayByPDFSize.
    """
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(pdf)) as document:
        put_in(document, plates)
        wishes = document.Root.get("/ViewerPreferences", pikepdf.Dictionary())
        wishes.PrintScaling = pikepdf.Name("/None")
        wishes.PickTrayByPDFSize = True
        document.Root.ViewerPreferences = wishes
        document.save(
            out, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate
        )
    return out.getvalue()
