"""The chart table: a sheet that is worked on with instruments, by hand or from Python."""

import os
from collections.abc import Mapping, Sequence
from typing import Any

import traitlets

from navlib import waters
from navlib.instruments import Handled, on_ground, on_paper
from navlib.questions.picture import TOOLS
from navlib.sheets import Sheet, land_map, sea_chart
from navlib.waters import Place
from navlib.widgets.shown import CHART_TABLE, TABLE_STYLE, Shown, front

EVERY_TOOL = (*TOOLS["land map"], *(t for t in TOOLS["sea chart"] if t not in TOOLS["land map"]))


class ChartTable(Shown):
    """A sheet on a table, with instruments that the learner or Python moves.

    `tools` names the instruments in the tray; all of them unless given. `lies` maps each
    instrument on the sheet to where it lies, in millimetres of the sheet from its upper left
    corner and degrees; it changes when a movement ends, and what is set is shown at once.
    `handled` says the same on the ground; `lay` puts instruments where they belong on the ground.
    """

    _esm = front("kit.js", *CHART_TABLE, "table/table.js")
    _css = front("kit.css", "sheet.css", *TABLE_STYLE)

    title = traitlets.Unicode().tag(sync=True)
    picture = traitlets.Dict().tag(sync=True)
    lies = traitlets.Dict().tag(sync=True)

    def __init__(
        self,
        sheet: Sheet,
        tools: Sequence[str] | None = None,
        *,
        title: str = "",
        lies: Mapping[str, Any] | None = None,
        still: bytes | None = None,
    ) -> None:
        chosen = tuple(tools or EVERY_TOOL)
        if unknown := [tool for tool in chosen if tool not in EVERY_TOOL]:
            raise ValueError(
                f"There is no instrument called “{unknown[0]}”. There are: {', '.join(EVERY_TOOL)}."
            )
        self.sheet, self.still = sheet, still
        self.words = f"{title}\n\n{sheet.alt}" if title else sheet.alt
        picture = {
            "svg": sheet.svg(),
            "alt": sheet.alt,
            "width_mm": sheet.width_mm,
            "height_mm": sheet.height_mm,
            "tools": list(chosen),
        }
        super().__init__(title=title, picture=picture, lies=dict(lies or {}))

    @property
    def handled(self) -> tuple[Handled, ...]:
        """Return what lies on the sheet, in grid metres."""
        return on_ground(self.lies, self.sheet.window)

    def lay(self, *handled: Handled) -> None:
        """Lay these instruments, given in grid metres; others stay where they are.

        Pencil lines and marks replace what was drawn of their kind before.
        """
        self.lies = {**self.lies, **on_paper(handled, self.sheet.window)}

    def put_away(self, *tools: str) -> None:
        """Put these instruments away, all of them if none is named."""
        self.lies = {name: lie for name, lie in self.lies.items() if tools and name not in tools}


def chart_table(
    water: str,
    sheet: str = "land map",
    centre: Place | None = None,
    *,
    scale: int | None = None,
    size_mm: tuple[float, float] = (230.0, 150.0),
    tools: Sequence[str] | None = None,
    title: str = "",
) -> ChartTable:
    """Return the table with a piece of a water's "land map" or "sea chart" on it.

    `centre` is easting and northing in grid metres (the water's middle unless given), `scale` the
    denominator (the water's first), `size_mm` what is shown, `tools` the instruments (those for
    the sheet). Raises ValueError for another sheet, OutsideWaters where the water ends.
    """
    if sheet not in TOOLS:
        raise ValueError(f"A sheet is {' or '.join(TOOLS)}, not “{sheet}”.")
    here = waters.load(water)
    scales = here.settings.scales
    west, south, east, north = here.bounds
    draw, usual = (
        (sea_chart, scales.sea_chart) if sheet == "sea chart" else (land_map, scales.land_map)
    )
    drawn = draw(
        here,
        centre or ((west + east) / 2, (south + north) / 2),
        scale=scale or usual[0],
        size_mm=size_mm,
    )
    still = drawn.png(dpi=80) if os.environ.get("NAVLIB_STILLS") else None
    return ChartTable(drawn, tools or TOOLS[sheet], title=title, still=still)
