"""Hearthlight on paper: rows, and pictures drawn here."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from io import BytesIO

import factory
from django.core.files.base import ContentFile
from PIL import Image, ImageDraw

from budgets import models as budgets
from packets import models
from packets.services.start import packet_start
from projects import models as projects
from suppliers import models as suppliers
from tests import factories

PLASTER, INK, SINOPIA, BRICK = "#f6f2ea", "#211c17", "#9a3b20", "#d9c3ae"

CONCEPT = """The pier stands where the footpath leaves Mill Lane: brick, soot and fern, and no
light after five in winter. Hearthlight gives it back a hearth. Nine bands of colour rise from
the ground like the courses of a banked fire, and where the flue would be a lantern hangs,
six-sided, its skin sewn from the same colours in ripstop.

A hand crank on the path charges the battery in the lantern's foot. One minute of turning gives
ten minutes of light. Nobody has to turn it; somebody always does.

The work belongs to the people who walk home past it. Two fern troughs below the mural keep what
grew there before us."""

CARE = """The mural is washed once a year in May with water and a soft brush. Touch-up paint, one
quart of each colour, stays with the owner of the viaduct.

The lantern's fixings are looked at every six months by a person who may sign for them, as local
rules ask; the skin is taken down each January, washed and checked at the seams.

Volunteers water the ferns from April to October: two cans a week, three in a dry one. Care costs
$480 a year, from the care reserve, for ten years."""

TEXTS = {
    "concept": CONCEPT,
    "site": "A disused rail viaduct over a footpath. The pier faces south-west and dries "
    "by noon. The path is 7 ft wide and is kept open at all hours.",
    "materials": "Mineral silicate paint on sound brick: 20 years before a repaint. Welded mild "
    "steel, zinc-primed and powder coated: 15 years. Ripstop nylon skin: 4 years, then resewn from "
    "the same pattern.",
    "making": "The frame is welded from a full-size template, then the skin is cut to the frame "
    "as built, not to the drawing.",
    "installing": "One day with a lift. The path is closed on one side, with a steward; a "
    "structural engineer's letter for the anchors comes before any hole is drilled.",
    "access": "The crank stands at 36 in, within reach from a wheelchair and for a child, and asks "
    "for less than 5 lbf. Nothing hangs below 9 ft over the path.",
    "community": "Four evenings in the chapel hall: people bring a colour from their own kitchen. "
    "The nine bands are mixed from these.",
    "care": CARE,
    "team": "Ada designs and paints, and holds the contract. The makers below have read the "
    "drawings and given a price.",
    "past_work": "Three walls in five years, all still cared for by the people next to them.",
}


def drawing(name: str, width: int = 1200, height: int = 800) -> bytes:
    """An elevation of the pier with its lantern; the name changes the bands."""
    image = Image.new("RGB", (width, height), PLASTER)
    draw = ImageDraw.Draw(image)
    left, right, ground = width * 0.3, width * 0.7, height * 0.9
    draw.rectangle((left, height * 0.08, right, ground), fill=BRICK, outline=INK, width=3)
    shift = sum(map(ord, name)) % 5
    tones = ("#9a3b20", "#b96a35", "#d9a441", "#8a5a00", "#2c6a5d")
    for band in range(9):
        y = ground - (band + 1) * height * 0.045
        tone = tones[(band + shift) % 5]
        draw.rectangle((left + 6, y, right - 6, y + height * 0.035), fill=tone)
    for row in range(10):
        y = height * 0.08 + row * height * 0.04
        draw.line((left, y, right, y), fill="#b79f88", width=1)
    middle, top = width / 2, height * 0.2
    hexagon = [(middle - 70, top + 40), (middle, top), (middle + 70, top + 40)]
    hexagon += [(middle + 70, top + 150), (middle, top + 190), (middle - 70, top + 150)]
    draw.polygon(hexagon, fill="#f7e8c6", outline=SINOPIA, width=6)
    for x, y in hexagon[:3]:
        draw.line((x, y, x, y + 150 if x != middle else y + 190), fill=SINOPIA, width=3)
    draw.line((width * 0.05, ground, width * 0.95, ground), fill=INK, width=4)
    draw.line((right + 60, ground, right + 60, height * 0.08), fill=INK, width=2)
    draw.text((right + 75, height * 0.45), "24 ft", fill=INK, font_size=28)
    out = BytesIO()
    image.save(out, "JPEG", quality=90)
    return out.getvalue()


class PictureFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = projects.Picture

    project = factory.SubFactory(factories.ProjectFactory)
    use = "drawing"
    caption = factory.Sequence(lambda n: f"Elevation {n} from the footpath")
    alt = "A brick pier with nine bands of colour and a six-sided lantern above them."
    credit = "Drawing: Ada"
    width, height = 1200, 800
    size = 100_000
    position = factory.Sequence(int)

    @factory.lazy_attribute
    def file(self) -> ContentFile:
        return ContentFile(drawing(self.caption, self.width, self.height), name="picture.jpg")


def packet(project: projects.Project, **fields: object) -> models.Packet:
    made = packet_start(project=project, key="proposal")
    for name, value in fields.items():
        setattr(made, name, value)
    made.save()
    return made


def write_texts(project: projects.Project) -> None:
    for topic, body in TEXTS.items():
        blocks = [" ".join(block.split()) for block in body.split("\n\n")]
        projects.Text.objects.create(project=project, topic=topic, body="\n\n".join(blocks))


def hearthlight(*, times: int = 1) -> projects.Project:
    """The whole project as a proposal needs it; ``times`` makes its rows that many times more."""
    project = factories.planned_project()
    project.summary = "A mural and a lantern that passers-by light by hand, on the Mill Lane pier."
    project.save()
    projects.Site.objects.create(
        project=project,
        name="Mill Lane viaduct, pier 3",
        address="Mill Lane footpath, Wexcombe Mills",
        owner="Wexcombe Mills Parks Department",
        ground="Brick in lime mortar, sound, bare",
        width_mm=3658,
        height_mm=7315,
    )
    write_texts(project)
    add_money(project, times)
    add_parts(project, times)
    add_tasks(project, times)
    add_pictures(project, times)
    return project


def add_money(project: projects.Project, times: int) -> None:
    lines = [
        ("Artist's fee", "artist_fee", 900_000),
        ("Paint and primer", "materials", 310_000),
        ("Lantern frame", "fabrication", 640_000),
        ("Sewn skin", "fabrication", 280_000),
        ("Lift and stewards", "install", 265_050),
        ("Anchor letter", "design", 120_000),
        ("Care reserve", "care", 480_000),
        ("Contingency", "contingency", 154_950),
    ]
    for n in range(times):
        for name, category, cents in lines:
            label = name if n == 0 else f"{name}, lot {n + 1}"
            factories.LineFactory(
                project=project, name=label, category=category, planned_cents=cents
            )
    grant = factories.FundFactory(project=project, status="applied", award_cents=1_500_000)
    budgets.FundRule.objects.create(
        fund=grant, code="match", params={"numerator": 1, "denominator": 1}
    )
    others = [("Riverside Ward improvement fund", "grant", 900_000)]
    others += [("Mill Lane Traders sponsorship", "sponsor", 400_000), ("Own money", "own", 150_000)]
    for name, kind, cents in others:
        factories.FundFactory(project=project, name=name, kind=kind, award_cents=cents)


def add_parts(project: projects.Project, times: int) -> None:
    rows = [
        ("Mural field", "mural", 3658, 7315, None, None, "Silicate paint on brick", "", None),
        ("Lantern frame", "frame", 1219, 1829, 1219, 41_000, "Mild steel, 3/4 in square tube",
         "Zinc primer, powder coat in warm black", "Saltglaze Metalworks"),
        ("Lantern skin", "skin", 1219, 1600, None, 1_200, "Ripstop nylon, nine colours",
         "Flat-felled seams", "Third Bell Canvas Loft"),
        ("Fern trough", "planter", 1067, 406, 356, 27_500, "Cedar, lined", "Oiled", None),
    ]  # fmt: skip
    for n in range(times):
        for name, kind, width, height, depth, mass, material, finish, maker in rows:
            part = factories.PartFactory(
                project=project, name=name if n == 0 else f"{name} {n + 1}", kind=kind,
                width_mm=width, height_mm=height, depth_mm=depth, mass_g=mass,
                material=material, finish=finish, position=n,
            )  # fmt: skip
            if maker:
                supplier, _ = suppliers.Supplier.objects.get_or_create(project=project, name=maker)
                suppliers.Making.objects.create(part=part, supplier=supplier)


def add_tasks(project: projects.Project, times: int) -> None:
    names = [
        ("Artist", "Working drawings", 8), ("Artist", "Paint mural field", 9),
        ("Saltglaze Metalworks", "Powder coat", 6), ("Third Bell Canvas Loft", "Fit the skin", 2),
        ("Millrace Lift Hire", "Lift on site", 1), ("Volunteer crew", "Plant fern troughs", 2),
        ("Structural engineer", "Anchor letter", 7), ("Arts board and city", "Board hearing", 1),
    ]  # fmt: skip
    for n in range(times):
        for lane, name, days in names:
            factories.TaskFactory(
                project=project,
                name=name if n == 0 else f"{name}, stage {n + 1}",
                lane=factories.LaneFactory(project=project, name=lane),
                days=Decimal(days),
                not_before=date(2031, 3, 3) + timedelta(days=7 * (n % 10)),
            )
    factories.KeyDateFactory(
        project=project, name="Arts board hearing", kind="hearing", on=date(2031, 4, 8),
        effect="none",
    )  # fmt: skip


def add_pictures(project: projects.Project, times: int) -> None:
    for n in range(times):
        for use, width, height in (
            ("site", 1200, 800), ("drawing", 1200, 800), ("drawing", 800, 1100),
            ("drawing", 800, 1100), ("past_work", 1200, 900), ("past_work", 900, 900),
        ):  # fmt: skip
            PictureFactory(
                project=project,
                use=use,
                width=width,
                height=height,
                caption=f"{use.replace('_', ' ').capitalize()}, view {n + 1}, 24 ft by 12 ft",
            )
