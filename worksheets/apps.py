"""The worksheets app."""

from django.apps import AppConfig

from projects.hooks import load_hooks


class WorksheetsConfig(AppConfig):
    name = "worksheets"

    def ready(self) -> None:
        load_hooks(self.name)
