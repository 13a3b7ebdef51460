// What is left of a cut, as it was cut: a frame whose edges and corners follow the finger.

const REACH_PX = 26;
const svg = document.querySelector("[data-frame]");
const block = document.querySelector("[data-drawn]");
const SVG = "http://www.w3.org/2000/svg";

if (svg) {
  block.hidden = false;
  const frame = svg.querySelector(".frame");
  const wide = Number(svg.dataset.wide);
  const high = Number(svg.dataset.high);
  const off = svg.insertBefore(document.createElementNS(SVG, "path"), frame);
  off.setAttribute("class", "off");
  const handles = svg.appendChild(document.createElementNS(SVG, "g"));
  const start = () => [[0, 0], [wide, 0], [wide, high], [0, high]];
  let corners = start();

  const scale = () => svg.getScreenCTM().a;
  const place = (event) => new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  const inside = ([x, y]) => [Math.min(Math.max(x, 0), wide), Math.min(Math.max(y, 0), high)];

  function draw() {
    frame.setAttribute("points", corners.map((c) => c.join(",")).join(" "));
    const round = `M0,0H${wide}V${high}H0Z`;
    off.setAttribute("d", `${round} M${corners.map((c) => c.join(",")).join("L")}Z`);
    handles.replaceChildren(...corners.map(([x, y]) => {
      const dot = document.createElementNS(SVG, "circle");
      for (const [name, value] of Object.entries({ cx: x, cy: y, r: 9 / scale(), class: "frame-handle" })) dot.setAttribute(name, value);
      return dot;
    }));
    block.querySelector("[name=ring]").value = JSON.stringify(corners.map(([x, y]) => [Number(x.toFixed(2)), Number((high - y).toFixed(2))]));
    tell();
  }

  function tell() {
    const said = block.querySelector("[data-left]");
    const span = (n) => Math.max(...corners.map((c) => c[n])) - Math.min(...corners.map((c) => c[n]));
    const size = (n, perMm, options) => (Number(perMm) * span(n)).toLocaleString(document.documentElement.lang, { useGrouping: false, ...options });
    const wide = `${size(1, said.dataset.perMm, { maximumFractionDigits: 1 })}\u00a0${said.dataset.unit}`;
    const long = said.dataset.unit === "cm" ? `${size(0, 0.001, { minimumFractionDigits: 2, maximumFractionDigits: 2 })}\u00a0m` : `${size(0, said.dataset.perMm, { maximumFractionDigits: 1 })}\u00a0${said.dataset.unit}`;
    said.textContent = `${long} × ${wide}`;
  }

  // The corner under the finger, else the edge: which corners move, and along which way.
  function grasp(at) {
    const reach = REACH_PX / scale();
    const away = (c) => Math.hypot(c[0] - at.x, c[1] - at.y);
    const corner = corners.findIndex((c) => away(c) < reach && away(c) === Math.min(...corners.map(away)));
    if (corner >= 0) return { moving: [corner] };
    let found = null;
    let least = reach;
    corners.forEach((a, n) => {
      const b = corners[(n + 1) % corners.length];
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
      const along = ((at.x - a[0]) * (b[0] - a[0]) + (at.y - a[1]) * (b[1] - a[1])) / length;
      const distance = Math.abs((at.x - a[0]) * (b[1] - a[1]) - (at.y - a[1]) * (b[0] - a[0])) / length;
      if (along > 0 && along < length && distance < least) {
        least = distance;
        found = { moving: [n, (n + 1) % corners.length], normal: [(b[1] - a[1]) / length, -(b[0] - a[0]) / length], edge: n };
      }
    });
    return found;
  }

  svg.addEventListener("pointerdown", (event) => {
    const from = place(event);
    const held = grasp(from);
    if (!held) return;
    event.preventDefault();
    svg.setPointerCapture(event.pointerId);
    const before = corners.map((c) => [...c]);
    let moved = false;
    const move = (now) => {
      const to = place(now);
      let by = [to.x - from.x, to.y - from.y];
      moved ||= Math.hypot(...by) * scale() > 4;
      if (held.normal) {
        const along = by[0] * held.normal[0] + by[1] * held.normal[1];
        by = held.normal.map((part) => part * along);
      }
      for (const n of held.moving) corners[n] = inside([before[n][0] + by[0], before[n][1] + by[1]]);
      draw();
    };
    const end = () => {
      for (const name of ["pointermove", "pointerup", "pointercancel"]) svg.removeEventListener(name, name === "pointermove" ? move : end);
      if (!moved && held.edge !== undefined) corners.splice(held.edge + 1, 0, inside([from.x, from.y]));
      draw();
    };
    svg.addEventListener("pointermove", move);
    svg.addEventListener("pointerup", end);
    svg.addEventListener("pointercancel", end);
  });

  block.querySelector("[data-again]").addEventListener("click", () => {
    corners = start();
    draw();
  });
  draw();
}
