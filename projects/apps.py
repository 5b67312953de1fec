"""The projects app."""

from django.apps import AppConfig

from projects.hooks import load_hooks


class ProjectsConfig(AppConfig):
    name = "projects"

    def ready(self) -> None:
        load_hooks(self.name)
