"""Change what a packet is asked for, and its limits."""

from __future__ import annotations

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db import transaction
from django.db.models import Max

from packets.models import Ask, Packet
from projects.log import write

Person = AbstractBaseUser | AnonymousUser


@transaction.atomic
def ask_save(*, packet: Packet, user: Person, ask: Ask) -> Ask:
    """Keep a new or changed ask; a new one goes last."""
    new = ask.pk is None
    if new:
        last = packet.asks.aggregate(last=Max("position"))["last"]
        ask.position = 0 if last is None else last + 1
    ask.packet = packet
    ask.save()
    verb = "Added" if new else "Changed"
    log(packet, user, f"{verb} the ask “{ask.title}” of {packet.title}.")
    return ask


@transaction.atomic
def ask_delete(*, packet: Packet, user: Person, ask: Ask) -> None:
    ask.delete()
    log(packet, user, f"Deleted the ask “{ask.title}” of {packet.title}.")


@transaction.atomic
def packet_save(*, packet: Packet, user: Person) -> Packet:
    packet.save()
    log(packet, user, f"Changed the limits of {packet.title}.")
    return packet


def log(packet: Packet, user: Person, sentence: str) -> None:
    write(project=packet.project, user=user, about="packets", sentence=sentence)
