// Stock-take: each label that is read joins the lists, without a key being touched.

import { viewfinder } from "./viewfinder.js";

const form = document.querySelector("[data-typed]");
const typed = form.querySelector("input[name=code]");
const photo = document.querySelector("#f-photo");
const said = document.querySelector("[data-said]");

if (matchMedia("(pointer: fine)").matches) typed.focus();
photo.addEventListener("change", () => photo.files.length && photo.form.requestSubmit());

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const code = typed.value;
  typed.value = "";
  typed.focus();
  if (code.trim()) await see(code);
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
  const page = new DOMParser().parseFromString(await (await fetch(location.href)).text(), "text/html");
  document.querySelector("[data-lists]").replaceWith(page.querySelector("[data-lists]"));
}
