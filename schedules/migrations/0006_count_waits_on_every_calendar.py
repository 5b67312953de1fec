"""A wait may be counted on the calendar of the task that waits, or on the project's."""

from django.db import migrations, models

CLOCKS = [
    ("work", "working days"),
    ("after", "working days of the task that waits"),
    ("project", "working days of the project"),
    ("elapsed", "hours on the clock, day and night"),
]


class Migration(migrations.Migration):
    dependencies = [("schedules", "0005_remember_which_dates_a_notice_tells")]

    operations = [
        migrations.AlterField(
            "link", "lag_clock", models.CharField(choices=CLOCKS, default="work", max_length=7)
        )
    ]
