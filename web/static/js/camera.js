// The live camera: opening it, choosing another, its light, and watching it for labels.

import { openReader } from "./reader.js";

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
  }

  async start(deviceId) {
    this.stop();
    const wanted = deviceId ? { deviceId: { exact: deviceId } } : { facingMode: { ideal: "environment" } };
    this.stream = await navigator.mediaDevices.getUserMedia({
      audio: false,
      video: { ...wanted, width: { ideal: 1280 }, height: { ideal: 720 } },
    });
    this.video.srcObject = this.stream;
    await this.video.play();
    this.read ??= await openReader();
    this.watch(this.stream);
  }

  stop() {
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
    if (before === undefined || now - before > this.forgetAfterMs) this.onText(text);
  }
}
