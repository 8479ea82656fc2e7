"""Plan, verify, keep place and judge the cutting of gears and other divided work on a manual milling machine."""

__version__ = "0.1.0"
