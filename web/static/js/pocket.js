// On every page: the copy for reading, and forms that wait for the network.

import { answers, isThere, keep, sendAll, waiting } from "./queue.js";

const root = document.documentElement;
const RENEW_AFTER_MS = 600000;
const installed = matchMedia("(display-mode: standalone)").matches;

if ("serviceWorker" in navigator) {
  navigator.serviceWorker.register("/service-worker.js").then(() => {
    root.dataset.pocket = "ready";
    if (!installed && !localStorage.getItem("pocket")) return;
    if (Date.now() - Number(localStorage.getItem("pocket renewed") ?? 0) > RENEW_AFTER_MS) renew();
  }, () => (root.dataset.pocket = "refused"));
  navigator.serviceWorker.addEventListener("message", (event) => {
    if (event.data.unsent && goes) tellUnsent();
    if (event.data.renewed !== undefined) localStorage.setItem("pocket renewed", String(Date.now()));
  });
}

export async function renew() {
  localStorage.setItem("pocket", "yes");
  (await navigator.serviceWorker.ready).active.postMessage("renew");
}

export const fresh = () => [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

// A page out of the copy: its tokens were used before, so that each showing gets its own.
if (root.dataset.kept) {
  const note = document.querySelector("[data-pocket-kept]");
  note.hidden = false;
  note.querySelector("time").textContent = new Date(root.dataset.kept).toLocaleString(root.lang);
  for (const token of document.querySelectorAll("input[name=token]")) token.value = fresh();
}

const RECORDS = /^\/(cuts\/[^/]+\/(cut-off|part|remains|re-measure|move|as-cut|missing|square|lend|back|wash)|bins\/[^/]+\/(take|put|count|move)|cutting\/.+)$/;

// Any other form needs the stash now: where nothing answers, what was typed still stands, and the page says so.
// Over a plain connection no service worker minds the form, nor where the browser refused it: the page asks first.
let goes = false;
document.addEventListener("submit", async (event) => {
  const form = event.target;
  if (event.defaultPrevented || RECORDS.test(new URL(form.action).pathname)) return;
  goes = form.method === "post" && event.submitter?.formMethod !== "get";
  const minded = ("serviceWorker" in navigator && root.dataset.pocket !== "refused") || form.dataset.asked;
  if (!goes || (minded && navigator.onLine)) return;
  event.preventDefault();
  if (form.dataset.sending) return;
  const button = event.submitter;
  form.dataset.sending = "yes";
  const there = navigator.onLine && (await isThere());
  delete form.dataset.sending;
  if (!there) return tellUnsent();
  form.dataset.asked = "yes";
  form.requestSubmit(button);
  delete form.dataset.asked;
});

function tellUnsent() {
  goes = false;
  const kept = Boolean(root.dataset.kept);
  document.querySelector("[data-needs]").hidden = !kept;
  document.querySelector("[data-unsent]").hidden = kept;
  document.querySelector(kept ? "[data-pocket-kept]" : "[data-unsent]").scrollIntoView({ block: "center" });
}

document.addEventListener("submit", async (event) => {
  const form = event.target;
  const action = new URL(form.action);
  if (event.defaultPrevented || form.method !== "post" || !form.elements.token || !RECORDS.test(action.pathname)) return;
  if (form.enctype === "multipart/form-data") return;
  event.preventDefault();
  if (form.dataset.sending) return;
  form.dataset.sending = "yes";
  const body = new FormData(form, event.submitter);
  if (await answers()) {
    form.dispatchEvent(new CustomEvent("queue-let-through"));
    let extra = null;
    if (event.submitter?.name) {
      extra = Object.assign(document.createElement("input"), { type: "hidden", name: event.submitter.name, value: event.submitter.value });
      form.append(extra);
    }
    goes = true;
    form.submit();
    delete form.dataset.sending;
    extra?.remove();
    return;
  }
  await keep({ token: String(body.get("token")), action: action.href, body: [...body].map(([name, value]) => [name, String(value)]), says: said(form, event.submitter) });
  delete form.dataset.sending;
  form.dispatchEvent(new CustomEvent("queued"));
  line.scrollIntoView({ block: "center" });
});

function said(form, button) {
  if (form.dataset.queued) return form.dataset.queued;
  const typed = [...form.elements].filter((field) => field.type !== "hidden" && field.matches("input:not([type=checkbox], [type=radio])")).map((field) => field.value.trim());
  const words = [document.querySelector("h1")?.textContent, form.closest("section, details")?.querySelector("h2, summary")?.textContent, button?.textContent, ...typed];
  return [...new Set(words.map((word) => word?.trim()).filter(Boolean))].join(" · ");
}

const line = document.querySelector("[data-pocket-waiting]");
function show(acts) {
  line.hidden = acts.length === 0;
  line.querySelector("[data-how-many]").textContent = acts.length;
}

addEventListener("queue-changed", (event) => show(event.detail));
// What was recorded from here is told by the page itself, once it is loaded anew.
addEventListener("queue-sent", async () => {
  if (!(await waiting()).every((act) => act.why)) return;
  history.scrollRestoration = "manual";
  location.reload();
});
addEventListener("online", () => sendAll());
setInterval(() => line.hidden || sendAll(), 15000);
if ("indexedDB" in window) {
  waiting().then((acts) => {
    if (acts.length) dispatchEvent(new CustomEvent("queue-changed", { detail: acts }));
    return sendAll();
  }).catch(() => null);
}
