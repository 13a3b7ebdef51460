// Lengths as they are typed, near enough for a drawing or a quick answer; the stash reads them exactly.

const SIZES = { mm: 1, cm: 10, m: 1000, in: 25.4, '"': 25.4, ft: 304.8, yd: 914.4, "": 10 };

/** Millimetres of what was typed, or NaN: enough for a drawing; the stash itself reads it exactly. */
export function millimetres(text) {
  const found = /^\s*(?:(\d+(?:[.,]\d+)?)\s*)??(?:(\d+)\s*\/\s*(\d+))?\s*([a-z"]*)\s*$/i.exec(text);
  if (!found || (!found[1] && !found[2])) return NaN;
  const whole = Number((found[1] ?? "0").replace(",", "."));
  const part = found[2] ? Number(found[2]) / Number(found[3]) : 0;
  return (whole + part) * (SIZES[found[4].toLowerCase()] ?? NaN);
}
