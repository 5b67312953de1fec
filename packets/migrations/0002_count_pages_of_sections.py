from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("packets", "0001_initial")]

    operations = [
        migrations.AddField(
            model_name="revision",
            name="section_pages",
            field=models.JSONField(default=dict),
        ),
        migrations.AddField(
            model_name="revision",
            name="over",
            field=models.JSONField(default=list),
        ),
    ]
