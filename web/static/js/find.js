// The stash while one types: what is found is asked for again and put in its place.

const form = document.querySelector("[data-find]");
const found = document.querySelector("#found");
const WAIT_MS = 180;
let asked = 0;
let timer;

if (form) {
  form.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(find, WAIT_MS);
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    find();
  });
}

async function find() {
  clearTimeout(timer);
  const number = ++asked;
  const query = new URLSearchParams([...new FormData(form)].filter(([, value]) => value.trim()));
  const address = `${location.pathname}${query.size ? `?${query}` : ""}`;
  const answer = await fetch(address).then((one) => one.text()).catch(() => ""); // out of reach: the list stands
  const fresh = new DOMParser().parseFromString(answer, "text/html").querySelector("#found");
  if (number !== asked || !fresh) return;
  const open = found.querySelector(".facets")?.open;
  const at = found.contains(document.activeElement) && document.activeElement.getAttribute("href");
  found.replaceChildren(...fresh.childNodes);
  if (open) found.querySelector(".facets").open = true;
  history.replaceState(null, "", address);
  if (at) ([...document.querySelectorAll("[data-row]")].find((row) => row.getAttribute("href") === at) ?? form.elements.q).focus();
}

// A facet that is tapped before the answer to what was typed is there keeps what was typed.
found?.addEventListener("click", (event) => {
  const link = event.target.closest("a.facet");
  if (!link) return;
  const to = new URL(link.href);
  for (const name of ["q", "least"]) {
    const typed = form.elements[name].value.trim();
    if (typed) to.searchParams.set(name, typed);
    else to.searchParams.delete(name);
  }
  link.href = to.href;
});

// The keyboard: "/" goes to the field, the arrows from it through the rows and back.
document.addEventListener("keydown", (event) => {
  const typing = /^(input|select|textarea)$/i.test(event.target.tagName);
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.key === "/" && !typing) {
    event.preventDefault();
    form?.elements.q.focus();
  }
  if (event.key !== "ArrowDown" && event.key !== "ArrowUp") return;
  if (typing && event.target !== form?.elements.q) return;
  const rows = [...document.querySelectorAll("[data-row]")];
  const at = rows.indexOf(document.activeElement);
  const to = event.key === "ArrowDown" ? at + 1 : at - 1;
  if (at < 0 && event.key === "ArrowUp") return;
  event.preventDefault();
  (to < 0 ? form.elements.q : rows[Math.min(to, rows.length - 1)])?.focus();
});
