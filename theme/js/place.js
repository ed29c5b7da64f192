// A maker's place in a pattern, as plain values: which rounds are done, in which copy, and where the
// work stopped. Nothing here knows of the page.

/**
 * What is kept. A row's key is piece/copy/label ("claw/2/r3"); a range ("leg/1/r4-r7") counts its
 * rounds that are done. What is 0 or empty is not there at all.
 *   done:    rounds done, by row          ticked:  1 for each thing or step, by its box
 *   copy:    the copy in work, by piece   stopped: the stitch stopped at, by row
 *   here:    under "row", the row in work
 * @typedef {Record<"done"|"ticked"|"copy"|"stopped"|"here", Record<string, number|string>>} Place
 * @typedef {[group: string, key: string, value: number|string]} Change
 * @typedef {{key: string, label: string, rounds: number}} RowOf
 * @typedef {{id: string, make: number, rows: {label: string, rounds: number}[]}} PieceOf
 */

const GROUPS = ["done", "ticked", "copy", "stopped", "here"];

/** Steps that can be undone. */
const MOST_UNDONE = 60;

/** @returns {Place} */
export function nowhere() {
  return { done: {}, ticked: {}, copy: {}, stopped: {}, here: {} };
}

/**
 * Make changes; what undoes them is returned, empty where nothing changes.
 * @param {Place} place
 * @param {Change[]} changes
 * @returns {Change[]}
 */
export function apply(place, changes) {
  const before = [];
  for (const [group, key, value] of changes) {
    const was = place[group][key] ?? 0;
    if (was === (value || 0)) continue;
    before.unshift([group, key, was]);
    if (value) place[group][key] = value;
    else delete place[group][key];
  }
  return before;
}

/** @param {Change[][]} steps @param {Change[]} step */
export function remember(steps, step) {
  if (step.length) steps.push(step);
  steps.splice(0, steps.length - MOST_UNDONE);
}

/** @param {string} piece @param {number} copy @param {string} label */
export function keyOf(piece, copy, label) {
  return `${piece}/${copy}/${label}`;
}

/** @param {Place} place @param {PieceOf} piece @returns {number} the copy in work, from 1 */
export function copyOf(place, piece) {
  return Math.min(Math.max(1, Number(place.copy[piece.id]) || 1), piece.make);
}

/** @param {Place} place @param {string} key */
export function doneIn(place, key) {
  return Number(place.done[key]) || 0;
}

/** @param {Place} place @param {PieceOf} piece @param {number} copy */
export function isFinished(place, piece, copy) {
  return piece.rows.every((row) => doneIn(place, keyOf(piece.id, copy, row.label)) >= row.rounds);
}

/**
 * Where the work goes on: the first row from `from` on that is not done, or one before it; then the
 * next copy, then the next piece. Null where all is done.
 * @param {Place} place
 * @param {PieceOf[]} pieces
 * @param {{piece: number, copy: number, row: number}} from
 * @returns {{piece: number, copy: number, row: number} | null}
 */
export function nextPlace(place, pieces, from) {
  const here = pieces[from.piece];
  const open = (copy, index, start) =>
    pieces[index].rows.findIndex(
      (row, at) =>
        at >= start && doneIn(place, keyOf(pieces[index].id, copy, row.label)) < row.rounds,
    );
  for (const start of [from.row, 0]) {
    const row = open(from.copy, from.piece, start);
    if (row >= 0) return { ...from, row };
  }
  for (let step = 1; step < here.make; step += 1) {
    const copy = ((from.copy - 1 + step) % here.make) + 1;
    const row = open(copy, from.piece, 0);
    if (row >= 0) return { piece: from.piece, copy, row };
  }
  for (let step = 1; step < pieces.length; step += 1) {
    const piece = (from.piece + step) % pieces.length;
    for (let copy = 1; copy <= pieces[piece].make; copy += 1) {
      const row = open(copy, piece, 0);
      if (row >= 0) return { piece, copy, row };
    }
  }
  return null;
}

/**
 * The changes that lead from one place to another.
 * @param {Place} from
 * @param {Place} to
 * @returns {Change[]}
 */
export function difference(from, to) {
  return GROUPS.flatMap((group) => {
    const keys = new Set([...Object.keys(from[group]), ...Object.keys(to[group])]);
    return [...keys].map((key) => [group, key, to[group][key] ?? 0]);
  });
}

/**
 * A place made of what somebody else wrote: only what it may hold, and of rows that there are.
 * @param {unknown} given
 * @param {(group: string, key: string) => number} most the largest value there may be; 0 for none
 * @returns {{place: Place, strange: number}} with how many entries were left out
 */
export function cleaned(given, most) {
  const place = nowhere();
  let strange = 0;
  for (const group of GROUPS) {
    const entries = given && typeof given === "object" ? given[group] : null;
    if (!entries || typeof entries !== "object") continue;
    for (const [key, value] of Object.entries(entries)) {
      const limit = most(group, key);
      if (group === "here" && key === "row" && typeof value === "string" && most("done", value)) {
        place.here.row = value;
      } else if (Number.isInteger(value) && value > 0 && value <= limit) {
        place[group][key] = value;
      } else {
        strange += 1;
      }
    }
  }
  return { place, strange };
}

/** The steps to undo, of what was kept: only those that can be undone. */
export function cleanedSteps(given) {
  const steps = Array.isArray(given) ? given : [];
  const isChange = (one) =>
    Array.isArray(one) && GROUPS.includes(one[0]) && typeof one[1] === "string" && one[1] !== "__proto__";
  return steps.filter((step) => Array.isArray(step) && step.length && step.every(isChange));
}
