"""What is being made, where, and by whom."""

from __future__ import annotations

import secrets
from zoneinfo import available_timezones

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import models


class Phase(models.TextChoices):
    PROPOSAL = "proposal", "Proposal"
    UNDER_WAY = "under_way", "Under way"
    IN_CARE = "in_care", "Open, in care"


class Role(models.TextChoices):
    OWNER = "owner", "Owner"
    PARTNER = "partner", "Partner"
    READER = "reader", "Reader"


def check_zone(value: str) -> None:
    if value not in available_timezones():
        raise ValidationError(f"There is no time zone called “{value}”. One is America/New_York.")


class Project(models.Model):
    name = models.CharField(max_length=120)
    summary = models.CharField(max_length=300, blank=True)
    kind = models.CharField(max_length=60, blank=True)  # the starting plan it came from
    phase = models.CharField(max_length=20, choices=Phase, default=Phase.PROPOSAL)
    country = models.CharField(max_length=2, default="US")  # whose public holidays are days off
    region = models.CharField(max_length=20, blank=True)  # its state or region, for holidays
    zone = models.CharField(max_length=60, default="America/New_York", validators=[check_zone])
    currency = models.CharField(max_length=3, default="USD")
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["name", "pk"]

    def __str__(self) -> str:
        return self.name


class Membership(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="memberships")
    user = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="memberships")
    role = models.CharField(max_length=10, choices=Role)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["project", "user"], name="one_membership_each")
        ]
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.user} is {self.role} of {self.project}"


class Site(models.Model):
    project = models.OneToOneField(Project, models.CASCADE, related_name="site")
    name = models.CharField(max_length=160)
    address = models.CharField(max_length=240, blank=True)
    owner = models.CharField(max_length=160, blank=True)
    ground = models.TextField(blank=True)  # the wall or the ground, as found
    width_mm = models.PositiveIntegerField(null=True, blank=True)
    height_mm = models.PositiveIntegerField(null=True, blank=True)
    path_from_mm = models.PositiveIntegerField(null=True, blank=True)  # wall to the path's edge
    path_width_mm = models.PositiveIntegerField(null=True, blank=True)
    kerb_mm = models.PositiveIntegerField(null=True, blank=True)  # height, at its far edge
    latitude = models.DecimalField(max_digits=8, decimal_places=5, null=True, blank=True)
    longitude = models.DecimalField(max_digits=8, decimal_places=5, null=True, blank=True)

    def __str__(self) -> str:
        return self.name


class PartKind(models.TextChoices):
    MURAL = "mural", "Mural field"
    FRAME = "frame", "Frame"
    SKIN = "skin", "Skin"
    PLANTER = "planter", "Planter"
    LIGHT = "light", "Light"
    TILE = "tile", "Tile or mosaic"
    SCULPTURE = "sculpture", "Sculpture"
    FOOTING = "footing", "Footing"
    OTHER = "other", "Other"


class Mounting(models.TextChoices):
    WALL = "wall", "Fixed to the wall"
    GROUND = "ground", "Stands on the ground"
    POST = "post", "On a post"
    HUNG = "hung", "Hung from above"
    PAINTED = "painted", "Painted on the wall"


class Part(models.Model):
    """A thing that is made. Its maker is kept by the suppliers app."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="parts")
    name = models.CharField(max_length=120)
    kind = models.CharField(max_length=20, choices=PartKind, default=PartKind.OTHER)
    material = models.CharField(max_length=200, blank=True)
    finish = models.CharField(max_length=200, blank=True)
    width_mm = models.PositiveIntegerField(null=True, blank=True)
    height_mm = models.PositiveIntegerField(null=True, blank=True)
    depth_mm = models.PositiveIntegerField(null=True, blank=True)
    mass_g = models.PositiveIntegerField(null=True, blank=True)
    mounting = models.CharField(max_length=10, choices=Mounting, blank=True)
    left_mm = models.PositiveIntegerField(null=True, blank=True)  # from the wall's left end
    bottom_mm = models.PositiveIntegerField(null=True, blank=True)  # lowest edge above the ground
    used_mm = models.PositiveIntegerField(null=True, blank=True)  # where hands use it, above ground
    note = models.TextField(blank=True)
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.name


class StageName(models.TextChoices):
    DESIGN = "design", "Design"
    MOCK_UP = "mock_up", "Mock-up"
    FIT_CHECK = "fit_check", "Fit check"
    MAKE = "make", "Make"
    FINISH = "finish", "Finish"
    DELIVER = "deliver", "Deliver"
    INSTALL = "install", "Install"


class Stage(models.Model):
    part = models.ForeignKey(Part, models.CASCADE, related_name="stages")
    name = models.CharField(max_length=12, choices=StageName)
    position = models.PositiveIntegerField()
    done_on = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["part", "name"], name="one_stage_of_a_name_a_part")
        ]

    def __str__(self) -> str:
        return f"{self.get_name_display()} of {self.part}"


class Topic(models.TextChoices):
    """A text about the project, written once and used by every packet that needs it."""

    CONCEPT = "concept", "Concept"
    SITE = "site", "Site"
    MATERIALS = "materials", "Materials and how long they last"
    MAKING = "making", "Fabrication"
    INSTALLING = "installing", "Installation"
    ACCESS = "access", "Access and safety"
    COMMUNITY = "community", "Community part"
    CARE = "care", "Maintenance plan"
    TEAM = "team", "Team"
    PAST_WORK = "past_work", "Past work"


class Text(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="texts")
    topic = models.CharField(max_length=20, choices=Topic)
    body = models.TextField(blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["project", "topic"], name="one_text_a_topic")
        ]

    def __str__(self) -> str:
        return f"{self.get_topic_display()} of {self.project}"


class PictureUse(models.TextChoices):
    SITE = "site", "The site as it is"
    DRAWING = "drawing", "Drawing of the work"
    PROGRESS = "progress", "Work under way"
    PAST_WORK = "past_work", "Past work"


def random_name(folder: str, suffix: str) -> str:
    """A storage name that tells nothing and cannot be guessed."""
    return f"{folder}/{secrets.token_hex(16)}{suffix}"


def picture_name(instance: Picture, filename: str) -> str:
    return random_name(f"pictures/{instance.project_id}", ".jpg")


class Picture(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="pictures")
    part = models.ForeignKey(Part, models.SET_NULL, null=True, blank=True, related_name="pictures")
    use = models.CharField(max_length=12, choices=PictureUse, default=PictureUse.SITE)
    file = models.FileField(upload_to=picture_name)
    caption = models.CharField(max_length=240)
    alt = models.CharField(max_length=400)
    credit = models.CharField(max_length=120, blank=True)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    size = models.PositiveIntegerField()  # bytes
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.caption


class LogEntry(models.Model):
    """One thing that changed, as a sentence, with its reason."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="log")
    at = models.DateTimeField(auto_now_add=True, db_index=True)
    who = models.CharField(max_length=150)
    about = models.CharField(max_length=20)  # the app the change belongs to
    sentence = models.CharField(max_length=500)
    reason = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ["-at", "-pk"]

    def __str__(self) -> str:
        return self.sentence
