// The page of the copy: what waits, and the copy itself.

import { millimetres } from "./lengths.js";
import { fresh, renew } from "./pocket.js";
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

// The stash in one line each: found by words, length and colour, and recorded in.
const find = document.querySelector("[data-find]");
const MOST = 30;
const FEW = 5; // before anything is asked
let kept = { cuts: [], bins: [], needs: [] };

fetch("/pocket/stash.json").then((answer) => answer.json()).then((lines) => {
  kept = lines;
  find.hidden = false;
  search();
}).catch(() => null); // out of reach, and no copy: there is nothing to search

function rgb(colour) {
  return [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16) / 255).map((v) => (v > 0.04045 ? ((v + 0.055) / 1.055) ** 2.4 : v / 12.92));
}

// OKLab (Björn Ottosson, 2020): distances in it follow the eye closely enough to sort by.
function lab(colour) {
  const [r, g, b] = rgb(colour);
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s, 1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s, 0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s];
}

const ALIKE = 0.15; // of its weight: two cloths that hang alike; common practice, no source

// Grams per square metre of what was typed, 0 where it says nothing; ounces are for a square yard.
function grams(field) {
  const found = /^\s*(\d+(?:[.,]\d+)?)\s*(g|oz)?/i.exec(field.value);
  if (!found) return 0;
  const per = { g: 1, oz: 33.9057 }[found[2]?.toLowerCase()] ?? Number(field.dataset.gramsPer);
  return Number(found[1].replace(",", ".")) * per;
}

const apart = (one, other) => Math.hypot(...lab(one).map((v, n) => v - lab(other)[n]));

function search() {
  const words = find.querySelector("#f-words").value.toLowerCase().split(/[\s,]+/).filter(Boolean);
  const least = millimetres(find.querySelector("#f-at-least").value);
  const colour = find.querySelector("[data-by-colour]").checked ? find.querySelector("[data-colour]").value : null;
  const open = location.hash.slice(1).toUpperCase();
  const says = (one) => [one.name, one.code, one.fibres, one.kind, one.place, one.mass, one.size].join(" ").toLowerCase();
  let found = [...kept.cuts, ...kept.bins].filter((one) => words.every((word) => says(one).includes(word)));
  if (!Number.isNaN(least)) found = found.filter((one) => one.whole_mm && one.whole_mm[0] >= least);
  const heavy = grams(find.querySelector("#f-weight"));
  if (heavy) found = found.filter((one) => one.mass_gsm && Math.abs(one.mass_gsm / heavy - 1) <= ALIKE);
  if (colour) {
    const near = (one) => Math.min(...one.colours.map((own) => apart(own, colour)));
    found = found.filter((one) => one.colours.length).sort((a, b) => near(a) - near(b));
  }
  found.sort((a, b) => (b.code === open) - (a.code === open));
  find.querySelector("[data-how-many]").textContent = found.length ? find.dataset.many.replace("NUMBER", found.length) : find.dataset.none;
  find.querySelector("[data-found]").replaceChildren(...found.slice(0, words.length || colour || heavy || !Number.isNaN(least) || open ? MOST : FEW).map((one) => line(one, one.code === open)));
}

function line(one, open) {
  const item = made("li");
  const box = made("details");
  box.open = open;
  const summary = made("summary");
  const colours = made("span", "", "swatches");
  for (const colour of one.colours) colours.append(Object.assign(made("i"), { title: colour }));
  [...colours.children].forEach((dot, n) => dot.style.setProperty("--of", one.colours[n]));
  summary.append(colours, `${one.name} · ${one.size ?? one.amount}`);
  const held = one.held_for?.length ? ` · ${find.dataset.held} ${one.held_for.join(", ")}` : "";
  box.append(summary, made("p", [one.code, one.place, one.fibres, one.mass].filter(Boolean).join(" · ") + held, "quiet"));
  if (find.dataset.records) {
    if (one.size) box.append(form(`/cuts/${one.code}/cut-off`, "length", find.dataset.cutOff, one), form(`/cuts/${one.code}/remains`, "left", find.dataset.left, one));
    else box.append(form(`/bins/${one.code}/take`, "amount", find.dataset.took, one), form(`/bins/${one.code}/count`, "there", find.dataset.count, one));
  }
  item.append(box);
  return item;
}

// An ordinary form with a token of its own: sent at once, or kept (pocket.js).
function form(action, name, words, one) {
  const self = Object.assign(made("form", "", "typed"), { method: "post", action });
  const token = Object.assign(made("input"), { type: "hidden", name: "token", value: fresh() });
  const field = made("div", "", "field");
  const label = made("label", words);
  const input = Object.assign(made("input"), { name, id: `${name}-${one.code}`, autocomplete: "off", required: true });
  label.htmlFor = input.id;
  field.append(label, input);
  askForUnit(self, input, one);
  self.dataset.queued = "";
  self.addEventListener("submit", () => (self.dataset.queued = `${words} · ${input.value} · ${one.name} ${one.code}`), { capture: true });
  self.addEventListener("queued", () => {
    token.value = fresh();
    input.value = "";
  });
  self.append(token, field, made("button", find.dataset.save));
  return self;
}

// A bare number of tape is metres to one and centimetres to another: asked now, not refused later.
function askForUnit(self, input, one) {
  if (one.counted || (one.size && !find.dataset.always)) return;
  self.addEventListener("submit", (event) => {
    if (!/^[\s\d.,/]+$/.test(input.value)) return;
    event.preventDefault();
    input.setCustomValidity(find.dataset.unit.replaceAll("NUMBER", input.value.trim()));
    input.reportValidity();
  });
  input.addEventListener("input", () => input.setCustomValidity(""));
}

find.addEventListener("input", (event) => event.target.closest("[data-found]") || search());
addEventListener("hashchange", search);

// In the shop: by the lays that are known, without a network too.
const shop = document.querySelector("[data-shop]");
const asked = shop.querySelector("form");
const figure = (value, digits) => value.toLocaleString(document.documentElement.lang, { minimumFractionDigits: digits, maximumFractionDigits: digits, useGrouping: false });
const size = (mm) => `${figure(mm * Number(shop.dataset.perMm), 1)} ${shop.dataset.unit}`;
asked.addEventListener("submit", (event) => {
  if (!asked.elements.need) return event.preventDefault();
  const [width, length] = ["width", "length"].map((name) => asked.querySelector(`[name=${name}]`)).map((field) => millimetres(field.value));
  const own = kept.needs.filter((need) => need.what === asked.elements.need.value);
  if (Number.isNaN(width) || Number.isNaN(length) || !own.length) return;
  event.preventDefault();
  const said = shop.querySelector("[data-enough]");
  const wide = own.filter((need) => need.width_mm <= width + 1e-6).sort((a, b) => a.length_mm - b.length_mm);
  said.hidden = false;
  if (!wide.length) {
    said.className = "note open";
    said.textContent = shop.dataset.narrow.replace("NEED", size(Math.min(...own.map((need) => need.width_mm))));
    return;
  }
  const need = wide[0].length_mm / (1 - Number(asked.elements.shrinks.value.replace(",", ".")) / 100);
  const enough = need <= length;
  said.className = enough ? "note good" : "note bad";
  const words = (enough ? shop.dataset.yes : shop.dataset.no).replace("NEED", size(need)).replace("REST", size(Math.abs(length - need)));
  const price = Number(asked.elements.price.value.replace(",", "."));
  const costs = price ? ` ${shop.dataset.costs.replace("COST", figure((price * Math.max(length, need)) / Number(shop.dataset.pricedMm), 2))}` : "";
  said.textContent = words + costs;
});
