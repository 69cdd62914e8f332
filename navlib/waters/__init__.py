"""The training waters: a height field, features and settings, and what a line over them meets."""

from navlib.waters.errors import OutsideWaters, WatersError
from navlib.waters.features import KINDS, Feature, Place
from navlib.waters.heights import HeightField
from navlib.waters.reader import Water, load, shipped
from navlib.waters.settings import Settings
from navlib.waters.tide_model import Arrow, StreamRow, TideModel
from navlib.waters.tides_file import Diamond

__all__ = [
    "KINDS",
    "Arrow",
    "Diamond",
    "Feature",
    "HeightField",
    "OutsideWaters",
    "Place",
    "Settings",
    "StreamRow",
    "TideModel",
    "Water",
    "WatersError",
    "load",
    "shipped",
]
