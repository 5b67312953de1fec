"""What people type about parts and their stages."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.db.models import Q

from projects.fields import DayField, LengthField, LongText, MassField
from projects.models import Part, Project, Stage, StageName
from projects.words import day, listed
from schedules.forms.plain import speak_plainly
from schedules.models import Task
from suppliers.models import Supplier

HANGING = ("mounting", "left_mm", "bottom_mm", "used_mm")


class PartForm(forms.ModelForm):  # type: ignore[type-arg]
    maker = forms.ModelChoiceField(
        Supplier.objects.none(), required=False, empty_label="Nobody named yet"
    )
    width_mm = LengthField(label="Width", help_text="Such as 4 ft or 1.2 m.")
    height_mm = LengthField(label="Height")
    depth_mm = LengthField(label="Depth")
    mass_g = MassField(label="Mass", help_text="Such as 64 lb or 29 kg.")
    left_mm = LengthField(
        label="From the wall’s left end",
        zero=True,
        help_text="To its left edge, such as 6 ft 3 in.",
    )
    bottom_mm = LengthField(
        label="Lowest edge above the ground",
        zero=True,
        help_text="Such as 9 ft 2 in; 0 on the ground.",
    )
    used_mm = LengthField(
        label="Height where hands use it", help_text="A crank, a button, a rim. Empty if none."
    )
    note = LongText(label="Note", widget=forms.Textarea(attrs={"rows": 3}))
    stages = forms.MultipleChoiceField(
        label="Stages it goes through",
        choices=StageName.choices,
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )

    class Meta:
        model = Part
        fields = [
            "name",
            "kind",
            "maker",
            "width_mm",
            "height_mm",
            "depth_mm",
            "mass_g",
            "mounting",
            "left_mm",
            "bottom_mm",
            "used_mm",
            "material",
            "finish",
            "stages",
            "note",
        ]
        labels = {"mounting": "How it is held"}
        error_messages = {"name": {"required": "Write a name, such as Lantern frame."}}

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        makers = self.fields["maker"]
        assert isinstance(makers, forms.ModelChoiceField)
        makers.queryset = Supplier.objects.filter(project=project)
        self.fields["stages"].initial = self.stages_now()
        if self.instance.pk:
            makers.initial = Supplier.objects.filter(makings__part=self.instance).first()
        speak_plainly(self)

    @property
    def plain_fields(self) -> list[forms.BoundField]:
        return [field for field in self.visible_fields() if field.name not in HANGING]

    @property
    def hanging_fields(self) -> list[forms.BoundField]:
        return [self[name] for name in HANGING]

    @property
    def hanging_open(self) -> bool:
        """Shown at once where something is written or wrong."""
        return any(field.errors or field.value() not in (None, "") for field in self.hanging_fields)

    def stages_now(self) -> list[str]:
        if self.instance.pk is None:
            return list(StageName.values)
        return list(self.instance.stages.values_list("name", flat=True))

    def clean_stages(self) -> list[str]:
        """A stage that was done stays; it is unticked on the sheet first."""
        chosen: list[str] = self.cleaned_data["stages"]
        if self.instance.pk:
            gone = self.instance.stages.exclude(name__in=chosen).exclude(done_on=None)
            names = [stage.get_name_display() for stage in gone]
            if names:
                raise ValidationError(
                    f"{listed(names)} cannot be taken away while marked done. "
                    "Tick it here again, or mark it not done on the sheet first."
                )
        return chosen


class TickForm(forms.Form):
    """The day on which a stage was done."""

    done_on = DayField(label="Done on")

    def __init__(self, *args: Any, stage: Stage, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.stage, self.today = stage, today
        self.fields["done_on"].initial = today
        self.fields["done_on"].widget.attrs["max"] = f"{today:%Y-%m-%d}"

    def clean_done_on(self) -> date:
        on: date = self.cleaned_data["done_on"]
        if on > self.today:
            raise ValidationError(
                f"That day is still to come. Write today, {day(self.today)}, or earlier."
            )
        task = Task.objects.filter(stage=self.stage).first()
        if task and task.started_on and on < task.started_on:
            raise ValidationError(
                f"“{task}” was started on {day(task.started_on)}. Write that day or a later one."
            )
        return on


class TieForm(forms.Form):
    """The task that carries a stage."""

    task = forms.ModelChoiceField(
        Task.objects.none(), required=False, empty_label="No task", label="Task that does it"
    )

    def __init__(self, *args: Any, stage: Stage, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        free = Task.objects.filter(Q(stage=None) | Q(stage=stage), project=project)
        choice = self.fields["task"]
        assert isinstance(choice, forms.ModelChoiceField)
        choice.queryset = free
        choice.initial = next((t.pk for t in free if t.stage_id == stage.pk), None)
        speak_plainly(self)
