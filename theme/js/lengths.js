// Measured figures in words, to the same places as pages/figures.py.

import { make } from "./dom.js";

const NBSP = "\u00a0";
const INCH = 25.4;

/** A length in centimetres and in inches; the style sheet shows one. @param {number} mm */
export function lengthWords(mm) {
  const inch = make("span", { class: "inch" }, inchWords(mm));
  inch.hidden = true;
  return [make("span", { class: "cm" }, metricWords(mm)), inch];
}

/** "5 mm", "6.4 cm", "1.2 m" */
export function metricWords(mm) {
  if (mm < 10) return `${trimmed(mm, 1)}${NBSP}mm`;
  return mm < 1000 ? `${trimmed(mm / 10, 1)}${NBSP}cm` : `${trimmed(mm / 1000, 1)}${NBSP}m`;
}

/** To a quarter inch from one inch on, to a tenth below: "3¾ in", "0.6 in". */
export function inchWords(mm) {
  if (mm < 0.95 * INCH) return `${trimmed(Math.max(mm / INCH, mm ? 0.1 : 0), 1)}${NBSP}in`;
  const quarters = Number(fixed(4 * mm / INCH, 0));
  return `${grouped(String(Math.floor(quarters / 4)))}${["", "¼", "½", "¾"][quarters % 4]}${NBSP}in`;
}

/** Eyes go by millimetres. */
export function millimetreWords(mm) {
  return `${trimmed(mm, 2)}${NBSP}mm`;
}

export function metresWords(metres) {
  return `${trimmed(metres, metres >= 10 ? 0 : 1)}${NBSP}m`;
}

/** At most so many decimals, none that say nothing. */
function trimmed(value, places) {
  const text = fixed(value, places);
  return grouped(text.includes(".") ? text.replace(/\.?0+$/, "") : text);
}

/** To so many decimals; what lies in the very middle goes to the even one, as in Python. */
function fixed(value, places) {
  const exact = value.toFixed(places + 40).replace(".", "");
  const text = value.toFixed(places);
  const [kept, rest] = [exact.slice(0, -40), exact.slice(-40)];
  if (!/^50*$/.test(rest) || Number(kept.at(-1)) % 2) return text;
  return places ? `${kept.slice(0, -places)}.${kept.slice(-places)}` : kept;
}

function grouped(text) {
  return text.replace(/\B(?<!\.\d*)(?=(\d{3})+(?!\d))/g, ",");
}
