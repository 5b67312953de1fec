"use strict";

/* After a piece was swapped in: go to the first wrong field, else to what the piece asks for. */
document.addEventListener("htmx:afterSettle", (event) => {
  const piece = event.detail.elt;
  const next = piece.querySelector("[aria-invalid=true]") || piece.querySelector("[data-focus]");
  if (next) next.focus();
});

/* A whole page that came back with something wrong opens at the first wrong field. */
const wrong = document.querySelector("[aria-invalid=true]");
if (wrong) wrong.focus();

/* On a narrow screen the lists of sheets and rooms scroll: show the one we are on. */
function showHere(piece) {
  for (const here of piece.querySelectorAll(".sheets [aria-current], .rooms [aria-current]")) {
    const list = here.parentElement;
    list.scrollLeft = here.offsetLeft - list.offsetLeft - (list.clientWidth - here.offsetWidth) / 2;
  }
}
showHere(document);
document.addEventListener("htmx:afterSettle", (event) => showHere(event.detail.elt));

/* An answer that arrives while somebody types on in its form comes too late: leave the form alone. */
document.addEventListener("htmx:beforeSwap", (event) => {
  const asked = event.detail.requestConfig;
  if (asked.verb !== "get" || asked.elt.tagName !== "FORM") return;
  const pressed = asked.triggeringEvent && asked.triggeringEvent.submitter;
  const words = (data) => { const found = new URLSearchParams(data); found.sort(); return found.toString(); };
  if (words(asked.formData) !== words(new FormData(asked.elt, pressed))) event.detail.shouldSwap = false;
});

/* Words that are ready to be sent can be copied where the browser lets us. */
document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-copy]");
  if (!button) return;
  const words = document.getElementById(button.dataset.copy).textContent;
  navigator.clipboard.writeText(words).then(() => say("Copied."), () => say("Your browser does not let us copy. Select the words and copy them."));
});
function offerToCopy(piece) {
  if (!navigator.clipboard) return;
  for (const button of piece.querySelectorAll("[data-copy]")) button.hidden = false;
}
document.addEventListener("htmx:afterSettle", (event) => offerToCopy(event.detail.elt));
offerToCopy(document);

function say(sentence) {
  const line = document.getElementById("status");
  if (line) line.textContent = sentence;
}

document.addEventListener("htmx:timeout", () => say("The server did not answer in time. What you typed is still here: try again."));
document.addEventListener("htmx:sendError", () => say("No connection. What you typed is still here: try again."));
document.addEventListener("htmx:responseError", (event) => {
  const code = event.detail.xhr.status;
  say(code === 403 ? "You can read this project but not change it." : "That did not work, and nothing was saved. Reload the page and try again.");
});

/* A message goes away by itself, but not while somebody may still be reading it. */
let timer;
new MutationObserver(() => {
  clearTimeout(timer);
  timer = setTimeout(() => say(""), 12000);
}).observe(document.getElementById("status") || document.body, { childList: true, subtree: true });
