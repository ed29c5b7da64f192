// What is kept on the device, and nowhere else. A browser may refuse to keep anything, or have no
// room left: then a page works as long as it is open.

/** The folder of this page: what is kept for a pattern belongs to its place on its site. */
export const FOLDER = location.pathname.replace(/[^/]*$/, "");

/**
 * What was kept under a name; null where there is nothing to be had.
 * @param {string} name
 * @returns {unknown}
 */
export function recalled(name) {
  try {
    return JSON.parse(localStorage.getItem(`roundproof:${name}`) ?? "null");
  } catch {
    return null;
  }
}

/**
 * Keep a value; null forgets it.
 * @param {string} name
 * @param {unknown} value
 * @returns {boolean} whether it is kept
 */
export function keep(name, value) {
  try {
    if (value === null) localStorage.removeItem(`roundproof:${name}`);
    else localStorage.setItem(`roundproof:${name}`, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/**
 * Call back when another window changes what is kept under a name.
 * @param {string} name
 * @param {() => void} then
 */
export function watch(name, then) {
  addEventListener("storage", (event) => {
    if (event.key === `roundproof:${name}` || event.key === null) then();
  });
}

/**
 * The names, beginning with a text, under which something is kept.
 * @param {string} beginning
 * @returns {string[]}
 */
export function keptNames(beginning) {
  try {
    const names = Object.keys(localStorage).filter((key) => key.startsWith(`roundproof:${beginning}`));
    return names.map((key) => key.slice("roundproof:".length));
  } catch {
    return [];
  }
}
