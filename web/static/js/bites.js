// What is missing of a cut: a tap on the drawing says where, the fields how large; drawn as it is typed.

import { millimetres } from "./lengths.js";

for (const block of document.querySelectorAll("[data-bites]")) {
  const form = block.closest("form");
  const rows = [...block.querySelectorAll("[data-bite]")];
  const field = (row, name) => row.querySelector(`[name^="${name}"]`);
  const typed = (row, name) => millimetres(field(row, name).value);
  const isEmpty = (row) => !field(row, "part_length").value && !field(row, "part_width").value;
  block.querySelector("[data-tapped]").hidden = false;
  for (const row of rows) row.hidden = isEmpty(row);

  for (const button of block.querySelectorAll(".nine button")) {
    button.addEventListener("click", () => {
      const row = rows.find((one) => one.hidden) ?? rows.find(isEmpty);
      const full = block.querySelector("[data-full]");
      full.hidden = Boolean(row);
      full.textContent = block.dataset.room;
      if (!row) return;
      row.hidden = false;
      field(row, "end").value = button.dataset.end;
      field(row, "edge").value = button.dataset.edge;
      field(row, "part_length").focus();
      draw();
    });
  }
  form.addEventListener("input", draw);
  draw();

  function draw() {
    const [long, wide] = form.dataset.size?.split(" ").map(Number) ?? ["length", "width"].map((name) => millimetres(form.elements[name]?.value ?? ""));
    const length = long || 2000;
    const width = wide || 1400;
    const holes = rows.filter((row) => !isEmpty(row)).map((row) => {
      const [x, along] = span(field(row, "end").value, typed(row, "part_length"), typed(row, "from_near"), length, ["near", "far"]);
      const [y, across] = span(field(row, "edge").value, typed(row, "part_width"), typed(row, "from_right"), width, ["right", "left"]);
      return `M${x},${width - y}h${along}v${-across}h${-along}z`;
    });
    const svg = block.querySelector("svg");
    svg.setAttribute("viewBox", `0 0 ${length} ${width}`);
    svg.querySelector("[data-cloth]").setAttribute("d", `M0,0H${length}V${width}H0Z ${holes.join(" ")}`);
  }
}

// Where a missing part begins along one way, and how far it reaches.
function span(side, size, offset, whole, [start, stop]) {
  if (Number.isNaN(size)) return [0, whole];
  const reach = Math.min(size, whole);
  if (side === start) return [0, reach];
  if (side === stop) return [whole - reach, reach];
  return [Math.min(offset || 0, whole - reach), reach];
}
