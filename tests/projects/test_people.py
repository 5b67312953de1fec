"""Members come, change their role, and go; an owner always stays."""

from django.contrib.auth.models import User
from django.urls import reverse

from projects.models import LogEntry, Membership
from tests import factories


def people(project, name="people", *args):
    return reverse(f"projects:{name}", args=[project.pk, *args])


def membership(project, username):
    return Membership.objects.get(project=project, user__username=username)


def role_of(project, username):
    return Membership.objects.filter(project=project, user__username=username).values_list(
        "role", flat=True
    )[0]


def test_everybody_in_the_project_sees_its_people_but_only_an_owner_the_forms(
    project, owner, reader
):
    assert "Add somebody" in owner.get(people(project)).content.decode()
    page = reader.get(people(project)).content.decode()
    assert "ben" in page and "Add somebody" not in page


def test_somebody_is_added_by_login_name_or_by_e_mail(project, owner):
    User.objects.create_user("eve", email="eve@wexcombe.example")
    owner.post(people(project, "person-add"), {"who": "DEE", "role": "reader"})
    owner.post(people(project, "person-add"), {"who": "eve@wexcombe.example", "role": "partner"})
    assert (role_of(project, "dee"), role_of(project, "eve")) == ("reader", "partner")
    assert LogEntry.objects.filter(sentence="Added dee as reader.").exists()


def test_a_name_that_nobody_has_is_answered_beside_its_field(project, owner):
    page = owner.post(people(project, "person-add"), {"who": "zoe", "role": "reader"})
    assert page.status_code == 422
    assert "There is no account called “zoe”." in page.content.decode()
    assert 'value="zoe"' in page.content.decode()


def test_nobody_is_a_member_twice(project, owner):
    page = owner.post(people(project, "person-add"), {"who": "ben", "role": "reader"})
    assert "a member already" in page.content.decode()
    assert role_of(project, "ben") == "partner"


def test_an_e_mail_that_two_accounts_share_asks_for_the_login_name(project, owner):
    for name in ("eve", "fay"):
        User.objects.create_user(name, email="shop@wexcombe.example")
    typed = {"who": "shop@wexcombe.example", "role": "reader"}
    page = owner.post(people(project, "person-add"), typed)
    assert "More than one account" in page.content.decode()


def test_a_role_changes_and_the_log_says_so(project, owner):
    url = people(project, "person-role", membership(project, "cyd").pk)
    owner.post(url, {"role": "partner"})
    assert role_of(project, "cyd") == "partner"
    assert LogEntry.objects.get().sentence == "Changed the role of cyd to partner."


def test_a_role_that_does_not_exist_is_refused(project, owner):
    url = people(project, "person-role", membership(project, "cyd").pk)
    page = owner.post(url, {"role": "king"})
    assert page.status_code == 422
    assert role_of(project, "cyd") == "reader"


def test_the_last_owner_can_neither_step_down_nor_leave(project, owner):
    ada = membership(project, "ada").pk
    down = owner.post(people(project, "person-role", ada), {"role": "reader"})
    gone = owner.post(people(project, "person-remove", ada))
    for page in (down, gone):
        assert page.status_code == 422
        assert "ada is the only owner." in page.content.decode()
    assert role_of(project, "ada") == "owner"


def test_an_owner_leaves_once_there_is_another(project, owner):
    Membership.objects.filter(user__username="ben").update(role="owner")
    page = owner.post(people(project, "person-remove", membership(project, "ada").pk))
    assert page.headers["Location"] == "/"
    assert owner.get(people(project)).status_code == 404


def test_a_removed_member_is_gone_at_once(project, owner, reader):
    page = owner.post(people(project, "person-remove", membership(project, "cyd").pk), follow=True)
    assert "cyd is no longer a member." in page.content.decode()
    assert reader.get(people(project)).status_code == 404


def test_a_partner_does_not_change_people(project, partner):
    url = people(project, "person-role", membership(project, "cyd").pk)
    assert partner.post(url, {"role": "owner"}).status_code == 403


def test_the_members_of_another_project_cannot_be_reached_through_ones_own(project, owner):
    other = factories.ProjectFactory(name="Two Herons")
    theirs = Membership.objects.create(project=other, user=factories.user("dee"), role="owner")
    assert owner.post(people(project, "person-remove", theirs.pk)).status_code == 404


def test_an_owner_makes_an_account_for_somebody_new(project, owner):
    typed = {
        "first_name": "Gus Reed",
        "username": "gus@wexcombe.example",
        "password1": "millrace-lift-3",
        "password2": "millrace-lift-3",
        "role": "reader",
    }
    owner.post(people(project, "person-new"), typed)
    assert role_of(project, "gus@wexcombe.example") == "reader"
    assert owner.login(username="gus@wexcombe.example", password="millrace-lift-3") is not None


def test_htmx_gets_the_table_anew_and_a_plain_request_a_redirect(project, owner):
    url = people(project, "person-role", membership(project, "cyd").pk)
    piece = owner.post(url, {"role": "partner"}, headers={"HX-Request": "true"})
    assert piece.content.decode().lstrip().startswith('<div id="sheet"')
    assert owner.post(url, {"role": "reader"}).status_code == 302


def test_who_leaves_through_htmx_is_sent_home(project, owner):
    Membership.objects.filter(user__username="ben").update(role="owner")
    url = people(project, "person-remove", membership(project, "ada").pk)
    assert owner.post(url, headers={"HX-Request": "true"}).headers["HX-Redirect"] == "/"
