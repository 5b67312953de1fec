"use strict";

/* The timeline opens a little before today, and opens there again after a zoom. */
function openTimeline(root) {
  for (const scroll of root.querySelectorAll("[data-open-at]")) {
    scroll.scrollLeft = Number(scroll.dataset.openAt);
  }
}

document.addEventListener("DOMContentLoaded", () => openTimeline(document));
document.addEventListener("htmx:load", (event) => openTimeline(event.detail.elt.parentElement || document));
