"use strict";

/* A bar tried longer or shorter, by its right end or by keys: a short way to “Try a slip”.
   Days are counted on the task's own calendar, which stands in the page: a 1 for a day worked. */
let stretched = null; // { bar, days, index }: the bar and its last day as tried

const GRIP = 8;
const NOT_HERE = "This one cannot be tried longer or shorter: it is finished, or a moment without length.";

function daysOf(bar) {
  if (!bar.dataset.calendar) return null;
  const held = svgOf(bar).querySelector(`[data-calendar-days="${bar.dataset.calendar}"]`);
  const [first, last] = bar.dataset.span.split(" ").map(Number);
  return { worked: held.dataset.worked, first: Math.max(0, first), last };
}

/* How many days of work lie between its last day and another. */
function daysTo(days, index) {
  const between = (from, to) => [...days.worked.slice(from + 1, to + 1)].filter((day) => day === "1").length;
  return index >= days.last ? between(days.last, index) : -between(index, days.last);
}

/* The next day of work after or before one; none beyond the drawing, nor before its own first day. */
function nextWorked(days, index, way) {
  const worked = (n) => n === days.last || days.worked[n] === "1";
  for (let n = index + way; n >= days.first && n < days.worked.length; n += way) if (worked(n)) return n;
  return index;
}

/* The last day of work up to one. */
function workedBy(days, index) {
  let n = Math.min(Math.max(index, days.first), days.worked.length - 1);
  while (n > days.first && n !== days.last && days.worked[n] !== "1") n -= 1;
  return n;
}

function drawStretch() {
  const { bar, days, index } = stretched;
  const svg = svgOf(bar), group = layer(svg, "stretches");
  const box = boxOf(bar), perDay = Number(timelineScroll().dataset.perDay);
  const end = (index + 1) * perDay;
  group.append(drawn("rect", { class: "stretch", x: box.x, y: box.y - 2, width: Math.max(2, end - box.x), height: box.height + 4 }));
  if (days) group.append(drawn("text", { class: "stretch-words", x: end + 6, y: box.y + box.height / 2 + 4 }, signed(days)));
}

const signed = (days) => `${days > 0 ? "+" : "−"}${Math.abs(days)} ${Math.abs(days) === 1 ? "day" : "days"}`;

function dateOf(index) {
  const at = new Date((Number(timelineScroll().dataset.first) + index) * 86400000);
  return at.toLocaleDateString("en-GB", { weekday: "short", day: "numeric", month: "short", timeZone: "UTC" });
}

function sayStretch() {
  const { bar, days, index } = stretched;
  const much = Math.abs(days) === 1 ? "1 working day" : `${Math.abs(days)} working days`;
  const words = days
    ? `${nameOf(bar)}, ${much} ${days > 0 ? "longer" : "shorter"}: to ${dateOf(index)}. Enter tries it, Esc leaves it.`
    : `${nameOf(bar)} as planned: to ${dateOf(index)}.`;
  tell(words);
  say(words);
}

function stretch(bar, days, index) {
  stretched = { bar, index, days: daysTo(days, index) };
  drawStretch();
}

function leaveStretch() {
  if (stretched) for (const group of svgOf(stretched.bar).querySelectorAll("g.stretches")) group.remove();
  stretched = null;
}

/* As it was, in the drawing and in words. */
function takeBack() {
  const { bar } = stretched;
  leaveStretch();
  tellOf(bar);
  say("");
}

function tryStretch() {
  const { bar, days } = stretched;
  const place = document.getElementById("timeline").dataset.slip;
  leaveStretch();
  if (days && place) location.assign(`${place}?what=task-${bar.dataset.task}&days=${days}`);
}

document.addEventListener("keydown", (event) => {
  if (stretched && event.key === "Escape") return takeBack();
  const bar = barOf(event.target);
  if (!bar || event.ctrlKey || event.altKey || event.metaKey) return;
  if (event.key === "Enter" && stretched && stretched.days) {
    event.preventDefault();
    tryStretch();
  } else if (event.shiftKey && (event.key === "ArrowLeft" || event.key === "ArrowRight")) {
    event.preventDefault();
    const days = daysOf(bar);
    if (!days) {
      tell(NOT_HERE);
      return say(NOT_HERE);
    }
    const from = stretched && stretched.bar === bar ? stretched.index : days.last;
    stretch(bar, days, nextWorked(days, from, event.key === "ArrowRight" ? 1 : -1));
    sayStretch();
  }
});
document.addEventListener("focusin", (event) => {
  if (stretched && barOf(event.target) !== stretched.bar) leaveStretch();
});

/* A grip at the right end of the bar under a mouse or a pen; a finger goes on scrolling. */
document.addEventListener("pointerover", (event) => {
  if (stretched || event.target.closest(".grip")) return;
  for (const left of document.querySelectorAll(".lanes-body g.grips")) left.remove();
  const bar = barOf(event.target);
  if (!bar || event.pointerType === "touch" || !bar.dataset.calendar) return;
  const box = boxOf(bar);
  const x = box.x + box.width - GRIP / 2;
  const group = layer(svgOf(bar), "grips");
  const grip = drawn("rect", { class: "grip", x, y: box.y, width: GRIP, height: box.height });
  grip.addEventListener("pointerdown", (down) => hold(down, bar, grip));
  group.append(grip);
});

function hold(down, bar, grip) {
  if (down.button || down.pointerType === "touch") return;
  down.preventDefault();
  mark(bar);
  const svg = svgOf(bar), days = daysOf(bar);
  const perDay = Number(timelineScroll().dataset.perDay);
  const move = (moved) => {
    if (!stretched) return;
    const x = new DOMPoint(moved.clientX, moved.clientY).matrixTransform(svg.getScreenCTM().inverse()).x;
    const index = workedBy(days, Math.round(x / perDay) - 1);
    if (stretched.index === index) return;
    stretch(bar, days, index);
    sayStretch();
  };
  const end = (ended) => {
    grip.removeEventListener("pointermove", move);
    if (!stretched) return;
    if (ended.type === "pointerup") tryStretch();
    else leaveStretch();
  };
  grip.setPointerCapture(down.pointerId);
  stretch(bar, days, days.last);
  grip.addEventListener("pointermove", move);
  grip.addEventListener("pointerup", end, { once: true });
  grip.addEventListener("pointercancel", end, { once: true });
}
