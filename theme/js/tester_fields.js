// The fields of the tester's form. Each has a key: the place of its answer in the report, as JSON; or,
// for what goes into no report (ticks, how a tester weighs), "=" and a name.

import { make } from "./dom.js";

const MOST_LINES = 12;

/** A field, or all the boxes that are one question. */
export class Field {
  /** @param {string} key */
  constructor(key) {
    this.key = key;
    /** @type {(string|number)[] | null} */
    this.path = key.startsWith("=") ? null : JSON.parse(key);
    /** @type {(HTMLInputElement|HTMLTextAreaElement|HTMLSelectElement)[]} */
    this.boxes = [];
  }

  get first() {
    return this.boxes[0];
  }

  get type() {
    return this.first.type;
  }

  /** Several of its boxes may be ticked. */
  get isList() {
    return this.type === "checkbox" && Boolean(this.path);
  }

  /** What is written or chosen: a list only of boxes to tick. @returns {string | string[]} */
  get value() {
    const chosen = this.boxes.filter((box) => box.checked).map((box) => box.value);
    if (this.isList) return chosen;
    if (this.type === "radio") return chosen[0] ?? "";
    if (this.type === "checkbox") return chosen.length ? "1" : "";
    return this.first.value;
  }

  /** What stands there before anybody has written. */
  get usual() {
    if (this.isList) return [];
    if (this.type === "radio") return this.boxes.find((box) => box.defaultChecked)?.value ?? "";
    if (this.type === "checkbox") return "";
    return this.first.defaultValue ?? "";
  }

  /** @param {string | string[]} value */
  show(value) {
    for (const box of this.boxes) {
      if (box.type === "radio") box.checked = box.value === value;
      else if (this.isList) box.checked = value.includes(box.value);
      else if (box.type === "checkbox") box.checked = value === "1";
      else if (box.value !== value) box.value = value; // the same again would move the caret
    }
    this.print();
  }

  /** Can the field hold that? What a file says may be anything. @param {string | string[]} value */
  takes(value) {
    if (this.isList !== Array.isArray(value)) return false;
    const values = this.boxes.map((box) => box.value);
    if (this.isList) return value.every((one) => values.includes(one));
    if (this.type === "radio") return values.includes(value);
    if (this.type === "select-one") return [...this.first.options].some((one) => one.value === value);
    return true;
  }

  /** On the screen and on paper a field shows all that is written in it. */
  print() {
    const { first } = this;
    grow(first);
    if (!["text", "textarea"].includes(first.type) || first.dataset.part) return;
    const lines = first.dataset.round ? moreSaid(first) : [];
    const words = [first.value, ...lines].filter(Boolean).join("\n");
    let typed = first.nextElementSibling;
    if (!typed?.classList.contains("typed")) {
      if (!words) return;
      typed = make("span", { class: "typed", "aria-hidden": "true" });
      first.after(typed);
    }
    if (words) typed.textContent = words;
    else typed.remove();
  }
}

/** As many lines as it takes to see all that is written, up to what a phone has room for. */
export function grow(field) {
  if (field.type !== "textarea") return;
  const least = Number(field.dataset.rows ?? field.rows);
  field.dataset.rows = `${least}`;
  field.rows = least;
  if (!field.value) return;
  while (field.scrollHeight > field.clientHeight && field.rows < MOST_LINES) field.rows += 1;
}

/** What is said of a round besides its remark, in words. @param {Element} remark */
function moreSaid(remark) {
  const parts = [...(remark.closest("li")?.querySelectorAll(".kinds [data-part]") ?? [])];
  const names = { kind: "Kind", read: "Read", instead: "Better" };
  return parts.filter((one) => one.value).map((one) => `${names[one.dataset.part]}: ${one.value}`);
}

/** @param {HTMLFormElement} form @returns {Map<string, Field>} */
export function fieldsOf(form) {
  const fields = new Map();
  for (const box of form.elements) {
    const key = keyOfBox(box);
    if (!key) continue;
    if (!fields.has(key)) fields.set(key, new Field(key));
    fields.get(key).boxes.push(box);
  }
  return fields;
}

/** The key of a box of the form; empty for what is none of its answers. */
export function keyOfBox(box) {
  if (!box.matches("input, textarea, select") || box.closest("#settings, #your_report")) return "";
  if (box.dataset.at) return JSON.stringify(JSON.parse(box.dataset.at));
  if (box.dataset.kept) return `=${box.dataset.kept}`;
  if (box.id) return `=${box.id}`;
  // The boxes of a range, and those of copies, are known by their order.
  const home = box.closest("li.round, section");
  const boxes = [...home.querySelectorAll(".boxes input, .copies input")];
  return `=${home.id || home.getAttribute("aria-labelledby")}/${boxes.indexOf(box)}`;
}

/** Beside each remark: what kind it is, what was read, what would be better. */
export function addMore(form) {
  const pattern = document.getElementById("say_more").content;
  for (const remark of form.querySelectorAll("textarea[data-round]")) {
    const path = JSON.parse(remark.dataset.at);
    remark.dataset.at = JSON.stringify([...path, "said"]);
    const more = pattern.cloneNode(true);
    for (const box of more.querySelectorAll("[data-part]")) {
      box.dataset.at = JSON.stringify([...path, box.dataset.part]);
      const label = box.parentElement.firstChild.textContent;
      box.setAttribute("aria-label", `${remark.dataset.round}: ${label}`);
    }
    const summary = more.querySelector("summary");
    summary.setAttribute("aria-label", `${remark.dataset.round}: ${summary.textContent}`);
    remark.after(more);
  }
}

/** Have room for so many corrections. @returns {boolean} whether there is more room now */
export function makeRoom(form, wanted) {
  const all = form.querySelectorAll(".correction");
  for (let at = all.length; at < wanted; at += 1) {
    const row = all[0].cloneNode(true);
    row.querySelectorAll(".typed").forEach((one) => one.remove());
    row.querySelectorAll("textarea").forEach((one) => one.removeAttribute("data-rows"));
    for (const one of row.querySelectorAll("*")) {
      for (const name of ["id", "for", "name", "aria-labelledby"]) {
        const value = one.getAttribute(name);
        if (value) one.setAttribute(name, value.replace("correction-0-", `correction-${at}-`));
      }
      if (one.dataset.at) {
        const [list, , part] = JSON.parse(one.dataset.at);
        one.dataset.at = JSON.stringify([list, at, part]);
        if (one.type === "radio") one.checked = false;
        else one.value = "";
      }
    }
    [...form.querySelectorAll(".correction")].at(-1).after(row);
  }
  return wanted > all.length;
}
