"""What was spent or given, who pays which cents of it, what they count as, and the papers."""

from __future__ import annotations

from pathlib import PurePath

from django.core.validators import MinValueValidator
from django.db import models

from budgets.models.funds import Fund
from budgets.models.lines import BudgetLine
from projects.models import Project, random_name
from suppliers.models import Order, Supplier


class GiftKind(models.TextChoices):
    SKILLED = "skilled", "Volunteer hours, a trade's skill"
    FLAT = "flat", "Volunteer hours, the published value"
    STAFF = "staff", "Another employer's staff"
    OWN_HOURS = "own_hours", "The artist's own unpaid hours"
    GOODS = "goods", "Goods given"
    LOAN = "loan", "Equipment lent"
    SPACE = "space", "Space lent"
    DISCOUNT = "discount", "A discount given as a gift"
    MILES = "miles", "A volunteer's driving"


class Relation(models.TextChoices):
    """What most funders bar, whoever is paid."""

    NONE = "", "None of these"
    RELATED = "related", "A relative, or a business I have a part in"
    OWN_SPACE = "own_space", "My own space or equipment"
    REGULAR = "regular", "The regular duties of a paid job"
    FUNDRAISING = "fundraising", "Raising money"


class Payer(models.TextChoices):
    ARTIST = "artist", "The artist"
    SPONSOR = "sponsor", "A sponsor, directly"
    OWNER = "owner", "The town or the owner, directly"


class Unit(models.TextChoices):
    NONE = "", "No unit"
    HOUR = "hour", "hours"
    MILE = "mile", "miles"
    NIGHT = "night", "nights"
    DAY = "day", "days"
    MONTH = "month", "months"
    FOOT = "ft2", "square feet"
    METRE = "m2", "square metres"
    ITEM = "item", "pieces"


class Expense(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="expenses")
    line = models.ForeignKey(BudgetLine, models.PROTECT, related_name="expenses")
    payee = models.CharField(max_length=120)
    supplier = models.ForeignKey(
        Supplier, models.SET_NULL, null=True, blank=True, related_name="expenses"
    )
    order = models.ForeignKey(
        Order, models.SET_NULL, null=True, blank=True, related_name="expenses"
    )
    is_deposit = models.BooleanField(default=False)  # on its order; the last bill nets it
    retained_cents = models.BigIntegerField(default=0)  # kept from its bill; below zero: paid out
    cents = models.PositiveBigIntegerField(validators=[MinValueValidator(1)])
    tax_cents = models.PositiveBigIntegerField(null=True, blank=True)  # as printed
    fee_cents = models.PositiveBigIntegerField(null=True, blank=True)  # tips, delivery, bank fees
    day = models.DateField()  # when it was incurred
    ordered_on = models.DateField(null=True, blank=True)
    delivered_on = models.DateField(null=True, blank=True)
    invoice_no = models.CharField(max_length=60, blank=True)
    invoice_on = models.DateField(null=True, blank=True)
    due_on = models.DateField(null=True, blank=True)
    paid_on = models.DateField(null=True, blank=True)
    paid_from = models.CharField(max_length=60, blank=True)  # the account, or the card's last four
    payment_ref = models.CharField(max_length=80, blank=True)
    payer = models.CharField(max_length=10, choices=Payer, default=Payer.ARTIST)
    what = models.CharField(max_length=240, blank=True)
    need = models.CharField(max_length=240, blank=True)  # why it was necessary, and the price fair
    place = models.CharField(max_length=120, blank=True)
    relation = models.CharField(max_length=12, choices=Relation, default=Relation.NONE, blank=True)
    partner = models.CharField(max_length=120, blank=True)  # whoever carries out part of an award
    foreign = models.CharField(max_length=120, blank=True)  # “EUR 120.00 at 1.0850, 3 June 2031”
    allocation = models.CharField(max_length=200, blank=True)  # the basis, when projects share it
    in_kind = models.BooleanField(default=False)
    gift_kind = models.CharField(max_length=10, choices=GiftKind, blank=True)
    basis = models.CharField(max_length=240, blank=True)  # how a gift was valued
    quantity_hundredths = models.PositiveBigIntegerField(null=True, blank=True)
    unit = models.CharField(max_length=5, choices=Unit, default=Unit.NONE, blank=True)
    workings = models.JSONField(default=dict, blank=True)  # how a trip or a stay was reckoned
    bank_ref = models.CharField(max_length=80, blank=True, db_index=True)
    version = models.PositiveIntegerField(default=1)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-day", "-pk"]

    def __str__(self) -> str:
        return f"{self.payee}, {self.day}"


class Credit(models.Model):
    """Money that came back: a refund, a rebate, a returned deposit."""

    expense = models.ForeignKey(Expense, models.CASCADE, related_name="credits")
    cents = models.PositiveBigIntegerField(validators=[MinValueValidator(1)])
    day = models.DateField()
    what = models.CharField(max_length=240)
    paper = models.ForeignKey(
        "Paper", models.SET_NULL, null=True, blank=True, related_name="credits"
    )
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["day", "pk"]

    def __str__(self) -> str:
        return f"{self.cents} cents back on {self.expense}"


class Hours(models.Model):
    """A line of a time sheet; the expense it belongs to is the gift."""

    expense = models.ForeignKey(Expense, models.CASCADE, related_name="hours")
    person = models.CharField(max_length=120)
    day = models.DateField()
    starts = models.TimeField(null=True, blank=True)
    ends = models.TimeField(null=True, blank=True)
    hundredths = models.PositiveIntegerField(validators=[MinValueValidator(1)])  # of an hour
    what = models.CharField(max_length=200)
    supervisor = models.CharField(max_length=120, blank=True)
    signed = models.BooleanField(default=False)

    class Meta:
        ordering = ["day", "person", "pk"]
        verbose_name_plural = "hours"

    def __str__(self) -> str:
        return f"{self.person}, {self.day}"


class Share(models.Model):
    """Cents of an expense that one fund pays."""

    expense = models.ForeignKey(Expense, models.CASCADE, related_name="shares")
    fund = models.ForeignKey(Fund, models.CASCADE, related_name="shares")
    cents = models.PositiveBigIntegerField(validators=[MinValueValidator(1)])

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["expense", "fund"], name="one_share_a_fund")]

    def __str__(self) -> str:
        return f"{self.cents} cents of {self.expense} from {self.fund}"


class Counted(models.Model):
    """Cents of an expense that count as match for one fund, by who pays them."""

    expense = models.ForeignKey(Expense, models.CASCADE, related_name="counted")
    fund = models.ForeignKey(Fund, models.CASCADE, related_name="counted")
    payer = models.ForeignKey(
        Fund, models.CASCADE, null=True, blank=True, related_name="counted_elsewhere"
    )  # none: the artist's own money, or nobody's when the expense is a gift
    cents = models.PositiveBigIntegerField(validators=[MinValueValidator(1)])

    class Meta:
        ordering = ["pk"]
        verbose_name_plural = "counted"
        constraints = [
            models.UniqueConstraint(fields=["expense", "fund", "payer"], name="counted_once"),
            models.UniqueConstraint(
                fields=["expense", "fund"],
                condition=models.Q(payer=None),
                name="own_money_counted_once",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.cents} cents of {self.expense} as match for {self.fund}"


class PaperKind(models.TextChoices):
    RECEIPT = "receipt", "Receipt or invoice"
    PAYMENT = "payment", "Proof of payment"
    QUOTE = "quote", "Quote"
    CONTRACT = "contract", "Contract or order"
    LETTER = "letter", "Giver's letter or rate card"
    TIMESHEET = "timesheet", "Signed time sheet"
    CREDIT = "credit", "Refund slip or credit note"
    OTHER = "other", "Another paper"


def paper_name(instance: Paper, filename: str) -> str:
    folder = f"papers/{instance.expense.project_id}"
    return random_name(folder, PurePath(filename).suffix.lower())


class Paper(models.Model):
    expense = models.ForeignKey(Expense, models.CASCADE, related_name="papers")
    kind = models.CharField(max_length=10, choices=PaperKind, default=PaperKind.RECEIPT)
    file = models.FileField(upload_to=paper_name)
    media_type = models.CharField(max_length=40)
    size = models.PositiveIntegerField()
    sha256 = models.CharField(max_length=64)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.get_kind_display()} for {self.expense}"
