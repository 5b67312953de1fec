import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("budgets", "0002_audit"),
        ("projects", "0003_leave_room_for_a_long_region"),
    ]

    operations = [
        migrations.CreateModel(
            name="AcceptedFit",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("at", models.DateTimeField(auto_now_add=True)),
                ("on", models.DateField()),
                ("who", models.CharField(max_length=150)),
                ("sentence", models.CharField(max_length=500)),
                ("was", models.JSONField(default=dict)),
                ("became", models.JSONField(default=dict)),
                ("undone_at", models.DateTimeField(null=True)),
                ("undone_by", models.CharField(blank=True, max_length=150)),
                (
                    "project",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="accepted_fits",
                        to="projects.project",
                    ),
                ),
            ],
            options={
                "ordering": ["-pk"],
            },
        ),
    ]
