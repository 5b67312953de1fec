"""Load the demo projects once."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import User
from django.core.management.base import BaseCommand

from packets.management.demo.load import load


class Command(BaseCommand):
    help = __doc__ or ""

    def handle(self, *args: Any, **options: Any) -> None:
        if User.objects.exists():
            self.stdout.write("This installation is already in use; nothing was changed.")
            return
        load()
        self.stdout.write("The demo projects of Wexcombe Mills are in place.")
