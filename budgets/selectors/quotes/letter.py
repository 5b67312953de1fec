"""The same words for every supplier who is asked: on paper, in a mail, and to copy."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote as quoted

from projects.models import Part, Project, Site
from projects.words import day_year, millimetres
from suppliers.models import Quote, QuoteRequest

ASKED_FOR = (
    "the price without tax",
    "sales tax, and whether you charge it",
    "the delivery to the address above",
    "the lead time in working days from our order",
    "until when the price holds",
    "the deposit you ask for, and how many days after the delivery the rest is due",
    "a certificate of your liability insurance",
)


@dataclass(frozen=True, kw_only=True)
class Letter:
    """One supplier's request."""

    quote: Quote
    part: Part | None
    site: Site | None

    @property
    def request(self) -> QuoteRequest:
        return self.quote.request

    @property
    def project(self) -> Project:
        return self.request.project

    @property
    def to(self) -> str:
        return self.quote.supplier.contact or self.quote.supplier.name

    @property
    def subject(self) -> str:
        return f"Request for a quote: {self.request.title} ({self.project.name})"

    @property
    def facts(self) -> list[tuple[str, str]]:
        """What a maker needs to know, each with its heading."""
        found = []
        if self.part:
            found.append(("Part", ", ".join(filter(None, part_words(self.part)))))
        if self.site and self.site.address:
            found.append(("Deliver to", self.site.address))
        if self.request.wanted_on:
            found.append(("Needed on site", day_year(self.request.wanted_on)))
        if self.request.answer_by:
            found.append(("Please answer by", day_year(self.request.answer_by)))
        return found

    @property
    def asked_for(self) -> tuple[str, ...]:
        return ASKED_FOR

    @property
    def body(self) -> str:
        facts = [f"{name}: {value}" for name, value in self.facts]
        asked = [f"- {line}" for line in ASKED_FOR]
        blocks = [
            f"Dear {self.to},",
            f"please quote for “{self.request.title}”, for {self.project.name}.",
            self.request.what.strip(),
            "\n".join(facts),
            "In your answer, please state:\n" + "\n".join(asked),
            "Every supplier is asked in these words. Thank you.",
        ]
        return "\n\n".join(block for block in blocks if block)

    @property
    def mailto(self) -> str:
        """Opens the reader's own mail program; nothing is sent from here."""
        words = f"subject={quoted(self.subject)}&body={quoted(self.body)}"
        return f"mailto:{quoted(self.quote.supplier.email, safe='@')}?{words}"


def part_words(part: Part) -> list[str]:
    sizes = [millimetres(size) for size in (part.width_mm, part.height_mm, part.depth_mm) if size]
    return [part.name, " by ".join(sizes), part.material, part.finish]


def letter_of(quote: Quote) -> Letter:
    site = Site.objects.filter(project=quote.request.project).first()
    return Letter(quote=quote, part=quote.request.part, site=site)
