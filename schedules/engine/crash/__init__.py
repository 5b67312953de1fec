"""Shorten the plan at the least cost, exactly, on the real calendars."""

from .curve import Curve, curve, next_ways
from .shortening import Shortened, Shortening, shortened

__all__ = ["Curve", "Shortened", "Shortening", "curve", "next_ways", "shortened"]
