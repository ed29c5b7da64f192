// The answers of a tester, kept on the device: one record for each version of a pattern.

import { FOLDER, keep, keptNames, recalled } from "./store.js";

/**
 * @typedef {string | string[]} Answer
 * @typedef {{version: string, saved: string, from: string, left: [string, string][],
 *   answers: Record<string, Answer>}} Kept  `from` is the version whose answers these were, `left`
 *   what of them has no field any more
 */

const BEGINNING = `tester:${FOLDER}`;

export class Answers {
  /** @param {string} version */
  constructor(version) {
    this.name = BEGINNING + version;
    this.version = version;
    this.stays = true;
    /** What could not be kept yet. @type {Map<string, Answer | null>} */
    this.pending = new Map();
    this.record = nothing(version);
    this.recall();
  }

  /** Take what is kept, and what could not be kept over it. */
  recall() {
    const kept = recalled(this.name);
    if (kept) this.record = cleanedRecord(kept, this.version);
    this.isNew = !kept;
    for (const [key, value] of this.pending) set(this.record.answers, key, value);
  }

  /**
   * Only what changed is written over what is kept: another window may have written the rest.
   * @param {Iterable<[string, Answer | null]>} changes null for what has no answer any more
   */
  change(changes) {
    for (const [key, value] of changes) this.pending.set(key, value);
    this.recall();
    this.write();
  }

  /** @param {Partial<Kept>} record takes the place of what is kept */
  replace(record) {
    this.pending.clear();
    this.record = { ...nothing(this.version), ...record };
    this.write();
    // What cannot be kept is still to be kept.
    if (!this.stays) this.pending = new Map(Object.entries(this.record.answers));
  }

  write() {
    this.record.saved = new Date().toISOString();
    this.stays = keep(this.name, this.record);
    if (this.stays) this.pending.clear();
  }

  /** Forget all, of older versions too. */
  clear() {
    for (const name of this.others()) keep(name, null);
    this.replace({});
  }

  /** @returns {Kept | null} what was last written in another version of the pattern */
  older() {
    const records = this.others().map((name) => cleanedRecord(recalled(name), ""));
    const written = records.filter((one) => Object.keys(one.answers).length);
    return written.sort((a, b) => (a.saved < b.saved ? 1 : -1))[0] ?? null;
  }

  others() {
    return keptNames(BEGINNING).filter((name) => name !== this.name);
  }
}

/** @returns {Kept} */
function nothing(version) {
  return { version, saved: "", from: "", left: [], answers: Object.create(null) };
}

/** @param {Record<string, Answer>} answers */
function set(answers, key, value) {
  if (value === null) delete answers[key];
  else answers[key] = value;
}

/** What is kept may be anything. @returns {Kept} */
function cleanedRecord(kept, version) {
  const record = nothing(version);
  if (!kept || typeof kept !== "object") return record;
  for (const name of ["version", "saved", "from"]) {
    if (typeof kept[name] === "string") record[name] = kept[name];
  }
  const isText = (one) => typeof one === "string";
  if (Array.isArray(kept.left)) {
    record.left = kept.left.filter((one) => Array.isArray(one) && one.length === 2 && one.every(isText));
  }
  const given = kept.answers && typeof kept.answers === "object" ? kept.answers : {};
  for (const [key, value] of Object.entries(given)) {
    if (isText(value) || (Array.isArray(value) && value.every(isText))) record.answers[key] = value;
  }
  return record;
}
