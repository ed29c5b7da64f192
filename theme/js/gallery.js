// The gallery: the lists of patterns become filters over the cards. What is chosen stands in the
// address, so that it can be handed on and is there again on the way back.

import { button, make } from "./dom.js";
import { changed, fits, readChoice, tried, withFacet, writeChoice } from "./sieve.js";

/** Stands in the address when everything is shown again: an empty one would scroll to the top. */
const EVERYTHING = "all";

const lists = document.getElementById("lists");
if (lists) sift(lists);

/** @param {HTMLElement} plain the lists as they stand without a script */
function sift(plain) {
  const facets = [...plain.querySelectorAll("[data-facet]")].map(readFacet);
  const known = new Set(facets.flatMap((f) => f.values.map((v) => `${f.id}=${v.id}`)));
  const cards = [...document.querySelectorAll("#cards > li")].map((card) => ({
    card,
    has: new Set((card.dataset.has ?? "").split(" ")),
  }));
  const chosen = () => readChoice(location.hash, known);
  const choose = (choice) => {
    location.hash = writeChoice(choice) || EVERYTHING;
    show(); // at once: the browser tells of the new address only later
  };
  const chooseAnd = (choice) => {
    choose(choice); // by a button that goes away with it: the filters get its focus
    document.querySelector("#by summary").focus();
  };
  const boxes = filters(facets, (facet, value, on) => choose(changed(chosen(), facet, value, on)));
  plain.replaceWith(boxes.form);

  const show = () => {
    const choice = chosen();
    for (const one of cards) one.card.hidden = !fits(one.has, choice);
    const count = (other) => cards.filter((one) => fits(one.has, other)).length;
    boxes.set(choice, count);
    tell(facets, choice, count, cards.length, chooseAnd);
  };
  document.getElementById("all").addEventListener("click", () => chooseAnd(new Map()));
  document.getElementById("by").open = chosen().size > 0;
  document.querySelector(".sums").hidden = false;
  addEventListener("hashchange", show);
  show();
}

/**
 * @typedef {{ id: string, title: string, note: string, values: { id: string, words: string }[] }} Facet
 * @param {Element} section
 * @returns {Facet}
 */
function readFacet(section) {
  const id = section.dataset.facet;
  return {
    id,
    title: section.querySelector("h2").textContent,
    note: section.querySelector("p").textContent,
    values: [...section.querySelectorAll("dt")].map((dt) => ({
      id: dt.id.slice(id.length + 1),
      words: dt.textContent,
    })),
  };
}

/**
 * A group of boxes for each facet. `set` shows a choice and, behind each value, how many patterns
 * there would be with it.
 * @param {Facet[]} facets
 * @param {(facet: string, value: string, on: boolean) => void} onChange
 */
function filters(facets, onChange) {
  const form = make("div", { class: "choices" });
  const boxes = facets.flatMap((facet) => {
    const note = make("p", { class: "sub", id: `about-${facet.id}` }, facet.note);
    const group = make("fieldset", { "aria-describedby": note.id });
    group.append(make("legend", {}, facet.title), note);
    form.append(group);
    return facet.values.map((value) => {
      const box = make("input", { type: "checkbox" });
      const number = make("small", {});
      box.addEventListener("change", () => onChange(facet.id, value.id, box.checked));
      group.append(make("label", {}, box, ` ${value.words} `, number));
      return { facet: facet.id, value: value.id, box, number };
    });
  });
  const set = (choice, count) => {
    for (const { facet, value, box, number } of boxes) {
      box.checked = (choice.get(facet) ?? []).includes(value);
      number.textContent = `${count(tried(choice, facet, value))}`;
    }
  };
  return { form, set };
}

/**
 * How many there are, and a way on where there are none.
 * @param {Facet[]} facets
 * @param {Map<string, string[]>} choice
 * @param {(choice: Map<string, string[]>) => number} count
 * @param {number} all
 * @param {(choice: Map<string, string[]>) => void} choose
 */
function tell(facets, choice, count, all, choose) {
  const left = count(choice);
  const found = document.getElementById("found");
  const words = choice.size ? `${left} of ${all} patterns` : patterns(all);
  if (found.textContent !== words) found.textContent = words; // said aloud once
  document.getElementById("all").hidden = !choice.size;
  const none = document.getElementById("none");
  none.hidden = left > 0;
  none.replaceChildren();
  if (left > 0) return;
  none.append(make("p", {}, "No pattern here is all of that."));
  for (const { id, title } of facets.filter((facet) => choice.has(facet.id))) {
    const other = withFacet(choice, id, []);
    if (!count(other)) continue;
    const way = `Any ${title.toLowerCase()}: ${patterns(count(other))}`;
    none.append(button(way, () => choose(other)));
  }
}

/** @param {number} count */
function patterns(count) {
  return `${count} pattern${count === 1 ? "" : "s"}`;
}
