// The page for an address that leads nowhere: the words of the address are what to search for.

const look = document.getElementById("look");
const lost = wordsOf(location.pathname);
if (look && lost) {
  look.href = `${look.getAttribute("href")}?q=${encodeURIComponent(lost)}`;
  look.textContent = `Search for “${lost}”`;
}

/**
 * The words of the last part of an address that has any.
 * @param {string} path
 * @returns {string}
 */
function wordsOf(path) {
  const parts = path.split("/").map((part) => plain(part).replace(/\.html?$/i, ""));
  const told = parts.filter((part) => /\p{L}/u.test(part) && !/^(?:index|patterns|404)$/i.test(part));
  return (told.pop()?.match(/[\p{L}\p{N}]+/gu) ?? []).join(" ").slice(0, 80);
}

/** @param {string} part */
function plain(part) {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
