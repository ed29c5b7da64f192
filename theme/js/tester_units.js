// What a tester types where a number is asked for, as the report has it: a number with its unit. What
// is no such thing stays as it was typed.

/** Other ways to write a unit. */
const UNITS = {
  g: "g", gr: "g", gram: "g", grams: "g", oz: "oz", ounce: "oz", ounces: "oz",
  mm: "mm", cm: "cm", centimetres: "cm", m: "m", metres: "m", yd: "yd", yds: "yd", yards: "yd",
  in: "in", inch: "in", inches: "in", '"': "in", "″": "in",
  h: "h", hr: "h", hrs: "h", hour: "h", hours: "h", min: "min", mins: "min", minutes: "min",
};
const AMOUNT = /^(0|[1-9]\d{0,8})(?:[.,](\d{1,4}))?\s*([a-z]+|["″])?$/i;

/** "31,4" → "31.4 g"; "1.1 oz" as it is. @param {string} text @param {string} unit where none is typed */
function amount(text, unit) {
  const [, whole, part, typed] = text.trim().match(AMOUNT) ?? [];
  const named = typed ? UNITS[typed.toLowerCase()] : unit;
  if (!whole || !named) return text;
  return `${whole}${part ? `.${part}` : ""} ${named}`;
}

/** "5:30" and "5 h 30 min" → "330 min". */
function timeOf(text) {
  const [, hours, minutes] = text.trim().match(/^(\d{1,3})(?::| ?h(?:ours?)? ?)([0-5]?\d) ?(?:min(?:utes)?)?$/i) ?? [];
  return hours ? `${Number(hours) * 60 + Number(minutes)} min` : amount(text, "h");
}

/** "50/125" → "50 g / 125 m". */
function ballOf(text, weight) {
  const parts = text.split("/");
  if (parts.length !== 2) return text;
  const [heavy, long] = [amount(parts[0], weight), amount(parts[1], weight === "oz" ? "yd" : "m")];
  const told = /^\S+ (?:g|oz)$/.test(heavy) && /^\S+ (?:m|yd)$/.test(long);
  return told ? `${heavy} / ${long}` : text;
}

/** @returns {number | string} */
function numberOf(text) {
  const [, whole, part] = text.trim().match(/^(0|[1-9]\d{0,8})(?:[.,](\d{1,4}))?$/) ?? [];
  return whole ? Number(`${whole}.${part ?? 0}`) : text;
}

/** Thousands may be parted, as on the page. @returns {number | string} */
function countOf(text) {
  const plain = /^\s*\d{1,3}(?:,\d{3})+\s*$/.test(text) ? text.replaceAll(",", "") : text;
  return /^\s*\d{1,12}\s*$/.test(plain) ? Number(plain) : text;
}

/**
 * @param {string} text as it was typed
 * @param {string | undefined} kind of what is asked for; none for words
 * @param {{weight: string, length: string}} usual units where none is typed
 */
export function told(text, kind, usual) {
  if (kind === "count") return countOf(text);
  if (kind === "number") return numberOf(text);
  if (kind === "time") return timeOf(text);
  if (kind === "ball") return ballOf(text, usual.weight);
  if (kind === "hook") return amount(text, "mm");
  return kind ? amount(text, usual[kind]) : text;
}
