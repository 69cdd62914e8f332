"""Large drawings made ready for print once, and put into each document where it keeps their place.

To read a sheet's drawing takes longer than to set a whole paper around it. So a sheet becomes a
plate, a PDF of one page, once; a document is set with a plain box in its place, of a colour that
tells which plate it stands for, and the plate is then put in. Both keep true size.
"""

import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from hashlib import sha256

import pikepdf

_BOX = re.compile(
    rb"0\.0039215\d* ([\d.]+) ([\d.]+) scn\s+0 0 m ([\d.]+) 0 l \3 ([\d.]+) l 0 \4 l\s+h\s+f\b"
)
"""A filled box as the typesetter writes it: colour, its red 1/255, then width and height."""


@dataclass(frozen=True)
class Plate:
    """A drawing, as `made_plate` makes it; `number` is what its box in a document is coloured by."""

    number: int
    pdf: bytes

    @property
    def name(self) -> str:
        """The name of the box that keeps its place, by what is on it."""
        return f"plate-{sha256(self.pdf).hexdigest()[:20]}.svg"

    @cached_property
    def _open(self) -> pikepdf.Pdf:
        return pikepdf.open(io.BytesIO(self.pdf))

    @property
    def drawing(self) -> pikepdf.Object:
        """The drawing, to be copied into documents."""
        return self._open.Root.Plate

    def box(self) -> str:
        """Return the box that keeps the plate's place in a document, as SVG in points."""
        width, height = (float(v) for v in self.drawing.BBox[2:])
        colour = f"#01{self.number:04x}"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.3f} {height:.3f}">'
            f'<path d="M0 0H{width:.3f}V{height:.3f}H0Z" fill="{colour}"/></svg>'
        )


def made_plate(pdf: bytes) -> bytes:
    """Return a plate of a PDF of one page: its drawing packed, ready to be copied as it is."""
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(pdf)) as document:
        document.Root.Plate = document.pages[0].as_form_xobject()
        del document.pages[0]
        document.save(out, deterministic_id=True)
    return out.getvalue()


def put_in(document: pikepdf.Pdf, plates: Sequence[Plate]) -> None:
    """Put plates into a document in place of their boxes.

    Raises RuntimeError if one of `plates` finds no box: a sheet must not stay blank unnoticed.
    """
    by_number = {plate.number: plate for plate in plates}
    drawn: dict[int, pikepdf.Object] = {}
    for page in document.pages:
        content = page.Contents.read_bytes()
        found = [m for m in _BOX.finditer(content) if _number(m) in by_number]
        if not found:
            continue
        for box in found:
            number = _number(box)
            if number not in drawn:
                drawn[number] = document.copy_foreign(by_number[number].drawing)
            page.add_resource(drawn[number], pikepdf.Name.XObject, pikepdf.Name(f"/Plate{number}"))
        page.Contents = document.make_stream(
            _BOX.sub(lambda m: _shown(m, drawn) if _number(m) in drawn else m[0], content)
        )
    if missing := set(by_number) - set(drawn):
        raise RuntimeError(f"{len(missing)} drawing(s) found no place in the document")


def _number(box: re.Match[bytes]) -> int:
    green, blue = (round(255 * float(v)) for v in box.group(1, 2))
    return 256 * green + blue


def _shown(box: re.Match[bytes], drawn: dict[int, pikepdf.Object]) -> bytes:
    """Return the command that fills a box, whose height runs down, with its plate, which runs up."""
    number = _number(box)
    left, bottom, right, top = (float(v) for v in drawn[number].BBox)
    across, down = float(box[3]) / (right - left), float(box[4]) / (top - bottom)
    placed = f"{across:.8g} 0 0 {-down:.8g} {-left * across:.8g} {top * down:.8g} cm"
    return f"q {placed} /Plate{number} Do Q".encode()
