// A reader's choices: terms, wording, lengths, text, spacing, ground, hand. Each is an attribute of the
// root element, which the style sheets go by; without a script the boxes alone do the same.

import { keep, recalled, watch } from "./store.js";

/** The boxes of the settings: their names are those of the attributes, their values what is chosen. */
const BOXES = "#settings input[name]";

/** Show what is kept in the boxes, and keep what is chosen there. */
export function keepChoices() {
  showChoices();
  document.addEventListener("change", (event) => {
    const box = event.target;
    if (!(box instanceof HTMLInputElement) || !box.matches(BOXES)) return;
    const chosen = keptChoices();
    const value = box.type === "radio" || box.checked ? box.value : "";
    if (value) chosen[box.name] = value;
    else delete chosen[box.name];
    keep("choices", chosen);
    setChoices(chosen);
  });
  watch("choices", showChoices);
}

/** @returns {Record<string, string>} */
function keptChoices() {
  const kept = recalled("choices");
  return kept && typeof kept === "object" && !Array.isArray(kept) ? { ...kept } : {};
}

function showChoices() {
  const chosen = keptChoices();
  for (const box of document.querySelectorAll(BOXES)) {
    const value = chosen[box.name];
    box.checked = value === undefined ? box.defaultChecked : box.value === value;
  }
  setChoices(chosen);
}

/** @param {Record<string, string>} chosen */
function setChoices(chosen) {
  for (const box of document.querySelectorAll(BOXES)) {
    const value = chosen[box.name];
    if (typeof value === "string" && /^[a-z]+$/.test(value)) {
      document.documentElement.dataset[box.name] = value;
    } else {
      delete document.documentElement.dataset[box.name];
    }
  }
}
