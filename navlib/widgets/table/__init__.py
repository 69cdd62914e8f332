"""The chart table: a sheet that is worked on with instruments, by hand or from Python."""

from collections.abc import Mapping, Sequence
from typing import Any

import traitlets

from navlib import waters
from navlib.instruments import Handled, on_ground, on_paper
from navlib.pictures.deck import on_deck
from navlib.pictures.laid import LaidSheet, laid
from navlib.questions.deck import DECK_TOOLS
from navlib.questions.picture import TOOLS, SheetWindow
from navlib.waters import Place
from navlib.widgets.shown import CHART_TABLE, TABLE_STYLE, Shown, front

EVERY_TOOL = (
    *TOOLS["land map"],
    *(t for t in TOOLS["sea chart"] if t not in TOOLS["land map"]),
    *DECK_TOOLS,
)


class ChartTable(Shown):
    """A sheet on a table, with instruments that the learner or Python moves.

    `tools` names the instruments in the tray; all of them unless given, and with `deck` those of the
    deck case that the sheet is then folded into (see `chart_table`). `lies` maps each
    instrument on the sheet to where it lies, in millimetres of the sheet from its upper left
    corner and degrees; it changes when a movement ends, and what is set is shown at once.
    `handled` says the same on the ground; `lay` puts instruments where they belong on the ground.
    """

    _esm = front("kit.js", *CHART_TABLE, "table/table.js")
    _css = front("kit.css", "sheet.css", *TABLE_STYLE)

    pictured = True

    title = traitlets.Unicode().tag(sync=True)
    picture = traitlets.Dict().tag(sync=True)
    lies = traitlets.Dict().tag(sync=True)

    def __init__(
        self,
        sheet: LaidSheet,
        tools: Sequence[str] | None = None,
        *,
        title: str = "",
        lies: Mapping[str, Any] | None = None,
        deck: bool | str = False,
    ) -> None:
        chosen = tuple(tools or EVERY_TOOL)
        if unknown := [tool for tool in chosen if tool not in EVERY_TOOL]:
            raise ValueError(
                f"There is no instrument called “{unknown[0]}”. There are: {', '.join(EVERY_TOOL)}."
            )
        self.sheet = sheet
        self.words = f"{title}\n\n{sheet.alt}" if title else sheet.alt
        picture = {
            "svg": sheet.svg(),
            "alt": sheet.alt,
            "width_mm": sheet.width_mm,
            "height_mm": sheet.height_mm,
            "tools": list(chosen),
        }
        if deck:
            picture = on_deck(picture, title, "" if deck is True else deck)
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
    deck: bool | str = False,
) -> ChartTable:
    """Return the table with a piece of a water's "land map" or "sea chart" on it.

    `centre` is easting and northing in grid metres (the water's middle unless given), `scale` the
    denominator (the water's first), `size_mm` what is shown, `tools` the instruments (those for
    the sheet). With `deck` the sheet lies folded in a deck case, "A3" to "A6" or one that it has to
    be folded for, with what is at hand there. Raises ValueError for another sheet or case,
    OutsideWaters where the water ends.
    """
    if sheet not in TOOLS:
        raise ValueError(f"A sheet is {' or '.join(TOOLS)}, not “{sheet}”.")
    here = waters.load(water)
    scales = here.settings.scales
    west, south, east, north = here.bounds
    usual = scales.sea_chart if sheet == "sea chart" else scales.land_map
    picture = SheetWindow(
        water,
        scale or usual[0],
        centre or ((west + east) / 2, (south + north) / 2),
        size_mm,
        (),
        "",
        sheet="sea chart" if sheet == "sea chart" else "land map",
    )
    return ChartTable(laid(picture), tools or TOOLS[sheet], title=title, deck=deck)
