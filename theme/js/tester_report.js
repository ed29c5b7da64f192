// The report as the file has it, and back to answers. Only plain values: nothing here knows of the page.

import { told } from "./tester_units.js";

/** The order of a report. */
const ORDER = [
  "format", "pattern", "version", "tester", "started", "finished", "hook", "hook_make", "yarns", "stuffing",
  "gauge", "gauge_met", "size", "time", "rounds", "corrections", "stitches", "guessed", "materials",
  "abbreviations", "photos_enough", "difficulty", "hand", "reading_aids", "pictures",
];
const DEEPEST = 4;
const NOWHERE = "not said";

/**
 * @param {Iterable<{path: (string|number)[] | null, value: string | string[], unit?: string}>} fields
 * @param {{pattern: string, version: string, weight: string, length: string}} of
 * @returns {object} the report, its keys in their order, without what is empty
 */
export function reportOf(fields, of) {
  const found = branch();
  for (const { path, value, unit } of fields) {
    if (!path || !(Array.isArray(value) ? value.length : value.trim())) continue;
    put(found, path, Array.isArray(value) ? value : told(value, unit, of));
  }
  const written = Object.values(found.corrections ?? {});
  const corrections = written.map((one) => ({ where: NOWHERE, ...one })); // which a report wants
  for (const [where, remark] of Object.entries(found.again ?? {})) {
    corrections.push({ where, ...inFull(remark) });
  }
  for (const piece of Object.values(found.rounds ?? {})) {
    for (const [label, remark] of Object.entries(piece)) {
      const alone = Object.keys(remark).join() === "said";
      piece[label] = alone ? remark.said : inFull(remark);
    }
  }
  const head = { format: 1, pattern: of.pattern, version: of.version || "not numbered" };
  const whole = Object.assign(branch(), head, found);
  if (corrections.length) whole.corrections = corrections;
  return Object.fromEntries(ORDER.filter((key) => key in whole).map((key) => [key, whole[key]]));
}

/** Keys are a designer's words: none of them may be taken for what every object has. */
function branch() {
  return Object.create(null);
}

function put(tree, path, value) {
  for (const key of path.slice(0, -1)) {
    tree[key] ??= branch();
    tree = tree[key];
  }
  tree[path.at(-1)] = value;
}

/** With a kind or more beside it, a remark is what the tester did. */
function inFull({ kind, read, said, instead }) {
  const parts = Object.entries({ kind: kind ?? "remark", read, did: said, instead });
  return Object.fromEntries(parts.filter(([, value]) => value !== undefined));
}

/** The parts of a remark as the form has them. */
function inParts(remark) {
  if (!remark || typeof remark !== "object") return { said: remark };
  const { kind, did, ...rest } = remark;
  const parts = { ...rest, kind: kind === "remark" ? undefined : kind, said: did };
  return Object.fromEntries(Object.entries(parts).filter(([, value]) => value !== undefined));
}

/**
 * The answers in a report. What is said of rounds that the form does not have goes to the corrections.
 * @param {object} report of anybody's making
 * @param {(key: string, value: string | string[]) => boolean} takes whether there is room for it; that
 *   for corrections is without end
 * @param {string} version where rounds were that are no longer there
 * @returns {{answers: [string, string | string[]][], left: [string, string][], moved: number}}
 */
export function answersOf(report, takes, version) {
  const answers = [];
  const left = [];
  const { format, pattern, corrections, rounds, ...rest } = report;
  const take = (path, value) => {
    const key = JSON.stringify(path);
    if (takes(key, value)) answers.push([key, value]);
    else left.push([path.join(" "), String(value)]);
  };
  walk(rest, [], take);
  const more = [];
  for (const [piece, remarks] of entriesOf(rounds)) {
    for (const [label, remark] of entriesOf(remarks)) {
      if (takes(JSON.stringify(["rounds", piece, label, "said"]), "")) {
        walk(inParts(remark), ["rounds", piece, label], take);
      } else {
        const full = inFull(inParts(remark));
        more.push({ where: `${piece} ${label} in ${version}`, ...full });
      }
    }
  }
  const own = [];
  for (const one of Array.isArray(corrections) ? corrections : []) {
    const place = ["again", one?.where];
    if (typeof one?.where === "string" && takes(JSON.stringify([...place, "said"]), "")) {
      const { where, ...remark } = one;
      walk(inParts(remark), place, take);
    } else own.push(one?.where === NOWHERE ? { ...one, where: undefined } : one);
  }
  [...own, ...more].forEach((one, at) => walk(one, ["corrections", at], take));
  return { answers, left, moved: more.length };
}

function entriesOf(value) {
  return value && typeof value === "object" && !Array.isArray(value) ? Object.entries(value) : [];
}

/** Every value of a tree with its path; a list of texts is one value. */
function walk(value, path, take) {
  if (value === null || value === undefined) return;
  if (Array.isArray(value) && value.every((one) => typeof one === "string")) take(path, value);
  else if (typeof value !== "object") take(path, String(value));
  else if (path.length >= DEEPEST) take(path, JSON.stringify(value).slice(0, 200));
  else for (const [key, one] of Object.entries(value)) walk(one, [...path, key], take);
}
