// Bolts seen in the shop: the photograph of the tag beside what was typed, kept on this device only.

import { drawer } from "./drawer.js";
import { openReader } from "./reader.js";

const ON_TAGS = ["EAN13", "EAN8", "UPCA", "UPCE", "Code128", "QRCode", "DataMatrix"];
const LONGEST_PX = 1600;
const form = document.querySelector("[data-shop] form");
const list = document.querySelector("[data-bolts]");
const picture = document.querySelector("[data-tag]");
const said = document.querySelector("[data-tag-said]");
const within = drawer("lengthwise bolts", "bolts", "at");
let photo = null; // the picture, as soon as it is drawn

// As large as it takes to read it off again; a camera's own file would fill the phone.
async function drawn(file) {
  const whole = await createImageBitmap(file);
  const by = Math.min(1, LONGEST_PX / Math.max(whole.width, whole.height));
  const canvas = Object.assign(document.createElement("canvas"), { width: Math.round(whole.width * by), height: Math.round(whole.height * by) });
  canvas.getContext("2d").drawImage(whole, 0, 0, canvas.width, canvas.height);
  return canvas;
}

form.querySelector("#f-tag").addEventListener("change", async (event) => {
  const [file] = event.target.files;
  photo = null;
  picture.hidden = !file;
  if (!file) return;
  picture.src = URL.createObjectURL(file);
  const canvas = drawn(file);
  const own = (photo = canvas.then((whole) => new Promise((resolve) => whole.toBlob(resolve, "image/jpeg", 0.8))).catch(() => null));
  const read = await openReader(ON_TAGS);
  const codes = await read(await canvas);
  if (photo !== own) return; // another one was taken, or the bolt is kept already
  const note = form.elements.note;
  if (!codes.length) said.textContent = said.dataset.none;
  else note.value = [...new Set([note.value.trim(), ...codes].filter(Boolean))].join(", ");
});

const keep = form.querySelector("[data-keep-bolt]");
keep.hidden = false;
keep.addEventListener("click", async () => {
  const typed = Object.fromEntries(["note", "width", "length", "price"].map((name) => [name, form.querySelector(`[name=${name}]`).value.trim()]));
  if (!photo && !Object.values(typed).some(Boolean)) return form.elements.note.focus();
  keep.disabled = true; // a second tap keeps no second bolt
  try {
    const taken = await photo;
    await within("readwrite", (store) => store.put({ at: new Date().toISOString(), photo: taken, ...typed }));
    form.reset();
    photo = null;
    picture.hidden = true;
    await show();
  } finally {
    keep.disabled = false;
  }
});

const made = (name, text = "", kind = "") => Object.assign(document.createElement(name), { textContent: text, className: kind });

async function show() {
  const bolts = await within("readonly", (store) => store.getAll());
  list.replaceChildren(...bolts.reverse().map((bolt) => {
    const item = made("li", "", "note");
    if (bolt.photo) item.append(Object.assign(made("img", "", "tag-photo"), { src: URL.createObjectURL(bolt.photo), alt: picture.alt }));
    item.append(made("p", [bolt.note, bolt.width, bolt.length, bolt.price].filter(Boolean).join(" · ")));
    item.append(made("p", new Date(bolt.at).toLocaleString(document.documentElement.lang), "quiet"));
    const forget = Object.assign(made("button", list.dataset.forget), { type: "button" });
    forget.addEventListener("click", async () => {
      await within("readwrite", (store) => store.delete(bolt.at));
      await show();
    });
    item.append(forget);
    return item;
  }));
}

show();
