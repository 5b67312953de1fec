"""Accounts: the first one, those made for others, logging in, a new password."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.forms import AuthenticationForm, PasswordChangeForm, UserCreationForm
from django.contrib.auth.models import User

from projects.forms.people import RoleField

PASSWORD_HELP = "At least 8 characters, not only figures, and not a password that many people use."
TWICE = "The two passwords are not the same. Type the same one twice."


class AccountForm(UserCreationForm):  # type: ignore[type-arg]
    """A name, a login name (an e-mail address will do) and a password typed twice."""

    error_messages = {"password_mismatch": TWICE}

    class Meta(UserCreationForm.Meta):
        model = User
        fields = ("first_name", "username")
        labels = {"first_name": "Your name", "username": "E-mail or login name"}
        help_texts = {"username": "You log in with this. Letters, digits and @ . + - _ only."}
        error_messages = {"username": {"unique": "That login name is taken. Choose another."}}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["first_name"].required = True
        self.fields["first_name"].widget.attrs |= {"autocomplete": "name", "autofocus": True}
        self.fields["username"].widget.attrs.pop("autofocus", None)
        self.fields["password1"].help_text = PASSWORD_HELP
        self.fields["password2"].label = "The same password again"
        self.fields["password2"].help_text = ""

    def save(self, commit: bool = True) -> User:
        user: User = super().save(commit=False)
        if "@" in user.username:
            user.email = user.username
        if commit:
            user.save()
        return user


class MemberAccountForm(AccountForm):
    """An account for somebody new, who becomes a member at once."""

    role = RoleField()

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["first_name"].label = "Name of the person"
        self.fields["username"].help_text = "The person logs in with this."
        self.fields["password1"].label = "First password"


class LoginForm(AuthenticationForm):
    error_messages = {
        "invalid_login": "This login name and password do not belong together. "
        "Check both; capitals count.",
        "inactive": "This account is closed.",
    }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["username"].label = "E-mail or login name"


class NewPasswordForm(PasswordChangeForm):
    error_messages = {
        "password_mismatch": TWICE,
        "password_incorrect": "This is not your password of today. Type it once more.",
    }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["old_password"].label = "Your password of today"
        self.fields["new_password1"].help_text = PASSWORD_HELP
        self.fields["new_password2"].label = "The same new password again"
        self.fields["new_password2"].help_text = ""
