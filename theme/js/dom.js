// Elements made by the scripts. Words are always text: nothing is ever read as HTML.

/**
 * An element with its words and attributes.
 * @param {string} tag
 * @param {Record<string, string>} attributes
 * @param {...(Node|string)} inside
 */
export function make(tag, attributes, ...inside) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...inside);
  return element;
}

/** @param {string} words @param {() => void} then */
export function button(words, then) {
  const element = make("button", { type: "button" }, words);
  element.addEventListener("click", then);
  return element;
}
