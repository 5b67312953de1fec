from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("worksheets", "0001_initial")]

    operations = [
        migrations.RemoveField(model_name="handed", name="figures"),
        migrations.AddField(
            model_name="handed",
            name="what",
            field=models.TextField(default=""),
            preserve_default=False,
        ),
        migrations.AddField(model_name="handed", name="put", field=models.TextField(blank=True)),
        migrations.AddField(model_name="run", name="hands", field=models.JSONField(default=dict)),
    ]
