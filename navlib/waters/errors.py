"""What goes wrong with a piece of water, said so that whoever made its files can put it right."""


class WatersError(ValueError):
    """A file of a piece of water does not say what it should."""


class OutsideWaters(ValueError):
    """A position lies off the height field."""
