"""Start a packet from its kind."""

from __future__ import annotations

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db import transaction

from packets.kinds import KINDS
from packets.models import Ask, Packet
from packets.outline import StartingAsk
from projects.log import write
from projects.models import Project


@transaction.atomic
def packet_start(*, project: Project, key: str) -> Packet:
    """A packet of the kind, with the kind's starting asks and limits."""
    kind = KINDS[key]
    packet = Packet.objects.create(
        project=project,
        kind=kind.key,
        title=kind.title,
        reader=kind.reader,
        max_pages=kind.max_pages,
        max_bytes=kind.max_bytes,
    )
    asks = [started(packet, ask, position) for position, ask in enumerate(kind.asks)]
    Ask.objects.bulk_create(asks)
    return packet


def started(packet: Packet, ask: StartingAsk, position: int) -> Ask:
    return Ask(
        packet=packet,
        title=ask.title,
        section=ask.section,
        needed=ask.needed,
        max_words=ask.max_words,
        min_pictures=ask.min_pictures,
        max_pictures=ask.max_pictures,
        max_pages=ask.max_pages,
        position=position,
    )


@transaction.atomic
def packet_add(*, project: Project, user: AbstractBaseUser | AnonymousUser, key: str) -> Packet:
    packet = packet_start(project=project, key=key)
    write(project=project, user=user, about="packets", sentence=f"Started {packet.title}.")
    return packet
