"""Notes what must never happen while somebody uses a page."""

from __future__ import annotations

from dataclasses import dataclass, field

from playwright.sync_api import ConsoleMessage, Page, Request, Response

# A refused answer is judged by its status, in ``response``; a question that a newer one
# overtakes (the form of a slip) is called off by htmx, which says so in the console.
HARMLESS = ("Failed to load resource", "htmx:afterRequest", "htmx:sendAbort")


@dataclass
class Watch:
    """``allowed`` are the refusals (such as 403) that a test provokes on purpose."""

    home: str
    allowed: set[int] = field(default_factory=set)
    faults: list[str] = field(default_factory=list)

    def follow(self, page: Page) -> None:
        page.on("console", self.console)
        page.on("pageerror", lambda error: self.faults.append(f"page error: {error}"))
        page.on("request", self.request)
        page.on("response", self.response)

    def console(self, message: ConsoleMessage) -> None:
        if message.type == "error" and not message.text.startswith(HARMLESS):
            self.faults.append(f"console: {message.text}")

    def request(self, request: Request) -> None:
        if not request.url.startswith((self.home, "data:", "blob:", "about:")):
            self.faults.append(f"leaves the site: {request.url}")

    def response(self, response: Response) -> None:
        if response.status >= 400 and response.status not in {422, *self.allowed}:
            request = response.request
            self.faults.append(f"{response.status} to {request.method} {response.url}")
