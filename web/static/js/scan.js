// The scan page: a label read by the live camera opens at once, or joins a list.

import { viewfinder } from "./viewfinder.js";

const block = document.querySelector("[data-viewfinder]");
const many = document.querySelector("[data-many]");
const list = document.querySelector("[data-list]");
const typed = document.querySelector("#f-code");
const photo = document.querySelector("#f-photo");

if (matchMedia("(pointer: fine)").matches) typed.focus();
photo.addEventListener("change", () => photo.files.length && photo.form.requestSubmit());

viewfinder(block, async (text) => {
  const answer = await fetch(`${block.dataset.ask}?text=${encodeURIComponent(text)}`, { headers: { Accept: "application/json" } });
  const label = await answer.json();
  if (!answer.ok) {
    say(label.error);
    return false;
  }
  if (!many.checked) {
    location.assign(label.url);
    return true;
  }
  if (list.querySelector(`[data-code="${label.code}"]`)) return true;
  add(label);
  return label.what !== "unknown";
});

function add(label) {
  const link = document.createElement("a");
  link.className = "tile";
  link.href = label.url;
  const words = document.createElement("span");
  const name = document.createElement("strong");
  name.textContent = label.name;
  const detail = document.createElement("span");
  detail.className = "quiet";
  detail.textContent = ` ${label.code} ${label.detail}`;
  words.append(name, detail);
  link.append(words);
  const item = document.createElement("li");
  item.dataset.code = label.code;
  item.append(link);
  list.prepend(item);
  document.querySelector("[data-count]").textContent = list.children.length;
  document.querySelector("[data-found]").hidden = false;
}

function say(text) {
  const line = document.querySelector("[data-said]");
  line.textContent = text;
  line.hidden = false;
}
