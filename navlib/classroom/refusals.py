"""Why something could not be done: each with a sentence for whoever asked."""


class Missing(LookupError):
    """There is no such thing; the message says which."""


class Refused(ValueError):
    """It cannot be done as things stand; the message says why."""


class Down(OSError):
    """The class server could not be reached, or could not answer now."""
