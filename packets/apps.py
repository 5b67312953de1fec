"""The packets app."""

from importlib import import_module

from django.apps import AppConfig

from projects.hooks import load_hooks


class PacketsConfig(AppConfig):
    name = "packets"

    def ready(self) -> None:
        import_module("packets.kinds")  # a key used twice, or a missing section, stops the start
        load_hooks(self.name)
