"""The proposal to an arts board or a funder.

The asks and limits a new proposal starts with are common practice: the values most often seen in
published calls (500 words of concept, five pictures of the design, ten of past work, one file of
5 MB). The artist sets them right from the body's own list.
"""

from packets.outline import Kind, StartingAsk

kind = Kind(
    key="proposal",
    title="Proposal",
    reader="Arts board",
    sections=(
        "cover",
        "concept",
        "site",
        "drawings",
        "elevation",
        "parts",
        "access",
        "making",
        "timeline",
        "budget",
        "community",
        "care",
        "team",
        "past_work",
    ),
    asks=(
        StartingAsk(title="Cover sheet: title, site, date, cost", section="cover", max_pages=1),
        StartingAsk(title="Concept", section="concept", max_words=500),
        StartingAsk(title="Pictures of the site as it is", section="site", min_pictures=1),
        StartingAsk(
            title="Pictures of the design, with a plan and an elevation",
            section="drawings",
            min_pictures=2,
            max_pictures=5,
        ),
        StartingAsk(title="Materials, sizes and finishes", section="parts"),
        StartingAsk(title="Fabrication and installation plan", section="making"),
        StartingAsk(title="Timeline", section="timeline", max_pages=1),
        StartingAsk(title="Budget by lines, and income", section="budget", max_pages=2),
        StartingAsk(title="Community part", section="community", needed=False, max_words=300),
        StartingAsk(title="Maintenance plan", section="care", max_words=500),
        StartingAsk(title="Team", section="team"),
        StartingAsk(
            title="Pictures of past work", section="past_work", min_pictures=3, max_pictures=10
        ),
    ),
    max_bytes=5_000_000,
)
