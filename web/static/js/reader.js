// Reads labels from a picture: with the browser's own reader where there is one,
// else with the reader kept beside this file. Nothing is fetched from elsewhere.

const vendor = new URL("../vendor/zxing/", import.meta.url);

/** A function from a video, canvas or picture to the texts of the symbols in it: QR, or others. */
export async function openReader(formats = ["QRCodeModel2"]) {
  if (formats.length === 1 && (await browserReadsQr())) {
    const detector = new BarcodeDetector({ formats: ["qr_code"] });
    return async (source) => (await detector.detect(source)).map((found) => found.rawValue);
  }
  const zxing = await import(new URL("reader/index.js", vendor));
  await zxing.prepareZXingModule({
    overrides: { locateFile: (path, prefix) => (path.endsWith(".wasm") ? new URL(path, vendor).href : prefix + path) },
    fireImmediately: true,
  });
  const frame = document.createElement("canvas");
  const ink = frame.getContext("2d", { willReadFrequently: true });
  const options = { formats, tryHarder: true, maxNumberOfSymbols: 40 };
  return async (source) => {
    const width = source.videoWidth || source.width;
    const height = source.videoHeight || source.height;
    if (!width) return [];
    frame.width = width;
    frame.height = height;
    ink.drawImage(source, 0, 0, width, height);
    const found = await zxing.readBarcodes(ink.getImageData(0, 0, width, height), options);
    return found.filter((one) => one.isValid).map((one) => one.text);
  };
}

async function browserReadsQr() {
  if (!("BarcodeDetector" in window)) return false;
  const formats = await BarcodeDetector.getSupportedFormats().catch(() => []);
  return formats.includes("qr_code");
}
