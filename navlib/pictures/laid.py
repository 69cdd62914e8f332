"""A sheet to be worked on: its drawing, kept, and where places lie on it."""

from dataclasses import dataclass

from navlib.pictures.drawn import draw, window
from navlib.questions.picture import SheetWindow
from navlib.sheets.window import Box, Window


@dataclass(frozen=True, eq=False)
class LaidSheet:
    """A sheet as a chart table needs it; nothing is drawn for it if it was drawn before."""

    width_mm: float
    height_mm: float
    alt: str
    window: Window
    _svg: str

    def svg(self) -> str:
        """Return the sheet as SVG at true size."""
        return self._svg

    @property
    def frame(self) -> Box:
        """The frame on the sheet, in millimetres."""
        return self.window.frame

    def grid_at(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """Return easting and northing in metres of a spot on the sheet in millimetres."""
        easting, northing = self.window.grid_at(x_mm, y_mm)
        return float(easting), float(northing)


def laid(picture: SheetWindow) -> LaidSheet:
    """Return the sheet of a window; raises OutsideWaters where the water ends."""
    lies = window(picture)
    drawn = draw(picture)
    assert drawn is not None
    return LaidSheet(drawn["width_mm"], drawn["height_mm"], drawn["alt"], lies, drawn["svg"])
