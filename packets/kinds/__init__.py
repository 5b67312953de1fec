"""The kinds of packets, one file each; found by module."""

import sys

from packets.outline import Kind, discover
from packets.sections import SECTIONS

KINDS: dict[str, Kind] = discover(sys.modules[__name__], "kind")


def check(kind: Kind) -> None:
    wanted = [*kind.sections, *(ask.section for ask in kind.asks)]
    unknown = sorted(set(wanted) - set(SECTIONS))
    if unknown:
        raise ValueError(f"The packet “{kind.key}” wants sections that are not there: {unknown}.")


for _kind in KINDS.values():
    check(_kind)
