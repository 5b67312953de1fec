"""What the environment must say before the settings are read; loaded by pytest's own options."""

import os

os.environ.setdefault("GIORNATA_DEBUG", "1")
os.environ.setdefault("GIORNATA_TODAY", "2031-03-03")
