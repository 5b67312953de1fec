"""The first account, logging in and out, a new password."""

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from tests import factories
from tests.conftest import logged_in

ADA = {
    "first_name": "Ada Quill",
    "username": "ada@wexcombe.example",
    "password1": "lantern-walk-7",
    "password2": "lantern-walk-7",
}
SETUP, LOGIN = "/setup/", "/login/"


@pytest.mark.django_db
@pytest.mark.parametrize("address", ["/", LOGIN, "/projects/1/", "/projects/1/log/", "/nothing"])
def test_an_empty_installation_leads_every_address_to_the_first_account(client, address):
    assert client.get(address).headers["Location"] == SETUP


@pytest.mark.django_db
def test_the_first_account_is_made_and_logged_in(client):
    response = client.post(SETUP, ADA, follow=True)
    user = User.objects.get()
    assert response.redirect_chain == [("/", 302)]
    assert (user.first_name, user.email) == ("Ada Quill", "ada@wexcombe.example")
    assert client.session["_auth_user_id"] == str(user.pk)


@pytest.mark.django_db
def test_there_is_no_second_first_account(client):
    factories.user("ada")
    assert client.get(SETUP).status_code == 404
    assert client.post(SETUP, ADA).status_code == 404
    assert User.objects.count() == 1


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"password2": "lantern-walk-8"}, "The two passwords are not the same."),
        ({"password1": "12345678", "password2": "12345678"}, "entirely numeric"),
        ({"password1": "password", "password2": "password"}, "too common"),
        ({"first_name": ""}, "required"),
        ({"username": "ada quill"}, "valid username"),
    ],
)
def test_a_poor_first_account_is_answered_and_keeps_what_was_typed(client, typed, sentence):
    response = client.post(SETUP, ADA | typed)
    assert response.status_code == 422
    assert sentence in response.content.decode()
    assert (ADA | typed)["username"] in response.content.decode()
    assert not User.objects.exists()


def test_login_goes_on_to_the_page_that_was_asked_for(project):
    client, place = Client(), reverse("projects:log", args=[project.pk])
    assert client.get(place).headers["Location"] == f"{LOGIN}?next={place}"
    typed = {"username": "ada", "password": "lantern-walk-7", "next": place}
    assert client.post(LOGIN, typed).headers["Location"] == place


def test_login_never_leads_to_another_site(project):
    typed = {"username": "ada", "password": "lantern-walk-7", "next": "https://elsewhere.example/"}
    assert Client().post(LOGIN, typed).headers["Location"] == "/"


def test_a_wrong_password_is_answered_in_a_sentence(project):
    response = Client().post(LOGIN, {"username": "ada", "password": "wrong"})
    assert response.status_code == 422
    assert "do not belong together" in response.content.decode()


def test_eight_wrong_passwords_close_the_login_for_a_while(project, settings):
    settings.AXES_ENABLED = True
    client, typed = Client(), {"username": "ada", "password": "wrong"}
    answers = [client.post(LOGIN, typed) for _ in range(settings.AXES_FAILURE_LIMIT)]
    assert "Too many wrong passwords" in answers[-1].content.decode()
    right = client.post(LOGIN, {"username": "ada", "password": "lantern-walk-7"})
    assert right.status_code == 429


def test_logging_out_takes_a_post(owner):
    assert owner.get("/logout/").status_code == 405
    assert owner.post("/logout/").headers["Location"] == LOGIN
    assert owner.get("/").status_code == 302


def test_a_new_password_keeps_this_session_and_ends_the_others(owner):
    elsewhere = logged_in("ada")
    typed = {
        "old_password": "lantern-walk-7",
        "new_password1": "third-bell-41",
        "new_password2": "third-bell-41",
    }
    page = owner.post("/password/", typed, follow=True)
    assert "Your password is changed." in page.content.decode()
    assert owner.get("/").status_code == 200
    assert elsewhere.get("/").status_code == 302


def test_the_old_password_must_be_right(owner):
    typed = {"old_password": "x", "new_password1": "third-bell-41", "new_password2": "other"}
    page = owner.post("/password/", typed)
    assert page.status_code == 422
    assert "not your password of today" in page.content.decode()
    assert "The two passwords are not the same." in page.content.decode()


def test_a_piece_of_a_page_asked_for_after_logging_out_leads_to_login(project):
    place = reverse("projects:log", args=[project.pk])
    response = Client().get(place, headers={"HX-Request": "true"})
    assert response.headers["HX-Redirect"].startswith(LOGIN)
