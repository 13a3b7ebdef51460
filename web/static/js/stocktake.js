// Stock-take: each label that is read joins the lists, without a key being touched.

import { viewfinder } from "./viewfinder.js";

const form = document.querySelector("[data-typed]");
const typed = form.querySelector("input[name=code]");
const photo = document.querySelector("#f-photo");
const said = document.querySelector("[data-said]");
const unsent = document.querySelector("[data-unsent]");
let asked = 0;
let shown = 0;

if (matchMedia("(pointer: fine)").matches) typed.focus();
photo.addEventListener("change", () => photo.files.length && photo.form.requestSubmit());

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const code = typed.value;
  typed.value = "";
  typed.focus();
  if (!code.trim()) return;
  try {
    await see(code);
    unsent.hidden = true;
  } catch {
    typed.value ||= code;
    unsent.hidden = false;
  }
});

viewfinder(document.querySelector("[data-viewfinder]"), see);

async function see(text) {
  const answer = await fetch(form.action, {
    method: "POST",
    body: new URLSearchParams({ code: text }),
    headers: { Accept: "application/json" },
  });
  const result = await answer.json();
  said.hidden = answer.ok;
  said.textContent = answer.ok ? "" : result.error;
  if (result.go) location.assign(result.go);
  else if (answer.ok) await refresh();
  return answer.ok;
}

async function refresh() {
  const number = ++asked;
  const page = new DOMParser().parseFromString(await (await fetch(location.href)).text(), "text/html");
  const lists = page.querySelector("[data-lists]");
  if (!lists || number < shown) return; // a newer one stands there already
  shown = number;
  document.querySelector("[data-lists]").replaceWith(lists);
}
