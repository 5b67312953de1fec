"""A new project, and the details of one that exists."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.html import format_html

from projects.fields import DayField, LengthField, LongText, ShortText
from projects.forms.places import (
    COUNTRIES,
    CURRENCIES,
    regions_of,
    with_own,
    zone_groups,
)
from projects.forms.position import PositionField
from projects.models import Phase, Project
from projects.selectors.details import details_of
from projects.starts import starting_plans
from projects.words import day_year

WEEK = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
HOLIDAYS_HELP = "Its public holidays are days off in the schedule."


def kind_choices() -> list[tuple[str, str]]:
    return [
        (
            kind,
            format_html("<span><b>{}</b> <small>{}</small></span>", plan["title"], plan["suits"]),
        )
        for kind, plan in starting_plans().items()
    ]


class WeekdaysField(forms.MultipleChoiceField):
    """Seven ticks; cleans to “1111100”, Monday first."""

    widget = forms.CheckboxSelectMultiple
    default_error_messages = {"required": "Tick at least one day on which work is done."}

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(choices=[(str(n), name) for n, name in enumerate(WEEK)], **kwargs)

    def clean(self, value: Any) -> str:
        ticked = super().clean(value)
        return "".join("1" if str(n) in ticked else "0" for n in range(7))


class BeginForm(forms.Form):
    """A project from a starting plan."""

    kind = forms.ChoiceField(
        label="Kind of piece",
        widget=forms.RadioSelect,
        choices=kind_choices,
        error_messages={"required": "Choose the kind of piece that comes closest to yours."},
    )
    name = ShortText(label="Name of the piece", max_length=120)
    site_name = ShortText(label="Site", max_length=160, help_text="The wall, square or park.")
    site_address = ShortText(label="Address of the site", max_length=240, required=False)
    public_name = ShortText(
        label="Public event",
        max_length=120,
        initial="Opening",
        help_text="What happens on the public date: an opening, a lantern walk.",
    )
    public_on = DayField(
        label="Public date", help_text="The schedule is laid out backwards from this day."
    )
    weekdays = WeekdaysField(label="Working days", initial=["0", "1", "2", "3", "4"])
    country = forms.ChoiceField(
        label="Country", choices=list(COUNTRIES.items()), initial="US", help_text=HOLIDAYS_HELP
    )
    zone = forms.ChoiceField(label="Time zone", choices=zone_groups, initial="America/New_York")

    def __init__(self, *args: Any, today: Callable[[Project], date], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today

    def today_there(self) -> date:
        """Today in the zone that was chosen."""
        return self.today(Project(zone=self.cleaned_data.get("zone", "UTC")))

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        public_on, today = cleaned.get("public_on"), self.today_there()
        if public_on and public_on < today:
            says = f"{day_year(public_on)} is in the past. Choose {day_year(today)} or later."
            self.add_error("public_on", ValidationError(says))
        return cleaned


class DetailsForm(forms.Form):
    """What the project is called, where it is, and what its figures are counted in."""

    name = ShortText(label="Name of the piece", max_length=120)
    summary = ShortText(
        label="In one sentence",
        max_length=300,
        required=False,
        help_text="What a passer-by will see. Packets open with it.",
    )
    phase = forms.ChoiceField(label="Phase", choices=Phase.choices)
    site_name = ShortText(label="Site", max_length=160)
    site_address = ShortText(label="Address of the site", max_length=240, required=False)
    site_owner = ShortText(label="Owner of the site", max_length=160, required=False)
    site_position = PositionField(
        label="Position",
        help_text="Latitude, longitude, such as 42.00, −72.50: for sunrise and sunset.",
    )
    site_width = LengthField(label="Width", help_text="With its unit, such as 24 ft or 7.3 m.")
    site_height = LengthField(label="Height", help_text="Such as 12 ft or 4 ft 6 in.")
    site_path_from = LengthField(
        label="From the wall to the path",
        zero=True,
        help_text="A verge or bed, such as 4 ft; or 0.",
    )
    site_path_width = LengthField(label="Width of the path", help_text="Such as 9 ft or 2.7 m.")
    site_kerb = LengthField(label="Height of the kerb", help_text="Empty where there is none.")
    site_ground = LongText(
        label="The wall or the ground, as found", help_text="Brick, render, soil, slope, damp."
    )
    country = forms.ChoiceField(label="Country", help_text=HOLIDAYS_HELP)
    region = forms.ChoiceField(
        label="State or region",
        required=False,
        help_text="It may keep public holidays of its own.",
    )
    zone = forms.ChoiceField(label="Time zone")
    currency = forms.ChoiceField(
        label="Currency", help_text="Amounts keep their figures when it changes."
    )

    def __init__(self, *args: Any, project: Project, country: str = "", **kwargs: Any) -> None:
        """``country`` has been chosen on the page but is not saved: its regions are offered."""
        kwargs.setdefault(
            "initial", details_of(project) | ({"country": country} if country else {})
        )
        super().__init__(*args, **kwargs)
        self.choose("country", with_own(COUNTRIES, project.country))
        self.choose_region(project)
        self.choose("zone", zone_groups(project.zone))
        self.choose("currency", with_own(CURRENCIES, project.currency))

    def choose_region(self, project: Project) -> None:
        """The regions of the country that is chosen now, which may not be saved yet."""
        country = str(self["country"].value() or project.country)
        names = COUNTRIES.get(country, country)
        self.choose("region", [("", f"All of {names}"), *regions_of(country).items()])
        wrong = f"That is not in {names}. Choose one of its regions, or all of it."
        self.fields["region"].error_messages["invalid_choice"] = wrong

    def choose(self, name: str, choices: Any) -> None:
        field = self.fields[name]
        assert isinstance(field, forms.ChoiceField)
        field.choices = choices
