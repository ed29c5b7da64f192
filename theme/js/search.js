// The search. Nothing leaves the device; what is looked for stands in the address.

import { make } from "./dom.js";
import { seeker } from "./seek.js";

const MOST = 40;
/** Milliseconds without a key before the count is said aloud. */
const PAUSE = 500;
const CALLED = { pattern: "Pattern", word: "Glossary", page: "Page", check: "Check" };

const form = document.getElementById("search");
const input = document.getElementById("query");
const told = document.getElementById("told");
const list = document.getElementById("results");

if (form && Array.isArray(self.searchIndex)) begin(seeker(self.searchIndex));

/** @param {(query: string) => { found: object[], some: boolean }} seek */
function begin(seek) {
  let waiting = 0;
  const look = () => {
    const query = input.value.trim();
    const { found, some } = query ? seek(query) : { found: [], some: false };
    show(found.slice(0, MOST));
    clearTimeout(waiting);
    waiting = setTimeout(() => (told.textContent = sentence(query, found.length, some)), PAUSE);
    remember(query);
  };
  form.hidden = false;
  input.value = asked();
  if (input.value) look();
  else input.focus();
  input.addEventListener("input", look);
  addEventListener("popstate", () => {
    input.value = asked();
    look();
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    look();
    list.querySelector("a")?.focus();
  });
  addEventListener("keydown", walk);
}

/** The words in the address. */
function asked() {
  return new URLSearchParams(location.search).get("q") ?? "";
}

/** @param {string} query */
function remember(query) {
  if (query === asked().trim()) return;
  const address = query ? `?q=${encodeURIComponent(query)}` : location.pathname;
  try {
    history.replaceState(null, "", address);
  } catch {
    // A browser that keeps addresses on disk as they are: the search works all the same.
  }
}

function sentence(query, count, some) {
  if (!query) return "";
  if (!count) return `Nothing here has “${query}”. Try fewer words, or the beginning of one.`;
  const first = count > MOST ? `, of which these are the first ${MOST}` : "";
  if (some) return `Nothing has all of these words. ${count} with some of them${first}.`;
  return `${count} found for “${query}”${first}.`;
}

/** @param {object[]} found */
function show(found) {
  list.replaceChildren(...found.map(row));
}

function row({ kind, title, address, about }) {
  const link = make("a", { href: address }, title);
  const called = make("p", { class: "of" }, CALLED[kind] ?? "");
  const said = make("div", { class: "w" }, make("h2", {}, link), called, make("p", { class: "say" }, about));
  return make("li", { class: "row item" }, make("div", { class: "s" }), said);
}

/** Arrows go through what was found, Escape back to the words. */
function walk(event) {
  const links = [...list.querySelectorAll("a")];
  const at = links.indexOf(document.activeElement);
  if (event.key === "Escape" && at >= 0) input.focus();
  else if (event.key === "ArrowDown" && (at >= 0 || document.activeElement === input)) links[at + 1]?.focus();
  else if (event.key === "ArrowUp" && at >= 0) (links[at - 1] ?? input).focus();
  else return;
  event.preventDefault();
}
