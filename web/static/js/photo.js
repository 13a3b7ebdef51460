// Photographs that are measured: sent as soon as they are taken, tapped on where something is asked.

document.addEventListener("change", (event) => {
  const form = event.target.closest?.("form[data-at-once]");
  if (form && event.target.type === "file" && event.target.files.length) form.requestSubmit();
});

// A place that is not sure: a tap says that there is one, another tap that there is none.
document.addEventListener("click", (event) => {
  const place = event.target.closest?.("[data-ask]");
  if (!place) return;
  const input = document.getElementById(`f-ask-${place.dataset.ask}`);
  input.value = Number(input.value) ? 0 : 1;
  total();
});
document.addEventListener("input", (event) => {
  if (event.target.id?.startsWith("f-ask-")) total();
});

function total() {
  const told = document.querySelector("[data-total]");
  let count = Number(told.dataset.sure);
  for (const input of document.querySelectorAll("[id^='f-ask-']")) {
    const there = Number(input.value) || 0;
    count += there;
    const place = document.querySelector(`[data-ask="${input.id.slice(6)}"]`);
    place.classList.toggle("there", there > 0);
    place.querySelector("text").textContent = there || "?";
  }
  told.textContent = told.textContent.replace(/\d+/, count);
}

// Places: under the finger the photograph is shown larger. Of two for a length, each lifts onto an edge.
const LARGER = 3;
let places = [];
let taps = 0; // what is told of an earlier tap is not shown over a later one

document.addEventListener("pointerdown", (event) => {
  const svg = event.target.closest?.(".photo-places svg");
  if (!svg) return;
  event.preventDefault();
  svg.setPointerCapture(event.pointerId);
  magnify(svg, event);
  const move = (moved) => magnify(svg, moved);
  const end = (last) => {
    svg.removeEventListener("pointermove", move);
    svg.removeEventListener("pointerup", end);
    svg.closest(".photo-places").querySelector("canvas").hidden = true;
    if (places.length === 2) places = [];
    places.push(spot(svg, last));
    taps += 1;
    draw(svg, places);
    if (svg.closest("[data-spots]")) tellColours(svg);
    else if (places.length === 2) ask(svg);
  };
  svg.addEventListener("pointermove", move);
  svg.addEventListener("pointerup", end);
});

function spot(svg, event) {
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  return [at.x, at.y];
}

function magnify(svg, event) {
  const canvas = svg.closest(".photo-places").querySelector("canvas");
  const picture = svg.querySelector("image");
  const scale = svg.getScreenCTM().a;
  const [x, y] = spot(svg, event);
  canvas.hidden = false;
  const box = svg.closest(".photo-places").getBoundingClientRect();
  const side = event.clientX - box.left < box.width / 2 ? box.width - 170 : 10;
  canvas.style.left = `${side}px`;
  canvas.style.top = "10px";
  canvas.pictureLoaded ??= Object.assign(new Image(), { src: picture.getAttribute("href") });
  const image = canvas.pictureLoaded;
  if (!image.naturalWidth) return;
  const ratio = image.naturalWidth / Number(picture.getAttribute("width"));
  const reach = (80 / LARGER / scale) * ratio;
  const pen = canvas.getContext("2d");
  pen.fillRect(0, 0, 160, 160);
  pen.drawImage(image, x * ratio - reach, y * ratio - reach, 2 * reach, 2 * reach, 0, 0, 160, 160);
  pen.strokeStyle = "#d33";
  pen.strokeRect(60, 79.5, 40, 1);
  pen.strokeRect(79.5, 60, 1, 40);
}

function draw(svg, ends) {
  svg.querySelectorAll(".tapped").forEach((old) => old.remove());
  const radius = svg.viewBox.baseVal.width / 90;
  for (const [x, y] of ends) {
    const mark = document.createElementNS("http://www.w3.org/2000/svg", "circle");
    mark.setAttribute("class", "tapped");
    mark.setAttribute("cx", x);
    mark.setAttribute("cy", y);
    mark.setAttribute("r", radius);
    svg.append(mark);
  }
}

function written() {
  return places.map((place) => place.map((v) => v.toFixed(1)).join(","));
}

async function ask(svg) {
  const block = svg.closest("[data-places]");
  const [one, other] = written();
  const tap = taps;
  const answer = await fetch(`${block.dataset.places}?one=${one}&other=${other}`, { headers: { Accept: "application/json" } });
  const told = await answer.json();
  if (tap !== taps) return;
  if (!answer.ok) {
    block.querySelector("[data-said]").textContent = told.error ?? "";
    return;
  }
  draw(svg, told.ends_px);
  block.querySelector("[data-said]").textContent = told.said;
  const keep = block.querySelector("[data-length]");
  keep.hidden = false;
  keep.elements.one.value = one;
  keep.elements.other.value = other;
}

// The colour of the first place, and of a second one how it differs.
async function tellColours(svg) {
  const block = svg.closest("[data-spots]");
  const [one, other] = written();
  const tap = taps;
  const answer = await fetch(`${block.dataset.spots}?one=${one}&other=${other ?? ""}`, { headers: { Accept: "application/json" } });
  const told = await answer.json();
  if (tap !== taps) return;
  const refused = block.querySelector("[data-refused]");
  refused.hidden = answer.ok;
  if (!answer.ok) {
    refused.textContent = told.error ?? "";
    return;
  }
  const card = block.querySelector("[data-coloured]");
  card.hidden = false;
  card.querySelector("[data-chips]").replaceChildren(...told.colours.map(chip));
  card.querySelector("[data-match]").textContent = told.match_said;
  card.querySelector("[data-apart]").textContent = told.apart_said;
  const light = card.querySelector("[data-light]");
  light.textContent = told.light_said;
  light.className = told.light === "daylight" ? "quiet" : "note open";
  card.querySelector("[data-like-row]").hidden = false;
  card.querySelector("[data-like]").href = told.like;
  card.querySelector("form").elements.at.value = one;
}

function chip({ colour, name }) {
  const whole = document.createElement("span");
  const disc = document.createElement("i");
  disc.style.setProperty("--of", colour);
  const word = document.createElement("strong");
  word.textContent = name;
  whole.append(disc, word);
  return whole;
}
