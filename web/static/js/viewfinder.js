// The camera part of a page: start, choose, light, sound. The page says what a text means.

import { Camera, cameraAllowed } from "./camera.js";
import { signal, wake } from "./signal.js";

const REASONS = { NotAllowedError: "notAllowed", NotFoundError: "notFound" };

/** Wires the [data-viewfinder] block; ``onText(text)`` returns whether it was a good label. */
export function viewfinder(block, onText) {
  const part = (name) => block.querySelector(`[data-part=${name}]`);
  if (!cameraAllowed()) {
    part("absent").hidden = false;
    return null;
  }
  const camera = new Camera(part("video"), Number(block.dataset.forgetAfterMs), async (text) => {
    signal({ sound: part("sound").checked, good: await onText(text) });
  });
  part("ready").hidden = false;

  async function start(deviceId) {
    wake();
    part("trouble").hidden = true;
    try {
      if (!(await camera.start(deviceId))) return;
    } catch (error) {
      part("trouble").hidden = false;
      part("trouble-text").textContent = part("trouble").dataset[REASONS[error.name]] ?? part("trouble").dataset.other;
      return;
    }
    part("frame").hidden = false;
    part("controls").hidden = false;
    part("start").hidden = true;
    part("light-choice").hidden = !camera.hasLight;
    await offer(camera, part("choose"));
  }

  part("start").addEventListener("click", () => start());
  part("choose").addEventListener("change", (event) => start(event.target.value));
  part("light").addEventListener("change", (event) => camera.light(event.target.checked));
  part("stop").addEventListener("click", () => {
    camera.stop();
    part("frame").hidden = part("controls").hidden = true;
    part("start").hidden = false;
  });
  return camera;
}

async function offer(camera, select) {
  const cameras = await camera.cameras();
  const current = camera.track?.getSettings().deviceId;
  select.replaceChildren(
    ...cameras.map((device, n) => new Option(device.label || `${select.dataset.name} ${n + 1}`, device.deviceId, false, device.deviceId === current)),
  );
  select.closest("[data-part=choice]").hidden = cameras.length < 2;
}
