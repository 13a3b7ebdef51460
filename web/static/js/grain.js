// The grain of a cut: an arrow turned by buttons or a finger, or the selvedge tapped on the drawing.

const svg = document.querySelector("[data-grain]");
const form = svg.closest("form");
const arrow = svg.querySelector("[data-arrow]");
const turn = form.elements.turn;
const middle = { x: Number(arrow.dataset.x), y: Number(arrow.dataset.y) };

function lay(degrees) {
  const half = Math.round((((degrees + 90) % 180) + 180) % 180) - 90;
  turn.value = half;
  arrow.setAttribute("transform", `rotate(${-half} ${middle.x} ${middle.y})`);
}

function choose(edge) {
  for (const one of svg.querySelectorAll("[data-edge]")) one.classList.toggle("chosen", one === edge);
  const value = edge?.dataset.edge ?? "";
  form.querySelector(`[name=edge][value="${value}"]`).checked = true;
  if (edge) lay(Number(edge.dataset.turn));
}

form.querySelector("[data-turning]").hidden = false;
for (const button of form.querySelectorAll("[data-by]")) {
  button.addEventListener("click", () => {
    choose(null);
    lay(Number(turn.value) + Number(button.dataset.by));
  });
}
for (const edge of svg.querySelectorAll("[data-edge]")) edge.addEventListener("click", () => choose(edge));
for (const radio of form.querySelectorAll("[name=edge]")) {
  radio.addEventListener("change", () => choose(svg.querySelector(`[data-edge="${radio.value}"]`)));
}
turn.addEventListener("input", () => {
  choose(null);
  arrow.setAttribute("transform", `rotate(${-Number(turn.value) || 0} ${middle.x} ${middle.y})`);
});

// A finger on the arrow turns it about its middle.
arrow.addEventListener("pointerdown", (event) => {
  event.preventDefault();
  arrow.setPointerCapture(event.pointerId);
  const move = (moved) => {
    const at = new DOMPoint(moved.clientX, moved.clientY).matrixTransform(svg.getScreenCTM().inverse());
    choose(null);
    lay((Math.atan2(middle.y - at.y, at.x - middle.x) * 180) / Math.PI);
  };
  const end = () => {
    arrow.removeEventListener("pointermove", move);
    arrow.removeEventListener("pointerup", end);
  };
  arrow.addEventListener("pointermove", move);
  arrow.addEventListener("pointerup", end);
});
