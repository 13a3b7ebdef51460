// A drawing shown larger, to be moved about in, by the button beside it (also one that came later).

document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-larger]");
  if (!button) return;
  const sheet = (button.closest("[data-table]") ?? document).querySelector("[data-zoom]");
  button.setAttribute("aria-pressed", String(sheet.classList.toggle("larger")));
});
