from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("projects", "0002_place_a_site_on_the_globe")]

    operations = [
        migrations.AlterField(
            model_name="project",
            name="region",
            field=models.CharField(blank=True, max_length=20),
        ),
    ]
