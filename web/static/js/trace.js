// Traced outlines, corrected over the photograph: a touch moves a point, adds one, or takes one away.

const REACH_PX = 28;
const LEAST_POINTS = 3;


document.addEventListener("pointerdown", (event) => {
  const svg = event.target.closest?.("svg[data-trace]");
  if (!svg) return;
  if (offered(event.target)) return event.preventDefault();
  const polygon = svg.querySelector("polygon.traced");
  const point = touched(svg, polygon, event);
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

// An edge ticked as selvedge is drawn thick.
document.addEventListener("change", (event) => {
  const number = event.target.dataset?.selvedge;
  if (number === undefined) return;
  document.querySelector(`[data-selvedge-line="${number}"]`).classList.toggle("unticked", !event.target.checked);
});

// A tap on a notch that was seen on the paper keeps it, or no longer.
function offered(target) {
  const mark = target.closest("[data-offer]");
  const box = mark && document.querySelector(`[data-notch="${mark.dataset.offer}"]`);
  if (!box) return false;
  box.checked = !box.checked;
  show(box);
  return true;
}

// A notch that is kept is drawn so.
function show(box) {
  document.querySelector(`[data-offer="${box.dataset.notch}"]`)?.classList.toggle("kept", box.checked);
}

document.addEventListener("change", (event) => {
  if (event.target.dataset?.notch !== undefined) show(event.target);
});
document.querySelectorAll("[data-notch]").forEach(show);

// Points typed as numbers are drawn as they are typed.
document.addEventListener("input", (event) => {
  const number = event.target.dataset?.points;
  if (number === undefined) return;
  const ring = event.target.value.split("\n").map((line) => line.trim().split(/[\s;]+/).map(
    (part) => Number(part.replace(",", "."))));
  const whole = ring.filter((point) => point.length === 2 && point.every(Number.isFinite));
  if (whole.length < LEAST_POINTS) return;
  const svg = document.querySelector(`svg[data-trace="${number}"]`);
  svg.querySelector("polygon.traced").setAttribute(
    "points", whole.map(([x, y]) => drawn(svg, x, y).join(",")).join(" "));
  document.querySelector(`[data-ring="${number}"]`).value = "";
});

// The point that a touch is about; none where it was taken away or nothing is near.
function touched(svg, polygon, event) {
  const chosen = document.querySelector(`input[name="touch-${svg.dataset.trace}"]:checked`);
  const what = chosen?.value ?? "move";
  if (what === "add") return added(svg, polygon, event);
  const index = nearest(svg, polygon, event);
  if (index === null) return null;
  if (what === "move") return polygon.points[index];
  event.preventDefault();
  if (polygon.points.length > LEAST_POINTS) {
    polygon.points.removeItem(index);
    record(svg.dataset.trace, polygon);
  }
  return null;
}

function added(svg, polygon, event) {
  const at = place(svg, event);
  const points = [...polygon.points];
  let best = null;
  let least = REACH_PX / svg.getScreenCTM().a;
  points.forEach((from, n) => {
    const away = apart(at, from, points[(n + 1) % points.length]);
    if (away < least) {
      least = away;
      best = n + 1;
    }
  });
  if (best === null) return null;
  const fresh = svg.createSVGPoint();
  fresh.x = at.x;
  fresh.y = at.y;
  const point = polygon.points.insertItemBefore(fresh, best);
  record(svg.dataset.trace, polygon);
  return point;
}

// How far a place is from the line between two points.
function apart(at, from, to) {
  const [x, y] = [to.x - from.x, to.y - from.y];
  const share = ((at.x - from.x) * x + (at.y - from.y) * y) / (x * x + y * y || 1);
  const near = Math.min(1, Math.max(0, share));
  return Math.hypot(from.x + near * x - at.x, from.y + near * y - at.y);
}

function place(svg, event) {
  return new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
}

function nearest(svg, polygon, event) {
  const at = place(svg, event);
  let best = null;
  let least = REACH_PX / svg.getScreenCTM().a;
  [...polygon.points].forEach((point, n) => {
    const away = Math.hypot(point.x - at.x, point.y - at.y);
    if (away < least) {
      least = away;
      best = n;
    }
  });
  return best;
}

// Where a point of the piece is drawn, and back: along and up, or upright as patterns are.
function drawn(svg, x, y) {
  return "upright" in svg.dataset ? [y, x] : [x, -y];
}

function record(number, polygon) {
  const upright = "upright" in polygon.ownerSVGElement.dataset;
  const ring = [...polygon.points].map((p) => (upright ? [p.y, p.x] : [p.x, -p.y]).map(
    (value) => Number(value.toFixed(1))));
  document.querySelector(`[data-ring="${number}"]`).value = JSON.stringify(ring);
  const typed = document.querySelector(`[data-points="${number}"]`);
  if (typed) typed.value = ring.map((point) => point.join(" ")).join("\n");
  const xs = ring.map((p) => p[0]);
  const ys = ring.map((p) => p[1]);
  const said = document.querySelector(`[data-size="${number}"]`);
  const size = (values) => (Number(said.dataset.perMm) * (Math.max(...values) - Math.min(...values)))
    .toLocaleString(document.documentElement.lang, { maximumFractionDigits: 1, useGrouping: false });
  said.textContent = `${size(xs)} × ${size(ys)} ${said.dataset.unit}`;
}
