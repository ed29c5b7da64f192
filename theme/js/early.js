// What a reader chose is set on the root element before anything is seen, so that a dark page does
// not flash white. Runs in the head, first of all; `choices.js` keeps the same names.

try {
  const chosen = JSON.parse(localStorage.getItem("roundproof:choices") ?? "{}");
  for (const [name, value] of Object.entries(chosen)) {
    if (/^[a-z]+$/.test(name) && /^[a-z]+$/.test(value)) {
      document.documentElement.dataset[name] = value;
    }
  }
} catch {
  // Nothing is kept, or what is kept cannot be read: the page stands as it was made.
}
