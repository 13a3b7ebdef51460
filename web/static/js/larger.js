// A drawing shown larger, to be moved about in, by the button beside it (also one that came later).

document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-larger]");
  if (!button) return;
  const sheet = (button.closest("[data-table]") ?? document).querySelector("[data-zoom]");
  const larger = sheet.classList.toggle("larger");
  button.setAttribute("aria-pressed", String(larger));
  if (larger) showMarks(sheet);
});

// What is counted or asked lies in the middle of what is seen.
function showMarks(sheet) {
  const marks = [...sheet.querySelectorAll("circle.counted, g.asked")].map((mark) => mark.getBoundingClientRect());
  if (!marks.length) return;
  const middle = (near, far) => (Math.min(...marks.map((m) => m[near])) + Math.max(...marks.map((m) => m[far]))) / 2;
  const seen = sheet.getBoundingClientRect();
  sheet.scrollLeft += middle("left", "right") - (seen.left + seen.right) / 2;
  sheet.scrollTop += middle("top", "bottom") - (seen.top + seen.bottom) / 2;
}
