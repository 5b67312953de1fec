"""The sections of packets, one file each; found by module, in the order of their keys."""

import sys

from packets.outline import Section, discover

SECTIONS: dict[str, Section] = discover(sys.modules[__name__], "section")
