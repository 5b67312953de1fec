"""Settings and people that every test shares."""

from __future__ import annotations

import pytest
from django.test import Client

from budgets.fit import gain, solved
from tests import factories


@pytest.fixture(autouse=True)
def quick_and_separate(settings, tmp_path):
    """Cheap passwords, one's own media folder, no lock-out between tests, a fixed day.

    No best fit is kept from another test.
    """
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    settings.MEDIA_ROOT = tmp_path / "media"
    settings.AXES_ENABLED = False
    settings.TODAY = factories.TODAY.isoformat()
    solved.forget()
    gain.forget()


@pytest.fixture
def project(db):
    """A project with an owner, a partner, a reader and a default calendar."""
    return factories.peopled_project()


def logged_in(username: str) -> Client:
    client = Client()
    client.force_login(factories.user(username), "django.contrib.auth.backends.ModelBackend")
    return client


@pytest.fixture
def owner(project):
    return logged_in("ada")


@pytest.fixture
def partner(project):
    return logged_in("ben")


@pytest.fixture
def reader(project):
    return logged_in("cyd")


@pytest.fixture
def stranger(project):
    return logged_in("dee")
