// The fields of a gauge: what may be written in them, and what they show in either unit.
//
// A line of the data is [width, height, stitch, guess]: of a single crochet in mm, and the height of
// the stitch that is counted over that of a single crochet; empty where nothing is known.

/**
 * What was written in a field, and in which units.
 * @typedef {{text: string, units: "cm" | "inch"}} Written
 */

/** The length in mm over which is counted. */
const OVER = { cm: 100, inch: 101.6 };
/** More or fewer stitches to 10 cm are no gauge: a slip of the key. */
const FEWEST = 1;
const MOST = 100;
const PARTS = { "½": 0.5, "¼": 0.25, "¾": 0.75 };
const WHICH = ["stitches", "rounds"];

/**
 * The number in a field, or what is wrong with it.
 * @param {Written | null} written
 * @param {number} which  0 for stitches, 1 for rounds
 */
export function readField(written, which) {
  const text = written?.text.trim() ?? "";
  const over = written?.units === "inch" ? "4\u00a0in" : "10\u00a0cm";
  if (!text) return { number: NaN, wrong: `Write how many ${WHICH[which]} come to ${over}, such as 18.` };
  const found = /^(\d{1,6}(?:[.,]\d{1,6})?) ?([½¼¾]?)$/.exec(text);
  if (!found) return { number: NaN, wrong: `“${text}” is no number of ${WHICH[which]}. Write it like 18 or 18.5.` };
  const number = Number(found[1].replace(",", ".")) + (PARTS[found[2]] ?? 0);
  if (number >= FEWEST && number <= MOST) return { number, wrong: "" };
  return { number: NaN, wrong: `${text} ${WHICH[which]} to ${over} cannot be: between ${FEWEST} and ${MOST} can.` };
}

/** What the pattern says: stitches or rounds, as a field shows them. */
function fromPattern(pattern, which, units) {
  if (!pattern.length) return "";
  const size = which ? pattern[1] * pattern[2] : pattern[0];
  return shortNumber(OVER[units] / size);
}

/** What a field shows: as it was written, brought to the units of the reader, or the pattern's own. */
export function shownIn(written, pattern, which, units) {
  if (!written) return fromPattern(pattern, which, units);
  const { number } = readField(written, which);
  if (written.units === units || Number.isNaN(number)) return written.text.trim();
  return shortNumber(number * OVER[units] / OVER[written.units]);
}

/** Whether a field says what the pattern does. */
export function asWas(written, pattern, which) {
  if (!written) return pattern.length > 0;
  const said = fromPattern(pattern, which, written.units);
  return said !== "" && written.text.trim().replace(",", ".") === said;
}

/**
 * The size of a single crochet by what is written; null where it cannot be read.
 * @param {(Written | null)[]} written  stitches and rounds
 */
export function gaugeOf(written, pattern) {
  const [width, height] = written.map((each, which) => {
    if (asWas(each, pattern, which)) return pattern[which];
    const { number } = readField(each, which);
    return OVER[each?.units ?? "cm"] / number / (which ? pattern[2] ?? 1 : 1);
  });
  return Number.isNaN(width) || Number.isNaN(height) ? null : { width, height };
}

function shortNumber(value) {
  return value.toFixed(1).replace(/\.0$/, "");
}
