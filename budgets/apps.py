"""The budgets app."""

from django.apps import AppConfig

from projects.hooks import load_hooks


class BudgetsConfig(AppConfig):
    name = "budgets"

    def ready(self) -> None:
        load_hooks(self.name)
