// What the tester's form says of itself: how much is filled in, what is in the way, and what it asks.

import { make } from "./dom.js";

/** What is no question of the report's own. */
const NOT_ASKED = ["rounds", "again", "corrections", "version"];

/** @param {HTMLFormElement} form @param {Map<string, Field>} fields */
export function tellSums(form, fields) {
  const rows = [...form.querySelectorAll("li.round")];
  const ticked = rows.filter((row) => row.querySelector(":scope > .tick").checked);
  const isWritten = (box) => box.value.trim() !== "";
  const remarks = rows.filter((row) => [...row.querySelectorAll("[data-at]")].some(isWritten));
  const asked = [...fields.values()].filter(({ path }) => path && !NOT_ASKED.includes(path[0]));
  const answered = asked.filter(({ value }) => String(value).trim());
  const sums = {
    ticked: `${ticked.length} of ${rows.length}`,
    remarks: `${remarks.length}`,
    answered: `${answered.length} of ${asked.length}`,
  };
  for (const [name, words] of Object.entries(sums)) {
    setWords(form.querySelector(`[data-sum=${name}]`), words);
  }
}

/** @param {Element} place @param {import("./tester_kept.js").Answers} answers */
export function tellTroubles(place, answers) {
  const { stays, record, version } = answers;
  const lines = [];
  if (!stays) {
    lines.push(
      "This browser keeps nothing for this page, or has no room left: save the file at the end before you close it, and open it here to go on.",
    );
  }
  if (record.from) {
    lines.push(
      `Your answers from version ${record.from} are filled in. This is ${version || "another version"}: rounds may have changed, and 'Version tested' is this one. Remarks on rounds that are no longer here stand under Corrections.`,
    );
  }
  if (record.left.length) {
    const all = record.left.map(([what, value]) => `${what}: ${value}`).join("; ");
    lines.push(`These have no place here, and are not in the file: ${all}`);
  }
  // Said anew only when it has changed: it is read out each time.
  const told = [...place.children].map((line) => line.textContent);
  if (told.join("\n") === lines.join("\n")) return;
  place.replaceChildren(...lines.map((words) => make("p", {}, words)));
}

/**
 * Ask before something is lost.
 * @param {Element} block @param {string} question @param {string} yes @param {() => void} then
 */
export function ask(block, question, yes, then) {
  const box = block.querySelector(".asking");
  const words = box.querySelector("p");
  const answer = (does) => () => {
    box.hidden = true;
    block.querySelector("[data-do=save]").focus();
    if (does) does();
    else say(block, "Nothing is changed.");
  };
  setWords(words, question);
  say(block, "");
  setWords(box.querySelector("[data-do=yes]"), yes);
  box.querySelector("[data-do=yes]").onclick = answer(then);
  box.querySelector("[data-do=no]").onclick = answer(null);
  box.hidden = false;
  words.focus();
}

/** @param {Element} block @param {string} words of what was done */
export function say(block, words) {
  setWords(block.querySelector(".said"), words);
}

function setWords(place, words) {
  if (place.textContent !== words) place.textContent = words;
}
