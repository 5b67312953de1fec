"""Several rows out of those of a project."""

from __future__ import annotations

from typing import Any

from django import forms


class Several(forms.ModelMultipleChoiceField):  # type: ignore[type-arg]
    widget = forms.CheckboxSelectMultiple

    def clean(self, value: Any) -> Any:
        """A number that no database holds is a wrong choice like any other."""
        try:
            return super().clean(value)
        except OverflowError as error:
            raise forms.ValidationError(self.error_messages["invalid_choice"]) from error
