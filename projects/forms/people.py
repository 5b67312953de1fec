"""Who belongs to a project, and what they may do."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db.models import Q

from projects.fields import ShortText
from projects.models import Membership, Project, Role


class RoleField(forms.ChoiceField):
    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("label", "Role")
        kwargs.setdefault("initial", Role.PARTNER)
        super().__init__(choices=Role.choices, **kwargs)


class RoleForm(forms.Form):
    role = RoleField()


class MemberForm(forms.Form):
    """Add somebody who has an account."""

    who = ShortText(label="E-mail or login name", max_length=254)
    role = RoleField()

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.project = project

    def clean_who(self) -> User:
        typed = self.cleaned_data["who"]
        user = account_called(typed)
        if Membership.objects.filter(project=self.project, user=user).exists():
            raise ValidationError(
                f"“{typed}” is a member already. Change the role in the table above."
            )
        return user


def account_called(typed: str) -> User:
    found = list(User.objects.filter(Q(username__iexact=typed) | Q(email__iexact=typed))[:3])
    exact = [user for user in found if user.username == typed]
    if len(found) > 1 and not exact:
        raise ValidationError(f"More than one account fits “{typed}”. Write the exact login name.")
    if not found:
        raise ValidationError(
            f"There is no account called “{typed}”. Check the spelling, or make an account "
            "for this person first."
        )
    return (exact or found)[0]
