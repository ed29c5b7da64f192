// Looks for words in the index: all of them have to be there, as they are or as a beginning.

/**
 * @typedef {[kind: string, title: string, address: string, about: string, words: string]} Entry
 * @typedef {{ kind: string, title: string, address: string, about: string }} Found
 */

/** Words that tell nothing by themselves. */
const SMALL = new Set("a an and are as at by can do for from how i in into is it my of on or that the this to what when where with".split(" "));

/** Letters that do not come apart into a letter and a mark. */
const LETTERS = { ß: "ss", æ: "ae", œ: "oe", ø: "o", ł: "l", đ: "d", ð: "d", þ: "th", ı: "i" };

/** What a word found there is worth: as it is, or as a beginning. */
const TITLE = [12, 8];
const WORDS = [5, 3];
const ABOUT = [4, 2];

/** What is looked for most comes first where the rest is equal. */
const KINDS = { pattern: 1.3, word: 1.2, page: 1.1, check: 1 };

/**
 * The words of a text, without case and accents.
 * @param {string} text
 * @returns {string[]}
 */
export function words(text) {
  const plain = text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const letters = plain.replace(/[ßæœøłđðþı]/g, (letter) => LETTERS[letter]);
  return letters.match(/[\p{L}\p{N}]+/gu) ?? [];
}

/**
 * Reads an index once, to be looked through many times.
 * @param {Entry[]} index
 * @returns {(query: string) => { found: Found[], some: boolean }} the best first; `some` where no
 *   entry has all the words and these have some of them
 */
export function seeker(index) {
  const read = index.map(([kind, title, address, about, more]) => ({
    entry: { kind, title, address, about },
    title: words(title),
    about: words(about),
    more: words(more),
  }));
  return (query) => {
    const asked = telling(words(query));
    const scored = read
      .map((one) => ({ one, hits: asked.map((word) => score(one, word)) }))
      .filter(({ hits }) => hits.some(Boolean));
    const whole = scored.filter(({ hits }) => hits.every(Boolean));
    const best = (whole.length ? whole : scored).map(({ one, hits }) => ({
      entry: one.entry,
      worth: worth(one, hits, asked),
    }));
    best.sort((a, b) => b.worth - a.worth); // those of equal worth stay in the order of the index
    return { found: best.map(({ entry }) => entry), some: !whole.length };
  };
}

/** @param {string[]} asked */
function telling(asked) {
  const large = asked.filter((word) => !SMALL.has(word));
  return [...new Set(large.length ? large : asked)];
}

function score(one, word) {
  return Math.max(hit(one.title, word, TITLE), hit(one.more, word, WORDS), hit(one.about, word, ABOUT));
}

/**
 * @param {string[]} there
 * @param {string} word
 * @param {number[]} worths
 */
function hit(there, word, [same, begun]) {
  if (there.includes(word)) return same;
  return there.some((one) => one.startsWith(word)) ? begun : 0;
}

function worth(one, hits, asked) {
  const sum = hits.reduce((all, here) => all + here, 0) / asked.length;
  const title = one.title.join(" ");
  const query = asked.join(" ");
  const named = one.more.join(" ").startsWith(query) ? 3 : 0; // a stitch by its full name
  const exact = title === query ? 20 : title.startsWith(query) ? 5 : named;
  return (sum + exact) * (hits.filter(Boolean).length / asked.length) * (KINDS[one.entry.kind] ?? 1);
}
