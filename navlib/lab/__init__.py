"""Opens JupyterLab on a lesson as a lesson: calm, awake by itself, and leaving its file alone."""

from navlib.lab.lesson import NoLesson, find, names
from navlib.lab.server import environment, serve, settings, translate

__all__ = ["NoLesson", "environment", "find", "names", "serve", "settings", "translate"]
