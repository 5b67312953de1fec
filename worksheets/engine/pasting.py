"""Lines copied from a spreadsheet: tabs between the columns, else semicolons, else commas."""

from __future__ import annotations

from collections.abc import Iterator

MARKS = ("\t", ";", ",")


def cells(line: str) -> list[str]:
    """The columns of one line.

    >>> cells("4, 47 1/2 in, P1")
    ['4', '47 1/2 in', 'P1']
    """
    mark = next((mark for mark in MARKS if mark in line), ",")
    return [cell.strip() for cell in line.split(mark)]


def lines(text: str) -> Iterator[tuple[int, list[str]]]:
    """The lines that hold anything, with their numbers; a first line of headings is passed over.

    >>> list(lines("Quantity; Length\\n\\n4; 1.2 m"))
    [(3, ['4', '1.2 m'])]
    """
    for number, line in enumerate(text.splitlines(), 1):
        found = cells(line)
        if any(found) and not (number == 1 and not any(c.isdigit() for c in found[0])):
            yield number, found
