// What was recorded without a network: kept with its once-only token, sent once when it is back.

import { drawer } from "./drawer.js";

const within = drawer("lengthwise", "acts", "token");

/** Everything that waits or was refused, oldest first. */
export async function waiting() {
  const acts = await within("readonly", (store) => store.getAll());
  return acts.sort((a, b) => a.at.localeCompare(b.at));
}

/** Keeps one form; the same token twice is one act (the second tap). */
export async function keep(act) {
  await within("readwrite", (store) => store.put({ ...act, at: new Date().toISOString(), why: "" }));
  await told();
}

export async function drop(token) {
  await within("readwrite", (store) => store.delete(token));
  await told();
}

async function told() {
  dispatchEvent(new CustomEvent("queue-changed", { detail: await waiting() }));
}

const PATIENCE_MS = 20000;

/** What the stash says to a knock at its door; null where nobody answers. */
async function knock() {
  try {
    return await fetch("/pocket/here", { cache: "no-store", signal: AbortSignal.timeout?.(PATIENCE_MS) });
  } catch {
    return null;
  }
}

/** Whether the stash answers this device now. */
export const answers = async () => (await knock())?.ok ?? false;

/** Whether the stash is there at all, be it to refuse. */
export const isThere = async () => (await knock()) !== null;

/** Sends what waits, one after the other; what is refused stays, with the reason. */
export async function sendAll() {
  const run = async () => {
    for (const act of await waiting()) {
      if (act.why) continue;
      if (!(await send(act))) return;
    }
  };
  await (navigator.locks ? navigator.locks.request("lengthwise queue", run) : run());
}

// A redirect is how a form says that it was recorded; only the page that follows is not fetched.
async function send(act) {
  let answer;
  try {
    answer = await fetch(act.action, { method: "POST", body: new URLSearchParams(act.body), redirect: "manual" });
  } catch {
    return false;
  }
  if (answer.status >= 500 || answer.status === 429) return false;
  if (answer.type === "opaqueredirect" || answer.ok) {
    await drop(act.token);
    dispatchEvent(new CustomEvent("queue-sent", { detail: act }));
    return true;
  }
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const why = page.querySelector("[role=alert]")?.textContent ?? page.querySelector("main")?.textContent ?? String(answer.status);
  await within("readwrite", (store) => store.put({ ...act, why: why.replace(/\s+/g, " ").trim().slice(0, 400) }));
  await told();
  return true;
}
