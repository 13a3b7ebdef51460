// The page of the copy: what waits, and the copy itself.

import { renew } from "./pocket.js";
import { drop, sendAll, waiting } from "./queue.js";

const waits = document.querySelector("[data-waits]");
const made = (name, text = "", ...classes) => Object.assign(document.createElement(name), { textContent: text, className: classes.join(" ") });

function list(acts) {
  waits.querySelector("[data-none]").hidden = acts.length > 0;
  waits.querySelector("[data-send]").hidden = acts.every((act) => act.why);
  waits.querySelector("[data-acts]").replaceChildren(...acts.map((act) => {
    const item = made("li", "", act.why ? "note bad" : "note open");
    item.append(made("p", `${act.says} (${new Date(act.at).toLocaleTimeString(document.documentElement.lang)})`));
    if (act.why) {
      const forget = made("button", waits.dataset.drop);
      forget.type = "button";
      forget.addEventListener("click", () => drop(act.token));
      item.append(made("p", `${waits.dataset.refused} ${act.why}`), forget);
    }
    return item;
  }));
}

addEventListener("queue-changed", (event) => list(event.detail));
waits.querySelector("[data-send]").addEventListener("click", () => sendAll());
waiting().then(list);

const button = document.querySelector("[data-renew]");
const said = document.querySelector("[data-copy-said]");
if ("serviceWorker" in navigator) {
  button.hidden = false;
  button.addEventListener("click", () => renew());
  navigator.serviceWorker.addEventListener("message", tell);
  tell();
}

async function tell() {
  const kept = await (await caches.open("copy")).match("/pocket/copy.json");
  if (document.documentElement.dataset.pocket === "refused") said.textContent = said.dataset.refused;
  else if (kept) said.textContent = said.dataset.ready;
}
