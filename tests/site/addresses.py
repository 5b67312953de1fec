"""Every address of the site, read from the resolver, and how each is to be treated."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.urls import URLResolver, get_resolver

# Open to anybody on purpose.
OPEN = {"projects:setup", "projects:login", "calendar:feed"}


@dataclass(frozen=True, slots=True)
class Address:
    """``params`` are pairs such as ``("funds", "pk")``: the folder before, and the name."""

    name: str
    route: str
    params: tuple[tuple[str, str], ...]

    @property
    def of_project(self) -> bool:
        return any(name == "project_id" for _, name in self.params)

    @property
    def of_object(self) -> bool:
        return self.of_project and len(self.params) > 1

    def __str__(self) -> str:
        return f"{self.name} /{self.route}"


def every_address() -> list[Address]:
    return list(walk(get_resolver(), "", ""))


def walk(resolver: URLResolver, route: str, app: str) -> Iterator[Address]:
    for entry in resolver.url_patterns:
        here = route + str(entry.pattern)
        if isinstance(entry, URLResolver):
            yield from walk(entry, here, entry.namespace or app)
        else:
            yield Address(f"{app}:{entry.name}", here, tuple(params_of(here)))


def params_of(route: str) -> Iterator[tuple[str, str]]:
    folder = ""
    for piece in route.split("/"):
        if piece.startswith("<"):
            yield folder, piece.strip("<>").split(":")[-1]
        else:
            folder = piece
