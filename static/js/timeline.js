"use strict";

/* The lanes timeline as a view: it opens a little before today, moves along by keys or by hand,
   and keeps the day under its middle when it is drawn anew at another zoom. */
const STEP = 120;
let keptView = null;

const timelineScroll = () => document.getElementById("timeline-scroll");
const barInFocus = () => document.activeElement && document.activeElement.closest(".lanes-body a[data-task]");

function middleDay(scroll) {
  const { first, perDay } = scroll.dataset;
  return Number(first) + (scroll.scrollLeft + scroll.clientWidth / 2) / Number(perDay);
}

function keepView() {
  const scroll = timelineScroll();
  if (!scroll || !scroll.clientWidth) return;
  const bar = barInFocus();
  const focus = bar ? bar.dataset.task : document.activeElement === scroll;
  keptView = { day: middleDay(scroll), focus };
}

function openTimeline() {
  const scroll = timelineScroll();
  if (!scroll || scroll.dataset.opened) return;
  scroll.dataset.opened = "yes";
  const { first, perDay, openAt } = scroll.dataset;
  scroll.scrollLeft = keptView
    ? (keptView.day - Number(first)) * Number(perDay) - scroll.clientWidth / 2
    : Number(openAt);
  if (keptView) focusAgain(scroll, keptView.focus);
}

/* The name in a long bar stays in sight while the bar is. */
const followed = new WeakMap();

function namesOf(scroll) {
  if (followed.has(scroll)) return followed.get(scroll);
  const found = [];
  for (const text of scroll.querySelectorAll("text.in")) {
    const bar = text.parentNode.querySelector(".bar");
    const start = Number(bar.getAttribute("x")), end = start + Number(bar.getAttribute("width"));
    const room = end - Number(text.getAttribute("x")) - text.getComputedTextLength() - 6;
    const parts = [...text.parentNode.querySelectorAll("text, .plate, .done-tick")];
    if (room > 40) found.push({ parts, from: start, room, by: 0 });
  }
  followed.set(scroll, found);
  return found;
}

function follow(scroll) {
  const left = scroll.scrollLeft;
  for (const name of namesOf(scroll)) {
    const by = Math.round(Math.min(Math.max(0, left - name.from), name.room));
    if (by === name.by) continue;
    name.by = by;
    for (const part of name.parts) part.setAttribute("transform", `translate(${by})`);
  }
}

document.addEventListener("scroll", (event) => {
  if (event.target.id === "timeline-scroll") requestAnimationFrame(() => follow(event.target));
}, { capture: true, passive: true });

function focusAgain(scroll, focus) {
  if (!focus) return;
  const bar = focus !== true && scroll.querySelector(`a[data-task="${focus}"]`);
  (bar || scroll).focus({ preventScroll: !bar });
}

document.addEventListener("DOMContentLoaded", openTimeline);
document.addEventListener("htmx:beforeSwap", keepView);
document.addEventListener("htmx:afterSettle", openTimeline);

const MOVES = {
  ArrowLeft: (scroll) => scroll.scrollLeft - STEP,
  ArrowRight: (scroll) => scroll.scrollLeft + STEP,
  PageUp: (scroll) => scroll.scrollLeft - scroll.clientWidth * 0.9,
  PageDown: (scroll) => scroll.scrollLeft + scroll.clientWidth * 0.9,
  Home: () => 0,
  End: (scroll) => scroll.scrollWidth,
  t: (scroll) => Number(scroll.dataset.openAt),
};
const WAYS = { "+": "closer", "=": "closer", "-": "farther", "−": "farther" };

/* Single keys count only while the focus is in the timeline. */
document.addEventListener("keydown", (event) => {
  const scroll = event.target.closest && event.target.closest("#timeline-scroll");
  if (!scroll || event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) return;
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  const link = WAYS[key] && document.querySelector(`.timeline-views [data-way="${WAYS[key]}"]`);
  const movable = MOVES[key] && !event.shiftKey && scroll.scrollWidth > scroll.clientWidth;
  if (!link && !movable) return;
  event.preventDefault();
  if (link) link.click();
  else scroll.scrollLeft = MOVES[key](scroll);
});

/* With a mouse, the empty ground is taken hold of and moved; a finger scrolls by itself. */
document.addEventListener("pointerdown", (event) => {
  const scroll = event.target.closest("#timeline-scroll");
  const onGround = scroll && !event.target.closest("a, .grip");
  if (!onGround || event.pointerType !== "mouse" || event.button || event.offsetY > scroll.clientHeight) return;
  if (scroll.scrollWidth <= scroll.clientWidth) return;
  event.preventDefault();
  scroll.focus({ preventScroll: true });
  const from = scroll.scrollLeft + event.clientX;
  const move = (moved) => { scroll.scrollLeft = from - moved.clientX; };
  const end = () => {
    scroll.classList.remove("held");
    scroll.removeEventListener("pointermove", move);
  };
  scroll.classList.add("held");
  scroll.setPointerCapture(event.pointerId);
  scroll.addEventListener("pointermove", move);
  scroll.addEventListener("lostpointercapture", end, { once: true });
});
