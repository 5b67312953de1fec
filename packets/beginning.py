"""A new project begins with a proposal packet and the asks a body usually has."""

from __future__ import annotations

from packets.services.start import packet_start
from projects import hooks


@hooks.beginnings.register("packets.proposal", place=80)
def proposal(beginning: hooks.Beginning) -> None:
    packet_start(project=beginning.project, key="proposal")
