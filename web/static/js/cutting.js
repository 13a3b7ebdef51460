// The cutting table: ticks survive a phone that sleeps; the camera confirms what lies on the table.

import "./larger.js";
import { viewfinder } from "./viewfinder.js";

const KEY = `cutting ${location.pathname}`;
const kept = () => JSON.parse(localStorage.getItem(KEY) || "{}");

for (const box of document.querySelectorAll("[data-tick]")) {
  box.checked = box.checked || kept()[box.dataset.tick] === true;
  box.addEventListener("change", () => {
    localStorage.setItem(KEY, JSON.stringify({ ...kept(), [box.dataset.tick]: box.checked }));
    if (box.dataset.from !== undefined && box.checked) show(box);
    mark();
  });
}

// A ticked piece is brought into view in the drawing.
function show(box) {
  const sheet = box.closest("[data-table]").querySelector("[data-zoom]");
  const share = Number(box.dataset.from) / Number(sheet.dataset.length);
  sheet.scrollTo({ left: share * sheet.scrollWidth - sheet.clientWidth / 4, behavior: "smooth" });
}

// One piece alone: cut, and on to the next.
function mark() {
  for (const alone of document.querySelectorAll("[data-alone]")) {
    const box = document.querySelector(`[data-tick="${CSS.escape(alone.dataset.alone)}"]`);
    alone.querySelector("[data-done]").setAttribute("aria-pressed", String(box.checked));
  }
}

for (const button of document.querySelectorAll("[data-done]")) {
  button.hidden = false;
  button.addEventListener("click", () => {
    const name = button.closest("[data-alone]").dataset.alone;
    const box = document.querySelector(`[data-tick="${CSS.escape(name)}"]`);
    if (!box.checked) box.click();
    location.hash = button.dataset.next;
  });
}
mark();

// Is it right? Answered here, so that it works without a network.
const fetched = document.querySelector("[data-fetch]");
if (fetched) {
  const isRight = (text) => {
    const typed = text.trim().replace(/\/+$/, "");
    const code = typed.slice(typed.lastIndexOf("/") + 1).toUpperCase();
    const box = document.querySelector(`[data-code="${CSS.escape(code)}"]`);
    const said = document.querySelector("[data-fetched]");
    const name = box?.closest("li").querySelector("strong").textContent ?? "";
    said.hidden = false;
    said.className = box ? "note good" : "note bad";
    said.textContent = `${box ? said.dataset.right : said.dataset.wrong} ${name} ${code}`;
    if (box && !box.checked) box.click();
    return Boolean(box);
  };
  fetched.addEventListener("submit", (event) => {
    const typed = fetched.elements.code.value;
    if (!typed.trim()) return;
    event.preventDefault();
    isRight(typed);
    fetched.elements.code.value = "";
  });
  viewfinder(fetched.querySelector("[data-viewfinder]"), async (text) => isRight(text));
}

// What waits for the network is said; once it is sent the ticks are done with.
addEventListener("queue-changed", (event) => {
  document.querySelector("[data-waiting]").hidden = !event.detail.some((act) => act.action.includes("/cutting/"));
});
addEventListener("queue-sent", (event) => {
  if (event.detail.action === location.origin + location.pathname) localStorage.removeItem(KEY);
});
for (const form of document.querySelectorAll("form[data-queued]")) {
  form.addEventListener("queue-let-through", () => localStorage.removeItem(KEY));
}
