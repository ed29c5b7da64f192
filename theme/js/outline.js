/**
 * The shape of a piece from its rounds: the same arithmetic as measure/meridian.py, outline.py,
 * flatness.py, fans.py and sizes.py, where the formulas have their sources. Lengths in mm.
 *
 * @typedef {{count: number, width: number, height: number, below: number | undefined}} Band
 *   A round: its stitches, the width and height of one; `below`: the place of the earlier round
 *   whose loops it goes into, -1 for one that is not there.
 * @typedef {{radius: number, height: number, natural: number}} Point
 * @typedef {{form: string, bands: Band[], start: number | null, straight: number, shut: boolean}} Piece
 *   `start` is the radius that it grows from, null for a start drawn shut.
 * @typedef {{height: number | null, diameter: number | null, length: number | null}} Figures
 */

const FLAT_NEARLY = 1e-9;
/** A round draws the one below together from this share of the widest radius. */
const GATHERED = 0.25;
/** Fullness from which an edge counts as a frill. */
export const FRILL = 1.25;
const FLAT = 2;
const RUFFLED = 4;
/** Growth over the growth that lies flat, less 1, up to which a class goes. */
const FLATNESS = [-0.4, -0.07, 0.15, 0.35];

/**
 * How high, wide and long a piece is; null for what counts do not tell.
 *
 * @param {Piece} piece
 * @returns {Figures}
 */
export function figuresOf(piece) {
  if (piece.form === "rows") return rowsOf(piece.bands);
  if (piece.form === "fan") return fanOf(piece.bands);
  const oval = piece.form === "oval";
  const natural = piece.bands.map((band) =>
    Math.max(band.count * band.width - 2 * piece.straight, 0) / (2 * Math.PI));
  const start = oval ? null : piece.start;
  const points = meridian(piece.bands, natural, oval ? 0 : start);
  const hung = hanging(piece.bands, points);
  const wall = points.map((_, at) => at).filter((at) => !hung.has(at));
  const classes = classesOf(piece.bands, points, start, hung);
  const widest = Math.max(...wall.map((at) => points[at].radius));
  if (wall.some((at) => classes[at] === RUFFLED)) return { height: null, diameter: null, length: null };
  const drawn = drawnTogether(piece.bands, points, wall, start ?? 0, widest);
  return {
    height: drawn ? null : reachOf(piece, points, classes, wall, start),
    diameter: 2 * widest,
    length: oval ? piece.straight + 2 * widest : null,
  };
}

/** @param {Band[]} bands @returns {Figures} */
function rowsOf(bands) {
  const long = bands.reduce((total, band) => total + band.height, 0);
  const wide = Math.max(...bands.map((band) => band.count * band.width));
  return { height: long, diameter: wide, length: long };
}

/** Rows that grow from one point: arcs, each a row further out. @param {Band[]} bands @returns {Figures} */
function fanOf(bands) {
  let radius = 0;
  let wide = 0;
  let long = 0;
  for (const band of bands) {
    radius += band.height;
    const angle = radius > 0 ? Math.min(band.count * band.width / radius, 2 * Math.PI) : 0;
    wide = Math.max(wide, 2 * radius * (angle < Math.PI ? Math.sin(angle / 2) : 1));
    long = Math.max(long, radius * (1 - Math.min(Math.cos(angle / 2), 0)));
  }
  return { height: long, diameter: wide, length: long };
}

/**
 * The upper edge of each round: it goes out by as much as its circle grows, and up by what is left
 * of its height.
 *
 * @param {Band[]} bands
 * @param {number[]} natural  the radius of each round's own circle
 * @param {number | null} start
 * @returns {Point[]}
 */
function meridian(bands, natural, start) {
  const points = [];
  let radius = start ?? 0;
  let height = 0;
  bands.forEach((band, at) => {
    const wanted = natural[at];
    if (start === null && at === 0 && wanted > band.height) radius = wanted - band.height;
    const below = points[band.below ?? -1];
    if (below) ({ radius, height } = below);
    const change = Math.min(wanted - radius, band.height);
    radius += change;
    height += riseOf(band.height, change);
    points.push({ radius, height, natural: wanted });
  });
  return points;
}

/** @param {number} height @param {number} change */
function riseOf(height, change) {
  return Math.sqrt(Math.max(height ** 2 - change ** 2, 0));
}

/** @param {Point} point */
function fullness(point) {
  return point.radius > 0 ? point.natural / point.radius : 1;
}

/** The rounds that hang off the wall. @param {Band[]} bands @param {Point[]} points */
function hanging(bands, points) {
  const hung = new Set();
  bands.forEach((band, at) => {
    if (band.below === undefined || band.below < 0) return;
    const passed = [];
    for (let k = band.below + 1; k < at; k += 1) if (!hung.has(k)) passed.push(k);
    if (!passed.length || 2 * bands[passed.at(-1)].count <= bands[band.below].count) return;
    if (fullness(points[passed[0]]) >= FRILL || passed.length < bands.length - at) {
      passed.forEach((k) => hung.add(k));
    }
  });
  return hung;
}

/** How each round lies, what hangs by itself. */
function classesOf(bands, points, start, hung) {
  const slopes = slopesOf(bands, points, start);
  const classes = new Array(points.length);
  for (const inside of [true, false]) {
    const here = points.map((_, at) => at).filter((at) => hung.has(at) === inside);
    const told = flatness(here.map((at) => slopes[at]), here.map((at) => fullness(points[at])));
    here.forEach((at, place) => { classes[at] = told[place]; });
  }
  return classes;
}

/** How far each round goes out over its height. */
function slopesOf(bands, points, start) {
  let before = start ?? 0;
  return bands.map((band, at) => {
    if (band.below !== undefined && band.below >= 0) before = points[band.below].natural;
    const slope = band.height > 0 ? (points[at].natural - before) / band.height : 0;
    before = points[at].natural;
    return at === 0 && start === null ? Math.min(slope, 1) : slope;
  });
}

/** @param {number[]} slopes @param {number[]} full @returns {number[]} places in the scale */
function flatness(slopes, full) {
  return full.map((here, at) => {
    const last = slopes.slice(Math.max(0, at - 2), at + 1);
    const mean = last.reduce((a, b) => a + b, 0) / last.length;
    const bySlope = classOf((here >= FRILL ? Math.max(mean, slopes[at]) : mean) - 1);
    const byFullness = classOf(here - 1);
    const reached = Math.min(bySlope, Math.max(byFullness, FLAT) + 1);
    return byFullness > FLAT ? Math.max(reached, byFullness) : reached;
  });
}

/** @param {number} excess */
function classOf(excess) {
  return FLATNESS.filter((limit) => excess > limit + FLAT_NEARLY).length;
}

/** How far a piece reaches, with the tip where it is drawn shut; a flat one lies flat. */
function reachOf(piece, points, classes, wall, start) {
  const disc = start === null && classes.every((each) => each === FLAT);
  const lift = disc ? points[0].height : 0;
  const highest = Math.max(...wall.map((at) => points[at].height)) - lift;
  if (!piece.shut) return highest;
  const last = points.at(-1);
  const tip = riseOf(piece.bands.at(-1).height, Math.min(-last.radius, piece.bands.at(-1).height));
  return Math.max(highest, last.height - lift + tip);
}

/** Whether a round other than a closing gathers the one below. */
function drawnTogether(bands, points, wall, start, widest) {
  let before = start;
  return wall.some((at) => {
    const drawn = before - points[at].radius - bands[at].height > GATHERED * widest;
    before = points[at].radius;
    return drawn;
  });
}
