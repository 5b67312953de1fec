"""The dates that a notice tells: so that nobody is told one that has moved again."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("schedules", "0004_remember_when_progress_was_said")]

    operations = [migrations.AddField("notice", "dates", models.JSONField(default=dict))]
