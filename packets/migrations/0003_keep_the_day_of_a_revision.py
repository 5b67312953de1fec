import django.utils.timezone
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("packets", "0002_count_pages_of_sections")]

    operations = [
        migrations.AddField(
            model_name="revision",
            name="day",
            field=models.DateField(default=django.utils.timezone.localdate),
            preserve_default=False,
        ),
    ]
