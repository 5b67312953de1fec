"""The packets app."""

from django.apps import AppConfig

from projects.hooks import load_hooks


class PacketsConfig(AppConfig):
    name = "packets"

    def ready(self) -> None:
        load_hooks(self.name)
