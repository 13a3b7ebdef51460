// The entry screen: a photograph tells its label and colour as soon as it is taken.

import { viewfinder } from "./viewfinder.js";

const form = document.querySelector("[data-entry]");
const photo = form.elements.photo;
const said = form.querySelector("[data-looked]");
const hint = said.textContent;
let looks = 0;
let told = form.elements["colour-as-shown"]?.value ?? ""; // a colour that she did not say herself

photo.addEventListener("change", async () => {
  if (!photo.files.length) return;
  const number = ++looks;
  said.textContent = said.dataset.looking;
  const seen = await looked(photo.files[0]);
  if (number !== looks) return; // another photograph was taken meanwhile
  if (!seen || seen.error) {
    said.textContent = seen?.error ?? hint;
    return;
  }
  const found = [];
  if (seen.code && !form.elements.code.value) found.push((form.elements.code.value = seen.code));
  if (seen.colour && form.elements.colour.value === told) {
    form.elements.colour.value = told = seen.name;
    form.elements["colour-picked"].value = seen.colour;
    known();
    found.push(seen.name);
  }
  said.textContent = found.length ? `${said.dataset.found}: ${found.join(", ")}` : hint;
});

// What is told of a photograph; nothing where the stash is out of reach.
async function looked(picture) {
  const sent = new FormData();
  sent.append("photo", picture);
  try {
    return await (await fetch(form.dataset.look, { method: "POST", body: sent, headers: { Accept: "application/json" } })).json();
  } catch {
    return null;
  }
}

// A name that was chosen shows its colour in the picker; a colour that was picked, its nearest name.
const word = form.elements.colour;
word.addEventListener("change", () => {
  const option = [...word.list.options].find((one) => one.value.toLowerCase() === word.value.trim().toLowerCase());
  if (option) form.elements["colour-picked"].value = option.dataset.hex;
});
form.elements["colour-picked"].addEventListener("input", () => {
  word.value = "";
  known();
});
word.addEventListener("change", known);

function known() {
  form.elements["colour-picked"].classList.remove("unknown");
}

// The live camera: a blank label of ours is the code of this cut.
const block = form.querySelector("[data-viewfinder]");
viewfinder(block, async (text) => {
  const answer = await fetch(`${block.dataset.ask}?text=${encodeURIComponent(text)}`, { headers: { Accept: "application/json" } });
  const label = await answer.json();
  const free = answer.ok && label.what === "blank";
  const line = form.querySelector("[data-said]");
  line.textContent = label.error ?? form.dataset.taken;
  line.hidden = free;
  if (free) form.elements.code.value = label.code;
  return free;
});

// A width that is typed takes the chip's place, and a chip the typed one's.
form.elements.width.addEventListener("input", () => form.querySelectorAll("[name=width_chip]").forEach((chip) => (chip.checked = false)));
form.addEventListener("change", (event) => {
  if (event.target.name === "width_chip") form.elements.width.value = "";
});
