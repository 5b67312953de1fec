"""The suppliers app."""

from django.apps import AppConfig

from projects.hooks import load_hooks


class SuppliersConfig(AppConfig):
    name = "suppliers"

    def ready(self) -> None:
        load_hooks(self.name)
