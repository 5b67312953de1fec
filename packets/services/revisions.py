"""Make a revision: print the packet, and keep the bytes for good."""

from __future__ import annotations

from datetime import date

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.core.files.base import ContentFile
from django.db import IntegrityError, transaction

from packets.models import Packet, Revision
from packets.render import Printed, print_packet
from projects.log import short_name, write
from projects.words import megabytes, plural

TRIES = 3  # somebody else may take the same letter while the pages are set

Person = AbstractBaseUser | AnonymousUser


class LetterTaken(Exception):
    """Others kept taking the next letter."""


def revision_make(*, packet: Packet, user: Person, today: date) -> Revision:
    """The next revision. The pages are set outside the transaction, which would hold up others."""
    for _ in range(TRIES):
        letter = next_letter(packet)
        printed = print_packet(packet, letter=letter, day=today)
        try:
            return keep(packet=packet, user=user, day=today, letter=letter, printed=printed)
        except IntegrityError:
            continue
    raise LetterTaken(f"Others are making revisions of {packet.title}. Try again in a minute.")


@transaction.atomic
def keep(*, packet: Packet, user: Person, day: date, letter: str, printed: Printed) -> Revision:
    revision = Revision(
        packet=packet,
        letter=letter,
        day=day,
        made_by=short_name(user),
        size=len(printed.data),
        pages=printed.pages,
        sha256=printed.sha256,
        sources=printed.sources,
        shown=printed.shown,
        section_pages=printed.section_pages,
        over=over_limits(packet, printed),
    )
    revision.file.save("packet.pdf", ContentFile(printed.data), save=True)
    figures = f"{plural(revision.pages, 'page')}, {megabytes(revision.size)}"
    sentence = f"Made revision {letter} of {packet.title}: {figures}."
    write(project=packet.project, user=user, about="packets", sentence=sentence)
    return revision


def over_limits(packet: Packet, printed: Printed) -> list[str]:
    size, most = len(printed.data), packet.max_bytes
    found = []
    if packet.max_pages and printed.pages > packet.max_pages:
        found.append(f"{plural(printed.pages, 'page')}; at most {packet.max_pages} are taken.")
    if most and size > most:
        found.append(f"{megabytes(size)}; at most {megabytes(most)} are taken.")
    return found


def next_letter(packet: Packet) -> str:
    """A to Z, then AA."""
    letters = packet.revisions.values_list("letter", flat=True)
    return letter_of(max((number_of(letter) for letter in letters), default=0) + 1)


def number_of(letter: str) -> int:
    number = 0
    for sign in letter:
        number = number * 26 + ord(sign) - ord("A") + 1
    return number


def letter_of(number: int) -> str:
    letters = ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
