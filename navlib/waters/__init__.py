"""The training waters: a height field, features and settings, and what a line over them meets."""

from navlib.waters.errors import OutsideWaters, WatersError
from navlib.waters.features import KINDS, Feature, Place
from navlib.waters.heights import HeightField
from navlib.waters.reader import Water, load, shipped
from navlib.waters.settings import Settings

__all__ = [
    "KINDS",
    "Feature",
    "HeightField",
    "OutsideWaters",
    "Place",
    "Settings",
    "Water",
    "WatersError",
    "load",
    "shipped",
]
