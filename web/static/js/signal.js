// A short sound and a short vibration, so that the eyes can stay on the cloth.

let audio;

/** To be called from a tap: browsers let a page sound only after one. */
export function wake() {
  audio ??= "AudioContext" in window ? new AudioContext() : null;
  audio?.resume();
}

export function signal({ sound = true, good = true } = {}) {
  navigator.vibrate?.(good ? 60 : [80, 60, 80]);
  if (!sound || !audio) return;
  const tone = audio.createOscillator();
  const level = audio.createGain();
  tone.frequency.value = good ? 880 : 220;
  level.gain.setValueAtTime(0.15, audio.currentTime);
  level.gain.exponentialRampToValueAtTime(0.001, audio.currentTime + 0.18);
  tone.connect(level).connect(audio.destination);
  tone.start();
  tone.stop(audio.currentTime + 0.2);
}
