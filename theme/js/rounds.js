// The rounds of the page: which pieces there are, which rows they have, and how a row shows what is done.

const SVG = "http://www.w3.org/2000/svg";

/** A row of the page: a round, or a range of them. */
export class Row {
  /** @param {HTMLElement} element @param {string} piece the id of its piece */
  constructor(element, piece) {
    this.element = element;
    this.id = element.id;
    this.label = element.id.slice(piece.length + 1);
    this.rounds = Number(element.dataset.rounds) || 1;
    this.first = Number(element.dataset.first) || 0;
    this.box = element.querySelector(":scope > .tick");
    this.singles = [...element.querySelectorAll(".boxes input")];
    const count = element.querySelector(".count").firstChild?.textContent ?? "";
    this.stitches = Number(count.replace(/\D/g, "")) || 0;
  }

  /** The number as it is printed: "R7", "R9–R10". */
  get shown() {
    return this.element.querySelector(".no").textContent.trim();
  }

  /** The work as it is shown at the moment. */
  get work() {
    return seen(this.element.querySelector(".do"));
  }

  /** Which round of a range is next, in words; the number alone for a round. */
  roundAfter(done) {
    if (this.rounds === 1 || done >= this.rounds) return this.shown;
    return `${this.shown.startsWith("R") && !this.shown.startsWith("Row") ? "R" : "Row "}${this.first + done}`;
  }

  /** Dotted sides as wide as the bar: the outline goes on where nothing is worked. */
  sides() {
    const svg = document.createElementNS(SVG, "svg");
    svg.setAttribute("class", "bar between");
    svg.setAttribute("aria-hidden", "true");
    const [band] = bandsOf(this.element.querySelector("svg.bar") ?? svg);
    for (const x of band ? endsOf(band) : []) svg.append(lineAt(x, 0, 100));
    return svg;
  }

  /**
   * Show how many rounds are done, and how far the next one is.
   * @param {number} done
   * @param {number} part of the next round, 0 to 1
   */
  show(done, part) {
    this.box.checked = done >= this.rounds;
    this.box.indeterminate = done > 0 && done < this.rounds;
    this.singles.forEach((box, at) => {
      box.checked = at < done;
    });
    const bar = this.element.querySelector("svg.bar");
    if (bar) ink(bar, this.rounds, this.box.checked ? 0 : done, this.box.checked ? 0 : part);
  }
}

/**
 * What can be seen of an element in its words: both terms stand in the page, and one is hidden.
 * @param {Element} element
 */
export function seen(element) {
  return (element instanceof HTMLElement ? element.innerText : element.textContent)
    .replace(/\s+/g, " ")
    .trim();
}

/** A piece of the page with its rows. */
export class Piece {
  /** @param {HTMLElement} element */
  constructor(element) {
    this.element = element;
    this.id = element.getAttribute("aria-labelledby");
    this.heading = element.querySelector("h2");
    this.copies = element.querySelector(".copies");
    this.make = Number(this.copies?.dataset.make) || 1;
    this.rows = [...element.querySelectorAll("li.round")].map((row) => new Row(row, this.id));
  }

  /** Its name as it is shown at the moment: sides are turned round for the left hand. */
  get name() {
    return seen(this.heading);
  }
}

/** @returns {Piece[]} the pieces that have rounds */
export function readPieces() {
  const pieces = [...document.querySelectorAll("section.work")].map((one) => new Piece(one));
  return pieces.filter((piece) => piece.rows.length > 0);
}

/**
 * Ink a bar as far as the work has come: whole rounds, and the next one up to a stitch.
 * @param {SVGElement} bar
 * @param {number} rounds
 * @param {number} done
 * @param {number} part
 */
function ink(bar, rounds, done, part) {
  bar.querySelectorAll(".inked").forEach((drawn) => drawn.remove());
  if (!done && !part) return;
  const bands = bandsOf(bar);
  if (bands.length === rounds) {
    bands.slice(0, done).forEach((band) => cut(bar, band, 1, 1));
    if (part && bands[done]) cut(bar, bands[done], part, 1, true);
  } else if (bands.length) {
    cut(bar, bands[0], 1, (done + part) / rounds); // so many rounds are drawn as one block
  }
}

/** The coloured stretches of a bar, those of a round together, from the first round on. */
function bandsOf(bar) {
  const bands = new Map();
  for (const rect of bar.querySelectorAll(":scope > rect.yarn")) {
    const top = rect.getAttribute("y");
    bands.set(top, [...(bands.get(top) ?? []), rect]);
  }
  return [...bands.values()];
}

/** Where a band begins and ends, in per cent of the strip. */
function endsOf(band) {
  const last = band[band.length - 1];
  return [percent(band[0], "x"), percent(last, "x") + percent(last, "width")];
}

/** Draw over a band, inked: `across` and `down` are shares of its width and height. */
function cut(bar, band, across, down, stop = false) {
  const [start, whole] = endsOf(band);
  const end = start + (whole - start) * across;
  const before = bar.querySelector(":scope > text, :scope > svg");
  for (const rect of band) {
    const width = Math.min(percent(rect, "width"), end - percent(rect, "x"));
    if (width <= 0) break;
    const drawn = rect.cloneNode();
    drawn.setAttribute("width", `${width}%`);
    drawn.setAttribute("height", `${percent(rect, "height") * down}%`);
    drawn.classList.add("inked");
    bar.insertBefore(drawn, before);
  }
  if (!stop) return;
  const top = percent(band[0], "y");
  const line = lineAt(end, top, top + percent(band[0], "height"));
  line.setAttribute("class", "inked stop");
  bar.insertBefore(line, before);
}

function lineAt(x, top, bottom) {
  const line = document.createElementNS(SVG, "line");
  for (const [name, value] of [["x1", x], ["x2", x], ["y1", top], ["y2", bottom]]) {
    line.setAttribute(name, `${value}%`);
  }
  return line;
}

/** @param {Element} shape @param {string} name of an attribute in per cent */
function percent(shape, name) {
  return Number.parseFloat(shape.getAttribute(name)) || 0;
}
