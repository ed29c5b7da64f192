/**
 * A pattern in a maker's own gauge: the same arithmetic as measure/regauge.py, fit.py, yarn.py and
 * finished.py, where the formulas and limits have their sources. The data are those that
 * pages/yarn_data.py writes; lengths in mm, yarn in metres.
 *
 * @typedef {{width: number, height: number}} Size  of a single crochet
 * @typedef {Size & {guessed: boolean}} Stitch
 * @typedef {{lengths: (number | null)[], verdict: string | null, suggest: (number | null)[],
 *   kept: (number | null)[]}} Fit
 *   `suggest` is the count that would fit, one for each edge with the other as it is; `kept` the
 *   nearest in the multiple that the piece is worked in.
 */

import { figuresOf, FRILL } from "./outline.js";

export const VERDICTS = ["fits", "ease in", "ease with care", "does not fit"];
const LIMITS = [0.03, 0.06, 0.1];
const FIT_NEARLY = 1e-9;
const CARE = 2;
const MISFIT = 3;
/** Added to the metres; more where the gauge is a guess. */
const MARGIN = 0.15;
const MARGIN_GUESSED = 0.25;
/** Yarn of a single crochet over its width where the thickness of the yarn is not known. */
const PER_WIDTH = 6.9;
/** A yarn's diameter inside the fabric over its diameter. */
const SQUEEZED = 0.75;
/** mm from which eyes and the like are sold by the whole mm, below it by the half. */
const COARSE = 10;
const SIZE_FIGURES = ["height", "diameter", "length"];

/**
 * All figures in the gauges of a maker.
 *
 * @param {object} data
 * @param {(Size | null)[]} own  one a line of the data; null for the pattern's own gauge
 */
export function inGauges(data, own) {
  const was = stitchesOf(data, []);
  const now = stitchesOf(data, own);
  const pieces = data.pieces.map((piece) => pieceOf(piece, now));
  const fits = data.fits.map((fit) => fitOf(fit, now));
  return {
    pieces,
    fits,
    yarns: data.yarns.map((yarn) => yarn && metresOf(yarn, data.lines, own, now, fits)),
    notions: data.notions.map(([size, ...shares]) =>
      shares.map((share) => soldSize(size, meanStitch(share, was), meanStitch(share, now)))),
    size: finishedSizes(data, data.pieces.map((piece) => pieceOf(piece, was)), pieces),
  };
}

// ---- stitches ----

/** The stitches of all pieces in some gauges; null where nothing is known of their yarn. */
function stitchesOf(data, own) {
  return data.units.map(([line, width, height, guess]) => {
    if (line < 0) return { width, height, guessed: false };
    const size = sizeOf(data.lines[line], own[line]);
    if (!size) return null;
    const guessed = guess === 2 || (guess === 1 && size.guessed);
    return { width: width * size.width, height: height * size.height, guessed };
  });
}

/** @returns {Stitch | null} */
function sizeOf(line, own) {
  if (own) return { ...own, guessed: false };
  return line.length ? { width: line[0], height: line[1], guessed: line[3] === 1 } : null;
}

/** The mean stitch of a round. @returns {Stitch | null} */
function meanStitch(share, stitches) {
  const parts = typeof share === "number" ? [share, 1] : share;
  const mean = { width: 0, height: 0, guessed: false };
  for (let i = 0; i < parts.length; i += 2) {
    const stitch = stitches[parts[i]];
    if (!stitch) return null;
    mean.width += stitch.width * parts[i + 1];
    mean.height += stitch.height * parts[i + 1];
    mean.guessed ||= stitch.guessed;
  }
  return mean;
}

/** A length of so many widths and heights. @returns {{mm: number, guessed: boolean} | null} */
function lengthOf(parts, stitches) {
  if (!parts) return null;
  let mm = 0;
  let guessed = false;
  for (let i = 0; i < parts.length; i += 3) {
    const stitch = stitches[parts[i]];
    if (!stitch) return null;
    mm += parts[i + 1] * stitch.width + parts[i + 2] * stitch.height;
    guessed ||= stitch.guessed;
  }
  return { mm, guessed };
}

// ---- pieces ----

/** A piece; null where a figure cannot be told. */
function pieceOf(piece, stitches) {
  const edge = lengthOf(piece.edge, stitches)?.mm ?? null;
  const bands = piece.bands ? measuredBands(piece.bands, stitches) : null;
  if (!bands) return { height: null, diameter: null, length: null, edge };
  const start = lengthOf(piece.start, stitches);
  return {
    ...figuresOf({
      form: piece.form,
      bands,
      start: start && start.mm / (2 * Math.PI),
      straight: lengthOf(piece.straight, stitches)?.mm ?? 0,
      shut: piece.shut === 1,
    }),
    edge,
  };
}

/** One band a round; null where the size of a stitch is not known. */
function measuredBands(segments, stitches) {
  const bands = [];
  for (const [share, height, counts, below] of segments) {
    const stitch = meanStitch(share, stitches);
    if (!stitch) return null;
    for (const run of counts) {
      const [count, rounds] = typeof run === "number" ? [run, 1] : run;
      const band = { count, width: stitch.width, height: stitch.height * height, below };
      for (let i = 0; i < rounds; i += 1) bands.push(band);
    }
  }
  return bands;
}

/** The stated measures of the finished thing. */
function finishedSizes(data, was, now) {
  const totals = [0, 0];
  was.forEach((old, at) => {
    const pair = [old, now[at]].map((piece) => Math.max(...SIZE_FIGURES.map((name) => piece[name] ?? 0)));
    if (pair[0] && pair[1]) pair.forEach((mm, place) => { totals[place] += mm; });
  });
  return data.size.map(([mm, piece, figure]) => {
    const name = SIZE_FIGURES[figure];
    if (name && was[piece][name] && now[piece][name]) return mm * now[piece][name] / was[piece][name];
    return totals[0] ? mm * totals[1] / totals[0] : null;
  });
}

// ---- joins ----

/** @returns {Fit} */
function fitOf(fit, stitches) {
  const sides = fit.sides.map((side) => {
    const length = lengthOf(side.sum, stitches);
    return { ...side, whole: length?.mm ?? null, guessed: length?.guessed ?? false, layers: side.layers ?? 1 };
  });
  const lengths = sides.map((side) => side.whole && side.whole / side.layers);
  const ratio = lengths[0] && lengths[1] ? lengths[0] / lengths[1] : null;
  const mismatch = ratio ? Math.max(ratio, 1 / ratio) - 1 : byCounts(fit, sides);
  const suggest = suggested(fit, sides, lengths);
  const verdict = mismatch === null ? null : judged(fit, sides, mismatch, suggest, ratio === null);
  const mends = verdict !== null && verdict > 0;
  return {
    lengths,
    suggest,
    verdict: VERDICTS[verdict] ?? null,
    kept: mends ? sides.map((side, at) => keptCount(fit, side, sides[1 - at], lengths[1 - at])) : [null, null],
  };
}

/** What a mismatch comes to, each limit belonging to the milder verdict. */
function verdictOf(mismatch, halved) {
  const at = LIMITS.findIndex((limit) => mismatch <= limit / (halved ? 2 : 1) + FIT_NEARLY);
  return at < 0 ? MISFIT : at;
}

function judged(fit, sides, mismatch, suggest, unmeasured) {
  if (fit.gathered) return 1 + mismatch >= FRILL - FIT_NEARLY ? 0 : 1;
  let found = verdictOf(mismatch, fit.halved);
  if (fit.eased) found = Math.max(found - 1, 0);
  if (suggest[0] !== null && suggest[0] === sides[0].count) found = Math.min(found, 1);
  const guessed = sides.some((side) => side.guessed) || unmeasured;
  return guessed && !oneGauge(fit, sides) ? Math.min(found, CARE) : found;
}

/** Whether counts alone tell: stitches side by side in both, equally wide. */
function oneGauge(fit, sides) {
  if (!sides.every((side) => side.plain)) return false;
  if (sides.some((side) => side.whole === null)) return fit.alike === 1;
  const [one, two] = sides.map((side) => side.whole / side.count);
  return Math.abs(one - two) <= FIT_NEARLY;
}

/** The mismatch of two edges that cannot be measured. */
function byCounts(fit, sides) {
  if (!sides.every((side) => side.plain && side.count)) return null;
  const ratio = (sides[0].count / sides[0].layers) / (sides[1].count / sides[1].layers);
  return !fit.alike && ratio === 1 ? null : Math.max(ratio, 1 / ratio) - 1;
}

function suggested(fit, sides, lengths) {
  if (lengths[0] && lengths[1]) return sides.map((side, at) => suitedTo(side, lengths[1 - at]));
  if (byCounts(fit, sides) === null) return [null, null];
  const [one, two] = sides;
  return [two.count * one.layers, Math.max(1, roundEven(one.count / one.layers))];
}

/** How many of its stitches would be so long, layer upon layer where it is folded. */
function exactCount(side, mm) {
  return side.whole > 0 && side.count ? mm * side.count / side.whole * side.layers : null;
}

function suitedTo(side, mm) {
  const exact = exactCount(side, mm);
  return exact === null ? null : Math.max(1, roundEven(exact / side.layers + FIT_NEARLY)) * side.layers;
}

/** The count that keeps the multiple of a piece and still fits, or can be eased in. */
function keptCount(fit, side, other, mm) {
  if (!side.multiple) return null;
  const lying = other.count ? Math.floor(other.count / other.layers) : 0;
  const exact = (mm ? exactCount(side, mm) : null) || lying * side.layers;
  if (!exact) return null;
  const step = side.multiple * side.layers / commonDivisor(side.multiple, side.layers);
  const found = Math.max(1, roundEven(exact / step + FIT_NEARLY)) * step;
  const apart = Math.max(found / exact, exact / found) - 1;
  return found !== side.count && verdictOf(apart, fit.halved) <= 1 ? found : null;
}

/** @returns {number} the greatest that divides both */
function commonDivisor(a, b) {
  return b ? commonDivisor(b, a % b) : a;
}

/** To the nearest whole number, from the middle to the even one, as Python does. */
function roundEven(value) {
  const down = Math.floor(value);
  const over = value - down;
  return over > 0.5 || (over === 0.5 && down % 2 !== 0) ? down + 1 : down;
}

// ---- yarn and eyes ----

/** Metres for all copies, tails and margin with them; null where a stitch has no gauge. */
function metresOf(yarn, lines, own, stitches, fits) {
  const other = own[yarn.line];
  const thick = thickness(yarn, lines[yarn.line], other);
  const used = inStitches(yarn.stitches, stitches, thick);
  const seams = inStitches(yarn.hooked, stitches, thick);
  if (used === null || seams === null) return null;
  const mm = other || yarn.weighed === undefined ? used.mm : yarn.weighed * 1000;
  const ends = yarn.ends + seams.mm + seamThread(yarn.along ?? [], fits) + sewnThread(yarn.sewn ?? [], stitches);
  return (mm + ends) / 1000 * (1 + (used.guessed ? MARGIN_GUESSED : MARGIN));
}

/** Another yarn is taken to be as much thicker as its stitches are wider. */
function thickness(yarn, line, other) {
  if (!other) return yarn.thick ?? null;
  return yarn.thick && line.length ? yarn.thick * other.width / line[0] : null;
}

function inStitches(amounts, stitches, thick) {
  let mm = 0;
  let guessed = false;
  for (let i = 0; i < (amounts?.length ?? 0); i += 2) {
    const stitch = stitches[amounts[i]];
    if (!stitch) return null;
    mm += amounts[i + 1] * (thick ? loopPath(stitch, thick) : PER_WIDTH * stitch.width);
    guessed ||= stitch.guessed;
  }
  return { mm, guessed };
}

/** Yarn in one single crochet. */
function loopPath(stitch, thick) {
  const squeezed = SQUEEZED * thick;
  const up = Math.max(stitch.height - squeezed, 0);
  return 2 * stitch.width + 4 * Math.sqrt(up ** 2 + (stitch.width / 4) ** 2) + 2 * Math.PI * squeezed;
}

/** Yarn in sewn seams. */
function seamThread(parts, fits) {
  let mm = 0;
  for (let i = 0; i < parts.length; i += 2) mm += (fits[parts[i]].lengths[0] ?? 0) * parts[i + 1];
  return mm;
}

/** Yarn in lines of embroidery. */
function sewnThread(lines, stitches) {
  return lines.reduce((mm, [share, up, across, times]) => {
    const stitch = meanStitch(share, stitches);
    return stitch ? mm + times * Math.hypot(up * stitch.height, across * stitch.width) : mm;
  }, 0);
}

/** The nearest size that there is, as much larger as the stitches are wider. */
function soldSize(was, before, after) {
  if (!before || !after) return null;
  const factor = after.width / before.width;
  if (Math.abs(factor - 1) <= FIT_NEARLY * Math.max(factor, 1)) return was;
  const size = was * factor;
  const step = size < COARSE ? 0.5 : 1;
  return Math.max(Math.floor(size / step + 0.5) * step, 0.5);
}
