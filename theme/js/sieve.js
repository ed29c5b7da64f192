// What is chosen in the gallery: by facet the values, as they stand in the address
// (`#level=easy,basic&yarn=3`).

/** The facet of which a pattern has every value that is chosen; of the others one will do. */
const EVERY = "without";

/** @typedef {Map<string, string[]>} Choice */

/**
 * The choice that an address tells; what is not known is passed over.
 * @param {string} hash
 * @param {Set<string>} known every value there is, as `level=easy`
 * @returns {Choice}
 */
export function readChoice(hash, known) {
  const choice = new Map();
  for (const part of hash.replace(/^#/, "").split("&")) {
    const [facet, values = ""] = part.split("=");
    const chosen = values.split(",").filter((value) => known.has(`${facet}=${value}`));
    if (chosen.length) choice.set(facet, [...new Set(chosen)]);
  }
  return choice;
}

/**
 * @param {Choice} choice
 * @returns {string} without `#`; empty where nothing is chosen
 */
export function writeChoice(choice) {
  return [...choice].map(([facet, values]) => `${facet}=${values.join(",")}`).join("&");
}

/**
 * Whether a pattern is as chosen.
 * @param {Set<string>} has its values, as `level=easy`
 * @param {Choice} choice
 */
export function fits(has, choice) {
  return [...choice].every(([facet, values]) => {
    const there = (value) => has.has(`${facet}=${value}`);
    return facet === EVERY ? values.every(there) : values.some(there);
  });
}

/**
 * The choice with a value more, or with it taken away.
 * @param {Choice} choice
 * @param {string} facet
 * @param {string} value
 * @param {boolean} on
 * @returns {Choice}
 */
export function changed(choice, facet, value, on) {
  const others = (choice.get(facet) ?? []).filter((one) => one !== value);
  return withFacet(choice, facet, on ? [...others, value] : others);
}

/**
 * The choice with other values of one facet; none lets the facet go.
 * @param {Choice} choice
 * @param {string} facet
 * @param {string[]} values
 * @returns {Choice}
 */
export function withFacet(choice, facet, values) {
  const made = new Map(choice);
  if (values.length) made.set(facet, values);
  else made.delete(facet);
  return made;
}

/**
 * The choice by which a value is counted: of a facet of which one value will do, this one alone.
 * @param {Choice} choice
 * @param {string} facet
 * @param {string} value
 * @returns {Choice}
 */
export function tried(choice, facet, value) {
  return facet === EVERY ? changed(choice, facet, value, true) : withFacet(choice, facet, [value]);
}
