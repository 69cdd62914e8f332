"""The demonstrations that a plan may name, by topic, with a line each on what can be seen in it.

They are drawn elsewhere; a test holds this list and the drawn ones together.
"""

from navlib.language import say

_LINES = {
    "bearings": {
        "there_and_back": "the bearing from A to B, and the bearing back",
        "three_norths": "one direction counted from true, grid and magnetic north",
        "deviation": "deviation goes with the boat’s heading, not with the mark",
    },
    "variation": {
        "rose_ages": "a compass rose with a date, and the needle as the years go by",
        "wrong_way": "one line counted from four norths, and where a wrong sign leads",
        "grid_lean": "meridians lean together, and the grid of a map stays upright",
        "to_blame": "two boats check their compasses, and something is to blame",
        "off_the_line": "how far off the line a forgotten degree leads",
    },
    "distance": {
        "units_beside": "one distance in nautical miles, kilometres and land miles",
        "paper_to_ground": "a leg by ruler and by scale bar, and on a smaller copy",
        "two_minutes": "how long a minute of latitude is, and one of longitude",
        "latitude_border": "dividers read a chart’s border higher up and lower down",
        "coast_in_steps": "the shorter the dividers’ step, the longer the coast",
    },
    "speed": {
        "one_leg": "distance, speed and time of one leg go together",
        "two_speeds": "out and home at two speeds, and the mean speed of the trip",
        "clock_sum": "a clock sum in hops over the full hours, and over midnight",
        "stream_turns": "a leg on which the stream turns, worked piece by piece",
    },
    "position": {
        "named_square": "one place named with 4, 6, 8 and 10 figures",
        "romer": "a romer on the land map, read at the grid lines",
        "two_references": "two grid references, the straight way and its bearing",
        "one_angle": "one latitude in decimal degrees, in minutes, and in seconds",
        "chart_border": "latitude and longitude read at the border of a chart",
        "two_positions": "two positions, and what their minutes are in miles",
    },
    "tides": {
        "tide_by_rule": "a day’s tide by the rule of twelfths, at springs and at neaps",
        "tide_and_chart": "water under the keel and air over the mast as the tide rises",
        "secondary_tide": "a secondary port’s differences between their columns",
        "slack_to_slack": "a stream from slack to slack, from springs to neaps",
        "tidal_diamond": "the stream at a tidal diamond, hour by hour",
    },
}

NAMES: tuple[str, ...] = tuple(name for lines in _LINES.values() for name in lines)
"""All of them, in the order in which they are taught."""


def by_topic() -> dict[str, dict[str, str]]:
    """Return for each topic its demonstrations by name, and what is to be seen in each."""
    return {
        topic: {name: say(_LINES[topic][name]) for name in lines} for topic, lines in _LINES.items()
    }


def line(name: str) -> str:
    """Return what is to be seen in a demonstration; empty if there is none of that name."""
    return next((lines[name] for lines in by_topic().values() if name in lines), "")
