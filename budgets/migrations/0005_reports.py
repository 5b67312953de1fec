from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("budgets", "0004_quotes")]

    operations = [
        migrations.AddField(
            model_name="changerequest",
            name="before",
            field=models.JSONField(blank=True, default=dict),
        ),
    ]
