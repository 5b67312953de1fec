"""Accounts and memberships: who may read a project, change it, own it."""

from __future__ import annotations

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser, User
from django.core.exceptions import ValidationError
from django.db import transaction

from projects import log
from projects.models import Membership, Project, Role

Somebody = AbstractBaseUser | AnonymousUser
LAST_OWNER = "{name} is the only owner. Make somebody else an owner first."


@transaction.atomic
def make_first_account(*, account: User) -> bool:
    """Save the owner's account of an empty installation; false when it is no longer empty."""
    if User.objects.exists():
        return False
    account.save()
    return True


@transaction.atomic
def add_member(*, project: Project, member: User, role: str, user: Somebody) -> Membership:
    membership = Membership.objects.create(project=project, user=member, role=role)
    said(membership, user, f"Added {log.short_name(member)} as {Role(role).label.lower()}.")
    return membership


@transaction.atomic
def add_account(*, project: Project, account: User, role: str, user: Somebody) -> Membership:
    """Save a new account and make it a member."""
    account.save()
    return add_member(project=project, member=account, role=role, user=user)


@transaction.atomic
def change_role(*, membership: Membership, role: str, user: Somebody) -> None:
    if role == membership.role:
        return
    keep_an_owner(membership)
    membership.role = role
    membership.save(update_fields=["role"])
    name = log.short_name(membership.user)
    said(membership, user, f"Changed the role of {name} to {Role(role).label.lower()}.")


@transaction.atomic
def remove_member(*, membership: Membership, user: Somebody) -> None:
    keep_an_owner(membership)
    said(membership, user, f"Removed {log.short_name(membership.user)} from the project.")
    membership.delete()


def keep_an_owner(membership: Membership) -> None:
    """Refuse to take away the last owner; the rows are locked until the change is made."""
    owners = Membership.objects.select_for_update().filter(
        project_id=membership.project_id, role=Role.OWNER
    )
    if {owner.pk for owner in owners} == {membership.pk}:
        raise ValidationError(LAST_OWNER.format(name=log.short_name(membership.user)))


def said(membership: Membership, user: Somebody, sentence: str) -> None:
    log.write(project=membership.project, user=user, about="projects", sentence=sentence)
