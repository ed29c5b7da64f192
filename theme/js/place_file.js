// A place as a file: to take it to another device, or to keep it where the browser keeps nothing.

import { cleaned, difference, nowhere } from "./place.js";

const FORMAT = "roundproof-place";
const MOST_BYTES = 2_000_000;

/** Show what is kept, and offer it as a file. @param {Keeping} keeping */
export function offerFiles(keeping) {
  const box = document.getElementById("keeping");
  if (!box) return;
  box.hidden = false;
  const kept = box.querySelector(".kept");
  const usual = kept.textContent;
  const say = (words) => {
    document.getElementById("told").textContent = words;
    kept.textContent = words;
  };
  keeping.told.push(() => {
    kept.textContent = keeping.stays
      ? usual
      : "This browser keeps nothing for this page: save your place as a file before you close it.";
  });
  box.querySelector("[data-do=save]").addEventListener("click", () => save(keeping));
  box.querySelector("[data-do=clear]").addEventListener("click", () => {
    keeping.change(difference(keeping.place, nowhere()), "All ticks are taken off.");
    say("All ticks are taken off. Undo brings them back.");
  });
  const file = box.querySelector("input[type=file]");
  file.addEventListener("change", async () => {
    const [chosen] = file.files;
    if (chosen) say(await take(keeping, chosen));
    file.value = ""; // the same file can be chosen again
  });
}

function save(keeping) {
  const { pattern, title } = keeping.bar.dataset;
  const content = {
    format: FORMAT,
    pattern,
    title,
    version: keeping.version,
    saved: new Date().toISOString().slice(0, 10),
    place: keeping.place,
  };
  const text = `${JSON.stringify(content, null, 2)}\n`;
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  link.download = `${pattern}-place.json`;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** @param {File} file @returns {Promise<string>} what came of it, in words */
async function take(keeping, file) {
  if (file.size > MOST_BYTES) return `${file.name} is too large to be a place.`;
  let given;
  try {
    given = JSON.parse(await file.text());
  } catch {
    return `${file.name} is not a place that was saved from a pattern: nothing is changed.`;
  }
  if (given?.format !== FORMAT || typeof given.place !== "object") {
    return `${file.name} is not a place that was saved from a pattern: nothing is changed.`;
  }
  if (given.pattern !== keeping.bar.dataset.pattern) {
    const title = typeof given.title === "string" ? given.title.slice(0, 80) : "another pattern";
    return `${file.name} is a place in ${title}, and this is another pattern: nothing is changed.`;
  }
  const { place, strange } = cleaned(given.place, (group, key) => keeping.most(group, key));
  keeping.change(difference(keeping.place, place), "");
  const version = given.version === keeping.version ? "" : ` It was saved in version ${String(given.version).slice(0, 20)}.`;
  const left = strange ? ` ${strange} of its entries are of rounds that are not here.` : "";
  return `Your place is taken from ${file.name}.${version}${left} Undo brings the one before back.`;
}
