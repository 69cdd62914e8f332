"""The figures of tide pages as tables of text, for those who cannot see the page."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from navlib.clock import zone_name
from navlib.language import say
from navlib.language.days import full, in_year, month_in_year, weekday
from navlib.sheets.pages.diamonds import set_figures
from navlib.sheets.pages.differences import signed_clock
from navlib.sheets.pages.leaf import position
from navlib.sheets.pages.printed import MINUS, AnyPort, decimetre, halves, levels_of, month_of
from navlib.tides import mean_curves, printed_days
from navlib.tides.hours import in_words
from navlib.waters import Water


@dataclass(frozen=True)
class ReadOut:
    """A table: its caption, the heads of its columns, and rows of text, all as the page prints it."""

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def page_read_out(
    water: Water, page: str, port: str = "", day: date | None = None
) -> tuple[ReadOut, ...]:
    """Return the tables of a tide page by its name; none for one that is a drawing.

    `page` is "table" (the month of `day`), "day", "curve", "differences" or "diamonds"; `port` is a
    port's name, the standard port if empty.
    """
    when = day or water.settings.sheet_date
    source = next((p for p in water.tides.ports if p.name == port), water.tides.standard)
    match page:
        case "table":
            return month_read_out(water, source, when.year, when.month)
        case "day":
            return (_turns(source, when, 1),)
        case "curve":
            return (curve_read_out(water),)
        case "differences":
            return differences_read_out(water)
        case "diamonds":
            return diamonds_read_out(water)
    return ()


def month_read_out(water: Water, port: AnyPort, year: int, month: int) -> tuple[ReadOut, ...]:
    """Return the tide table of a port for one month, and its levels."""
    first, count = month_of(year, month)
    return _turns(port, first, count), _levels(water, [port])


def _turns(port: AnyPort, first: date, count: int) -> ReadOut:
    rows = [
        (
            say("{weekday} {day}", {"weekday": weekday(day), "day": in_year(day)}),
            say("high water") if turn.kind == "high" else say("low water"),
            f"{turn.time:%H%M} {zone_name(turn.time, port.zone)}",
            decimetre(turn.height),
        )
        for day, turns in printed_days(port, first, count, port.zone).items()
        for turn in turns
    ]
    when = full(first) if count == 1 else month_in_year(first)
    caption = say("Tide table of {port}, {when}", {"port": port.name, "when": when})
    heads = (say("Day"), say("Water"), say("Time"), say("Height, m"))
    return ReadOut(caption, heads, tuple(rows))


def curve_read_out(water: Water) -> ReadOut:
    """Return the factors of the standard port's mean curves, each half hour from high water."""
    curves = mean_curves(water.tides.standard)
    rows = []
    for half in range(-12, 13):
        factors = (float(curve.factor(half / 2)) for curve in (curves.spring, curves.neap))
        sign = MINUS if half < 0 else "+" if half else ""
        rows.append((f"{sign}{abs(half) / 2:g}", *(f"{factor:.2f}" for factor in factors)))
    caption = say(
        "Mean tide curves of {port}: factor, 0 at low and 1 at high water",
        {"port": water.tides.standard.name},
    )
    heads = (say("Hours from high water"), say("Springs"), say("Neaps"))
    return ReadOut(caption, heads, tuple(rows))


def diamonds_read_out(water: Water) -> tuple[ReadOut, ...]:
    """Return a table for each tidal diamond: set and rates by hours from high water."""
    tides = water.tides
    return tuple(
        ReadOut(
            say(
                "Diamond {letter}, {name}, {position}: hours from high water at {port}",
                {
                    "letter": d.letter,
                    "name": d.name,
                    "position": position(water, d.place),
                    "port": tides.standard.name,
                },
            ),
            (say("Hour"), say("Sets, °T"), say("Springs, kn"), say("Neaps, kn")),
            tuple(
                (
                    in_words(r.hour),
                    set_figures(r.set_to),
                    decimetre(r.spring_kn),
                    decimetre(r.neap_kn),
                )
                for r in tides.rows(d)
            ),
        )
        for d in tides.diamonds
    )


def differences_read_out(water: Water) -> tuple[ReadOut, ...]:
    """Return the differences of each secondary port in time and in height, and all levels."""
    tides = water.tides
    tables = []
    for port in tides.secondary:
        names = {"port": port.name, "standard": tides.standard.name}
        captions = (
            say("{port}, high water: time differences on {standard}", names),
            say("{port}, low water: time differences on {standard}", names),
        )
        for caption, half in zip(captions, halves(port), strict=True):
            rows = tuple(
                (
                    say("{one} and {other}", {"one": _clock(hour), "other": _clock(hour + 12)}),
                    signed_clock(minutes),
                )
                for hour, minutes in zip(half.hours, half.minutes, strict=True)
            )
            heads = (say("At {standard} at", names), say("Difference, hours and minutes"))
            tables.append(ReadOut(caption, heads, rows))
        high, low = halves(port)
        metres = (*high.metres, *reversed(low.metres))
        tables.append(
            ReadOut(
                say("{port}: height differences on {standard}", names),
                ("MHWS", "MHWN", "MLWN", "MLWS"),
                (tuple(decimetre(value, True) for value in metres),),
            )
        )
    return (*tables, _levels(water, [tides.standard, *tides.secondary]))


def _levels(water: Water, ports: Sequence[AnyPort]) -> ReadOut:
    rows = tuple(
        (port.name, name, decimetre(metres))
        for port in ports
        for name, metres in levels_of(water, port).items()
    )
    heads = (say("Port"), say("Level"), say("Height, m"))
    return ReadOut(say("Levels above chart datum"), heads, rows)


def _clock(hour: float) -> str:
    return f"{int(hour % 24):02d}{round(hour % 1 * 60):02d}"
