// The file that a tester sends back. It is written as JSON, which YAML 1.2 takes in whole.

import { make } from "./dom.js";

const MOST = 2_000_000;

/** What YAML allows only escaped (YAML 1.2.2, 5.1), or may take for the end of a line. */
const ESCAPED = /[\u007f-\u009f\u2028\u2029\ufeff\ufffe\uffff]/g;
/** Half of a character: there is no way to write one in a file. */
const HALF = /\p{Surrogate}/gu;

/** @param {object} report @returns {string} */
export function textOf(report) {
  const escape = (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`;
  const whole = JSON.stringify(report, (_, value) => (typeof value === "string" ? value.replace(HALF, "\ufffd") : value), 2);
  return `${whole.replace(ESCAPED, escape)}\n`;
}

/** "shore-crab-1.1.0-tester-7.yaml". @param {object} report */
export function nameOf({ pattern, version, tester = "" }) {
  const words = (text) => (text.match(/[\p{L}\p{N}][\p{L}\p{N}\p{M}._]*/gu) ?? []).join("-");
  const tame = (text) => [...words(text)].slice(0, 60).join("");
  return [pattern, version, "tester", tester].map(tame).filter(Boolean).join("-") + ".yaml";
}

/** @param {string} text @param {string} name */
export function download(text, name) {
  const link = make("a", { download: name });
  link.href = URL.createObjectURL(new Blob([text], { type: "application/yaml" }));
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/**
 * Read a file that may be anything.
 * @param {File} file
 * @param {string} pattern
 * @returns {Promise<{report?: object, wrong?: string}>} the report, or what is wrong
 */
export async function readFile(file, pattern) {
  const isNone = `${file.name} is not a report that was saved from a test copy: nothing is changed.`;
  if (file.size > MOST) return { wrong: `${file.name} is too large to be a report: nothing is changed.` };
  let report;
  try {
    report = JSON.parse(await file.text());
  } catch {
    return { wrong: isNone };
  }
  if (report?.format !== 1 || typeof report.pattern !== "string") return { wrong: isNone };
  if (report.pattern === pattern) return { report };
  const other = report.pattern.slice(0, 80);
  return { wrong: `${file.name} is a report on another pattern, ${other}: nothing is changed.` };
}
