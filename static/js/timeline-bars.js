"use strict";

/* The bars of the lanes timeline: what a bar waits for and what waits for it, drawn and told while
   it has the focus or the pointer; going from bar to bar; trying a bar longer or shorter. */
const SVG = "http://www.w3.org/2000/svg";
const LEAVE = 6; // how far a link line goes on before it turns
const HALF = 15; // half a line of a lane
const WAIT = 120; // ms before the pointer on a bar counts
const networks = new WeakMap();
let marked = null;
let pointed = 0;

const barOf = (target) => (target.closest ? target.closest(".lanes-body a[data-task]") : null);
const svgOf = (bar) => bar.closest("svg");
const nameOf = (bar) => bar.querySelector("text").textContent;
const boxOf = (bar) => bar.querySelector(".bar").getBBox();

/* Every bar in the order of the lanes, and the links of each, read once from the page. */
function networkOf(svg) {
  if (networks.has(svg)) return networks.get(svg);
  const list = [...svg.querySelectorAll("a[data-task]")];
  const known = new Map(list.map((bar) => [bar.dataset.task, bar]));
  const into = new Map(list.map((bar) => [bar, []]));
  const out = new Map(list.map((bar) => [bar, []]));
  for (const after of list) {
    for (const link of JSON.parse(after.dataset.after || "[]")) {
      const [key, kind = "FS", words = ""] = [].concat(link);
      const before = known.get(key);
      if (!before) continue;
      const tie = { before, after, kind, words };
      into.get(after).push(tie);
      out.get(before).push(tie);
    }
  }
  networks.set(svg, { list, into, out });
  return networks.get(svg);
}

function drawn(kind, attributes, words = "") {
  const made = document.createElementNS(SVG, kind);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.textContent = words;
  return made;
}

/* Over everything, and no obstacle to the pointer. */
function layer(svg, name) {
  const found = svg.querySelector(`g.${name}`) || svg.appendChild(drawn("g", { class: name }));
  found.replaceChildren();
  return found;
}

function lineOf(tie) {
  const a = boxOf(tie.before), b = boxOf(tie.after);
  const fromStart = tie.kind[0] === "S", toStart = tie.kind[1] === "S";
  const x0 = fromStart ? a.x : a.x + a.width, y0 = a.y + a.height / 2;
  const x1 = toStart ? b.x : b.x + b.width, y1 = b.y + b.height / 2;
  const leave = x0 + (fromStart ? -LEAVE : LEAVE), reach = x1 + (toStart ? -LEAVE : LEAVE);
  const same = tie.kind === "SS" || tie.kind === "FF";
  const side = tie.kind === "SS" ? Math.min(leave, reach) : tie.kind === "FF" ? Math.max(leave, reach) : reach;
  const straight = y0 !== y1 && (same || (tie.kind === "FS" && leave <= reach));
  const between = y1 + (y0 < y1 ? -HALF : HALF);
  const turns = straight ? `H${side}V${y1}` : `H${leave}V${between}H${reach}V${y1}`;
  const plain = y0 === y1 && tie.kind === "FS" && leave <= reach;
  const head = toStart ? "l-6 -3.5v7z" : "l6 -3.5v7z";
  return { path: `M${x0} ${y0}${plain ? "" : turns}H${x1}`, head: `M${x1} ${y1}${head}`, x: straight ? side : leave, y0, y1 };
}

function drawTie(group, tie, from) {
  const line = lineOf(tie);
  group.append(drawn("path", { class: "link", d: line.path }), drawn("path", { class: "link-head", d: line.head }));
  if (!tie.words) return;
  const [near, far] = tie.before === from ? [line.y1, line.y0] : [line.y0, line.y1];
  const y = near + (near < far ? HALF : -HALF) + 4;
  const text = drawn("text", { class: "link-words", x: line.x + 5, y }, tie.words);
  group.append(text);
  const edge = group.ownerSVGElement.viewBox.baseVal.width;
  if (line.x + 5 + text.getComputedTextLength() > edge - 4) {
    text.setAttribute("x", line.x - 5);
    text.setAttribute("text-anchor", "end");
  }
}

function unmark() {
  if (!marked) return;
  const svg = svgOf(marked);
  marked = null;
  if (svg) for (const group of svg.querySelectorAll("g.links")) group.remove();
}

function mark(bar) {
  if (marked === bar) return;
  unmark();
  marked = bar;
  drawMarks();
  tellOf(bar);
  bar.setAttribute("aria-describedby", "timeline-says");
}

/* What it is, what it waits for and what waits for it. */
function tellOf(bar) {
  const { into, out } = networkOf(svgOf(bar));
  tell(`${bar.querySelector("title").textContent}. ${told("Waits for", into.get(bar), "before")} ${told("Then", out.get(bar), "after")}`);
}

/* One veil makes all the rest recede; what belongs together is drawn once more over it. */
function drawMarks() {
  const svg = svgOf(marked), { into, out } = networkOf(svg);
  const ties = [...into.get(marked), ...out.get(marked)];
  const group = layer(svg, "links");
  group.setAttribute("aria-hidden", "true");
  group.append(drawn("rect", { class: "veil", y: svg.dataset.head, width: svg.viewBox.baseVal.width, height: svg.viewBox.baseVal.height }));
  for (const bar of new Set(ties.flatMap((tie) => [tie.before, tie.after]).concat(marked))) {
    const copy = group.appendChild(drawn("g", { class: bar === marked ? "with this" : "with" }));
    for (const part of bar.children) if (part.localName !== "title") copy.append(part.cloneNode(true));
  }
  for (const tie of ties) drawTie(group, tie, marked);
}

document.addEventListener("scroll", (event) => {
  if (event.target.id === "timeline-scroll") requestAnimationFrame(() => marked && marked.isConnected && drawMarks());
}, { capture: true, passive: true });

function told(words, ties, end) {
  if (!ties.length) return end === "before" ? "Waits for nothing." : "Nothing waits for it.";
  const names = ties.map((tie) => nameOf(tie[end]) + (tie.words ? ` (${tie.words})` : ""));
  return `${words}: ${names.join("; ")}.`;
}

function tell(sentence) {
  const line = document.getElementById("timeline-says");
  if (line) line.textContent = sentence;
}

/* One stop for the Tab key: the bar that last had the focus. */
function onlyStop(bar) {
  for (const other of networkOf(svgOf(bar)).list) other.setAttribute("tabindex", other === bar ? 0 : -1);
}

function readyBars() {
  const svg = document.querySelector(".lanes-body");
  const { list } = svg ? networkOf(svg) : { list: [] };
  if (list.length && !list.some((bar) => bar.hasAttribute("tabindex"))) onlyStop(list[0]);
}
document.addEventListener("DOMContentLoaded", readyBars);
document.addEventListener("htmx:load", readyBars);

document.addEventListener("focusin", (event) => {
  const bar = barOf(event.target);
  if (!bar) return unmark();
  onlyStop(bar);
  mark(bar);
});
document.addEventListener("pointerover", (event) => {
  if (event.pointerType === "touch" || event.target.closest(".grip")) return;
  const bar = barOf(event.target);
  clearTimeout(pointed);
  if (bar === marked) return;
  pointed = setTimeout(() => {
    const next = bar || barOf(document.activeElement);
    if (next && next.isConnected) mark(next);
    else unmark();
  }, WAIT);
});

/* Where the keys lead from a bar: along the lanes, back and on along the links. */
function neighbour(bar, key) {
  const { list, into, out } = networkOf(svgOf(bar));
  const at = list.indexOf(bar);
  if (key === "ArrowUp") return list[at - 1];
  if (key === "ArrowDown") return list[at + 1];
  const edge = (one) => boxOf(one).x + boxOf(one).width;
  if (key === "b") return into.get(bar).map((tie) => tie.before).sort((a, b) => edge(b) - edge(a))[0];
  return out.get(bar).map((tie) => tie.after).sort((a, b) => boxOf(a).x - boxOf(b).x)[0];
}

document.addEventListener("keydown", (event) => {
  const bar = barOf(event.target);
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  if (!bar || event.ctrlKey || event.altKey || event.metaKey || event.shiftKey) return;
  if (!["ArrowUp", "ArrowDown", "b", "n"].includes(key)) return;
  event.preventDefault();
  const next = neighbour(bar, key);
  if (next) next.focus();
});
