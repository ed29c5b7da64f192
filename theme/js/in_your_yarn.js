// 'In your yarn': what a maker fills in, and what follows from it. The arithmetic is in gauge.js.

import { make } from "./dom.js";
import { drawEdges } from "./edges.js";
import { inGauges } from "./gauge.js";
import { asWas, gaugeOf, readField, shownIn } from "./gauge_fields.js";
import { lengthWords, metresWords, millimetreWords } from "./lengths.js";
import { FOLDER, keep, recalled, watch } from "./store.js";

/** How long to wait for the next key before anything is reckoned or called wrong, in ms. */
const PAUSE = 600;
const SIZE_WORDS = [["length", "long"], ["diameter", "wide"], ["height", "high"]];
/** mm: the height of a round or less. */
const LIES_FLAT = 3;

export function inYourYarn() {
  const section = document.getElementById("in-your-yarn");
  if (section) new InYourYarn(section);
}

/** The section of a page. */
class InYourYarn {
  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.data = JSON.parse(document.getElementById("yours-data").textContent);
    this.lines = [...section.querySelectorAll("tr[data-yarn]")].map((row, place) => ({
      row,
      key: row.dataset.yarn,
      leader: Number(row.dataset.leader),
      pattern: this.data.lines[place],
      fields: [...row.querySelectorAll("input")],
      own: [null, null],
    }));
    this.recall();
    this.listen();
    section.querySelector("form").hidden = false;
    section.querySelector(".others")?.remove();
    this.again();
  }

  listen() {
    const form = this.section.querySelector("form");
    const later = () => {
      clearTimeout(this.waiting);
      this.waiting = setTimeout(() => this.reckon(), PAUSE);
    };
    form.addEventListener("input", (event) => {
      this.typed(event.target);
      later();
    });
    form.addEventListener("change", () => {
      clearTimeout(this.waiting);
      this.reckon();
    });
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("reset", (event) => {
      event.preventDefault();
      for (const line of this.lines) line.own = [null, null];
      this.again();
      this.lines[0].fields[0].focus();
    });
    document.addEventListener("change", (event) => {
      if (event.target instanceof HTMLInputElement && event.target.name === "units") this.again();
    });
    watch(`gauge:${FOLDER}`, () => {
      this.recall();
      this.again();
    });
  }

  again() {
    this.show();
    this.reckon();
  }

  // ---- what is filled in ----

  /** What stands in a field: what was written there, or in the line that it goes with. */
  model(line, which) {
    return line.own[which] ?? this.lines[line.leader].own[which];
  }

  /** @param {HTMLInputElement} field */
  typed(field) {
    const line = this.lines.find((each) => each.fields.includes(field));
    const which = line.fields.indexOf(field);
    line.own[which] = null;
    const before = shownIn(this.model(line, which), line.pattern, which, units());
    if (field.value.trim() !== before) line.own[which] = { text: field.value, units: units() };
    if (this.lines[line.leader] === line) this.show(field);
  }

  /** Put every field as it stands, but for the one that is being written in. */
  show(but = null) {
    for (const line of this.lines) {
      line.fields.forEach((field, which) => {
        if (field !== but) field.value = shownIn(this.model(line, which), line.pattern, which, units());
        field.setAttribute("aria-label", field.getAttribute("aria-label")
          .replace(/in (10 cm|4 in)/, units() === "inch" ? "in 4 in" : "in 10 cm"));
      });
    }
  }

  recall() {
    const kept = recalled(`gauge:${FOLDER}`);
    for (const line of this.lines) {
      const own = Array.isArray(kept?.[line.key]) ? kept[line.key] : [];
      line.own = [0, 1].map((which) => {
        const said = own[which];
        if (typeof said?.text !== "string" || !["cm", "inch"].includes(said.units)) return null;
        return { text: said.text.slice(0, 12), units: said.units };
      });
    }
  }

  keepAll() {
    const filled = this.lines.filter((line) => line.own.some(Boolean));
    const kept = Object.fromEntries(filled.map((line) => [line.key, line.own]));
    keep(`gauge:${FOLDER}`, filled.length ? kept : null);
  }

  // ---- what follows ----

  reckon() {
    this.keepAll();
    const wrong = this.lines.filter((line) => !this.markWrong(line));
    const own = this.lines.map((line) => {
      const models = [0, 1].map((which) => this.model(line, which));
      return models.every((model, which) => asWas(model, line.pattern, which)) ? null
        : gaugeOf(models, line.pattern);
    });
    const filled = own.some(Boolean);
    this.section.querySelector("button").hidden = !this.lines.some((line) => line.own.some(Boolean));
    this.section.querySelector(".follows").hidden = !filled && !wrong.length;
    const table = this.section.querySelector(".results");
    table.hidden = wrong.length > 0 || !filled;
    this.section.classList.toggle("filled", !table.hidden);
    this.section.querySelector("figure").hidden = true;
    if (wrong.length) {
      this.say("The figures follow when every gauge is a number.");
    } else if (filled) {
      this.fill(inGauges(this.data, own));
    } else {
      this.say("");
    }
  }

  /** @returns {boolean} whether both fields of a line can be read, or the line says nothing */
  markWrong(line) {
    const models = [0, 1].map((which) => this.model(line, which));
    const silent = line.pattern.length === 0 && models.every((model) => !model?.text.trim());
    const said = models.map((model, which) =>
      silent || asWas(model, line.pattern, which) ? "" : readField(model, which).wrong);
    line.fields.forEach((field, which) => {
      if (said[which]) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
    });
    const row = line.row.nextElementSibling;
    row.hidden = !said.some(Boolean);
    setWords(row.cells[0], said.filter(Boolean).join(" "));
    return row.hidden;
  }

  fill(found) {
    found.size.forEach((mm, at) => this.yours("size", at, mm === null ? ["–"] : ["about ", ...lengthWords(mm)]));
    found.pieces.forEach((piece, at) => this.yours("piece", at, pieceWords(this.data.pieces[at], piece)));
    found.fits.forEach((fit, at) => this.join(at, fit));
    found.notions.forEach((sizes, at) => {
      const known = [...new Set(sizes.filter((size) => size !== null))];
      this.yours("notion", at, [known.map(millimetreWords).join(", ") || "–"]);
    });
    found.yarns.forEach((metres, at) => this.yours("yarn", at, [metres === null ? "–" : metresWords(metres)]));
    this.sumUp(found);
  }

  /** The row of something, in the order of the data. @returns {HTMLTableRowElement} */
  rowOf(kind, at) {
    return this.section.querySelectorAll(`tr[data-row="${kind}"]`)[at];
  }

  /** Only a cell that says something new is written, so that nothing else is read out. */
  yours(kind, at, words) {
    const [, was, cell] = this.rowOf(kind, at).cells;
    const fresh = make("b", {}, ...words);
    if (cell.textContent !== fresh.textContent) cell.replaceChildren(fresh);
    cell.parentElement.hidden = was.textContent === "–" && fresh.textContent === "–";
  }

  join(at, fit) {
    const row = this.rowOf("fit", at);
    const misfit = fit.verdict === "does not fit";
    const words = fit.verdict ? fit.verdict[0].toUpperCase() + fit.verdict.slice(1) : "–";
    const sign = document.getElementById("yours-sign").content.cloneNode(true);
    this.yours("fit", at, misfit ? [sign, ` ${words}`] : [words]);
    let how = row.nextElementSibling;
    if (!how?.classList.contains("how")) {
      how = make("tr", { class: "how" }, make("td", { colspan: "3" }));
      row.after(how);
    }
    how.hidden = !fit.verdict || fit.verdict === "fits";
    for (const each of [row, how]) each.classList.toggle("warn", misfit);
    const told = how.hidden ? [] : howWords(this.data.fits[at], fit);
    const fresh = make("td", {}, ...told);
    if (how.cells[0].textContent !== fresh.textContent) how.cells[0].replaceChildren(...told);
  }

  /** One line that says the most, and the two edges that are furthest apart. */
  sumUp(found) {
    const misfits = found.fits.map((fit, at) => ({ fit, at })).filter(({ fit }) => fit.verdict === "does not fit");
    const joins = found.fits.filter((fit) => fit.verdict).length;
    const eased = found.fits.filter((fit) => fit.verdict?.startsWith("ease")).length;
    const said = [];
    if (joins && !misfits.length) said.push(holdWords(joins, eased));
    if (misfits.length) {
      said.push(`${joins === 1 ? "The join does" : `${misfits.length} of ${joins} joins do`} not fit. The counts that would fit are below.`);
    }
    this.say(said.join(" ") || "This is what comes out in your yarn.");
    const apart = ({ fit }) => Math.abs(Math.log(fit.lengths[0] / fit.lengths[1]));
    const measured = misfits.filter(({ fit }) => fit.lengths[0] && fit.lengths[1]);
    measured.sort((a, b) => apart(b) - apart(a));
    const figure = this.section.querySelector("figure");
    figure.hidden = !measured.length;
    if (measured.length) drawEdges(figure, this.data.fits[measured[0].at], measured[0].fit);
  }

  say(words) {
    setWords(this.section.querySelector(".sum"), words);
  }
}

/** @returns {"cm" | "inch"} */
function units() {
  const chosen = document.documentElement.dataset.units;
  const box = document.getElementById("units-inch");
  return (chosen ? chosen === "inch" : box?.checked) ? "inch" : "cm";
}

function setWords(element, words) {
  if (element.textContent !== words) element.textContent = words;
}

/** "6.2 cm long, 4.6 cm wide, 2.9 cm high"; what is lower than a stitch is flat. */
function pieceWords(piece, figures) {
  const rows = piece.form === "rows" || piece.form === "fan";
  const flat = figures.height !== null && figures.height < LIES_FLAT;
  const said = SIZE_WORDS
    .filter(([name]) => figures[name] !== null && !(name === "height" && (rows || flat)))
    .map(([name, word]) => [...lengthWords(figures[name]), ` ${word}`]);
  if (said.length && flat && !rows) said.push(["flat"]);
  if (!said.length) return ["–"];
  return said.flatMap((words, at) => {
    const last = at === said.length - 1;
    return [make("span", { class: "g" }, ...words, last ? "" : ","), last ? "" : " "];
  });
}

/** That no join fails, and how many want care. */
function holdWords(joins, eased) {
  if (joins === 1) return eased ? "The join still fits when it is eased in." : "The join still fits.";
  if (!eased) return `All ${joins} joins still fit.`;
  return `All ${joins} joins still fit, ${eased === joins ? "all" : eased} of them when eased in.`;
}

/** The two edges as they lie, and the counts that would fit. */
function howWords(join, fit) {
  const lengths = join.sides.flatMap((side, at) => {
    const many = side.plain ? `${side.count} ${side.count === 1 ? "stitch" : "stitches"} of ` : "";
    const words = `${at ? "; " : ""}${many}${side.of}${side.layers ? ", folded flat" : ""}: `;
    return fit.lengths[at] === null ? [] : [words, ...lengthWords(fit.lengths[at])];
  });
  const first = lengths.length ? [capital(lengths[0]), ...lengths.slice(1), ". "] : [];
  return [...first, ...suggestWords(join, fit)];
}

function suggestWords(join, fit) {
  const said = join.sides.flatMap((side, at) => {
    const count = fit.suggest[at];
    if (count === null || count === side.count) return [];
    const kept = fit.kept[at];
    const multiple = kept && kept !== count ? ` (${kept} keeps its multiple of ${side.multiple})` : "";
    return [[make("b", {}, changeWords(side, count)), `, not ${side.count}${multiple}`]];
  });
  return said.length ? ["To fit, ", ...said.flatMap((words, at) => (at ? [", or ", ...words] : words)), "."] : [];
}

function changeWords(side, count) {
  const stitches = count === 1 ? "stitch" : "stitches";
  if (side.ends === undefined) return `take ${count}${side.plain ? ` ${stitches}` : ""} of ${side.of}`;
  return `end ${side.ends ? "each " : ""}${side.of} on ${count} ${stitches}`;
}

function capital(words) {
  return words[0].toUpperCase() + words.slice(1);
}
