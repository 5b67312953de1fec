"""The schedules app."""

from django.apps import AppConfig

from projects.hooks import load_hooks


class SchedulesConfig(AppConfig):
    name = "schedules"

    def ready(self) -> None:
        load_hooks(self.name)
