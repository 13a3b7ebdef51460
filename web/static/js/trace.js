// Traced outlines, corrected by dragging: the nearest point follows the finger.

const REACH_PX = 28;

document.addEventListener("pointerdown", (event) => {
  const svg = event.target.closest?.("svg[data-trace]");
  if (!svg) return;
  const polygon = svg.querySelector("polygon.traced");
  const point = nearest(svg, polygon, event);
  if (!point) return;
  event.preventDefault();
  svg.setPointerCapture(event.pointerId);
  const move = (moved) => {
    const to = place(svg, moved);
    point.x = to.x;
    point.y = to.y;
    record(svg.dataset.trace, polygon);
  };
  const end = () => {
    svg.removeEventListener("pointermove", move);
    svg.removeEventListener("pointerup", end);
    svg.removeEventListener("pointercancel", end);
  };
  svg.addEventListener("pointermove", move);
  svg.addEventListener("pointerup", end);
  svg.addEventListener("pointercancel", end);
});

function place(svg, event) {
  return new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
}

function nearest(svg, polygon, event) {
  const at = place(svg, event);
  const reach = REACH_PX / svg.getScreenCTM().a;
  let best = null;
  let least = reach;
  for (const point of polygon.points) {
    const away = Math.hypot(point.x - at.x, point.y - at.y);
    if (away < least) {
      least = away;
      best = point;
    }
  }
  return best;
}

function record(number, polygon) {
  const ring = [...polygon.points].map((p) => [Number(p.x.toFixed(1)), Number((-p.y).toFixed(1))]);
  document.querySelector(`[data-ring="${number}"]`).value = JSON.stringify(ring);
  const xs = ring.map((p) => p[0]);
  const ys = ring.map((p) => p[1]);
  const size = (values) => ((Math.max(...values) - Math.min(...values)) / 10).toFixed(1);
  document.querySelector(`[data-size="${number}"]`).textContent = `${size(xs)} × ${size(ys)} cm`;
}
