"""The day on which somebody last said how far a task is."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("schedules", "0003_carry_chance_hands_slips_and_feeds")]

    operations = [
        migrations.AddField("task", "said_on", models.DateField(editable=False, null=True)),
    ]
