// The live camera: opening it, choosing another, its light, and watching it for labels.

import { openReader } from "./reader.js";

const AGAIN_MS = 2000;

/** True where the browser lets a page see the camera at all (https or this computer). */
export const cameraAllowed = () => Boolean(navigator.mediaDevices?.getUserMedia);

export class Camera {
  /** ``forgetAfterMs``: out of view for longer than this, a label is told again (labels/again.py). */
  constructor(video, forgetAfterMs, onText) {
    this.video = video;
    this.forgetAfterMs = forgetAfterMs;
    this.onText = onText;
    this.seen = new Map();
    this.stream = null;
    this.turn = 0;
  }

  /** Opens it and watches; false when it was stopped or started anew meanwhile, as by a second tap. */
  async start(deviceId) {
    this.stop();
    const turn = this.turn;
    const wanted = deviceId ? { deviceId: { exact: deviceId } } : { facingMode: { ideal: "environment" } };
    const stream = await navigator.mediaDevices.getUserMedia({
      audio: false,
      video: { ...wanted, width: { ideal: 1280 }, height: { ideal: 720 } },
    });
    if (turn !== this.turn) {
      stream.getTracks().forEach((track) => track.stop());
      return false;
    }
    this.stream = stream;
    this.video.srcObject = stream;
    await this.video.play().catch((error) => {
      if (turn === this.turn) throw error;
    });
    this.read ??= await openReader();
    this.watch(stream);
    return turn === this.turn;
  }

  stop() {
    this.turn += 1;
    this.stream?.getTracks().forEach((track) => track.stop());
    this.stream = null;
    this.video.srcObject = null;
  }

  async cameras() {
    const devices = await navigator.mediaDevices.enumerateDevices();
    return devices.filter((device) => device.kind === "videoinput");
  }

  get track() {
    return this.stream?.getVideoTracks()[0];
  }

  get hasLight() {
    return Boolean(this.track?.getCapabilities?.().torch);
  }

  async light(on) {
    await this.track?.applyConstraints({ advanced: [{ torch: on }] });
  }

  async watch(stream) {
    while (this.stream === stream) {
      if (this.video.readyState >= 2 && !document.hidden) {
        const texts = await this.read(this.video).catch(() => []);
        for (const text of texts) this.tell(text);
      }
      await new Promise((resolve) => setTimeout(resolve, 80));
    }
  }

  tell(text) {
    const now = performance.now();
    const before = this.seen.get(text);
    this.seen.set(text, now);
    if (before !== undefined && now - before <= this.forgetAfterMs) return;
    this.onText(text).catch(() => setTimeout(() => this.seen.delete(text), AGAIN_MS)); // nobody answered
  }
}
