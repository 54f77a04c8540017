"""Loads what a second process is going to need, so that its first errand need not wait for it."""

from __future__ import annotations


def to_press() -> None:
    """Load the libraries, the fonts and all that makes a proof of pages."""
    import pypdfium2.raw
    import zxingcpp
    from PIL import Image

    from boxwright.fonts import faces
    from boxwright.paper import press

    _ = pypdfium2.raw, zxingcpp, Image, press
    faces()


def to_forecast() -> None:
    """Load NumPy and all that forecasts an edition."""
    from boxwright.build import forecasting
    from boxwright.forecast import learning, reckoning

    _ = forecasting, learning, reckoning
