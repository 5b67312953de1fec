"""WSGI entry point."""

import os
from importlib import import_module
from threading import Thread

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")

# The solvers take seconds to load: beside the first requests, not inside one of them.
SOLVERS = ("ortools.linear_solver.pywraplp", "ortools.sat.python.cp_model")


def load_solvers() -> None:
    for name in SOLVERS:
        import_module(name)


application = get_wsgi_application()
Thread(target=load_solvers, daemon=True).start()
