from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("schedules", "0001_initial")]

    operations = [
        migrations.AddField(
            model_name="task",
            name="remaining_on",
            field=models.DateField(editable=False, null=True),
        )
    ]
