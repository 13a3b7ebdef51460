// The cutting table: ticks survive a phone that sleeps, and are sent when the network is back.

const KEY = `cutting ${location.pathname}`;
const PENDING = `${KEY} pending`;
const waiting = document.querySelector("[data-waiting]");

const kept = () => JSON.parse(localStorage.getItem(KEY) || "{}");

for (const box of document.querySelectorAll("[data-tick]")) {
  box.checked = box.checked || kept()[box.dataset.tick] === true;
  box.addEventListener("change", () => {
    localStorage.setItem(KEY, JSON.stringify({ ...kept(), [box.dataset.tick]: box.checked }));
    if (box.dataset.from !== undefined && box.checked) show(box);
  });
}

// A ticked piece is brought into view in the drawing.
function show(box) {
  const sheet = box.closest("[data-table]").querySelector("[data-zoom]");
  const share = Number(box.dataset.from) / Number(sheet.dataset.length);
  sheet.scrollTo({ left: share * sheet.scrollWidth - sheet.clientWidth / 4, behavior: "smooth" });
}

for (const button of document.querySelectorAll("[data-larger]")) {
  button.hidden = false;
  button.addEventListener("click", () => {
    const sheet = button.closest("[data-table]").querySelector("[data-zoom]");
    const larger = sheet.classList.toggle("larger");
    button.setAttribute("aria-pressed", String(larger));
  });
}

const fetched = document.querySelector("[data-fetch]");
if (fetched) {
  fetched.hidden = false;
  fetched.addEventListener("submit", (event) => {
    event.preventDefault();
    const typed = fetched.elements.code.value.trim().replace(/\/+$/, "");
    const code = typed.slice(typed.lastIndexOf("/") + 1).toUpperCase();
    const box = document.querySelector(`[data-code="${CSS.escape(code)}"]`);
    const said = document.querySelector("[data-fetched]");
    said.textContent = box ? said.dataset.right : said.dataset.wrong;
    if (box && !box.checked) box.click();
    fetched.elements.code.value = "";
  });
}

// A form that cannot be sent is kept, with the token that makes it count only once.
async function send(action, body) {
  const answer = await fetch(action, { method: "POST", body: new URLSearchParams(body) });
  localStorage.removeItem(PENDING);
  if (answer.redirected) {
    localStorage.removeItem(KEY);
    history.replaceState(null, "", answer.url);
  }
  // The answer itself is shown: loaded once more it would no longer say what was recorded.
  document.open();
  document.write(await answer.text());
  document.close();
}

async function resend() {
  const pending = JSON.parse(localStorage.getItem(PENDING) || "null");
  if (!pending) return;
  try {
    await send(pending.action, pending.body);
  } catch {
    waiting.hidden = false;
  }
}

for (const form of document.querySelectorAll("form[data-keep]")) {
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const body = [...new FormData(form)];
    localStorage.setItem(PENDING, JSON.stringify({ action: form.action, body }));
    resend();
  });
}

addEventListener("online", resend);
setInterval(resend, 15000);
resend();
