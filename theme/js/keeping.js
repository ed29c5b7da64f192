// Keeps a maker's place: shows it on the page, changes it as rounds are ticked, undoes, stores it.

import { awakeWhileWorking } from "./awake.js";
import { offerFiles } from "./place_file.js";
import { showHere, showTools } from "./here.js";
import { apply, cleaned, cleanedSteps, copyOf, doneIn, isFinished } from "./place.js";
import { keyOf, nextPlace, remember } from "./place.js";
import { readPieces } from "./rounds.js";
import { FOLDER, keep, recalled, watch } from "./store.js";

const NAME = `place:${FOLDER}`;

/** The place of this page, with all that can be done to it. */
export class Keeping {
  /** @param {HTMLElement} bar where the place is always in view */
  constructor(bar) {
    this.bar = bar;
    this.version = bar.dataset.version;
    this.pieces = readPieces();
    this.things = [...document.querySelectorAll(".item .tick, .steps .tick")];
    /** Told whenever the place has changed. @type {(() => void)[]} */
    this.told = [];
    this.recall();
  }

  /** Read what is kept; another window may have changed it. */
  recall() {
    const kept = recalled(NAME);
    this.place = cleaned(kept?.place, (group, key) => this.most(group, key)).place;
    this.undone = cleanedSteps(kept?.undone);
    this.keptVersion = typeof kept?.version === "string" ? kept.version : this.version;
    this.stays = true;
  }

  /**
   * Change the place, keep it and show it.
   * @param {import("./place.js").Change[]} changes
   * @param {string} words what is said aloud
   */
  change(changes, words = "") {
    remember(this.undone, apply(this.place, changes));
    this.keptVersion = this.version;
    this.after(words);
  }

  undo() {
    const step = this.undone.pop();
    if (!step) return;
    apply(this.place, step);
    const back = this.here();
    this.after(back ? `Undone. You are at ${this.titled(back)}.` : "Undone.");
  }

  after(words) {
    const { place, undone } = this;
    const empty = !undone.length && Object.values(place).every((one) => !Object.keys(one).length);
    this.stays = keep(NAME, empty ? null : { version: this.keptVersion, place, undone });
    this.show();
    document.getElementById("told").textContent = words;
  }

  /** The row in work; null before anything is begun, and where all is done. */
  here() {
    return this.find(this.place.here.row);
  }

  /** @param {unknown} key @returns {{piece: Piece, copy: number, row: Row, key: string} | null} */
  find(key) {
    const [id, copy, label] = String(key ?? "").split("/");
    const piece = this.pieces.find((one) => one.id === id);
    const row = piece?.rows.find((one) => one.label === label);
    const number = Number(copy);
    if (!row || !(number >= 1 && number <= piece.make)) return null;
    return { piece, copy: number, row, key: String(key) };
  }

  /** The largest value there may be under a key; 0 where the page has no such thing. */
  most(group, key) {
    if (group === "ticked") return this.things.some((box) => box.id === key) ? 1 : 0;
    if (group === "copy") return this.pieces.find((piece) => piece.id === key)?.make ?? 0;
    const found = this.find(key);
    if (!found) return 0;
    return group === "done" ? found.row.rounds : group === "stopped" ? found.row.stitches : 0;
  }

  /** "Leg 3 of 8, R7". */
  titled({ piece, copy, row, key }) {
    const which = piece.make > 1 ? ` ${copy} of ${piece.make}` : "";
    return `${piece.name}${which}, ${row.roundAfter(doneIn(this.place, key))}`;
  }

  /** So many rounds of a row are done now; the place goes on behind them. */
  tick(piece, row, done) {
    const copy = copyOf(this.place, piece);
    const key = keyOf(piece.id, copy, row.label);
    const changes = [["done", key, done], ["stopped", key, 0]];
    const after = { ...this.place, done: { ...this.place.done, [key]: done } };
    const at = { piece: this.pieces.indexOf(piece), copy, row: piece.rows.indexOf(row) };
    // What is unticked is to be worked again: the place goes back there.
    const next = done < row.rounds ? at : nextPlace(after, this.pieces, at);
    const found = next && this.pieces[next.piece];
    const nextKey = next ? keyOf(found.id, next.copy, found.rows[next.row].label) : "";
    changes.push(["here", "row", nextKey]);
    if (next) changes.push(["copy", found.id, next.copy]);
    const finished = isFinished(after, piece, copy);
    this.change(changes, "");
    this.say(piece, copy, row, done, finished);
  }

  say(piece, copy, row, done, finished) {
    const which = piece.make > 1 ? ` ${copy} of ${piece.make}` : "";
    const next = this.here();
    const words = [];
    const some = `${done} of ${row.rounds} done`;
    const state = done >= row.rounds ? "done" : done ? some : "not done";
    if (finished) words.push(`${piece.name}${which} is finished.`);
    else words.push(`${piece.name}${which}, ${row.shown}: ${state}.`);
    words.push(next ? `Next: ${this.titled(next)}.` : "All rounds are done.");
    document.getElementById("told").textContent = words.join(" ");
  }

  /** Go on from a row: all before it in the copy in work is done, it and all behind it are not. */
  goOnFrom(piece, row) {
    const copy = copyOf(this.place, piece);
    const at = piece.rows.indexOf(row);
    const changes = piece.rows.flatMap((one, number) => {
      const key = keyOf(piece.id, copy, one.label);
      return [["done", key, number < at ? one.rounds : 0], ["stopped", key, 0]];
    });
    changes.push(["here", "row", keyOf(piece.id, copy, row.label)], ["copy", piece.id, copy]);
    this.change(changes, `You go on at ${piece.name}, ${row.shown}.`);
  }

  /** @param {number} copy the copy to work on from now on */
  workOn(piece, copy) {
    const at = { piece: this.pieces.indexOf(piece), copy, row: 0 };
    const next = nextPlace(this.place, this.pieces, at);
    const stays = next && next.piece === at.piece && next.copy === copy;
    const row = piece.rows[stays ? next.row : 0];
    const changes = [["copy", piece.id, copy], ["here", "row", keyOf(piece.id, copy, row.label)]];
    this.change(changes, `${piece.name} ${copy} of ${piece.make}.`);
  }

  show() {
    const here = this.here();
    for (const piece of this.pieces) {
      const copy = copyOf(this.place, piece);
      for (const row of piece.rows) {
        const key = keyOf(piece.id, copy, row.label);
        const stopped = Number(this.place.stopped[key]) || 0;
        row.show(doneIn(this.place, key), row.stitches ? Math.min(1, stopped / row.stitches) : 0);
        const current = here?.key === key;
        row.element.toggleAttribute("data-here", current);
        if (current) row.element.setAttribute("aria-current", "step");
        else row.element.removeAttribute("aria-current");
      }
      showCopies(this, piece, copy);
    }
    for (const box of this.things) box.checked = Boolean(this.place.ticked[box.id]);
    showHere(this, here);
    for (const tell of this.told) tell();
  }
}

/** The boxes of the copies: which one is in work, and which are finished. */
function showCopies(keeping, piece, copy) {
  if (!piece.copies) return;
  piece.copies.querySelectorAll("input").forEach((box, at) => {
    const finished = isFinished(keeping.place, piece, at + 1);
    box.checked = at + 1 === copy;
    box.parentElement.classList.toggle("finished", finished);
    const state = finished ? ", finished" : "";
    box.setAttribute("aria-label", `${piece.name} ${at + 1} of ${piece.make}${state}`);
  });
}

/** With a script a box of the copies chooses the one in work; finished is told by its rounds. */
function chooseCopies(keeping, piece) {
  if (!piece.copies) return;
  piece.copies.querySelectorAll("input").forEach((box, at) => {
    box.type = "radio";
    box.name = `${piece.id}-copy`;
    box.addEventListener("change", () => keeping.workOn(piece, at + 1));
  });
}

/** Begin: show what is kept and listen. */
export function keepPlace() {
  const bar = document.getElementById("place");
  if (!bar) return;
  const keeping = new Keeping(bar);
  document.documentElement.dataset.scripted = "";
  for (const piece of keeping.pieces) {
    chooseCopies(keeping, piece);
    for (const row of piece.rows) listen(keeping, piece, row);
  }
  for (const box of keeping.things) {
    box.addEventListener("change", () => keeping.change([["ticked", box.id, box.checked ? 1 : 0]]));
  }
  bar.querySelector(".tick").addEventListener("click", (event) => {
    event.preventDefault(); // the box stands for the next row at once, and is empty again
    const here = keeping.here();
    if (here) keeping.tick(here.piece, here.row, doneIn(keeping.place, here.key) + 1);
  });
  bar.querySelector(".undo").addEventListener("click", () => keeping.undo());
  watch(NAME, () => {
    keeping.recall();
    keeping.show();
  });
  document.addEventListener("change", (event) => {
    // Other terms, another hand: the words in the bar are those that are seen.
    if (event.target.closest?.("#settings")) keeping.show();
  });
  addEventListener("hashchange", () => lead(keeping));
  offerFiles(keeping);
  awakeWhileWorking(keeping);
  keeping.show();
  lead(keeping);
}

/** @param {Keeping} keeping */
function listen(keeping, piece, row) {
  row.box.addEventListener("change", () => {
    keeping.tick(piece, row, row.box.checked ? row.rounds : 0);
  });
  row.singles.forEach((box, at) => {
    box.addEventListener("change", () => keeping.tick(piece, row, box.checked ? at + 1 : at));
  });
  row.element.querySelector(".no").addEventListener("click", () => showTools(keeping, piece, row));
}

/** The address may name a round, and a copy of it: `#leg-2-r7`. */
function lead(keeping) {
  const id = decodeURIComponent(location.hash.slice(1));
  const target = document.getElementById(id)?.closest("li.round");
  for (const piece of keeping.pieces) {
    const row = target && piece.rows.find((one) => one.element === target);
    if (row) showTools(keeping, piece, row);
    const [, copy, label] = id.match(`^${piece.id}-(\\d+)-(.+)$`) ?? [];
    const anchor = target ? null : document.getElementById(`${piece.id}-${label}`);
    if (!anchor || Number(copy) < 1 || Number(copy) > piece.make) continue;
    keeping.change([["copy", piece.id, Number(copy)]]);
    anchor.scrollIntoView();
  }
}
